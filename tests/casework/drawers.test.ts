/** Drawers: held against the trade's figures, against the openings they are made for, and over random stacks. */
import { readFileSync } from "node:fs";
import fc from "fast-check";
import { parse } from "jsonc-parser";
import { describe, expect, it } from "vitest";
import { dryFit } from "../../src/audit/dryfit.ts";
import { MM_PER_INCH } from "../../src/base/length.ts";
import { hasFailed, makeSet } from "../../src/build.ts";
import { deriveModel } from "../../src/model/derive.ts";
import { slideScrew } from "../../src/model/drawers/slides.ts";
import { stackIn } from "../../src/project/drawer-stack.ts";
import type { DrawerSize } from "../../src/project/drawers.ts";
import { readProjectText } from "../../src/project/read.ts";
import type { DryfitSet, SetDrawer, SetPart } from "../../src/set/schema.ts";
import { setOf, testFile } from "../support/jobs/examples.ts";
import { problemsIn } from "../support/jobs/project-file.ts";
import { runs, SEED } from "../support/runs.ts";

const inch = (inches: number): number => inches * MM_PER_INCH;

type File = { unit: string; cases: { drawers: Record<string, unknown>; bays: unknown }[] } & Record<string, unknown>;
const file = (name: string): File => parse(readFileSync(testFile(name), "utf8"));

/** A small project with something of its case, or of its drawers, changed. */
function textOf(name: string, change: Record<string, unknown>, drawers: Record<string, unknown> = {}): string {
  const job = file(name);
  const [one] = job.cases;
  return JSON.stringify({ ...job, cases: [{ ...one, drawers: { ...one!.drawers, ...drawers }, ...change }] });
}
const built = (text: string): DryfitSet =>
  makeSet(readProjectText(text, "drawers.json").project, { draft: false, olderSet: null });

const part = (set: DryfitSet, drawer: SetDrawer, role: SetPart["role"]): SetPart =>
  set.parts.find((one) => one.assembly === drawer.assembly && one.role === role)!;
const made = (drawer: SetDrawer, what: string): number => drawer.sums.find((sum) => sum.what === what)!.makes;

/** A box of this opening: sides of no thickness to speak of leave the opening as it is asked for. */
function boxIn(opening: number, drawers: Record<string, unknown>, side = 0.5): DryfitSet {
  const stock = (thick: number) => ({
    name: "panel",
    nominal: thick,
    measured: thick,
    sheet: { length: 96, width: 48 },
  });
  return built(
    JSON.stringify({
      job: { number: "T", title: "T", date: "2026-11-20", revision: "A" },
      unit: "in",
      step: "1/64",
      stock: { case: { ...stock(0.75), goodFaces: 2 }, box: stock(side), thin: stock(0.25) },
      cases: [
        {
          name: "case",
          width: opening + 1.5,
          height: 10,
          depth: 20,
          stock: { all: "case", back: "thin" },
          drawers: {
            stock: { box: "box", bottom: "thin", face: "case" },
            slides: { kind: "side-mounted" },
            front: { fit: "inset" },
            ...drawers,
          },
          bays: { drawers: [{}] },
        },
      ],
    }),
  );
}

describe("by the trade's figures", () => {
  // Side-mounted slides take 1/2 in a side: opening 24 1/2, box 23 1/2 (trade magazines).
  it("opening 24 1/2 on side-mounted slides: box 23 1/2", () => {
    const set = boxIn(24.5, {});
    const [drawer] = set.drawers as [SetDrawer];
    expect(made(drawer, "width")).toBeCloseTo(inch(23.5), 6);
    const side = part(set, drawer, "drawerSide");
    // Front and back enter half of either side: box, less both sides, and both joints.
    expect(part(set, drawer, "drawerFront").length).toBeCloseTo(inch(23.5 - 2 * 0.5 + 2 * 0.25), 6);
    // Behind the front 18 1/2 are clear, 1/2 stays free behind and 1/8 before the slide: the longest to be had is 16.
    expect(side.length).toBeCloseTo(inch(16), 6);
  });

  // Undermount: the box is the opening less 3/8 with sides of 5/8, less 5/8 with sides of 1/2 (a slide maker's planning sheet).
  it.each([
    [0.625, 14.625],
    [0.5, 14.375],
  ])("opening 15 on undermount slides, sides %s: box %s", (side, box) => {
    const set = boxIn(
      15,
      { slides: { kind: "undermount" }, bottom: { up: 0.5 }, front: { fit: "overlay", overlap: 0.25 } },
      side,
    );
    const [drawer] = set.drawers as [SetDrawer];
    expect(made(drawer, "width")).toBeCloseTo(inch(box), 6);
    expect(made(drawer, "inside")).toBeCloseTo(inch(15 - 1.625), 6);
    expect(hasFailed(set)).toBe(false);
  });

  // 2 + 3 + 4 + 4 + 5 with 1/4 above and below and 3/8 between make 20; slides' middles from the top 1 1/4, 4 1/8, 8, 12 3/8, 17 1/4 (woodworkers' forum).
  it("a stack of five makes 20, with its slides' middles", () => {
    const style = {
      front: { fit: "inset" as const, gap: 0.1 },
      gaps: { above: 0.25, below: 0.25, between: 0.375 },
    };
    const sizes = [5, 4, 4, 3, 2].map((box) => ({ size: { box } }));
    const stack = stackIn(20, style, sizes);
    if ("over" in stack) throw new Error(`over by ${stack.over}`);
    const middles = stack.levels.map(({ box }) => 20 - (box[0] + box[1]) / 2).reverse();
    expect(middles).toEqual([1.25, 4.125, 8, 12.375, 17.25]);
    expect(stackIn(19.9, style, sizes)).toEqual({ over: expect.closeTo(0.1, 9) });
  });

  it("no slide screw comes out at the other face", () => {
    for (const unit of ["in", "mm"] as const) {
      for (let wood = 3; wood < 40; wood += 0.25) {
        const length = slideScrew(wood, unit);
        if (length !== null) expect(length).toBeLessThan(wood - 1);
      }
      expect(slideScrew(9, unit)).toBeNull();
    }
  });
});

const SMALL = ["drawers-side-mounted", "drawers-face-frame", "drawers-undermount", "drawers-runners"] as const;

/** From the solids of the set, as a maker would measure them. */
function holds(set: DryfitSet): void {
  const { step } = set.job;
  for (const drawer of set.drawers) {
    const { sums, free, front, slides } = drawer;
    for (const { whole, less, makes } of sums)
      expect(less.reduce((left, { size }) => left - size, whole)).toBeCloseTo(makes, 6);
    const [left, right] = drawer.opening.x;
    const [side, other] = set.parts.filter(
      ({ assembly, role }) => assembly === drawer.assembly && role === "drawerSide",
    ) as [SetPart, SetPart];
    const outside = other.place!.at[0] + other.thickness - side.place!.at[0];
    expect(made(drawer, "width")).toBeCloseTo(outside, 6);
    expect(free.left + outside + free.right).toBeCloseTo(right - left, 6);
    if (slides.kind !== "undermount") {
      for (const play of [free.left, free.right]) {
        expect(play).toBeGreaterThan(slides.clearance - 1e-6);
        expect(play).toBeLessThan(slides.clearance + 2 * step);
      }
    }
    expect(free.behind).toBeGreaterThan(slides.rear - 1e-6);
    const face = part(set, drawer, "drawerFace");
    if (front.fit === "inset") expect(right - left - face.length).toBeLessThan(2 * front.gap + inch(1) + 2 * step);
    expect(Math.min(...Object.values(free))).toBeGreaterThan(-1e-6);
  }
  // A stack adds up to its opening.
  for (const lowest of set.drawers.filter(({ place }) => place === 1)) {
    const height = lowest.sums.find(({ what }) => what === "height")!;
    const taken = height.less.reduce((sum, { size }) => sum + size, 0) + height.makes;
    expect(taken).toBeCloseTo(lowest.opening.z[1] - lowest.opening.z[0], 6);
  }
}

describe.each(SMALL)("%s", (name) => {
  const set = setOf(testFile(name));

  it("fits, closed and drawn out, and adds up", () => {
    expect(dryFit(set).filter(({ level }) => level === "failure")).toEqual([]);
    holds(set);
  });

  it("has a line for each slide on the height's stick and on the part beside it", () => {
    for (const drawer of set.drawers) {
      const sides = set.parts.filter(({ assembly, role }) => assembly === drawer.assembly && role === "drawerSide");
      for (const { mark } of sides) {
        const holders = set.parts.filter(({ lines }) => lines.some((line) => line.holds.includes(mark)));
        expect(holders, mark).toHaveLength(1);
        const sticks = set.sticks.filter(({ marks }) =>
          marks.some((one) => one.kind === "line" && one.holds.includes(mark)),
        );
        expect(sticks, mark).not.toHaveLength(0);
        for (const stick of sticks) expect(stick.axis).toBe("z");
      }
    }
  });

  it("buys a pair of slides for each drawer", () => {
    const pairs = set.purchase.filter(({ unit }) => unit === "pairs").reduce((sum, { quantity }) => sum + quantity, 0);
    expect(pairs).toBe(set.drawers.filter(({ slides }) => slides.kind !== "wooden runners").length);
  });
});

describe("planted faults", () => {
  const spoil = (name: string, change: (set: DryfitSet) => void): string[] => {
    const set = structuredClone(setOf(testFile(name)));
    change(set);
    return dryFit(set)
      .filter(({ level }) => level === "failure")
      .map(({ id }) => id);
  };
  const home = (set: DryfitSet, i = 0): DryfitSet["assemblies"][number] =>
    set.assemblies.find(({ name }) => name === set.drawers[i]!.assembly)!;

  it.each(SMALL)("a drawer of %s that is moved by two steps is found, whichever way", (name) => {
    for (const axis of [0, 1, 2] as const) {
      for (const sign of [1, -1]) {
        const found = spoil(name, (set) => {
          home(set).place.at[axis] += sign * 2 * set.job.step;
        });
        expect(
          found.filter((id) => id.startsWith("drawer") || id === "overlap"),
          `${axis} ${sign}`,
        ).not.toEqual([]);
      }
    }
  });

  it.each([
    [
      "drawers-side-mounted",
      "Chest drawer 1 has 12.7 mm free at its left; side-mounted slides take 17.7 mm. Make the box narrower by 5 mm.",
    ],
    [
      "drawers-face-frame",
      "Bench drawer 1 has 1/2 in free at its left; side-mounted slides take 0.697 in. Make the box narrower by 0.197 in.",
    ],
    [
      "drawers-undermount",
      "Cabinet drawer 1 has 42.05 mm between the opening's width and the inside of its box; undermount slides take 47 mm. Make the box narrower by 4.95 mm.",
    ],
    [
      "drawers-runners",
      "Rack drawer 1 has 1.5 mm free at its left; a box on runners takes 6.5 mm. Make the box narrower by 5 mm.",
    ],
  ])("a box of %s without clearance is found, with the figure and the remedy", (name, words) => {
    const set = structuredClone(setOf(testFile(name)));
    set.drawers[0]!.slides.clearance += 5;
    const found = dryFit(set).filter(({ id, level }) => id === "drawer-clearance" && level === "failure");
    expect(found.map(({ text, change }) => `${text} ${change}`)).toContain(words);
  });

  it.each(SMALL)("what stands in the way of a drawer of %s is found", (name) => {
    const found = spoil(name, (set) => {
      const drawer = set.drawers[0]!;
      // Another's applied front, hung too low by what is more than its gap.
      const other = set.assemblies.find(({ kind, name: own }) => kind === "case" && own === drawer.case)!;
      const top = set.parts.find(({ assembly, role }) => assembly === other.name && role === "back")!;
      top.place!.at[1] -= drawer.free.behind + 1;
    });
    expect(found).toContain("overlap");
  });

  it.each(SMALL)("a slide line of %s that is off, or left out, is found", (name) => {
    for (const change of ["move", "drop", "short"] as const) {
      const found = spoil(name, (set) => {
        const [mark] = set.parts.filter(({ role }) => role === "drawerSide").map((one) => one.mark);
        const owner = set.parts.find(({ lines }) => lines.some(({ holds: held }) => held.includes(mark!)))!;
        const line = owner.lines.find(({ holds: held }) => held.includes(mark!))!;
        if (change === "move") line.at += 2 * set.job.step;
        if (change === "short") line.to -= 2 * set.job.step;
        if (change === "drop") owner.lines = owner.lines.filter((one) => one !== line);
      });
      expect(found, change).toContain("drawer-slide");
    }
  });

  it("a drawer that does not come out, and a sum that does not add up", () => {
    expect(
      spoil("drawers-side-mounted", (set) => {
        home(set).travel = { kind: "none" };
      }),
    ).toContain("drawer-travel");
    expect(
      spoil("drawers-side-mounted", (set) => {
        set.drawers[0]!.sums[0]!.makes += 1;
      }),
    ).toContain("drawer-sum");
  });

  it("a rail that hangs in the way of a drawer behind it", () => {
    expect(
      spoil("drawers-face-frame", (set) => {
        const rail = set.parts.find(({ key }) => key.endsWith("/rail-top"))!;
        rail.width += inch(1);
        rail.cut.width += inch(1);
        rail.place!.at[2] -= inch(1);
      }),
    ).toContain("drawer-travel");
  });
});

describe("over random openings and stacks", () => {
  it("boxes and gaps add up to the opening, and every drawer passes", () => {
    let count = 0;
    fc.assert(
      fc.property(
        fc.record({
          width: fc.integer({ min: 260, max: 1200 }),
          height: fc.integer({ min: 300, max: 1000 }),
          depth: fc.integer({ min: 320, max: 640 }),
          kind: fc.constantFrom("side-mounted", "undermount", "wooden runners"),
          joint: fc.constantFrom("rabbet", "dado and rabbet"),
          fit: fc.constantFrom("inset", "overlay"),
          grooves: fc.constantFrom(3, 4),
          measured: fc.integer({ min: 172, max: 182 }).map((tenths) => tenths / 10),
          step: fc.constantFrom("0.1 mm", "0.5 mm", "1/32 in", "1/16 in"),
          stack: fc.array(
            fc.oneof(
              fc.constant({}),
              fc.record({ share: fc.integer({ min: 1, max: 3 }) }),
              fc.record({ size: fc.integer({ min: 60, max: 110 }) }),
              fc.record({ front: fc.integer({ min: 90, max: 130 }) }),
            ),
            { minLength: 1, maxLength: 4 },
          ),
          columns: fc.boolean(),
        }),
        ({ width, height, depth, kind, joint, fit, grooves, measured, step, stack, columns }) => {
          // One at least takes what is left.
          const drawers = [...stack.slice(1), {}];
          const text = textOf(
            "drawers-side-mounted",
            {
              width,
              height,
              depth,
              edges: { front: "covered" },
              bays: columns && width > 700 ? { columns: [{ drawers }, { drawers: [{}] }] } : { drawers },
            },
            {
              slides: { kind },
              joint,
              bottom: { grooves, up: 13 },
              front: fit === "inset" ? { fit, gap: 3 } : { fit, overlap: 6, gap: 3 },
            },
          );
          const job = { ...JSON.parse(text), step };
          job.stock["ply-18mm"] = { measured };
          const { project } = readProjectText(JSON.stringify(job), "random.json");
          let set: DryfitSet;
          try {
            deriveModel(project);
            set = makeSet(project, { draft: false, olderSet: null });
          } catch (error) {
            // Too many for the height, or no slide so short: said at the bay.
            expect(String(error)).toMatch(/a box .* high|with their gaps|wide, where slides|shortest slides/);
            return;
          }
          count += 1;
          const found = set.checks.filter(({ level }) => level === "failure");
          expect(found.map((one) => one.text)).toEqual([]);
          holds(set);
        },
      ),
      { numRuns: runs(100), seed: SEED },
    );
    expect(count).toBeGreaterThan(runs(100) / 3);
  });

  it("fronts part in the middle between their boxes", () => {
    const size = fc.oneof(
      fc.record({ share: fc.integer({ min: 1, max: 4 }) }),
      fc.record({ box: fc.integer({ min: 40, max: 80 }) }),
      fc.record({ front: fc.integer({ min: 60, max: 90 }) }),
    );
    fc.assert(
      fc.property(
        fc.array(size, { minLength: 1, maxLength: 5 }),
        fc.integer({ min: 1, max: 6 }),
        fc.boolean(),
        (sizes, gap, inset) => {
          const gaps = { above: 6, below: 8, between: 12 };
          const front = inset ? { fit: "inset" as const, gap } : { fit: "overlay" as const, overlap: 10, gap };
          const all: Pick<DrawerSize, "size">[] = [...sizes.map((one) => ({ size: one })), { size: { share: 1 } }];
          const stack = stackIn(900, { front, gaps }, all);
          if ("over" in stack) throw new Error("900 is room for all");
          const { levels } = stack;
          expect(levels[0]!.box[0]).toBeCloseTo(8, 9);
          expect(levels.at(-1)!.box[1]).toBeCloseTo(894, 9);
          expect(levels[0]!.front[0]).toBeCloseTo(inset ? gap : -10, 9);
          expect(levels.at(-1)!.front[1]).toBeCloseTo(inset ? 900 - gap : 910, 9);
          levels.slice(1).forEach((level, i) => {
            expect(level.box[0] - levels[i]!.box[1]).toBeCloseTo(12, 9);
            expect(level.front[0] - levels[i]!.front[1]).toBeCloseTo(gap, 9);
          });
          sizes.forEach((one, i) => {
            const [from, to] = levels[i]!["front" in one ? "front" : "box"];
            if (!("share" in one)) expect(to - from).toBeCloseTo("front" in one ? one.front : one.box, 9);
          });
        },
      ),
      { numRuns: runs(300), seed: SEED },
    );
  });
});

describe("what cannot be made is said at its place", () => {
  const said = (change: Record<string, unknown>, drawers: Record<string, unknown> = {}): string[] =>
    problemsIn(textOf("drawers-side-mounted", change, drawers)).map(({ where, found }) => `${where?.path}: ${found}`);

  it.each<[string, Record<string, unknown>, Record<string, unknown>, string]>([
    [
      "without clearance for the slides",
      {},
      { slides: { kind: "side-mounted", clearance: 0 } },
      'cases[0].drawers.slides.clearance: 0 mm at each side of a box on side-mounted slides in "chest"',
    ],
    [
      "bays without drawers",
      { bays: {} },
      {},
      'cases[0].drawers: how the drawers of "chest" are made, and no bay of it has any',
    ],
    [
      "undermount slides with the bottom too low",
      {},
      { slides: { kind: "undermount" }, bottom: { up: 8 } },
      'cases[0].drawers.bottom.up: bottoms 8 mm up in "chest"',
    ],
    [
      "a bottom groove deeper than half the side",
      {},
      { bottom: { depth: 7 } },
      'cases[0].drawers.bottom.depth: grooves 7 mm deep for the bottom, in boxes of "chest" nominally 12 mm thick',
    ],
    [
      "thick sides on undermount slides",
      {},
      {
        slides: { kind: "undermount" },
        stock: { box: "ply-18mm", bottom: "ply-6mm", face: "ply-18mm" },
        bottom: { up: 13 },
        gaps: { below: 5 },
      },
      'cases[0].drawers.gaps.below: 5 mm below the lowest box of "chest" on undermount slides',
    ],
    [
      "an overlap for an inset front",
      {},
      { front: { fit: "inset", overlap: 5 } },
      'cases[0].drawers.front.overlap: "overlap" for a front that is "inset"',
    ],
    [
      "a drawer of two heights",
      { bays: { drawers: [{ size: 100, front: 110 }, {}] } },
      {},
      'cases[0].bays.drawers[0].front: "size" and "front" of one drawer',
    ],
    [
      "drawers and loose shelves in one bay",
      { bays: { loose: 2, drawers: [{}] } },
      {},
      'cases[0].bays.drawers: "loose" and "drawers" in one bay',
    ],
  ])("%s", (_, change, drawers, words) => {
    expect(said(change, drawers)).toContain(words);
  });

  it("drawers in a case that does not say how", () => {
    const job = file("drawers-side-mounted");
    const [one] = job.cases;
    const text = JSON.stringify({ ...job, cases: [{ ...one, drawers: undefined }] });
    expect(problemsIn(text).map(({ found }) => found)).toContain(
      'drawers in a bay of "chest", which does not say how its drawers are made',
    );
  });

  const thrown = (change: Record<string, unknown>, drawers: Record<string, unknown> = {}): string => {
    try {
      built(textOf("drawers-side-mounted", change, drawers));
    } catch (error) {
      return String(error);
    }
    return "";
  };

  it("a stack too high, and one that leaves some", () => {
    expect(thrown({ bays: { drawers: [{ size: 400 }, { size: 300 }] } })).toContain(
      "drawers that with their gaps take 37.3 mm more than the 684.7 mm that this bay is high in front",
    );
    expect(thrown({ bays: { drawers: [{ size: 400 }, { size: 200 }] } })).toContain(
      "drawers that with their gaps leave 62.7 mm of the 684.7 mm that this bay is high in front",
    );
  });

  it("a case too shallow for its slides", () => {
    expect(thrown({}, { slides: { kind: "side-mounted", lengths: [450, 500] } })).toContain(
      "this bay is 444.45 mm deep behind the drawer's applied front, of which 15 mm stay free, and the shortest slides are 450 mm long",
    );
  });

  it("stiles that lap farther in than packing is thick", () => {
    const job = file("drawers-face-frame");
    const [one] = job.cases as unknown as Record<string, unknown>[];
    const text = JSON.stringify({
      ...job,
      cases: [{ ...one, frame: { stock: "maple", stile: 2.5, topRail: 2 } }],
    });
    expect(() => built(text)).toThrow(
      /stiles that lap 1 .* inside "wide"|stiles that lap .* and packing strips of 1 in/,
    );
  });
});

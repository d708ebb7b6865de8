/** Doors: by the trade's formulas, over random openings, refused where they cannot be, spoiled and found. */
import { readFileSync } from "node:fs";
import fc from "fast-check";
import { parse } from "jsonc-parser";
import { describe, expect, it } from "vitest";
import { clashOf, sweepsMeet } from "../../src/audit/doors/swing.ts";
import { dryFit } from "../../src/audit/dryfit.ts";
import { depthOf, type Outline, type Swing, turned } from "../../src/audit/solids/turned.ts";
import { MM_PER_INCH } from "../../src/base/length.ts";
import { movementOf } from "../../src/base/moisture.ts";
import { hasFailed, makeSet } from "../../src/build.ts";
import { readProjectText } from "../../src/project/read.ts";
import type { DryfitSet, SetCheck, SetDoor, SetPart } from "../../src/set/schema.ts";
import { swungByEye } from "../support/doors/swings-by-eye.ts";
import { byId } from "../support/jobs/check-input.ts";
import { setOf, testFile } from "../support/jobs/examples.ts";
import { joinerySet } from "../support/jobs/outcome.ts";
import { problemsIn } from "../support/jobs/project-file.ts";
import { runs, SEED } from "../support/runs.ts";

const inch = (inches: number): number => inches * MM_PER_INCH;

type Change = { doors?: object; one?: object; job?: object };

/** A small project with something of its doors, its case or its job changed. */
function textOf(name: string, { doors, one, job }: Change): string {
  const file = parse(readFileSync(testFile(name), "utf8"));
  const [first] = file.cases;
  return JSON.stringify({ ...file, ...job, cases: [{ ...first, ...one, doors: { ...first.doors, ...doors } }] });
}
const made = (text: string): DryfitSet =>
  makeSet(readProjectText(text, "doors.json").project, { draft: false, olderSet: null });
const built = (name: string, change: Change): DryfitSet => made(textOf(name, change));

const part = (set: DryfitSet, id: string): SetPart => set.parts.find(({ key }) => key.endsWith(`/${id}`))!;
const sizeOf = (set: DryfitSet, door: SetDoor): readonly number[] =>
  set.assemblies.find(({ name }) => name === door.assembly)!.size;

/** One bay, so wide and high between members exactly 3/4 in thick: what a formula of the trade calls the opening. */
function opening(width: number, height: number, step: string, doors: object, door = "left"): DryfitSet {
  const ply = { name: "ply", nominal: "3/4", measured: "3/4", sheet: { length: 96, width: 48 }, goodFaces: 2 };
  return made(
    JSON.stringify({
      job: { number: "T", title: "Opening", date: "2026-11-20", revision: "A" },
      unit: "in",
      step,
      stock: { ply, thin: { ...ply, name: "thin", nominal: "1/4", measured: "1/4" } },
      cases: [
        {
          name: "case",
          width: width + 1.5,
          height: height + 1.5,
          depth: 12,
          stock: { all: "ply", back: "thin" },
          bays: { door },
          doors: {
            kind: "frame and panel",
            stock: "ply",
            stile: "2 1/4",
            panel: { stock: "thin" },
            hinges: { kind: "butt" },
            ...doors,
          },
        },
      ],
    }),
  );
}

describe("by the trade's formulas", () => {
  it("an overlay door of 16 x 24 with 1/2 all round: 17 x 25, rails 13 1/4, panel 13 1/8 x 21 1/8", () => {
    // Worked by hand: stiles and rails 2 1/4, stick 3/8, panel with 1/8 of clearance in all.
    const set = opening(16, 24, "1/16", { fit: "overlay", overlap: "1/2" });
    expect(sizeOf(set, set.doors[0]!)[0]).toBeCloseTo(inch(17), 6);
    expect(sizeOf(set, set.doors[0]!)[2]).toBeCloseTo(inch(25), 6);
    expect(part(set, "rail-top").length).toBeCloseTo(inch(13.25), 6);
    expect(part(set, "panel").width).toBeCloseTo(inch(13.125), 6);
    expect(part(set, "panel").length).toBeCloseTo(inch(21.125), 6);
  });

  it.each([
    // A door supplier's how-to: the opening and twice the overlap.
    [15, 27, 0.5, 16, 28],
    [14, 20, 0.75, 15.5, 21.5],
  ])("overlay: %d x %d with %d", (width, height, overlap, doorWidth, doorHeight) => {
    const set = opening(width, height, "1/16", {
      fit: "overlay",
      overlap,
      kind: "slab",
      stile: undefined,
      panel: undefined,
    });
    expect(sizeOf(set, set.doors[0]!)[0]).toBeCloseTo(inch(doorWidth), 6);
    expect(sizeOf(set, set.doors[0]!)[2]).toBeCloseTo(inch(doorHeight), 6);
  });

  it("a pair that overlays: (opening + 1) / 2 - 1/16 each", () => {
    // The same how-to, for 1/2 of overlap and 1/8 between the two.
    const set = opening(30, 27, "1/16", { fit: "overlay", overlap: "1/2" }, "pair");
    for (const door of set.doors) expect(sizeOf(set, door)[0]).toBeCloseTo(inch(31 / 2 - 1 / 16), 6);
  });

  it("inset with 3/32: opening less 3/16, a pair less 9/32 in all", () => {
    // Woodworkers' forum.
    const doors = { fit: "inset", gap: "3/32" };
    const single = opening(18, 24, "1/64", doors);
    expect(sizeOf(single, single.doors[0]!)[0]).toBeCloseTo(inch(18 - 3 / 16), 6);
    const pair = opening(30 + 1 / 32, 24, "1/64", doors, "pair");
    const widths = pair.doors.map((door) => sizeOf(pair, door)[0]!);
    expect(widths[0]! + widths[1]!).toBeCloseTo(inch(30 + 1 / 32 - 9 / 32), 6);
  });

  it("cope and stick: rail = door - 2 stiles + 2 x depth; door 16, stiles 2 1/2, depth 3/8: 11 3/4", () => {
    // Woodworkers' forum, worked example.
    const set = opening(15, 24, "1/16", { fit: "overlay", overlap: "1/2", stile: "2 1/2" });
    expect(part(set, "rail-bottom").length).toBeCloseTo(inch(11.75), 6);
  });

  it("a panel 1/4 less than from groove to groove 7/16 deep is held by 5/16", () => {
    // Woodworkers' forum: 1/8 of gap at each edge.
    const set = opening(16, 24, "1/16", {
      fit: "inset",
      stickDepth: "7/16",
      panel: { stock: "thin", clearance: "1/4" },
    });
    const panel = part(set, "panel");
    const edges = set.joints.filter(({ entering, enteringEnd }) => entering === panel.mark && enteringEnd[0] === "w");
    for (const { depth, gap } of edges) {
      expect(gap[0]).toBeCloseTo(inch(1 / 8), 6);
      expect(depth - gap[0]).toBeCloseTo(inch(5 / 16), 6);
    }
  });

  it("rounded to 1/32, a pair of 40 with gaps of 5/64 and stiles of 4 3/8 still adds up", () => {
    // A rounding test from a woodworkers' forum: exact rails of 12.1328 for tenons of 1/2.
    const set = opening(40, 24, "1/32", { fit: "inset", gap: "5/64", stile: "4 3/8", stickDepth: "1/2" }, "pair");
    addsUp(set);
    const rail = part(set, "rail-top").length / MM_PER_INCH;
    expect(rail).toBeLessThanOrEqual(12.1328);
    expect(rail).toBeGreaterThan(12.1328 - 1 / 32);
  });
});

/** Opening = doors + gaps; door = 2 stiles + rail - 2 tongues; gaps even, and no less than asked for. */
function addsUp(set: DryfitSet): void {
  const { step } = set.job;
  const left = set.doors.filter(({ meets, hinges }) => meets === null || hinges.side === "left");
  for (const door of left) {
    const other = set.doors.find(({ assembly }) => assembly === door.meets);
    const leaves = other === undefined ? [door] : [door, other];
    const widths = leaves.reduce((sum, one) => sum + sizeOf(set, one)[0]!, 0);
    const outer = door.edges.left + leaves.at(-1)!.edges.right;
    const between = other === undefined ? 0 : door.edges.right;
    expect(widths + outer + between).toBeCloseTo(door.opening.width, 4);
    expect(sizeOf(set, door)[2]! + door.edges.below + door.edges.above).toBeCloseTo(door.opening.height, 4);
    expect(door.edges.left).toBeCloseTo(leaves.at(-1)!.edges.right, 4);
    expect(door.edges.below).toBeCloseTo(door.edges.above, 4);
    const least = door.fit === "inset" ? door.least : -door.least;
    for (const edge of [door.edges.left, door.edges.below]) {
      expect(edge).toBeGreaterThanOrEqual(least - 1e-6);
      expect(edge).toBeLessThan(least + step);
    }
    if (other !== undefined) expect(between).toBeGreaterThanOrEqual(door.between - 1e-6);
    for (const leaf of leaves) {
      const own = (id: string): SetPart | undefined => set.parts.find(({ key }) => key === `${leaf.assembly}/${id}`);
      const [width, , height] = sizeOf(set, leaf) as [number, number, number];
      for (const size of [width, height]) expect(Math.abs(size / step - Math.round(size / step))).toBeLessThan(1e-6);
      const [stile, rail] = [own("stile-left"), own("rail-top")];
      if (stile === undefined || rail === undefined) continue;
      const tongue = stile.features.find(({ kind }) => kind === "groove")!.depth;
      expect(2 * stile.width + rail.length - 2 * tongue).toBeCloseTo(width, 4);
      expect(stile.length).toBeCloseTo(height, 4);
    }
  }
}

/** What each door meets on its way, told by the dry fit and found by turning it a tenth of a degree at a time: the same things, as deep. Gives how many each door meets. */
function swingsToldOf(set: DryfitSet): number[] {
  const { met, reach } = swungByEye(set);
  const told = byId(set.checks, "door-swing")
    .filter(({ level }) => level === "failure")
    .map(({ text }) => /^(.+) cannot open: .* comes ([\d.]+) mm into (.+?)\.?$/.exec(text)!.slice(1) as string[])
    .map(([door, depth, what]) => ({ door: door!.toLowerCase(), depth: Number(depth), what: what! }));
  for (const { door, what, depth } of met) {
    const same = told.find((one) => one.door === door.toLowerCase() && one.what === what);
    expect(same, `${door} meets ${what} by ${depth}`).toBeDefined();
    // Told to three digits, it may be off by half of the last. The eye takes the grooves of a framed door's stiles for wood, and sees more of what comes into them.
    const isFramed = set.parts.some(({ role }) => role === "doorStile");
    const digit = 10 ** (Math.floor(Math.log10(same!.depth)) - 2);
    const least = what.startsWith("door panel") ? 0.7 : isFramed ? 0.95 : 0.995;
    expect(same!.depth, `${door} meets ${what}`).toBeGreaterThan(depth * least - digit / 2 - 0.01);
    expect(same!.depth).toBeLessThan(depth * 1.005 + reach + 0.01);
  }
  for (const { door, what, depth } of told)
    if (depth > reach + 0.02)
      expect(
        met.some((one) => one.door.toLowerCase() === door && one.what === what),
        `${door} does not meet ${what}, said by ${depth}`,
      ).toBe(true);
  return set.doors.map(({ assembly }) => told.filter(({ door }) => door === assembly.toLowerCase()).length);
}

describe("over random openings", () => {
  it("adds up after rounding, with gaps even within a step, and opens clear of neighbours, knobs and walls or is told where it meets them", () => {
    const jobs = fc.record({
      width: fc.integer({ min: 3000, max: 9000 }),
      height: fc.integer({ min: 3500, max: 9000 }),
      thickness: fc.integer({ min: 176, max: 184 }),
      step: fc.constantFrom("0.1 mm", "0.5 mm", "1/32 in", "1/16 in"),
      fit: fc.constantFrom(
        { fit: "inset", gap: "2 mm" },
        { fit: "inset", gap: "3/32 in" },
        { fit: "overlay", overlap: 7 },
      ),
      make: fc.constantFrom("slab", "frame and panel"),
      kind: fc.constantFrom("butt", "cup"),
      doors: fc.tuple(fc.constantFrom("left", "right", "pair"), fc.constantFrom("left", "right", "pair", null)),
      knob: fc.option(
        fc.record({
          height: fc.integer({ min: 40, max: 300 }),
          fromEdge: fc.integer({ min: 16, max: 60 }),
          diameter: fc.integer({ min: 12, max: 32 }),
          projection: fc.integer({ min: 10, max: 60 }),
        }),
        { nil: undefined },
      ),
      walls: fc.record({
        left: fc.option(fc.integer({ min: 0, max: 300 }), { nil: undefined }),
        right: fc.option(fc.integer({ min: 0, max: 300 }), { nil: undefined }),
      }),
      opens: fc.integer({ min: 90, max: 180 }),
    });
    let hung = 0;
    let [clear, met] = [0, 0];
    fc.assert(
      fc.property(jobs, ({ width, height, thickness, step, fit, make, kind, doors: [first, second], ...round }) => {
        const sheet = { length: 2440, width: 1220 };
        const framed = make === "slab" ? {} : { stile: 55, panel: { stock: "thin" } };
        const text = JSON.stringify({
          job: { number: "T", title: "Random doors", date: "2026-11-20", revision: "A" },
          unit: "mm",
          step,
          stock: {
            ply: { name: "ply", nominal: 18, measured: thickness / 10, sheet, goodFaces: 2 },
            thin: { name: "thin", nominal: 6, measured: 5.9, sheet },
          },
          cases: [
            {
              name: "case",
              width: width / 10 + 600,
              height: height / 10,
              depth: 300,
              stock: "ply",
              back: { fit: "none" },
              bays: {
                columns: [{ door: first }, ...(second === null ? [{ share: 2 }] : [{ share: 2, door: second }])],
              },
              doors: {
                kind: make,
                stock: "ply",
                ...framed,
                ...fit,
                hinges: { kind, opens: round.opens },
                ...(round.knob === undefined ? {} : { knob: round.knob }),
              },
            },
          ],
          walls: round.walls,
        });
        const joined = joinerySet(readProjectText(text, "doors.json").project);
        const set = { ...joined, checks: [...dryFit(joined), ...joined.checks] };
        addsUp(set);
        hung += set.doors.length;
        const wrong = set.checks.filter(
          ({ level, id }) => level === "failure" && id !== "door-swing" && id !== "no-tool",
        );
        expect(wrong.map(({ text: words }) => words)).toEqual([]);
        const swings = swingsToldOf(set);
        clear += swings.filter((one) => one === 0).length;
        met += swings.filter((one) => one > 0).length;
      }),
      { numRuns: runs(100), seed: SEED },
    );
    expect(hung).toBeGreaterThan(runs(100));
    // Neither all clear nor all in the way of something.
    expect(clear).toBeGreaterThan(runs(20));
    expect(met).toBeGreaterThan(runs(20));
  });
});

describe("a panel of solid wood", () => {
  const solid = (panel: object, more: Change = {}): DryfitSet =>
    built("doors-solid", { ...more, doors: { panel: { stock: "glued", ...panel }, ...more.doors } });
  const said = (set: DryfitSet, level: SetCheck["level"]): string[] =>
    byId(set.checks, "door-panel", level).map(({ text, change }) => `${text} ${change ?? ""}`.trim());

  it("has room for as much as it grows, at each side half; 1/4 in or 6 mm at least", () => {
    const wide = solid({}, { one: { width: 640 }, job: { moisture: { made: 6, driest: 6, wettest: 12 } } });
    const panel = part(wide, "panel");
    const gaps = wide.joints.filter(({ entering, enteringEnd }) => entering === panel.mark && enteringEnd[0] === "w");
    // Width x coefficient x points of moisture (Wood Handbook 2010, chapter 13), sugar maple flat-sawn 0.00353.
    const grows = (panel.width + gaps.reduce((sum, { gap }) => sum + gap[0], 0)) * 0.00353 * 6;
    expect(grows).toBeGreaterThan(6);
    const free = gaps.reduce((sum, { gap }) => sum + gap[0], 0);
    expect(free).toBeGreaterThanOrEqual(grows - 1e-6);
    expect(free).toBeLessThan(grows + 2 * wide.job.step);
    expect(movementOf(panel.width, 0.00353, 6)).toBeLessThanOrEqual(free);
    const narrow = solid({});
    const own = narrow.joints.filter(({ entering }) => entering === part(narrow, "panel").mark);
    for (const { gap, enteringEnd } of own) expect(gap[0]).toBeCloseTo(enteringEnd[0] === "w" ? 3 : 1.5, 6);
  });

  it("without clearance is a failure, with what it needs", () => {
    expect(said(solid({ clearance: 0 }), "failure")).toEqual([
      'Door panel 9 is 334.7 mm of sugar maple and grows 4.73 mm to 12 % moisture; its grooves leave nothing: it would burst the door. Leave "clearance" out, or make it 4.73 mm or more; or take a panel of plywood.',
    ]);
  });

  it("that comes out of its grooves when it dries is told of", () => {
    const set = solid(
      {},
      { doors: { stickDepth: 8 }, one: { width: 640 }, job: { moisture: { driest: 4, wettest: 12 } } },
    );
    expect(said(set, "warning")).toHaveLength(1);
    expect(said(set, "warning")[0]).toMatch(
      /^Door panel 9 shrinks [\d.]+ mm to 4 % moisture, and is then held by nothing at each side\. A "stickDepth" deeper by/,
    );
  });

  it("of no known species is told of", () => {
    const file = parse(readFileSync(testFile("doors-solid"), "utf8"));
    const { species: _species, ...glued } = file.stock.glued;
    const set = made(JSON.stringify({ ...file, stock: { ...file.stock, glued } }));
    expect(said(set, "warning")).toEqual([
      'Door panel 9 is solid wood, and edge-glued maple, 8 mm does not say of what species: how far it moves is not reckoned. Give edge-glued maple, 8 mm its "species", or take a panel of plywood.',
    ]);
  });
});

describe("hinges", () => {
  it("are counted by height, or by hand; too few for height or weight are told of", () => {
    const tall = (hinges: object): DryfitSet =>
      built("doors-overlay", { one: { height: 1700 }, doors: { hinges: { kind: "cup", ...hinges } } });
    expect(tall({}).doors.map(({ hinges }) => hinges.middles.length)).toEqual([4, 4]);
    const [warned] = byId(tall({ count: 2 }).checks, "door-hinges", "warning");
    expect(warned?.text).toBe(
      "Cabinet door 1 is 1678.6 mm high and weighs 8.7 kg without its knob; 2 hinges carry less.",
    );
    expect(warned?.change).toBe('"count": 4 under "hinges", or a lighter door.');
  });

  it("of the cup kind are drilled at one distance from the edge, each at its middle", () => {
    const set = setOf(testFile("doors-overlay"));
    const [row] = set.drilling.filter(({ holds }) => holds === "hinge cups");
    expect(row).toMatchObject({ diameter: 35, depth: 13 });
    for (const one of row!.rows) expect(one).toMatchObject({ first: 90, distance: 22.5, count: 2 });
  });
});

describe("what cannot be hung is said at its place", () => {
  const said = (name: string, change: Change): string[] =>
    problemsIn(textOf(name, change)).map(({ where, found }) => `${where?.path}: ${found}`);

  it.each<[string, string, Change, string]>([
    [
      "no way to make it",
      "doors-overlay",
      { doors: { stile: 50 } },
      'cases[0].doors.stile: "stile" with doors of kind "slab"',
    ],
    [
      "no stiles",
      "doors-solid",
      { doors: { stile: undefined } },
      'cases[0].doors: doors of frame and panel without "stile"',
    ],
    [
      "an overlap of what is set in",
      "doors-solid",
      { doors: { overlap: 10 } },
      'cases[0].doors.overlap: "overlap" with "fit": "inset"',
    ],
    [
      "no bay",
      "doors-solid",
      { one: { bays: {} } },
      'cases[0].doors: how the doors of "box" are made, and no bay has one',
    ],
    [
      "a door behind a door",
      "doors-overlay",
      { one: { bays: { door: "pair", columns: [{ door: "left" }, {}] } } },
      "cases[0].bays.columns[0].door: a door before a bay, behind another door",
    ],
    [
      "shelves in the way",
      "doors-solid",
      { one: { bays: { door: "left", rows: [{}, {}] } } },
      'cases[0].bays.door: an inset door 20 mm thick before a bay of "box", whose shelves come to the front',
    ],
    [
      "no depth left for the pins of loose shelves",
      "doors-solid",
      { one: { depth: 130, bays: { door: "left", loose: 1 } } },
      'cases[0].pins.fromFront: two rows of pins in "box", 130 mm deep inside: 37 mm from the doors, which take 20 mm of it, and 37 mm from the back',
    ],
    [
      "no frame round it",
      "doors-inset",
      { one: { bays: { columns: [{ rows: [{ door: "left" }, {}] }, {}] } } },
      'cases[0].bays.columns[0].rows[0].door: a door before a bay of "case", where the face frame leaves no opening of its own',
    ],
    [
      "a panel as thick as its frame",
      "doors-inset",
      { doors: { panel: { stock: "ply" } } },
      'cases[0].doors.panel.stock: a panel 0.705 in thick in door members 3/4 in thick, in "case": 0.023 in beside its groove',
    ],
    [
      "stiles all groove",
      "doors-solid",
      { doors: { stile: 20 } },
      'cases[0].doors.stile: a door member 20 mm wide, grooved 12 mm deep, in "box"',
    ],
  ])("%s", (_, name, change, words) => {
    expect(said(name, change)).toContain(words);
  });

  it("members that leave no panel, and hinges in each other's way", () => {
    expect(() => built("doors-solid", { one: { width: 158 } })).toThrow(
      /whose stiles and rails leave [89]\.\d mm for its panel/,
    );
    expect(() => built("doors-solid", { doors: { hinges: { kind: "butt", fromEnds: 260 } } })).toThrow(
      /with 2 hinges of 50 mm whose middles are [\d.]+ mm apart/,
    );
  });

  it("a door without doors in its case", () => {
    const file = parse(readFileSync(testFile("doors-solid"), "utf8"));
    const { doors: _doors, ...one } = file.cases[0];
    const [problem] = problemsIn(JSON.stringify({ ...file, cases: [one] }));
    expect(problem?.found).toBe('a door in "box", which does not say how its doors are made');
  });

  it("overlays that meet, with how much less they may lap", () => {
    const failed = built("doors-overlay", { doors: { overlap: 12 } }).checks.filter(({ id }) => id === "door-gap");
    expect(failed.map(({ text, change }) => `${text} ${change}`)).toEqual([
      expect.stringMatching(
        /^Cabinet door 1 and cabinet door 2 meet, 6\.\d+ mm over each other; 3 mm is the least between them\. Less "overlap", by 4\.\d+ mm or more\.$/,
      ),
    ]);
  });
});

describe("swung", () => {
  const TURN = Math.PI / 180;
  const corner: fc.Arbitrary<number> = fc.integer({ min: -400, max: 400 });
  const box = fc
    .record({ x: corner, y: corner, w: fc.integer({ min: 5, max: 300 }), h: fc.integer({ min: 5, max: 300 }) })
    .map(
      ({ x, y, w, h }): Outline => [
        [x, y],
        [x + w, y],
        [x + w, y + h],
        [x, y + h],
      ],
    );
  const swing = fc
    .record({ from: fc.integer({ min: -180, max: 0 }), span: fc.integer({ min: 5, max: 180 }) })
    .map(({ from, span }): Swing => ({ pivot: [0, 0], from: from * TURN, to: (from + span) * TURN }));
  const stops = ({ from, to }: Swing, count: number): number[] =>
    Array.from({ length: count + 1 }, (_, i) => from + (i * (to - from)) / count);

  it("finds whatever a look at every half degree finds, and says no more than is so", () => {
    fc.assert(
      fc.property(box, box, swing, (moving, still, way) => {
        const seen = Math.max(...stops(way, 360).map((angle) => depthOf(turned(moving, way.pivot, angle), still)));
        const found = clashOf(moving, still, way);
        if (seen > 1e-3) expect(found?.depth ?? 0).toBeGreaterThanOrEqual(seen - 1e-6);
        if (found !== null) {
          expect(depthOf(turned(moving, way.pivot, found.angle), still)).toBeCloseTo(found.depth, 6);
          expect(found.angle).toBeGreaterThanOrEqual(way.from - 1e-9);
          expect(found.angle).toBeLessThanOrEqual(way.to + 1e-9);
        }
      }),
      { numRuns: runs(2000), seed: SEED },
    );
  });

  it("tells of two that both move whenever some two of their places clash", () => {
    fc.assert(
      fc.property(box, box, swing, swing, corner, corner, (a, b, one, other, x, y) => {
        const moved: Swing = { ...other, pivot: [x, y] };
        const places = stops(moved, 40).map((angle) => turned(b, moved.pivot, angle));
        const clash = stops(one, 40).some((angle) => {
          const at = turned(a, one.pivot, angle);
          return places.some((place) => depthOf(at, place) > 1e-3);
        });
        if (clash) expect(sweepsMeet(a, one, b, moved)).toBe(true);
        // No two sweeps meet that a circle keeps apart.
        const reach = (outline: Outline, [px, py]: readonly [number, number]): number =>
          Math.max(...outline.map(([cx, cy]) => Math.hypot(cx - px, cy - py)));
        if (Math.hypot(x, y) > reach(a, one.pivot) + reach(b, moved.pivot))
          expect(sweepsMeet(a, one, b, moved)).toBe(false);
      }),
      { numRuns: runs(500), seed: SEED },
    );
  });

  /** A post in front of the door of the small project, its near corner so far from the hinges' line at 45 degrees. */
  function withPost(gap: number): SetCheck[] {
    const plain = setOf(testFile("doors-solid"));
    const [door] = plain.doors as [SetDoor];
    const assembly = plain.assemblies.find(({ name }) => name === door.assembly)!;
    const { travel, place, size } = assembly;
    if (travel.kind !== "swing") throw new Error("a door that does not swing");
    const pivot = [place.at[0] + travel.pivot[0], place.at[1] + travel.pivot[1]] as const;
    // The corner that goes farthest: at the front or the back of the edge away from the hinges.
    const reach = Math.max(...[0, size[1]].map((y) => Math.hypot(travel.pivot[0], y - travel.pivot[1])));
    const file = parse(readFileSync(testFile("doors-solid"), "utf8"));
    const at = (reach + gap) * Math.SQRT1_2;
    const post = { name: "post", width: 200, height: 300, depth: 200, stock: "ply", back: { fit: "none" } };
    // Hinged at the right the door swings to the left of that line, and the post's right rear corner is nearest.
    const corner = [pivot[0] - at - 200, pivot[1] - at - 200, 0];
    const set = made(JSON.stringify({ ...file, cases: [...file.cases, { ...post, at: corner }] }));
    return set.checks.filter(({ id, level }) => id === "door-swing" && level === "failure");
  }

  it("finds a clash of 1 mm in the middle of the swing, and none where it passes clear", () => {
    expect(withPost(0.3)).toEqual([]);
    const [found, ...more] = withPost(-1);
    expect(more).toEqual([]);
    expect(found?.text).toMatch(
      /^Box door 1 cannot open: 4\d(\.\d)?° open, left door stile 9 comes 0\.\d+ mm into right side/,
    );
  });

  it("is stopped by a wall beside the hinges, and told how far it gets", () => {
    const set = (left: number): DryfitSet =>
      built("doors-solid", { one: { bays: { door: "left" } }, job: { walls: { left } } });
    expect(hasFailed(set(50))).toBe(false);
    const opens = built("doors-solid", {
      one: { bays: { door: "left" } },
      doors: { hinges: { kind: "butt", opens: 170 } },
      job: { walls: { left: 50 } },
    });
    const [failed] = opens.checks.filter(({ id }) => id === "door-swing");
    expect(failed?.text).toMatch(
      /^Box door 1 cannot open: 170° open, .* into the wall at the left$|into the wall at the left\.$/,
    );
  });

  it("meets a knob beside it", () => {
    const job = (knob: object | undefined): DryfitSet =>
      built("doors-overlay", {
        one: { bays: { columns: [{ door: "left" }, { door: "left" }] } },
        doors: { hinges: { kind: "butt" }, ...(knob === undefined ? {} : { knob }) },
      });
    // The second door turns out over the first, whose knob stands where its edge comes down.
    const failed = job({ height: 300, fromEdge: 16 }).checks.filter(({ id }) => id === "door-swing");
    expect(failed.some(({ text }) => text.includes("the knob of cabinet door 1"))).toBe(true);
  });

  it("warns of two that meet only when both are open", () => {
    const back = built("doors-overlay", { one: { bays: { columns: [{ door: "right" }, { door: "left" }] } } });
    expect(hasFailed(back)).toBe(false);
    expect(byId(back.checks, "doors-meet").map(({ text }) => text)).toEqual([
      "Cabinet door 1 and cabinet door 2 can meet when both are open: each clears the other closed.",
    ]);
    expect(byId(setOf(testFile("doors-overlay")).checks, "doors-meet")).toEqual([]);
  });
});

describe("spoiled, and found", () => {
  /** Failures that a set has when one thing in it is changed. */
  const foundBy = (name: string, spoil: (set: DryfitSet) => void): Set<string> => {
    const set = structuredClone(setOf(testFile(name)));
    spoil(set);
    return new Set(
      dryFit(set)
        .filter(({ level }) => level === "failure")
        .map(({ id }) => id),
    );
  };
  const assemblyOf = (set: DryfitSet): DryfitSet["assemblies"][number] =>
    set.assemblies.find(({ name }) => name === set.doors[0]!.assembly)!;

  it.each<[string, string, string, (set: DryfitSet) => void]>([
    [
      "hung a step to the left",
      "doors-solid",
      "door-gap",
      (set) => {
        assemblyOf(set).place.at[0] -= 2 * set.job.step;
      },
    ],
    [
      "hung too low",
      "doors-inset",
      "door-gap",
      (set) => {
        assemblyOf(set).place.at[2] -= 2 * set.job.step;
      },
    ],
    [
      "not flush",
      "doors-solid",
      "door",
      (set) => {
        assemblyOf(set).place.at[1] += 0.2;
      },
    ],
    [
      "lying off the case",
      "doors-overlay",
      "door",
      (set) => {
        assemblyOf(set).place.at[1] -= 0.2;
      },
    ],
    [
      "told another gap",
      "doors-solid",
      "door-gap",
      (set) => {
        set.doors[0]!.edges.left += 0.2;
      },
    ],
    [
      "asked for another gap",
      "doors-inset",
      "door-gap",
      (set) => {
        set.doors[0]!.least += 2;
      },
    ],
    [
      "told another opening",
      "doors-solid",
      "door-gap",
      (set) => {
        set.doors[0]!.opening.width += 1;
      },
    ],
    [
      "with an opening and a place that agree, in the wood",
      "doors-inset",
      "door-gap",
      (set) => {
        assemblyOf(set).place.at[0] += 0.5;
        for (const door of set.doors.slice(0, 2)) door.opening.at[0] += 0.5;
        set.assemblies.find(({ name }) => name === set.doors[1]!.assembly)!.place.at[0] += 0.5;
      },
    ],
    [
      "without its cups",
      "doors-overlay",
      "door-hinges",
      (set) => {
        set.doors[0]!.hinges.middles[0]! += 1;
      },
    ],
    [
      "with cups on the other side",
      "doors-overlay",
      "door-hinges",
      (set) => {
        set.doors[0]!.hinges.side = "right";
      },
    ],
    [
      "hinges off the door",
      "doors-solid",
      "door-hinges",
      (set) => {
        set.doors[0]!.hinges.middles[1] = 590;
      },
    ],
    [
      "without a swing",
      "doors-solid",
      "door-hinges",
      (set) => {
        assemblyOf(set).travel = { kind: "none" };
      },
    ],
    [
      "turning about a line inside the wood",
      "doors-solid",
      "door-swing",
      (set) => {
        const one = assemblyOf(set);
        if (one.travel.kind === "swing") one.travel.pivot = [one.size[0] - 15, 10, 0];
      },
    ],
    [
      "told nothing of",
      "doors-solid",
      "door",
      (set) => {
        set.doors = [];
      },
    ],
    [
      "a door that is not there",
      "doors-solid",
      "door",
      (set) => {
        set.doors[0]!.assembly = "no door";
      },
    ],
    [
      "a groove less deep than the others",
      "doors-solid",
      "door",
      (set) => {
        set.doors[0]!.stick! += 0.1;
      },
    ],
  ])("%s", (_, name, id, spoil) => {
    expect(foundBy(name, () => {})).toEqual(new Set());
    expect(foundBy(name, spoil)).toContain(id);
  });
});

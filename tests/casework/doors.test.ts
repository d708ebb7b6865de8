/** Doors: by the trade's formulas, over random openings, panels of solid wood, hinges. */
import { readFileSync } from "node:fs";
import fc from "fast-check";
import { parse } from "jsonc-parser";
import { describe, expect, it } from "vitest";
import { dryFit } from "../../src/audit/dryfit.ts";
import { MM_PER_INCH } from "../../src/base/length.ts";
import { movementOf } from "../../src/base/moisture.ts";
import { readProjectText } from "../../src/project/read.ts";
import type { DryfitSet, SetCheck, SetPart } from "../../src/set/schema.ts";
import { built, type Change, inch, made, opening, part, sizeOf } from "../support/doors/door-jobs.ts";
import { swungByEye } from "../support/doors/swings-by-eye.ts";
import { byId } from "../support/jobs/check-input.ts";
import { setOf, testFile } from "../support/jobs/examples.ts";
import { joinerySet } from "../support/jobs/outcome.ts";
import { runs, SEED } from "../support/runs.ts";

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

import { describe, expect, it } from "vitest";
import { soldSize } from "../../src/base/sold.ts";
import { planPurchase } from "../../src/plans/purchase/index.ts";
import { planSheets } from "../../src/plans/sheets/index.ts";
import type { DryfitSet, SetHardware, SetJoint, SetPart, SetPurchase } from "../../src/set/schema.ts";
import { exampleFile, setOf, testFile } from "../support/jobs/examples.ts";
import { stockOf } from "../support/jobs/reference-jobs.ts";

const part = (mark: string, length: number, width: number, thickness: number): SetPart => ({
  mark,
  key: mark,
  pattern: mark,
  name: mark,
  role: "shelf",
  assembly: "case",
  case: "case",
  hand: null,
  material: "ply",
  length,
  width,
  thickness,
  grain: "length",
  mass: 1,
  place: null,
  inside: null,
  show: [],
  edges: [],
  features: [],
  lippings: [],
  lines: [],
  cut: { length, width },
  sums: [],
  alike: [],
  same: [],
});
const joint = (more: Partial<SetJoint>): SetJoint => ({
  entering: "2",
  receiving: "1",
  kind: "butt",
  fit: "seated",
  depth: 0,
  gap: [0, 0],
  rounding: 0,
  fasteners: null,
  loose: 0,
  fixings: "glue and screws",
  receivingFace: "t0",
  enteringEnd: "l0",
  mating: null,
  ...more,
});

const base = {
  boards: [],
  stock: [],
  sheets: [],
  parts: [],
  joints: [],
  pieces: [],
  hardware: [],
  drilling: [],
  assemblies: [],
  finishes: [],
  orders: [],
  glue: null,
  worktops: [],
  unit: "mm" as const,
};
const screwsIn = (lines: SetPurchase[]): SetPurchase[] => lines.filter(({ unit }) => unit === "screws");

describe("sheets", () => {
  const stock = { ...stockOf(1000, 600, 0, true), price: 41.35 };
  const pieces = Array.from({ length: 3 }, (_, i) => ({
    id: `${i}`,
    mark: `${i}`,
    stock: "ply",
    length: 900,
    width: 500,
  }));
  const { sheets } = planSheets({ pieces, stock: [stock], kerf: 3, unit: "mm" });

  it("are counted by stock, with the shop's price for all of them", () => {
    const spare = { ...stock, id: "thin" };
    expect(planPurchase({ ...base, stock: [stock, spare], sheets })).toEqual([
      {
        what: "Plywood 18",
        size: "1000 x 600 x 18 mm",
        quantity: 3,
        unit: "sheets",
        price: 124.05,
        note: "3 sheets: proved the least; 2 cannot hold them; parts take 75 %; 41.35 each",
      },
    ]);
  });

  it("have no price where the shop gives none", () => {
    const [line] = planPurchase({
      ...base,
      stock: [{ ...stock, price: null }],
      sheets: sheets.slice(0, 1),
      parts: [],
      joints: [],
      unit: "in",
    });
    expect(line!.price).toBeNull();
    expect(line!.unit).toBe("sheet");
  });
});

describe("screws", () => {
  it("follow the run of the joint and the thickness they go through", () => {
    const parts = [part("1", 1900, 300, 18), part("2", 800, 100, 18), part("3", 1850, 880, 6), part("4", 864, 290, 18)];
    const all = planPurchase({
      ...base,
      parts,
      joints: [
        joint({}), // end of 2, 100 long: two screws, 18 + 25 = 43, sold as 45
        joint({ entering: "4", receiving: "3", enteringEnd: "w1" }), // edge of 4, 864 long, through 6: 6 screws of 35
        joint({ entering: "3", receiving: "1", kind: "face", receivingFace: "w1", enteringEnd: "t1" }), // 1900 through 6: 13 screws
        joint({ kind: "housed", fixings: "glue" }),
      ],
    });
    const lines = screwsIn(all);
    expect(lines.map(({ size, quantity, note }) => ({ size, quantity, note }))).toEqual([
      { size: "35 mm", quantity: 19, note: "2 joints, a screw about every 150 mm; drill for the shank and the thread" },
      { size: "45 mm", quantity: 2, note: "one joint, a screw about every 150 mm; drill for the shank and the thread" },
    ]);
  });

  it("come in quarters of an inch", () => {
    const inch = 25.4;
    const parts = [part("1", 72 * inch, 12 * inch, (23 / 32) * inch), part("2", 30 * inch, 4 * inch, (23 / 32) * inch)];
    const [line] = planPurchase({ ...base, unit: "in" as const, parts, joints: [joint({ enteringEnd: "w0" })] });
    expect(line).toMatchObject({
      size: "1 3/4 in",
      quantity: 6,
      note: "one joint, a screw about every 6 in; drill for the shank and the thread",
    });
  });

  it("are left out where no joint takes any", () => {
    const lines = planPurchase({
      ...base,
      parts: [part("1", 10, 10, 1), part("2", 10, 10, 1)],
      joints: [joint({ fixings: "glue" })],
    });
    expect(screwsIn(lines)).toEqual([]);
  });

  it("from face to face stay in the wood: the filler strips of 17.6 mm on a top panel as thick take no 45 mm", () => {
    const { purchase, parts, joints } = setOf(testFile("fillers"));
    const [line] = screwsIn(purchase);
    expect(screwsIn(purchase)).toHaveLength(1);
    expect(line).toMatchObject({ what: "Screws from face to face", size: "30 mm" });
    const strips = parts.filter(({ role }) => role === "filler");
    expect(joints.filter(({ kind }) => kind === "face")).toHaveLength(strips.length);
    // Those 564.8 mm long in front and behind, the others between them: 50 in at both ends, or a little more, no farther apart than 150; two where 100 are left.
    expect(
      strips
        .map(({ length }) => Math.round(length))
        .sort((a, b) => b - a)
        .slice(0, 2),
    ).toEqual([565, 565]);
    expect(line!.quantity).toBe(2 * 5 + 3 * 2);
  });

  it("go along the applied kick's height, not along the whole side behind it", () => {
    // Two at each side: the kick is 60 mm high.
    expect(screwsIn(setOf(testFile("kick-applied")).purchase).map(({ quantity }) => quantity)).toEqual([4]);
  });

  it("are counted at every joint that says so: butts, stretchers, plinths, an applied back", () => {
    const count = (name: string): number =>
      screwsIn(setOf(testFile(name)).purchase)
        .filter(({ what }) => what === "Screws for the edge of plywood")
        .reduce((sum, { quantity }) => sum + quantity, 0);
    const stated = ({ joints }: DryfitSet): number =>
      joints
        .filter(({ fixings }) => fixings.includes("screws"))
        .reduce((sum, { fasteners }) => sum + (fasteners?.positions.length ?? 0), 0);
    expect(count("plinth")).toBe(stated(setOf(testFile("plinth"))));
    expect(count("stretchers")).toBe(stated(setOf(testFile("stretchers"))));
    expect(count("butt-screws")).toBe(stated(setOf(testFile("butt-screws"))));
    const { joints, parts } = setOf(testFile("butt-screws"));
    const back = parts.find(({ role }) => role === "back")!.mark;
    // Both sides 800, 50 in at both ends: five spaces of 140. Bottom, top and shelf 582.4 between the grooves: four spaces.
    expect(
      joints
        .filter(({ receiving }) => receiving === back)
        .map(({ fasteners }) => fasteners!.positions.length)
        .sort(),
    ).toEqual([5, 5, 5, 6, 6]);
    expect(count("applied-back")).toBe(2 * 6 + 2 * 5);
  });
});

describe("what fixes cases where they stand", () => {
  const lines = (set: DryfitSet): [string, string, number][] =>
    set.purchase
      .filter(({ what }) => /where they stand|Wall|Panel pins/.test(what))
      .map(({ what, size, quantity }) => [what, size, quantity]);

  it("is on the list: screws on plinths, on and beside each other, fixings to the wall, pins of backs in rabbets", () => {
    expect(lines(setOf(testFile("plinth")))).toEqual([
      ["Screws to fix cases where they stand", "45 mm", 4],
      ["Wall fixings, with brackets", "to suit the wall", 2],
    ]);
    expect(lines(setOf(testFile("stacked")))).toEqual([
      ["Screws to fix cases where they stand", "30 mm", 4],
      ["Wall fixings, with brackets", "to suit the wall", 2],
    ]);
    // Lockers of 12 mm: 11.8 + 11.8 - 3 is 20 in steps of 5; 17.73 + 11.8 - 3 is 25. A wall fixing every two feet.
    expect(lines(setOf(exampleFile("wedging-pair")))).toEqual([
      ["Screws to fix cases where they stand", "20 mm", 4],
      ["Screws to fix cases where they stand", "25 mm", 4],
      ["Panel pins", "20 mm", 48],
      ["Wall fixings, with brackets", "to suit the wall", 6],
    ]);
    expect(lines(setOf(testFile("no-back")))).toEqual([["Wall fixings, with brackets", "to suit the wall", 2]]);
  });
});

describe("glue", () => {
  it("has no maker's name: how much by the area of the joints, and how long it stays open", () => {
    // A shelf of 300 x 18 in two sides, 9 deep: each joint 300 x (18 + 2 x 9) = 10800 mm2; 20 of them 0.22 m2, 200 ml each: 43.2.
    const parts = [part("1", 800, 300, 18), part("2", 600, 300, 18)];
    const housed = joint({ kind: "housed", depth: 9, fixings: "glue" });
    const glue = { openMinutes: 8, minutesPerJoint: 1, mostJoints: null };
    const [line] = planPurchase({ ...base, parts, joints: Array.from({ length: 24 }, () => housed), glue });
    expect(line).toEqual({
      what: "Wood glue",
      size: "open time 8 minutes or more",
      quantity: 100,
      unit: "ml",
      price: null,
      note: "about 0.26 m2 of joints",
    });
  });

  it("is reckoned between the boards of a worktop too", () => {
    const set = setOf(testFile("worktop-solid"));
    const without = planPurchase({ ...set, worktops: [], unit: set.job.unit, glue: null });
    const [one] = set.worktops as [(typeof set.worktops)[number]];
    const { thickness } = set.parts.find(({ mark }) => mark === one.mark)!;
    const between = (one.glued!.boards.length - 1) * one.glued!.length * thickness; // mm2
    const feet = (note: string): number => Number(/about ([\d.]+) (?:sq ft|m2)/.exec(note)![1]);
    const noteOf = (lines: typeof without): string => lines.find(({ what }) => what === "Wood glue")!.note;
    const unit = set.job.unit === "in" ? (12 * 25.4) ** 2 : 1e6;
    expect(feet(noteOf(set.purchase)) - feet(noteOf(without))).toBeCloseTo(between / unit, 0);
    expect(noteOf(set.purchase)).toContain("boards");
  });

  it("stays open as long as the longest glue-up, and is left out where nothing is glued", () => {
    const parts = [part("1", 800, 300, 18), part("2", 600, 300, 18)];
    const glue = { openMinutes: 8, minutesPerJoint: 1, mostJoints: null };
    const order = { assembly: "a", finished: [], moves: [], holds: 1, proved: true, locked: null };
    const orders = [{ ...order, glueUps: [{ n: 1, parts: [], joints: 11, minutes: 11 }] }];
    expect(planPurchase({ ...base, parts, joints: [joint({ fixings: "glue" })], glue, orders })[0]!.size).toBe(
      "open time 11 minutes or more",
    );
    expect(planPurchase({ ...base, parts, joints: [joint({ fixings: "loose in its groove" })], glue })).toEqual([]);
  });
});

it("tells what is bought in the unit that it is sold by, and the job's own beside it", () => {
  const inch = 25.4;
  expect(soldSize([8, 35], "in")).toBe("8 x 35 mm (0.315 x 1.378 in)");
  expect(soldSize([0.375 * inch, 1.5 * inch], "in")).toBe("3/8 x 1 1/2 in");
  expect(soldSize([8, 35], "mm")).toBe("8 x 35 mm");
  expect(soldSize([inch / 4], "mm")).toBe("1/4 in (6.35 mm)");
  // Of neither, or of one of each: as the job has it.
  expect(soldSize([8, 1.5 * inch], "in")).toBe("0.315 x 1 1/2 in");
});

it("says of hardware of one kind and size once where it is for, whatever what it is for is called", () => {
  const hinges = (count: number, where: string, of: string | null): SetHardware => ({
    ...{ kind: "hinge", what: "butt hinge", sizes: [50], count, unit: "hinges", assembly: of ?? "case", parts: [] },
    where,
    of,
  });
  const noteOf = (hardware: SetHardware[]): string => planPurchase({ ...base, hardware })[0]!.note.split(";")[0]!;
  expect(noteOf([hinges(2, "on the left edge of", "a"), hinges(2, "on the left edge of", "edge of a")])).toBe(
    "on the left edge of a and edge of a",
  );
  expect(noteOf([hinges(2, "for", "case"), hinges(2, "in the case", null)])).toBe("for case, and in the case");
  expect(noteOf([hinges(2, "for", "b"), hinges(2, "for", "b"), hinges(1, "for", "c")])).toBe("for b and c");
});

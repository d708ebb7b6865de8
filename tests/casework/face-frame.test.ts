/** The face frame: held against the trade's formulas, against the case it covers, and over random cases. */
import { readFileSync } from "node:fs";
import fc from "fast-check";
import { parse } from "jsonc-parser";
import { describe, expect, it } from "vitest";
import { MM_PER_INCH } from "../../src/base/length.ts";
import { hasFailed, makeSet } from "../../src/build.ts";
import { readProjectText } from "../../src/project/read.ts";
import type { DryfitSet, SetAssembly, SetPart } from "../../src/set/schema.ts";
import { frameBefore } from "../../src/set/standing.ts";
import { setOf, testFile } from "../support/jobs/examples.ts";
import { outcomeOf } from "../support/jobs/outcome.ts";
import { problemsIn } from "../support/jobs/project-file.ts";
import { randomFile } from "../support/jobs/random-file.ts";
import { runs, SEED } from "../support/runs.ts";

const inch = (inches: number): number => inches * MM_PER_INCH;
const file = (): { cases: Record<string, unknown>[] } => parse(readFileSync(testFile("face-frame"), "utf8"));

/** The small project with something of its case changed. */
function built(change: Record<string, unknown>): DryfitSet {
  const job = file();
  const [one] = job.cases;
  const text = JSON.stringify({ ...job, cases: [{ ...one, ...change }] });
  return makeSet(readProjectText(text, "frame.json").project, { draft: false, olderSet: null });
}

const part = (set: DryfitSet, id: string): SetPart => set.parts.find(({ key }) => key.endsWith(`/${id}`))!;

/** Box of a part in the room, for parts whose axes all run forwards but for the thickness. */
function spanOf(set: DryfitSet, one: SetPart): { x: [number, number]; y: [number, number]; z: [number, number] } {
  const home = set.assemblies.find(({ name }) => name === one.assembly)!;
  const sizes = { l: one.length, w: one.width, t: one.thickness };
  const span = (axis: "x" | "y" | "z", i: 0 | 1 | 2): [number, number] => {
    const letter = (["l", "w", "t"] as const).find((each) => one.place![each][1] === axis)!;
    const from = home.place.at[i]! + one.place!.at[i]!;
    const size = sizes[letter];
    return one.place![letter][0] === "+" ? [from, from + size] : [from - size, from];
  };
  return { x: span("x", 0), y: span("y", 1), z: span("z", 2) };
}

describe("by the trade's formulas", () => {
  // Rails are as long as the case is wide, less both stiles, and 1/4 for an overhang of 1/8 at each side (Woodworker's Journal).
  it("rail = case - 2 x stile + 1/4", () => {
    for (const width of [30, 42.5]) {
      for (const stile of [1.25, 2]) {
        const set = built({ width, frame: { stock: "maple", stile, overhang: "1/8" } });
        expect(part(set, "rail-top").length).toBeCloseTo(inch(width - 2 * stile + 0.25), 6);
        expect(part(set, "rail-bottom").length).toBeCloseTo(inch(width - 2 * stile + 0.25), 6);
      }
    }
  });

  it("is as high as what it covers: from the floor, or from where the toe space ends", () => {
    expect(part(built({}), "stile-left").length).toBeCloseTo(inch(34 - 4), 6);
    expect(part(built({ kick: undefined, bottom: { up: 2 } }), "stile-left").length).toBeCloseTo(inch(34), 6);
  });

  it("buys board feet by the rough sizes", () => {
    // 2 in x 9 in x 4 ft make 6 board feet; here piece by piece, and a quarter more (trade magazines: 20 to 30 % more).
    const set = built({});
    const line = set.purchase.find(({ what }) => what === "maple, 4/4")!;
    const takes = set.pieces
      .filter(({ kind }) => kind === "board")
      .map(({ length, width, thickness }) => (length * width * thickness) / MM_PER_INCH ** 3 / 144)
      .reduce((sum, one) => sum + one, 0);
    // A board of 96 x 6 in, 1 in thick, holds 4 board feet.
    expect(line.unit).toBe(line.quantity === 1 ? "board" : "boards");
    expect(line.quantity).toBe(Math.max(set.boards.length, Math.ceil((takes * 1.25) / 4)));
    expect(line.note).toContain(`${(line.quantity * 4).toFixed(1)} board feet bought`);
    expect(line.note).toContain(`the parts take ${takes.toFixed(1)} board feet in the rough`);
  });
});

/** Whatever a frame is to be, against the case it stands before. */
function holds(set: DryfitSet, one: SetAssembly, frame: SetAssembly, overhang: number): void {
  const { step } = set.job;
  const own = (id: string): SetPart | undefined => set.parts.find(({ key }) => key === `${frame.name}/${id}`);
  const inCase = (id: string): SetPart => set.parts.find(({ key }) => key === `${one.name}/${id}`)!;
  const at = (found: SetPart): ReturnType<typeof spanOf> => spanOf(set, found);
  expect(frame.size[0]).toBeCloseTo(one.size[0] + 2 * Math.round(overhang / step) * step, 4);
  const [left, right, top] = ["stile-left", "stile-right", "rail-top"].map((id) => own(id)!) as [
    SetPart,
    SetPart,
    SetPart,
  ];
  // Stiles and rail make up the whole width, and every member lies against the case.
  const between = top.sums.find(({ axis }) => axis === "l")?.between ?? top.length; // its tenons or laps left out
  expect(left.width + between + right.width).toBeCloseTo(frame.size[0], 4);
  const members = set.parts.filter(({ assembly }) => assembly === frame.name);
  for (const member of members) expect(at(member).y[1]).toBeCloseTo(one.place.at[1], 4);
  expect(at(top).z[1]).toBeCloseTo(one.place.at[2] + one.size[2], 4);
  // No edge of a side shows beside a stile.
  const side = at(inCase("side-left")).x;
  expect(at(left).x[0]).toBeLessThanOrEqual(side[0] + 1e-6);
  expect(at(left).x[1]).toBeGreaterThanOrEqual(side[1] - step - 1e-6);
  const bottom = own("rail-bottom");
  if (bottom !== undefined) expect(Math.abs(at(bottom).z[1] - at(inCase("bottom")).z[1])).toBeLessThanOrEqual(step);
  for (const member of members) {
    const [, kind, place] = /\/(stile|rail)-([\d.]+)$/.exec(member.key) ?? [];
    if (kind === undefined) continue;
    const behind = at(inCase(`${kind === "stile" ? "divider" : "shelf"}-${place}`));
    const before = at(member);
    if (kind === "rail") expect(Math.abs(before.z[1] - behind.z[1])).toBeLessThanOrEqual(step / 2 + 1e-6);
    else expect(Math.abs(sum(before.x) - sum(behind.x)) / 2).toBeLessThanOrEqual(step / 2 + 1e-6);
  }
}

type Span = [number, number];
const sum = ([a, b]: Span): number => a + b;

describe("on its sticks", () => {
  it("each member lands where it stands in the frame, on every stick of what it lands on", () => {
    const set = setOf(testFile("face-frame"));
    const frame = set.assemblies.find(({ kind }) => kind === "frame")!;
    const members = set.parts.filter(({ assembly }) => assembly === frame.name);
    const seats = set.sticks.flatMap(({ name, axis, marks }) =>
      marks.filter(({ kind }) => kind === "seat").map((mark) => ({ name, axis: axis as "x" | "z", ...mark })),
    );
    for (const { axis, at, width, holds } of seats) {
      const from = frame.place.at[axis === "x" ? 0 : 2] + (axis === "x" ? inch(1.5) : 0); // rails begin after the stile
      const [low, high] = spanOf(set, members.find(({ mark }) => mark === holds[0])!)[axis];
      expect([at, at + width]).toEqual([expect.closeTo(low - from, 4), expect.closeTo(high - from, 4)]);
    }
    // Left, right and mid stile take the rails; both rails take the mid stile.
    const told = seats.flatMap(({ holds, parts }) => parts.map((taker) => `${holds.join()} on ${taker}`)).sort();
    const joined = set.joints
      .filter(({ entering }) => members.some(({ mark }) => mark === entering))
      .map(({ entering, receiving }) => `${entering} on ${receiving}`)
      .sort();
    expect(told).toEqual(joined);
  });
});

describe("before the case", () => {
  it("covers its edges, mid stiles on their dividers, rails flush with what they cover", () => {
    const set = setOf(testFile("face-frame"));
    const [one] = set.assemblies as [SetAssembly];
    holds(set, one, frameBefore(one, set.assemblies)!, inch(1 / 8));
  });

  it("lets the shelves show where it has no mid rails, and the bottom where it has no bottom rail", () => {
    const set = built({ frame: { stock: "maple", stile: 1.5, omit: ["midRail", "bottomRail"] } });
    expect(set.parts.filter(({ role }) => role === "rail").map(({ name }) => name)).toEqual(["top rail"]);
    expect(hasFailed(set)).toBe(false);
  });

  it("has its mid rails flush with the shelves, or centred on their edges", () => {
    for (const midRailAt of ["flush", "centred"]) {
      const set = built({ frame: { stock: "maple", stile: 1.5, midRailAt } });
      const [rail, shelf] = ["rail-1.1", "shelf-1.1"].map((id) => spanOf(set, part(set, id)).z) as [Span, Span];
      const off = midRailAt === "flush" ? rail[1] - shelf[1] : (sum(rail) - sum(shelf)) / 2;
      expect(Math.abs(off)).toBeLessThanOrEqual(set.job.step / 2 + 1e-6);
      expect(hasFailed(set)).toBe(false);
    }
  });

  it("is pocket-screwed without holes to mark", () => {
    const set = built({ frame: { stock: "maple", stile: 1.5, joint: "pocket screws" } });
    const members = set.parts.filter(({ role }) => role === "stile" || role === "rail");
    expect(members.flatMap(({ features }) => features)).toEqual([]);
    expect(
      new Set(
        set.joints
          .filter(({ entering }) => members.some(({ mark }) => mark === entering))
          .map(({ fixings }) => fixings),
      ),
    ).toEqual(new Set(["glue and pocket screws"]));
  });
});

describe("over random cases", () => {
  it("fits, and covers what it is to cover; or says why there can be none", () => {
    const seen = { framed: 0, refused: 0 };
    const frames = fc.record({
      stile: fc.integer({ min: 30, max: 60 }),
      midStile: fc.option(fc.integer({ min: 20, max: 60 }), { nil: undefined }),
      midRail: fc.constantFrom(undefined, "25 mm"),
      omit: fc.subarray(["midRail", "bottomRail"]),
      overhang: fc.constantFrom("0 mm", "3 mm", "1/8 in"),
      joint: fc.constantFrom("dowels", "pocket screws", "loose tenons", "stub tenons", "half laps"),
    });
    fc.assert(
      fc.property(randomFile, frames, ({ text }, { stile, midStile, midRail, omit, overhang, joint }) => {
        const job = JSON.parse(text);
        job.stock = {
          ...job.stock,
          ash: { name: "ash", nominal: "20 mm", boards: { rough: "26 mm", length: "4 m", width: "200 mm" } },
        };
        // One case, by itself: a frame covers both sides, and stands where nothing else does.
        const [one] = job.cases;
        job.cases = [
          {
            ...one,
            shares: undefined,
            quantity: 1,
            frame: {
              stock: "ash",
              stile: `${stile} mm`,
              midStile: midStile === undefined ? undefined : `${midStile} mm`,
              midRail,
              omit,
              overhang,
              joint,
            },
          },
        ];
        const framed = outcomeOf(JSON.stringify(job));
        if (framed.kind === "refused") {
          seen.refused += 1;
          const bare = outcomeOf(JSON.stringify({ ...job, cases: [{ ...job.cases[0], frame: undefined }] }));
          const isFrames = framed.problems.some(({ where }) => where?.path.includes(".frame"));
          // What is refused is refused for the frame's sake, or would be without it.
          expect(isFrames || bare.kind === "refused", framed.problems[0]?.found).toBe(true);
          return;
        }
        if (framed.failures.length > 0) {
          const bare = outcomeOf(JSON.stringify({ ...job, cases: [{ ...job.cases[0], frame: undefined }] }));
          expect(bare.kind === "made" ? bare.failures.length : 1, JSON.stringify(framed.failures[0])).toBeGreaterThan(
            0,
          );
          return;
        }
        seen.framed += 1;
        const { set } = framed;
        const behind = set.assemblies.find((each) => frameBefore(each, set.assemblies) !== null)!;
        holds(
          set,
          behind,
          frameBefore(behind, set.assemblies)!,
          overhang === "0 mm" ? 0 : overhang === "3 mm" ? 3 : inch(1 / 8),
        );
      }),
      { numRuns: runs(200), seed: SEED },
    );
    expect(seen.framed).toBeGreaterThan(runs(200) / 3);
  });
});

describe("what cannot be framed is said at its place", () => {
  const said = (frame: Record<string, unknown>): string[] => {
    const job = file();
    const [one] = job.cases;
    return problemsIn(JSON.stringify({ ...job, cases: [{ ...one, frame }] })).map(
      ({ where, found }) => `${where?.path}: ${found}`,
    );
  };

  it.each<[string, Record<string, unknown>, string]>([
    [
      "of sheet stock",
      { stock: "ply", stile: 1.5 },
      "cases[0].frame.stock: a face frame of 3/4 in plywood, which comes in sheets",
    ],
    [
      "with stiles that do not cover the sides",
      { stock: "maple", stile: "3/4" },
      'cases[0].frame.stile: stiles 3/4 in wide before "case", whose sides are 0.705 in thick and set in by the overhang of 1/8 in',
    ],
    [
      "with a bottom rail wider than there is room",
      { stock: "maple", stile: 1.5, bottomRail: 3 },
      'cases[0].frame.bottomRail: a bottom rail 3 in wide, flush with the bottom of "case", which lies 0.705 in over the frame\'s lower end',
    ],
    [
      "with a top rail that leaves the top panel's edge to show",
      { stock: "maple", stile: 1.5, topRail: 1 },
      'cases[0].frame.topRail: a top rail 1 in wide before "case", whose top panel\'s underside lies 1.455 in below the top',
    ],
    [
      "of boards too narrow",
      { stock: "maple", stile: 1.5, topRail: 7 },
      'cases[0].frame: a member 7 in wide before "case", from boards at most 6 in wide',
    ],
  ])("%s", (_, frame, words) => {
    expect(said(frame)).toContain(words);
  });

  it("with members that close an opening", () => {
    const frame = { stock: "maple", stile: 1.5, midStile: 6 };
    const bays = { columns: [{}, { size: 2 }, {}] };
    expect(() => built({ frame, bays })).toThrow(/leave 0 in of the frame.s opening "opening 2"/);
  });
});

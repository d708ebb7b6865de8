/** Rows of pin holes: how many a run holds, two rows reckoned by hand, and every row of random cases stepped off hole by hole. */
import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { ProblemsFound } from "../../src/base/problem.ts";
import { makeSet } from "../../src/build.ts";
import { holesIn } from "../../src/model/cases/pins.ts";
import type { AssemblyModel, PinRow } from "../../src/model/model.ts";
import { planModels } from "../../src/plans/set.ts";
import { readProjectText } from "../../src/project/read.ts";
import type { DryfitSet, SetPart } from "../../src/set/schema.ts";
import { setOf, testFile } from "../support/jobs/examples.ts";
import { readText } from "../support/jobs/project-file.ts";
import { randomFile } from "../support/jobs/random-file.ts";
import { runs, SEED } from "../support/runs.ts";

const IN = 25.4;

describe("holes in a run: floor(run / pitch) + 1 (common practice, no source)", () => {
  it.each([
    [0, 1],
    [31.9, 1],
    [32, 2],
    [63.9, 2],
    [64, 3],
    [347.2, 11],
    [639.9, 20],
    [640, 21],
    [1792, 57],
  ])("%f mm on a grid of 32 mm: %i", (run, count) => {
    expect(holesIn(run, 32)).toBe(count);
  });

  it("loses no hole to the noise of inches: 1 1/4 in goes 1, 2, 3... times into its own multiples", () => {
    for (let times = 0; times < 200; times++) {
      expect(holesIn(times * 1.25 * IN, 1.25 * IN)).toBe(times + 1);
      expect(holesIn((times * 1.25 + 1.249) * IN, 1.25 * IN)).toBe(times + 1);
    }
  });
});

const partOf = (set: DryfitSet, role: string): SetPart => set.parts.find((part) => part.role === role)!;
const holesOf = (part: SetPart) => part.features.filter(({ kind }) => kind === "hole");

/** Middles of a row's holes from the part's low end, and how far the row lies from its front edge. */
function rowsOf(part: SetPart): { fromFront: number; middles: number[] }[] {
  const rows = [...new Set(holesOf(part).map(({ row }) => row))];
  return rows.map((name) => {
    const boxes = holesOf(part)
      .filter(({ row }) => row === name)
      .map(({ box }) => box);
    const middle = (axis: 0 | 1): number[] => boxes.map(([lo, hi]) => (lo[axis] + hi[axis]) / 2);
    const across = middle(1);
    expect(Math.max(...across) - Math.min(...across)).toBeLessThan(1e-9);
    // The width of a side runs from its front edge, seen in the case or counted back from it.
    const isForward = part.place!.w === "+y";
    return { fromFront: isForward ? across[0]! : part.width - across[0]!, middles: middle(0).sort((a, b) => a - b) };
  });
}

const expectNear = (found: number[], wanted: number[]): void => {
  expect(found).toHaveLength(wanted.length);
  found.forEach((value, i) => {
    expect(value).toBeCloseTo(wanted[i]!, 4);
  });
};
const grid = (first: number, pitch: number, count: number): number[] =>
  Array.from({ length: count }, (_, i) => first + i * pitch);
const loose = (set: DryfitSet): SetPart[] => set.parts.filter(({ role }) => role === "looseShelf");

describe("a row reckoned by hand in mm: sides 800 high, bay 200, shelf 17.6, then loose shelves up to the top panel", () => {
  // Bay from 17.6 + 200 + 17.6 = 235.2 to 800 - 17.6 = 782.4. Holes from 335.2 up, at most 682.4: a run of 347.2, 10 whole pitches.
  const set = setOf(testFile("loose-shelves"));

  it("has 11 holes from 335.2 to 655.2, 37 mm behind the front and 37 mm before the back", () => {
    for (const side of set.parts.filter(({ role }) => role === "side")) {
      const [front, rear, ...more] = rowsOf(side);
      expect(more).toEqual([]);
      expectNear(front!.middles, grid(335.2, 32, 11));
      expectNear(rear!.middles, grid(335.2, 32, 11));
      // The back's front face: 300 - 12 set in - 5.7 thick = 282.3.
      expectNear([front!.fromFront, rear!.fromFront], [37, 282.3 - 37]);
    }
  });

  it("has loose shelves on the holes nearest to a third and two thirds of the bay, half a hole up", () => {
    // 235.2 + 547.2 / 3 = 417.6 is nearest to hole 3, 431.2; 600 to hole 8, 591.2.
    expectNear(
      loose(set).map(({ place }) => place!.at[2]),
      [433.7, 593.7],
    );
    // Between the sides 600 - 2 x 17.6 less 1.5 at each end; to the back less 1.5.
    for (const { length, width } of loose(set)) expectNear([length, width], [561.8, 280.8]);
  });
});

describe("a row reckoned by hand in inches: 3/4 plywood that measures it, 30 high, two loose shelves", () => {
  const job = {
    job: { number: "P", title: "Pins", date: "2026-11-20", revision: "A" },
    unit: "in",
    stock: { "three-quarter-ply": { measured: "3/4" }, "quarter-ply": { measured: "1/4" } },
    cases: [
      {
        name: "case",
        width: 36,
        height: 30,
        depth: 12,
        stock: { all: "three-quarter-ply", back: "quarter-ply" },
        bays: { loose: 2 },
      },
    ],
  };
  const set = makeSet(readText(JSON.stringify(job)).project, { draft: false, olderSet: null });

  it("has 17 holes from 4 3/4 to 24 3/4, 1 1/2 behind the front and 1 1/2 before the back", () => {
    // Bay from 3/4 to 29 1/4; holes from 4 3/4 up, at most 25 1/4: a run of 20 1/2, 16 whole pitches of 1 1/4.
    for (const side of set.parts.filter(({ role }) => role === "side")) {
      const [front, rear, ...more] = rowsOf(side);
      expect(more).toEqual([]);
      for (const row of [front!, rear!]) expectNear(row.middles, grid(4.75 * IN, 1.25 * IN, 17));
      // The back's front face: 12 - 1/2 - 1/4 = 11 1/4.
      expectNear([front!.fromFront, rear!.fromFront], [1.5 * IN, 9.75 * IN]);
    }
  });

  it("has loose shelves on the holes nearest to a third and two thirds of the bay, half a hole of 1/4 up", () => {
    // 3/4 + 28 1/2 / 3 = 10 1/4 is nearest to hole 4, 9 3/4; 19 3/4 is hole 12.
    expectNear(
      loose(set).map(({ place }) => place!.at[2] / IN),
      [9.875, 19.875],
    );
    expectNear([partOf(set, "looseShelf").length / IN], [36 - 1.5 - 2 / 16]);
  });
});

/** From the lowest hole of a row down to what it stands on, and up to what it ends under: the parts met along the row, a finger's width off its face. */
function clearAlong({ parts, borrowed }: AssemblyModel, row: PinRow): [floor: number, ceiling: number] {
  const [lo, hi] = [...parts, ...borrowed].find(({ key }) => key === row.part)!.box;
  const x = row.face === "+x" ? hi[0] + 10 : lo[0] - 10;
  const met = parts.filter(
    ({ role, box: [low, high] }) =>
      role !== "looseShelf" && low[0] < x && x < high[0] && low[1] < row.at && row.at < high[1],
  );
  const below = met.map(({ box }) => box[1][2]).filter((z) => z < row.first);
  const above = met.map(({ box }) => box[0][2]).filter((z) => z > row.first);
  return [Math.max(...below), Math.min(...above)];
}

/** Read and modelled, no more; null where the reader refuses it. */
function modelsOf(text: string): ReturnType<typeof planModels> | null {
  try {
    return planModels(readProjectText(text, "random.json").project, null);
  } catch (error) {
    if (error instanceof ProblemsFound) return null;
    throw error;
  }
}

it("rows of random cases hold as many holes as can be stepped off between floor and ceiling, and as many are drilled", () => {
  let rows = 0;
  for (const { text } of fc.sample(randomFile, { numRuns: runs(1500), seed: SEED })) {
    const models = text.includes('"loose"') ? modelsOf(text) : null;
    for (const [i, one] of (models?.exact.assemblies ?? []).entries()) {
      const { margin, pitch, diameter } = one.design.pins;
      const { parts, borrowed } = models!.printed.assemblies[i]!;
      for (const row of one.pinRows) {
        rows += 1;
        const [floor, ceiling] = clearAlong(one, row);
        expect(row.first).toBeCloseTo(floor + margin, 6);
        let count = 0;
        for (let at = floor + margin; at <= ceiling - margin + 1e-6; at += pitch) count += 1;
        const { features } = [...parts, ...borrowed].find(({ key }) => key === row.part)!;
        const drilled = features.filter(({ kind, row: name }) => kind === "hole" && name === row.name);
        expect([row.name, row.count, drilled.length]).toEqual([row.name, count, count]);
        for (const { box } of drilled) expectNear([box[1][1] - box[0][1], box[1][2] - box[0][2]], [diameter, diameter]);
      }
    }
  }
  expect(rows).toBeGreaterThan(100);
});

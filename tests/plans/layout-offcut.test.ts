/** What a layout leaves and asks for at the saw, by hand and counted two ways. */
import { describe, expect, it } from "vitest";
import { Tallies } from "../../src/plans/layout/forest-trees.ts";
import { bedsFor, foundOf, type Job, offcutOf, planted } from "../../src/plans/layout/found.ts";
import { largerOffcut } from "../../src/plans/layout/larger-offcut.ts";
import { randomFrom } from "../../src/plans/layout/random.ts";
import { scoreOf } from "../../src/plans/layout/score.ts";
import { findLayout } from "../../src/plans/layout/search.ts";
import { cutOf, type Tree, tightened, waste } from "../../src/plans/layout/tree.ts";
import { freshJobs } from "../support/jobs/fresh-casework.ts";
import { checkTrees } from "../support/layouts/tree-checker.ts";

const part = (item: number, length: number, width: number): Tree => ({
  ...{ kind: "part", item, turned: false, length, width },
});
const jobOf = (items: Job["items"], length: number, width: number): Job => ({
  ...{ items, bed: { length, width, within: null }, free: [] },
  options: { depth: 3, most: 3, least: 1 },
});

describe("the offcut", () => {
  it("may lie in a corner, with parts on two sides of it", () => {
    // One part as long as the sheet, so that no offcut reaches across it; the two others side by side leave 1000 x 250, one over the
    // other 800 x 500.
    const items = [
      { length: 1000, width: 100, copies: 1, turn: false },
      { length: 200, width: 250, copies: 2, turn: false },
    ];
    const job = jobOf(items, 1000, 600);
    const strip = cutOf("x", 1000, 250, [part(1, 200, 250), part(1, 200, 250), waste(600, 250)]);
    const start = foundOf([cutOf("y", 1000, 600, [part(0, 1000, 100), strip, waste(1000, 250)])], job);
    expect(offcutOf(start, job)).toBeCloseTo((1000 * 250) / (1000 * 600), 12);
    const found = largerOffcut(start, job, randomFrom(1), { left: 3_000_000 }, { budget: 0.1, step: 0.5 });
    expect(offcutOf(found, job)).toBeCloseTo((800 * 500) / (1000 * 600), 12);
    expect(checkTrees(found.trees, items, job.bed)).toEqual([]);
  });
});

describe("fence settings", () => {
  it("are distances: one serves a rip and a crosscut", () => {
    const strip = cutOf("x", 1000, 300, [part(0, 300, 300), part(1, 450, 300), waste(250, 300)]);
    const tree = cutOf("y", 1000, 600, [strip, waste(1000, 300)]);
    const [, , , fences, cuts] = scoreOf([tree], [], 3);
    expect([fences, cuts]).toEqual([2, 3]);
  });

  it("are as many by the count that a search keeps as by the cuts of the layout it ends with", () => {
    for (const { kerf, stock, pieces } of freshJobs().slice(0, 3)) {
      const room = (size: number): number => Math.round(size - 2 * stock.trim + kerf);
      const items = pieces.map(({ length, width, turn }) => ({
        ...{ length: Math.round(length + kerf), width: Math.round(width + kerf), copies: 1, turn },
      }));
      const job = jobOf(items, room(stock.sheet!.length), room(stock.sheet!.width));
      const options = { ...job.options, trials: 500_000, seed: 1 };
      const trees = findLayout(items, job.bed, options).map(tightened);
      const forest = planted(job, bedsFor(job, trees.length), trees);
      const tallies = new Tallies(forest);
      const into: number[] = [];
      const cuts = trees.reduce((sum, _, s) => sum + tallies.of(s, into).cuts, 0);
      const [, , , fences, children] = scoreOf(trees, [], 3);
      expect(new Set(into).size).toBe(fences);
      // The last piece of a cut that leaves nothing is not cut free.
      expect(cuts).toBeLessThanOrEqual(children!);
    }
  });
});

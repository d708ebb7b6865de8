/** The fewest sheets: a first layout, then one sheet less as long as that is not ruled out, few levels of cutting before many. */
import { anneal } from "./anneal.ts";
import { Forest } from "./forest.ts";
import { treesOf } from "./forest-trees.ts";
import { bedsFor, type Job } from "./found.ts";
import type { Counter } from "./place.ts";
import type { Random } from "./random.ts";
import { bestFit, oneRowLess, type Rows, rowsIn, rowsOf, treesOfRows } from "./rows.ts";
import { firstLayout } from "./start.ts";
import type { Tree } from "./tree.ts";

/** Of what is left of the budget, for all steps of the ladder but the last, which gets the rest. */
export const RUNG = 0.35;

/** The levels of cutting that are tried one after another. */
export const ladderOf = ({ options: { depth, most } }: Job): number[] =>
  [depth, depth + 1, most].filter((levels, i, all) => levels <= most && all.indexOf(levels) === i);

/** Null where some part finds no place. */
export const beginning = (job: Job, counter: Counter): Tree[] | null => {
  const rows = oneAfterAnother(job);
  return rows === null ? firstLayout(job, counter) : treesOfRows(rows, bestFit(rows), job.bed);
};

/** One sheet less, as often as the budget allows within so many levels. Takes from the counter what it needs. */
export function fewerSheets(job: Job, from: Tree[], levels: number, random: Random, counter: Counter): Tree[] {
  const { items, free, options } = job;
  let best = from;
  const rows = oneAfterAnother(job);
  while (best.length - free.length > options.least && counter.left > 0) {
    if (rows !== null) {
      const fewer = oneRowLess(rows, rowsIn(rows, best), random, counter);
      if (fewer === null) break;
      best = treesOfRows(rows, fewer, job.bed);
      continue;
    }
    const forest = new Forest(items, bedsFor(job, best.length - free.length - 1));
    if (!anneal(forest, levels, random, counter)) break;
    best = treesOf(forest);
  }
  return best;
}

/** Rows are cut across first, each part then to its width. */
function oneAfterAnother({ items, bed, free }: Job): Rows | null {
  const rows = free.length > 0 ? null : rowsOf(items, bed);
  return rows === null || bed.first === undefined || bed.first === rows.axis ? rows : null;
}

/** Of parts that each fit a sheet. */
export function allOf(trees: Tree[] | null): Tree[] {
  if (trees === null) throw new Error("Internal error: an item that fits no sheet reached the layout");
  return trees;
}

/** The whole ladder by one search: little where the first layout already has the least number. */
export function fewestSheets(job: Job, random: Random, counter: Counter): Tree[] {
  let best = allOf(beginning(job, counter));
  const ladder = ladderOf(job);
  ladder.forEach((levels, step) => {
    const own = { left: step < ladder.length - 1 ? Math.round(counter.left * RUNG) : counter.left };
    counter.left -= own.left;
    best = fewerSheets(job, best, levels, random, own);
    counter.left += own.left;
  });
  return best;
}

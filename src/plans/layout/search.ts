/**
 * The layout method in use: a quick first layout; then rounds: for fewer sheets, with few levels of cutting before many; for a larger
 * offcut; for fewer fence settings and cuts. In every round two searches, with seeds of their own, go on from the better of the two
 * layouts that the round before it ended with; a round ends by its count of what was done alone, so it is the same whoever carries it.
 */
import type { Bed } from "./blocks.ts";
import type { LayoutEngine, LayoutOptions, LayoutSheet } from "./engine.ts";
import { allOf, beginning } from "./fewest.ts";
import { betterOf, foundOf, type Job } from "./found.ts";
import type { Counter } from "./place.ts";
import { alone, type Carrier, roundsOf, runErrand } from "./rounds.ts";
import type { Tree } from "./tree.ts";

const SEARCHES = 2;

/** So that each round of each search draws numbers of its own. */
const ROUND_SEEDS = 1009;

export const findLayout: LayoutEngine = (items, sheet, options) =>
  findLayouts({ items, bed: { ...bedOf(sheet), first: options.first }, free: [], options }, options);

export const bedOf = ({ length, width }: LayoutSheet): Bed => ({ length, width, within: null });

/** `carry`: carries the second search beside the first; left out: one after the other. */
export type SearchOptions = Pick<LayoutOptions, "trials" | "seed" | "isLate"> & { carry?: Carrier };

/** One tree for each free bed of the job, waste where it stays as it is, then one for each sheet. */
export function findLayouts(
  { items, bed, free, options: { depth, most, least } }: Job,
  { trials, seed, isLate, carry = alone }: SearchOptions,
): Tree[] {
  const job: Job = { items, bed, free, options: { depth, most, least } };
  let left = Math.round(trials / SEARCHES);
  const start: Counter = { left };
  let best = foundOf(allOf(beginning(job, start)), job);
  left = Math.max(0, start.left);
  for (const [round, { share }] of roundsOf(job).entries()) {
    if (isLate?.() === true) break;
    const budget = Math.round(left * share);
    const [first, ...others] = Array.from({ length: SEARCHES }, (_, s) => ({
      ...{ job, round, best, budget },
      seed: seed + s + ROUND_SEEDS * round,
    }));
    const begun = others.map((errand) => carry(errand));
    const ends = [runErrand(first!), ...begun.map((end) => end())];
    best = ends.map(({ found }) => found).reduce(betterOf, best);
    left += Math.min(...ends.map((end) => end.left)) - budget;
  }
  return best.trees;
}

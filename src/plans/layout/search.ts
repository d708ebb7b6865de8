/**
 * The layout method in use: a quick first layout; then rounds: for fewer sheets, with few levels of cutting before many; for a larger
 * offcut; for fewer fence settings and cuts. In every round two searches, with seeds of their own, go on from the better of the two
 * layouts that the round before it ended with; a round ends by its count of leaves alone, so it is the same whoever carries it.
 */
import type { LayoutEngine, LayoutOptions, LayoutSheet } from "./engine.ts";
import { allOf, beginning, fewerSheets, ladderOf, RUNG } from "./fewest.ts";
import { laidAnew, laidBeside } from "./finish.ts";
import { betterOf, type Found, foundOf, type Job } from "./found.ts";
import { largerOffcut } from "./larger-offcut.ts";
import type { Counter } from "./place.ts";
import { type Random, randomFrom } from "./random.ts";
import type { Tree } from "./tree.ts";

const SEARCHES = 2;
/** Of the budget; what one does not need is left to the others. */
const FOR_SHEETS = 0.6;
const FOR_OFFCUT = 0.4; // of the rest
const FOR_ANEW = 0.5; // of the rest after that

/** `share`: of what is left of the budget. */
type Round = { share: number; run: (best: Found, job: Job, random: Random, counter: Counter) => Found };

const roundsOf = (job: Job): Round[] => {
  const ladder = ladderOf(job);
  let forSheets = FOR_SHEETS;
  return [
    ...ladder.map((levels, step): Round => {
      const share = step < ladder.length - 1 ? forSheets * RUNG : forSheets;
      forSheets = (forSheets - share) / (1 - share);
      return {
        share,
        run: (best, own, random, counter) => {
          const trees = fewerSheets(own, best.trees, levels, random, counter);
          return trees === best.trees ? best : foundOf(trees, own);
        },
      };
    }),
    { share: FOR_OFFCUT, run: largerOffcut },
    { share: FOR_ANEW, run: laidAnew },
    { share: 1, run: laidBeside },
  ];
};

/** So that each round of each search draws numbers of its own. */
const ROUND_SEEDS = 1009;

export const findLayout: LayoutEngine = (items, sheet, options) =>
  findLayouts({ items, bed: bedOf(sheet), free: [], options }, options);

export const bedOf = ({ length, width }: LayoutSheet) => ({ length, width, within: null });

/** One tree for each free bed of the job, waste where it stays as it is, then one for each sheet. */
export function findLayouts(
  job: Job,
  { trials, seed, isLate }: Pick<LayoutOptions, "trials" | "seed" | "isLate">,
): Tree[] {
  let left = Math.round(trials / SEARCHES);
  const start: Counter = { left };
  let best = foundOf(allOf(beginning(job, start)), job);
  left = Math.max(0, start.left);
  roundsOf(job).forEach(({ share, run }, r) => {
    if (isLate?.() === true) return;
    const budget = Math.round(left * share);
    left -= budget;
    let spare = budget;
    const ends = Array.from({ length: SEARCHES }, (_, s) => {
      const counter = { left: budget };
      const end = run(best, job, randomFrom(seed + s + ROUND_SEEDS * r), counter);
      spare = Math.min(spare, Math.max(0, counter.left));
      return end;
    });
    best = ends.reduce(betterOf, best);
    left += spare;
  });
  return best.trees;
}

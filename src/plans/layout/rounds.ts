/** The rounds of a search, one after another: for fewer sheets, for a larger offcut, for fewer fence settings and cuts. */
import { fewerSheets, ladderOf, RUNG } from "./fewest.ts";
import { HOT, laidAnew, laidBeside, WARM } from "./finish.ts";
import { type Found, foundOf, type Job } from "./found.ts";
import { type FirstTry, largerOffcut } from "./larger-offcut.ts";
import type { Counter } from "./place.ts";
import { type Random, randomFrom } from "./random.ts";

/** Of the budget; what one does not need is left to the others. */
const FOR_SHEETS = 0.5;
const FOR_ANEW = 0.1; // of the rest
const FOR_OFFCUT = 0.7; // of the rest after that, in two rounds
const HOT_FINISH = 0.4; // of what is left then
// What the second looks for is near, and found in longer tries.
const FIRST_TRIES: readonly FirstTry[] = [
  { budget: 0.01, step: 0.5 },
  { budget: 0.025, step: 0 },
];

/** `share`: of what is left of the budget. */
export type Round = { share: number; run: (best: Found, job: Job, random: Random, counter: Counter) => Found };

export const roundsOf = (job: Job): Round[] => {
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
    { share: FOR_ANEW, run: laidAnew },
    ...FIRST_TRIES.map(
      (first, n): Round => ({
        share: n === 0 ? FOR_OFFCUT / 2 : FOR_OFFCUT / 2 / (1 - FOR_OFFCUT / 2),
        run: (best, own, random, counter) => largerOffcut(best, own, random, counter, first),
      }),
    ),
    ...[HOT, WARM].map(
      (heats, n): Round => ({
        share: n === 0 ? HOT_FINISH : 1,
        run: (best, own, random, counter) => laidBeside(best, own, random, counter, heats),
      }),
    ),
  ];
};

/** One round of one search: all that it is told, so that a thread of its own can carry it. */
export type Errand = { job: Job; round: number; best: Found; seed: number; budget: number };

/** `left`: of the budget. */
export type End = { found: Found; left: number };

export function runErrand({ job, round, best, seed, budget }: Errand): End {
  const counter = { left: budget };
  const found = roundsOf(job)[round]!.run(best, job, randomFrom(seed), counter);
  return { found, left: Math.max(0, counter.left) };
}

/** Begins an errand; its end is asked for later. */
export type Carrier = (errand: Errand) => () => End;

/** Nobody else: the errand is run when its end is asked for. */
export const alone: Carrier = (errand) => () => runErrand(errand);

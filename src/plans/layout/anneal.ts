/**
 * Fits every part on the sheets of a forest, if it can: takes a few pieces out, puts parts back in another order, keeps the
 * result when less is left over, and now and then when a little more is (ruin and recreate with cooling: G. Schrimpf and others,
 * Journal of Computational Physics 159, 2000; on trees of guillotine cuts: J. Gardeyn, T. Wauters, European Journal of Operational
 * Research 2022).
 */
import type { Forest } from "./forest.ts";
import { type Counter, Places } from "./place.ts";
import type { Random } from "./random.ts";
import { Steps } from "./recreate.ts";

// In parts of middling size left over: where parts are small, a small loss is as likely to be made good.
const HOT = 0.07;
const COLD = 0.004;
const FIRST_CYCLE = 400_000; // each further cycle is longer: large jobs need slow cooling, small ones many tries
const LONGER = 1.6;
const STEP = 45; // what a step takes apart from all that, in the counter's units (measured)
const COPYING = 3; // a node of a sheet that is changed
const LEVELS = 64; // of heat in one cycle

/** What a layout costs beyond what is left over; asked after every step. `back` follows a step that was taken back. */
export type Care = { cost: () => number; back: () => void; whole: () => boolean };

/** Of a cycle, at first and at last, in sheets left over. */
export type Heats = { hot: number; cold: number };

function heatsOf({ types, areas }: Forest): Heats {
  let copies = 0;
  let area = 0;
  for (const [type, own] of types.entries()) {
    copies += own.copies;
    area += own.copies * areas[type]!;
  }
  return { hot: (HOT * area) / copies, cold: (COLD * area) / copies };
}

/**
 * True as soon as nothing is left over; false when the budget is spent. With a care, layouts that hold everything are shown to
 * it (`whole`), and the search goes on until it says that it has enough.
 */
export function anneal(
  forest: Forest,
  depth: number,
  random: Random,
  counter: Counter,
  care: Care | null = null,
  heats: Heats = heatsOf(forest),
): boolean {
  const places = new Places(forest, depth, random, counter);
  const steps = new Steps(forest, places);
  const { undoing } = forest;
  let now = care === null ? 0 : care.cost();
  const ratio = coolingOf(heats.cold / heats.hot);
  for (let cycle = FIRST_CYCLE; counter.left > 0; cycle *= LONGER) {
    const end = counter.left - cycle;
    let heat = heats.hot;
    let cooler = counter.left - cycle / LEVELS;
    while (counter.left > end) {
      if (forest.leftCount === 0 && (care === null || care.whole())) return true;
      if (counter.left <= 0) return false;
      for (; counter.left < cooler; cooler -= cycle / LEVELS) heat *= ratio;
      forest.begin();
      steps.ruin(random, counter);
      const most = heat * random.wait();
      const mayDo = steps.recreate(random, care === null ? most : Number.POSITIVE_INFINITY);
      counter.left -= STEP + COPYING * undoing.copied;
      const tried = care === null ? 0 : care.cost();
      if (mayDo && undoing.worse(forest.leftArea) + tried - now < most) now = tried;
      else {
        forest.undo();
        care?.back();
      }
    }
  }
  return false;
}

/** The factor that, used once for each level of heat, makes this share of it: by square roots, which every machine reckons alike. */
function coolingOf(share: number): number {
  let factor = share;
  for (let levels = LEVELS; levels > 1; levels /= 2) factor = Math.sqrt(factor);
  return factor;
}

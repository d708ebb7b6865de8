/**
 * Fits every part on the sheets of a forest, if it can: takes a few pieces out, puts parts back in another order, keeps the
 * result when less is left over, and now and then when a little more is (ruin and recreate with cooling: G. Schrimpf and others,
 * Journal of Computational Physics 159, 2000; on trees of guillotine cuts: J. Gardeyn, T. Wauters, European Journal of Operational
 * Research 2022).
 */
import type { Forest } from "./forest.ts";
import { type Counter, Places } from "./place.ts";
import type { Random } from "./random.ts";
import { recreate, ruin } from "./recreate.ts";

const GATHER = 0.15; // weight of waste in one piece against what is left over
const HOT = 0.03; // in sheets left over
const COLD = 0.001;
const FIRST_CYCLE = 400_000; // leaves; each further cycle is longer: large jobs need slow cooling, small ones many tries
const LONGER = 1.6;
const STEP = 30; // what a step takes apart from looking at leaves, in leaves (measured)
const LEVELS = 64; // of heat in one cycle

/** What a layout costs beyond what is left over; asked after every step. `back` follows a step that was taken back. */
export type Care = { cost: () => number; back: () => void; whole: () => boolean };

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
  hot = HOT,
): boolean {
  const places = new Places(forest, depth, random, counter);
  const cost = (): number => {
    let squares = 0;
    for (let s = 0; s < forest.squares.length; s++) squares += forest.squares[s]!;
    return forest.leftArea - GATHER * squares + (care === null ? 0 : care.cost());
  };
  let now = cost();
  const ratio = coolingOf(COLD / hot);
  for (let cycle = FIRST_CYCLE; counter.left > 0; cycle *= LONGER) {
    const end = counter.left - cycle;
    let heat = hot;
    let cooler = counter.left - cycle / LEVELS;
    while (counter.left > end) {
      if (forest.leftCount === 0 && (care === null || care.whole())) return true;
      if (counter.left <= 0) return false;
      for (; counter.left < cooler; cooler -= cycle / LEVELS) heat *= ratio;
      forest.begin();
      ruin(forest, random, counter);
      recreate(forest, places, random);
      counter.left -= STEP;
      const tried = cost();
      if (tried - now < heat * random.wait()) now = tried;
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

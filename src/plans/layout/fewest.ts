/** The fewest sheets: a first layout, then one sheet less as long as that is not ruled out, few levels of cutting before many. */
import { anneal } from "./anneal.ts";
import type { LayoutItem, LayoutOptions } from "./engine.ts";
import { type Bed, Forest } from "./forest.ts";
import { treesOf } from "./forest-trees.ts";
import type { Counter } from "./place.ts";
import type { Random } from "./random.ts";
import { firstLayout } from "./start.ts";
import type { Tree } from "./tree.ts";

/** Of what is left of the budget, for all steps of the ladder but the last, which gets the rest. */
const SHARE = 0.35;

/** Takes from the counter what it needs: little where the first layout already has the least number. */
export function fewestSheets(
  items: readonly LayoutItem[],
  bed: Bed,
  options: Omit<LayoutOptions, "trials" | "seed">,
  random: Random,
  counter: Counter,
): Tree[] {
  let best = firstLayout(items, bed, options, counter);
  const levels = [options.depth, options.depth + 1, options.most].filter(
    (depth, i, all) => depth <= options.most && all.indexOf(depth) === i,
  );
  levels.forEach((depth, step) => {
    const own = { left: step < levels.length - 1 ? Math.round(counter.left * SHARE) : counter.left };
    counter.left -= own.left;
    while (best.length > options.least && own.left > 0) {
      const forest = new Forest(
        items,
        Array.from({ length: best.length - 1 }, () => bed),
      );
      if (!anneal(forest, depth, random, own)) break;
      best = treesOf(forest);
    }
    counter.left += own.left;
  });
  return best;
}

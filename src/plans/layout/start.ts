/** The first layout: parts in several orders, each put where it fits best, on as few sheets as that takes. */
import type { LayoutItem } from "./engine.ts";
import { Forest } from "./forest.ts";
import { treesOf } from "./forest-trees.ts";
import { bedsFor, type Job } from "./found.ts";
import { type Counter, Places } from "./place.ts";
import { Steps } from "./recreate.ts";
import type { Tree } from "./tree.ts";

/** Descending by these keys in turn; equal items keep their order. */
const KEYS: readonly ((item: LayoutItem) => readonly number[])[] = [
  (item) => [item.length * item.width],
  (item) => [Math.max(item.length, item.width), Math.min(item.length, item.width)],
  (item) => [item.width, item.length],
  (item) => [item.length, item.width],
  (item) => [item.length + item.width],
  (item) => [Math.min(item.length, item.width), Math.max(item.length, item.width)],
];

export function orders(items: readonly LayoutItem[]): number[][] {
  return KEYS.map((key) => {
    const keyed = items.map((item, i) => ({ i, keys: key(item) }));
    keyed.sort((a, b) => {
      const k = a.keys.findIndex((value, n) => value !== b.keys[n]);
      return k === -1 ? a.i - b.i : b.keys[k]! - a.keys[k]!;
    });
    return keyed.map(({ i }) => i);
  });
}

/**
 * Every order, then those with the fewest places first; with one sheet more until one of them holds everything. Null where a sheet for
 * each part does not: some part fits a free bed alone.
 */
export function firstLayout(job: Job, counter: Counter): Tree[] | null {
  const { items, free, options } = job;
  const all = orders(items);
  const copies = items.reduce((sum, item) => sum + item.copies, 0);
  for (let count = Math.max(free.length > 0 ? 0 : 1, options.least); count <= copies; count++) {
    for (const order of [...all, null]) {
      const forest = new Forest(items, bedsFor(job, count));
      const places = new Places(forest, options.depth, null, counter);
      forest.begin();
      if (order === null) new Steps(forest, places).fewestFirst();
      else for (const type of order) while (forest.left[type]! > 0 && places.find(type)) places.fill();
      if (forest.leftCount === 0) return treesOf(forest);
    }
  }
  return null;
}

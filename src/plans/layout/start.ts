/** The first layouts: the items in several orders, each put where it fits best. */
import type { LayoutItem } from "./engine.ts";
import type { Bed, Counter, Manner, Rule, Sheet } from "./spot.ts";
import { bestSpot, filled, surveyed } from "./spot.ts";
import type { Axis } from "./tree.ts";
import { waste } from "./tree.ts";

/** Descending by these keys in turn; equal items keep their order. */
const KEYS: readonly ((item: LayoutItem) => readonly number[])[] = [
  (item) => [item.length * item.width],
  (item) => [Math.max(item.length, item.width), Math.min(item.length, item.width)],
  (item) => [item.width, item.length],
  (item) => [item.length, item.width],
  (item) => [item.length + item.width],
  (item) => [Math.min(item.length, item.width), Math.max(item.length, item.width)],
];
const RULES: readonly Rule[] = ["strip", "loss", "area", "side"];
const FIRSTS: readonly (Axis | null)[] = ["y", "x", null];

/** One number for each copy: the index of its item. */
export function orders(items: readonly LayoutItem[]): number[][] {
  return KEYS.map((key) => {
    const keyed = items.map((item, i) => ({ i, copies: item.copies, keys: key(item) }));
    keyed.sort((a, b) => {
      const k = a.keys.findIndex((value, n) => value !== b.keys[n]);
      return k === -1 ? a.i - b.i : b.keys[k]! - a.keys[k]!;
    });
    return keyed.flatMap(({ i, copies }) => Array.from({ length: copies }, () => i));
  });
}

export const manners = (depth: number): Manner[] =>
  FIRSTS.flatMap((first) => RULES.map((rule) => ({ rule, depth, first })));

export const freshSheet = (bed: Bed, counter: Counter): Sheet => surveyed(bed, waste(bed.length, bed.width), counter);

/** Fills the sheets in this order, a further bed being laid whenever an item fits nowhere; returns what is still left over. */
export function fill(
  sheets: Sheet[],
  order: readonly number[],
  items: readonly LayoutItem[],
  manner: Manner,
  counter: Counter,
  further: Bed | null,
): number[] {
  const left: number[] = [];
  for (const i of order) {
    const item = items[i]!;
    let spot = bestSpot(sheets, item, manner, counter);
    if (!spot && further) {
      sheets.push(freshSheet(further, counter));
      spot = bestSpot(sheets, item, manner, counter);
    }
    if (spot) sheets[spot.sheet] = filled(sheets[spot.sheet]!, spot, i, counter);
    else left.push(i);
  }
  return left;
}

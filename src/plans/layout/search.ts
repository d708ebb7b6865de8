/**
 * The layout method in use: many quick first layouts; then, as long as fewer sheets are not ruled out, a search for one
 * sheet less, with few levels of cutting before many; then a search for a larger offcut on the last sheet.
 */
import type { LayoutEngine, LayoutItem, LayoutOptions, LayoutSheet } from "./engine.ts";
import { drawnTogether, gathered } from "./offcut.ts";
import { randomFrom } from "./random.ts";
import { ruin } from "./ruin.ts";
import type { Score } from "./score.ts";
import { isBetter, scoreOf } from "./score.ts";
import type { Bed, Counter, Manner, Sheet } from "./spot.ts";
import { surveyed } from "./spot.ts";
import { fill, freshSheet, manners, orders } from "./start.ts";
import type { Axis, Tree } from "./tree.ts";
import { areaOf, depthOf, itemsOf, nodesOf, resized, tightExtent } from "./tree.ts";

const DEEPER = 3; // levels beyond the wanted ones, where they may save a sheet
const ROUNDS = 4; // in which the range of the shortened sheet is narrowed, by a third or more each
const FOR_SHEETS = 0.6; // share of the trials for the search for fewer sheets, the rest is for the offcut

type Found = { trees: Tree[]; score: Score };

export const findLayout: LayoutEngine = (items, sheet, options) => {
  const bed: Bed = { length: sheet.length, width: sheet.width, within: null };
  const counter = { left: options.trials };
  let best = firstLayouts(items, bed, options, counter);
  best = fewerSheets(best, items, bed, options, counter);
  return largerOffcut(best, items, bed, options, counter).trees;
};

const found = (trees: readonly Tree[], depth: number): Found => {
  const tidy = trees.filter((tree) => tree.kind !== "waste").map((tree) => gathered(tree, depth));
  return { trees: tidy, score: scoreOf(tidy, depth) };
};

function firstLayouts(items: readonly LayoutItem[], bed: Bed, options: LayoutOptions, counter: Counter): Found {
  let best: Found | null = null;
  for (const manner of manners(options.depth)) {
    for (const order of orders(items)) {
      const sheets: Sheet[] = [];
      fill(sheets, order, items, manner, counter, bed);
      const tried = found(
        sheets.map((each) => each.tree),
        options.depth,
      );
      if (!best || isBetter(tried.score, best.score)) best = tried;
      if (counter.left < options.trials / 2) return best;
    }
  }
  return best ?? { trees: [], score: [] };
}

const MANNER: Omit<Manner, "depth"> = { rule: "loss", first: null };

const usedArea = (tree: Tree): number => {
  let used = 0;
  for (const node of nodesOf(tree)) if (node.kind === "part") used += areaOf(node);
  return used;
};

function fewerSheets(
  start: Found,
  items: readonly LayoutItem[],
  bed: Bed,
  options: LayoutOptions,
  counter: Counter,
): Found {
  let best = start;
  const share = Math.round((counter.left * FOR_SHEETS) / 2);
  for (const depth of [options.depth, options.depth + DEEPER]) {
    const own = { left: share };
    while (best.trees.length > options.least && own.left > 0) {
      const manner: Manner = { ...MANNER, depth };
      const sheets = Array.from({ length: best.trees.length - 1 }, () => freshSheet(bed, own));
      const left = fill(sheets, orders(items)[0]!, items, manner, own, null);
      const fewer = ruin({ sheets, left }, items, manner, randomFrom(options.seed), own);
      if (!fewer) break;
      best = found(fewer, options.depth);
    }
    counter.left -= share - Math.max(0, own.left);
  }
  return best;
}

/** Shortens or narrows the emptiest sheet as far as everything still fits, by rips and by crosscuts. */
function largerOffcut(
  start: Found,
  items: readonly LayoutItem[],
  bed: Bed,
  options: LayoutOptions,
  counter: Counter,
): Found {
  let best = start;
  const depth = Math.max(options.depth, ...start.trees.map(depthOf));
  const area = items.reduce((sum, item) => sum + item.length * item.width * item.copies, 0);
  const spill = area - (start.trees.length - 1) * bed.length * bed.width; // the least that must lie on the last sheet
  const share = Math.round(counter.left / (2 * ROUNDS));
  for (const axis of ["y", "x"] as const satisfies Axis[]) {
    let least = Math.max(0, spill / (axis === "y" ? bed.length : bed.width));
    let most = Math.min(...best.trees.map((tree) => tightExtent(tree, axis)));
    for (let n = 0; n < ROUNDS && least < most; n++) {
      const size = Math.floor((least + 2 * most) / 3);
      const own = { left: share };
      const short: Bed = axis === "y" ? { ...bed, width: size, within: "y" } : { ...bed, length: size, within: "x" };
      const trees = best.trees.toSorted((a, b) => usedArea(b) - usedArea(a));
      const left = itemsOf(trees.pop()!);
      const sheets = [freshSheet(short, own), ...trees.map((tree) => surveyed(bed, tree, own))];
      const shorter = ruin({ sheets, left }, items, { ...MANNER, depth }, randomFrom(options.seed + n), own);
      if (!shorter) {
        least = size;
        continue;
      }
      const [last, ...full] = shorter;
      const whole = restored(last!, bed, axis);
      most = Math.min(size, tightExtent(whole, axis));
      const tried = found([...full, whole], options.depth);
      if (isBetter(tried.score, best.score)) best = tried;
    }
  }
  return best;
}

/** The tree of a shortened sheet on the whole one. */
const restored = (tree: Tree, bed: LayoutSheet, axis: Axis): Tree =>
  drawnTogether(resized(tree, axis, axis === "x" ? bed.length : bed.width), axis);

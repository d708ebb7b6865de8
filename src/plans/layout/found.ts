/** A layout that was found, and how good it is; what it was found for. */

import type { Bed } from "./blocks.ts";
import type { LayoutItem, LayoutOptions } from "./engine.ts";
import { Forest } from "./forest.ts";
import { drawnTogether, gathered, largestWaste } from "./offcut.ts";
import { isBetter, type Score, scoreOf } from "./score.ts";
import { type Axis, areaOf, depthOf, nodesOf, resized, type Tree, tightened, waste } from "./tree.ts";

/** `free`: offcuts that are there already; `bed`: a sheet, of which the fewest are wanted. */
export type Job = {
  items: readonly LayoutItem[];
  bed: Bed;
  free: readonly Bed[];
  options: Pick<LayoutOptions, "depth" | "most" | "least">;
};

/** `trees`: one for each free bed, waste where it is not used, then one for each sheet. */
export type Found = { trees: Tree[]; score: Score };

/** What is left gathered, pieces no larger than their parts ask for wherever that is better, sheets that hold nothing left out. */
export function foundOf(trees: readonly Tree[], { bed, free, options }: Job): Found {
  const firstOf = (s: number): Axis | undefined => (s < free.length ? undefined : bed.first);
  const kept = trees
    .filter((tree, s) => s < free.length || tree.kind !== "waste")
    .map((tree, s) => gathered(tree, options.depth, firstOf(s)));
  const score = (list: readonly Tree[]): Score =>
    scoreOf(list.slice(free.length), usedOf(list.slice(0, free.length)), options.depth);
  let best: Found = { trees: kept, score: score(kept) };
  kept.forEach((tree, s) => {
    const tried = best.trees.with(s, gathered(tightened(tree), options.depth, firstOf(s)));
    best = betterOf(best, { trees: tried, score: score(tried) });
  });
  return best;
}

const usedOf = (trees: readonly Tree[]): Tree[] => trees.filter(({ kind }) => kind !== "waste");

export const betterOf = (now: Found, tried: Found): Found => (isBetter(tried.score, now.score) ? tried : now);

export const sheetsOf = ({ trees }: Found, { free }: Job): Tree[] => trees.slice(free.length);

/** Beds for so many sheets, the free ones first. */
export const bedsFor = ({ free, bed }: Job, sheets: number): Bed[] => [
  ...free,
  ...Array.from({ length: sheets }, () => bed),
];

/** Beds for the trees of a layout: none is to be cut in more levels than it is, or than are asked for. */
export const bedsOf = (trees: readonly Tree[], { free, bed, options }: Job): Bed[] =>
  trees.map((tree, s) => ({ ...(free[s] ?? bed), levels: Math.max(options.depth, depthOf(tree)) }));

/** The levels of cutting that a layout may have from here on: those of the job, or its own where that saved a sheet. */
export const levelsOf = ({ trees }: Found, { options }: Job): number => Math.max(options.depth, ...trees.map(depthOf));

/** The largest offcut of a sheet, as a share of it. */
export const offcutOf = (found: Found, job: Job): number =>
  Math.max(0, ...sheetsOf(found, job).map((tree) => largestWaste(tree) / areaOf(tree)));

export const usedArea = (tree: Tree): number => {
  let used = 0;
  for (const node of nodesOf(tree)) if (node.kind === "part") used += areaOf(node);
  return used;
};

/** The forest with these trees on their beds, cut down where a bed is shorter; a bed whose tree is null starts empty. */
export function planted({ items }: Job, beds: readonly Bed[], trees: readonly (Tree | null)[]): Forest {
  const forest = new Forest(items, beds);
  forest.begin();
  trees.forEach((tree, s) => {
    if (tree === null) return;
    const { within: axis, length, width } = beds[s]!;
    forest.plant(s, axis === null ? tree : resized(tree, axis, axis === "x" ? length : width));
  });
  return forest;
}

/** The tree of a bed, what is kept free beyond the bed added to it. */
export const onWhole = (tree: Tree, { within: axis, length, width, beyond = 0 }: Bed): Tree => {
  if (axis === null) return tree;
  if (tree.kind === "waste") return axis === "x" ? waste(length + beyond, width) : waste(length, width + beyond);
  return drawnTogether(resized(tree, axis, (axis === "x" ? length : width) + beyond), axis);
};

/** Which of two layouts a shop would rather cut. */
import type { Tree } from "./tree.ts";
import { areaOf, depthOf, extent, nodesOf } from "./tree.ts";

/** Compared from the first figure on; the smaller the better. */
export type Score = readonly number[];

/** `trees`: of sheets; `besides`: of offcuts that are cut up as well. */
export function scoreOf(trees: readonly Tree[], besides: readonly Tree[], depth: number): Score {
  let deep = 0;
  let levels = 0;
  let largest = 0;
  let cuts = 0;
  // A fence that stays where it is serves rips and crosscuts alike.
  const fences = new Set<number>();
  for (const [i, tree] of [...trees, ...besides].entries()) {
    const own = depthOf(tree);
    deep += Math.max(0, own - depth);
    levels += own;
    for (const node of nodesOf(tree)) {
      if (node.kind === "waste" && i < trees.length) largest = Math.max(largest, areaOf(node));
      if (node.kind !== "cut") continue;
      for (const child of node.children) {
        if (child.kind === "waste") continue;
        fences.add(extent(child, node.across));
        cuts += 1;
      }
    }
  }
  const [first] = trees;
  const offcut = first ? largest / areaOf(first) : 0;
  // Whole percents of a sheet: a slightly larger offcut is not worth another fence setting.
  return [trees.length, deep, -Math.floor(100 * offcut), fences.size, cuts, levels, -offcut];
}

export function isBetter(a: Score, b: Score): boolean {
  for (let i = 0; i < a.length; i++) if (a[i] !== b[i]) return a[i]! < b[i]!;
  return false;
}

/** One large offcut rather than many strips. */

import { beginsWith } from "./first-cut.ts";
import type { Axis, Tree, Waste } from "./tree.ts";
import { areaOf, cutOf, depthOf, extent, nodesOf, resized, tightExtent, waste } from "./tree.ts";

/** The largest piece of waste of all; null where there is none. */
export function largestPiece(trees: readonly Tree[]): Waste | null {
  let largest: Waste | null = null;
  for (const tree of trees) {
    for (const node of nodesOf(tree))
      if (node.kind === "waste" && (largest === null || areaOf(node) > areaOf(largest))) largest = node;
  }
  return largest;
}

/** Area of its largest piece of waste. */
export function largestWaste(tree: Tree): number {
  const largest = largestPiece([tree]);
  return largest === null ? 0 : areaOf(largest);
}

/** The same tree on the low side of a sheet, the rest beyond the last part cut off in one piece. */
export function drawnTogether(tree: Tree, axis: Axis): Tree {
  const size = tightExtent(tree, axis);
  const rest = extent(tree, axis) - size;
  const spare = axis === "x" ? waste(rest, tree.width) : waste(tree.length, rest);
  return cutOf(axis, tree.length, tree.width, [resized(tree, axis, size), spare]);
}

/** The tree, or the tree drawn together along one axis, whichever has the largest offcut within the levels allowed; `first`: as a bed's. */
export function gathered(tree: Tree, depth: number, first?: Axis): Tree {
  const most = Math.max(depth, depthOf(tree));
  let best = tree;
  for (const axis of ["y", "x"] as const) {
    const tried = drawnTogether(tree, axis);
    const mayBe = depthOf(tried) <= most && (first === undefined || beginsWith(tried, first));
    if (mayBe && largestWaste(tried) > largestWaste(best)) best = tried;
  }
  return best;
}

/** A sheet too heavy for one person is cut into two pieces first: not strip by strip off the whole. */
import { areaOf, extent, type Tree } from "./tree.ts";

/**
 * The same cuts in another order: the first falls where the heavier of the two pieces is lightest. `most`: the area that one person
 * handles. A layout of two pieces, or one light enough, stays as it is.
 */
export function halved(tree: Tree, most: number): Tree {
  if (tree.kind !== "cut" || areaOf(tree) <= most || tree.children.length < 3) return tree;
  const { across, children } = tree;
  const sizes = children.map((child) => extent(child, across));
  const whole = sizes.reduce((sum, size) => sum + size, 0);
  let first = 1;
  let heavier = Number.POSITIVE_INFINITY;
  let low = 0;
  for (let i = 1; i < children.length; i++) {
    low += sizes[i - 1]!;
    const larger = Math.max(low, whole - low);
    if (larger < heavier) [heavier, first] = [larger, i];
  }
  const pieceOf = (some: Tree[]): Tree => {
    const [only] = some;
    if (some.length === 1) return only!;
    const size = some.reduce((sum, child) => sum + extent(child, across), 0);
    return { ...tree, [across === "x" ? "length" : "width"]: size, children: some };
  };
  return { ...tree, children: [pieceOf(children.slice(0, first)), pieceOf(children.slice(first))] };
}

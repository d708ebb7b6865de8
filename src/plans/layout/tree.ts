/**
 * A sheet cut up, as a tree: a cut node is a piece divided by parallel cuts from edge to edge, its leaves are parts and waste.
 * Kerfs are folded in: every size here is the real one plus one kerf, so the children of a cut fill their node exactly.
 *
 *   cut across y      +--------+-----+---+
 *   (rips), each      |   A    |  B  | w |   <- cut across x (crosscuts) into A, B and waste
 *   strip cut         +--------+-----+---+
 *   across x          |      C       | w |
 *                     +--------------+---+
 *                     |      waste       |
 *                     +------------------+
 *
 * Trees are never changed in place, so a search can keep any earlier one at no cost. A tree is always in its normal form:
 * cuts alternate their direction from level to level, and a node has at most one piece of waste, its last child.
 */
import type { Nm } from "./units.ts";

/** The coordinate that divides: "x" along the sheet's length (crosscuts), "y" across it (rips). */
export type Axis = "x" | "y";
/** `isDefect`: cut out of a piece, and never worth keeping. */
export type Waste = { kind: "waste"; length: Nm; width: Nm; isDefect?: true };
export type Placed = { kind: "part"; item: number; turned: boolean; length: Nm; width: Nm };
/** `ordered`: its children stay in their order. */
export type Cut = { kind: "cut"; across: Axis; length: Nm; width: Nm; children: Tree[]; ordered?: boolean };
export type Tree = Waste | Placed | Cut;

export const extent = (tree: Tree, axis: Axis): Nm => (axis === "x" ? tree.length : tree.width);
export const waste = (length: Nm, width: Nm): Waste => ({ kind: "waste", length, width });
export const areaOf = (tree: Tree): number => tree.length * tree.width;

/** The piece divided into these children, in normal form. */
export function cutOf(across: Axis, length: Nm, width: Nm, children: readonly Tree[]): Tree {
  let spare = 0;
  const kept: Tree[] = [];
  const take = (child: Tree): void => {
    if (child.kind === "waste") spare += extent(child, across);
    else if (child.kind === "cut" && child.across === across) child.children.forEach(take);
    else kept.push(child);
  };
  children.forEach(take);
  const [only] = kept;
  if (!only) return waste(length, width);
  if (spare === 0 && kept.length === 1) return only;
  if (spare > 0) kept.push(across === "x" ? waste(spare, width) : waste(length, spare));
  return { kind: "cut", across, length, width, children: kept };
}

/** The part put in the low corner of a piece, cut free across `first`, then across the other axis. */
export function placed(part: Placed, length: Nm, width: Nm, first: Axis): Tree {
  if (first === "x") {
    const strip = cutOf("y", part.length, width, [part, waste(part.length, width - part.width)]);
    return cutOf("x", length, width, [strip, waste(length - part.length, width)]);
  }
  const strip = cutOf("x", length, part.width, [part, waste(length - part.length, part.width)]);
  return cutOf("y", length, width, [strip, waste(length, width - part.width)]);
}

/** The same parts, every piece cut no larger than they ask for: what is left joins the waste beside it. Never deeper. */
export function tightened(tree: Tree): Tree {
  if (tree.kind !== "cut") return tree;
  const { across, length, width } = tree;
  const pieces = tree.children.filter(({ kind }) => kind !== "waste");
  const tight = pieces.map((child) => tightened(resized(child, across, tightExtent(child, across))));
  const rest = extent(tree, across) - tight.reduce((sum, child) => sum + extent(child, across), 0);
  const spare = across === "x" ? waste(rest, width) : waste(length, rest);
  return cutOf(across, length, width, rest > 0 ? [...tight, spare] : tight);
}

/** Every node, a node before its children. */
export function* nodesOf(tree: Tree): Generator<Tree> {
  yield tree;
  if (tree.kind === "cut") for (const child of tree.children) yield* nodesOf(child);
}

/** How many times the direction of cutting changes, plus one: rips alone 1, rips then crosscuts 2. */
export const depthOf = (tree: Tree): number => (tree.kind === "cut" ? 1 + Math.max(...tree.children.map(depthOf)) : 0);

/** The least extent along an axis that still holds what is in the tree. */
export function tightExtent(tree: Tree, axis: Axis): Nm {
  if (tree.kind === "waste") return 0;
  if (tree.kind === "part") return extent(tree, axis);
  const each = tree.children.map((child) => tightExtent(child, axis));
  return tree.across === axis ? each.reduce((sum, size) => sum + size, 0) : Math.max(...each);
}

/** The same parts in a piece of another extent along the axis, at least the tight one. */
export function resized(tree: Tree, axis: Axis, size: Nm): Tree {
  const [length, width] = axis === "x" ? [size, tree.width] : [tree.length, size];
  if (tree.kind === "waste") return waste(length, width);
  if (tree.kind === "part") return placed(tree, length, width, axis);
  if (tree.across !== axis)
    return cutOf(
      tree.across,
      length,
      width,
      tree.children.map((child) => resized(child, axis, size)),
    );
  const kept = tree.children.filter((child) => child.kind !== "waste");
  const tight = kept.map((child) => resized(child, axis, tightExtent(child, axis)));
  const rest = size - tight.reduce((sum, child) => sum + extent(child, axis), 0);
  return cutOf(axis, length, width, [...tight, axis === "x" ? waste(rest, width) : waste(length, rest)]);
}

/** What is left of a tree in a piece of less extent: parts that reach beyond it are left out. */
export function cutDown(tree: Tree, axis: Axis, size: Nm): Tree {
  if (tightExtent(tree, axis) <= size) return resized(tree, axis, size);
  const [length, width] = axis === "x" ? [size, tree.width] : [tree.length, size];
  if (tree.kind !== "cut") return waste(length, width);
  if (tree.across !== axis)
    return cutOf(
      tree.across,
      length,
      width,
      tree.children.map((child) => cutDown(child, axis, size)),
    );
  let left = size;
  const kept: Tree[] = [];
  for (const child of tree.children) {
    const own = tightExtent(child, axis);
    if (child.kind === "waste" || own > left) continue;
    kept.push(resized(child, axis, own));
    left -= own;
  }
  return cutOf(axis, length, width, [...kept, axis === "x" ? waste(left, width) : waste(length, left)]);
}

/** Another leaf in the place of each, as large as it. */
export function changed(tree: Tree, leaf: (node: Tree) => Tree): Tree {
  if (tree.kind !== "cut") return leaf(tree);
  const { across, length, width, children } = tree;
  return cutOf(
    across,
    length,
    width,
    children.map((child) => changed(child, leaf)),
  );
}

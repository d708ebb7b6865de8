/** Lays a tree of cuts out as rectangles and checks it as such; nothing is shared with the search that made it. */

type Item = { length: number; width: number; copies: number; turn: boolean };
type Node =
  | { kind: "waste"; length: number; width: number }
  | { kind: "part"; item: number; turned: boolean; length: number; width: number }
  | { kind: "cut"; across: "x" | "y"; length: number; width: number; children: Node[] };

type Size = { length: number; width: number };

/**
 * What is wrong, in words: every copy once and of its size, every cut from edge to edge, children filling their piece exactly.
 * `sheet`: of every tree; null where each has its own of `sizes`.
 */
export function checkTrees(
  trees: readonly Node[],
  items: readonly Item[],
  sheet: Size | null,
  sizes: readonly Size[] = [],
): string[] {
  const wrong: string[] = [];
  const seen = items.map(() => 0);
  const visit = (node: Node, length: number, width: number): void => {
    if (node.length !== length || node.width !== width)
      wrong.push(`a piece of ${length} x ${width} is called ${node.length} x ${node.width}`);
    if (node.kind === "part") {
      const item = items[node.item]!;
      seen[node.item]! += 1;
      const [l, w] = node.turned ? [item.width, item.length] : [item.length, item.width];
      if (l !== length || w !== width) wrong.push(`item ${node.item} lies as ${length} x ${width}`);
      if (node.turned && !item.turn) wrong.push(`item ${node.item} is turned`);
    }
    if (node.kind !== "cut") return;
    let rest = node.across === "x" ? length : width;
    for (const child of node.children) {
      const own = node.across === "x" ? child.length : child.width;
      if (!(own > 0)) wrong.push("a piece without extent");
      rest -= own;
      if (node.across === "x") visit(child, own, width);
      else visit(child, length, own);
    }
    if (rest !== 0) wrong.push(`pieces of ${length} x ${width} leave ${rest}`);
  };
  trees.forEach((tree, t) => {
    const { length, width } = sheet ?? sizes[t]!;
    visit(tree, length, width);
  });
  items.forEach(({ copies }, i) => {
    if (seen[i] !== copies) wrong.push(`item ${i} is laid out ${seen[i]} times, not ${copies}`);
  });
  return wrong;
}

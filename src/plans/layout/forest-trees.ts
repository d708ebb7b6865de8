/** What a forest holds, read sheet by sheet. */
import type { Forest } from "./forest.ts";
import { CUT_X, DEAD, FIRST, KIND, NEXT, NONE, PARENT, WASTE, WASTE_AT, WORDS, X, Y } from "./nodes.ts";
import type { Tree } from "./tree.ts";
import { cutOf, waste } from "./tree.ts";

export function treesOf(forest: Forest): Tree[] {
  return forest.beds.map((_, s) => treeOf(forest, s, 0));
}

function treeOf(forest: Forest, s: number, node: number): Tree {
  const at = (s * forest.room + node) * WORDS;
  const { nodes } = forest;
  const kind = nodes[at + KIND]!;
  const length = nodes[at + X]!;
  const width = nodes[at + Y]!;
  if (kind === WASTE) return waste(length, width);
  if (kind >= 0) return { kind: "part", item: kind >> 1, turned: (kind & 1) === 1, length, width };
  const children: Tree[] = [];
  for (let child = nodes[at + FIRST]!; child !== NONE; child = nodes[(s * forest.room + child) * WORDS + NEXT]!)
    children.push(treeOf(forest, s, child));
  return cutOf(kind === CUT_X ? "x" : "y", length, width, children);
}

/**
 * One number for each piece that a cut of the sheet frees, the same for pieces that one fence setting frees; returns how many cuts
 * there are: the last piece of a cut without waste is what remains.
 */
export function stripsOf(forest: Forest, s: number, into: number[]): number {
  const { nodes } = forest;
  const base = s * forest.room;
  const top = forest.top[s]!;
  let cuts = 0;
  for (let node = 0; node < top; node++) {
    const at = (base + node) * WORDS;
    const kind = nodes[at + KIND]!;
    if (kind === WASTE || kind === DEAD) continue;
    if (kind < 0 && nodes[at + WASTE_AT] === NONE) cuts -= 1;
    const parent = nodes[at + PARENT]!;
    if (parent === NONE) continue;
    cuts += 1;
    const isX = nodes[(base + parent) * WORDS + KIND] === CUT_X;
    into.push(isX ? 2 * nodes[at + X]! : 2 * nodes[at + Y]! + 1);
  }
  return cuts;
}

/** Area of the largest piece of waste on the sheet, in largest beds. */
export function largestWaste(forest: Forest, s: number): number {
  let largest = 0;
  const count = forest.wasteCount[s]!;
  for (let i = 0; i < count; i++) {
    const at = (s * forest.room + forest.wastes[s * forest.room + i]!) * WORDS;
    largest = Math.max(largest, (forest.nodes[at + X]! * forest.nodes[at + Y]!) / forest.whole);
  }
  return largest;
}

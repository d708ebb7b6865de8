/** What a forest holds, read sheet by sheet. */
import type { Forest } from "./forest.ts";
import { CUT_X, FIRST, KIND, NEXT, NONE, SIZES, SPARE, WASTE, WORDS, X, Y } from "./nodes.ts";
import type { Tree } from "./tree.ts";
import { cutOf, waste } from "./tree.ts";

export function treesOf(forest: Forest): Tree[] {
  return forest.beds.map((_, s) => treeOf(forest, s, 0));
}

function treeOf(forest: Forest, s: number, node: number): Tree {
  const at = (forest.bases[s]! + node) * WORDS;
  const { nodes, sizes } = forest;
  const kind = nodes[at + KIND]!;
  const length = sizes[(forest.bases[s]! + node) * SIZES + X]!;
  const width = sizes[(forest.bases[s]! + node) * SIZES + Y]!;
  if (kind === WASTE) return waste(length, width);
  if (kind >= 0) return { kind: "part", item: kind >> 1, turned: (kind & 1) === 1, length, width };
  const children: Tree[] = [];
  for (let child = nodes[at + FIRST]!; child !== NONE; child = nodes[(forest.bases[s]! + child) * WORDS + NEXT]!)
    children.push(treeOf(forest, s, child));
  return cutOf(kind === CUT_X ? "x" : "y", length, width, children);
}

/** What a sheet asks for at the saw, once its pieces are cut no larger than their parts ask for. */
export type SheetTally = { cuts: number; largest: number };

/**
 * Counts a sheet of a forest as `tightened` would leave it. The distance of the fence for each piece that a cut frees goes `into` the list,
 * be it a rip or a crosscut; the last piece of a cut without waste is what remains, and costs no cut. The largest
 * piece of waste is an area in largest beds.
 */
export class Tallies {
  private readonly tightX: Float64Array;
  private readonly tightY: Float64Array;
  private cuts = 0;
  private largest = 0;
  private into: number[] = [];
  private base = 0;

  constructor(private readonly forest: Forest) {
    this.tightX = new Float64Array(forest.room);
    this.tightY = new Float64Array(forest.room);
  }

  of(s: number, into: number[]): SheetTally {
    const { forest } = this;
    this.base = forest.bases[s]!;
    this.cuts = 0;
    this.largest = 0;
    this.into = into;
    const { length, width, within, beyond = 0 } = forest.beds[s]!;
    this.measure(0);
    let [x, y] = [length, width];
    if (within !== null) {
      // What the parts leave of the bed joins what is kept free beyond it.
      if (within === "x") x = this.tightX[0]!;
      else y = this.tightY[0]!;
      this.waste(within === "x" ? length + beyond - x : length, within === "y" ? width + beyond - y : width);
      this.cuts += 1;
      if (forest.nodes[this.base * WORDS + KIND] !== forest.bedKind(s)) into.push(within === "x" ? x : y);
    }
    if (x > 0 && y > 0) this.count(0, x, y);
    // A piece may as well stay larger than its parts, where that leaves more in one.
    const count = forest.wasteCount[s]!;
    for (let i = 0; i < count; i++) {
      const at = (this.base + i) * SPARE;
      this.waste(forest.spare[at + X]!, forest.spare[at + Y]!);
    }
    return { cuts: this.cuts, largest: this.largest };
  }

  private waste(x: number, y: number): void {
    this.largest = Math.max(this.largest, (x * y) / this.forest.whole);
  }

  private measure(node: number): void {
    const { nodes, sizes } = this.forest;
    const at = (this.base + node) * WORDS;
    const kind = nodes[at + KIND]!;
    let x = kind === WASTE ? 0 : sizes[(this.base + node) * SIZES + X]!;
    let y = kind === WASTE ? 0 : sizes[(this.base + node) * SIZES + Y]!;
    if (kind < WASTE) {
      x = 0;
      y = 0;
      for (let child = nodes[at + FIRST]!; child !== NONE; child = nodes[(this.base + child) * WORDS + NEXT]!) {
        this.measure(child);
        x = kind === CUT_X ? x + this.tightX[child]! : Math.max(x, this.tightX[child]!);
        y = kind === CUT_X ? Math.max(y, this.tightY[child]!) : y + this.tightY[child]!;
      }
    }
    this.tightX[node] = x;
    this.tightY[node] = y;
  }

  /** A node, given so much room. */
  private count(node: number, x: number, y: number): void {
    const { nodes } = this.forest;
    const at = (this.base + node) * WORDS;
    const kind = nodes[at + KIND]!;
    if (kind >= 0) return;
    if (kind === WASTE) {
      this.waste(x, y);
      return;
    }
    const isX = kind === CUT_X;
    const rest = isX ? x - this.tightX[node]! : y - this.tightY[node]!;
    let pieces = 0;
    for (let child = nodes[at + FIRST]!; child !== NONE; child = nodes[(this.base + child) * WORDS + NEXT]!) {
      if (nodes[(this.base + child) * WORDS + KIND] === WASTE) continue;
      pieces += 1;
      const own = isX ? this.tightX[child]! : this.tightY[child]!;
      this.into.push(own);
      if (isX) this.count(child, own, y);
      else this.count(child, x, own);
    }
    if (rest > 0) this.waste(isX ? rest : x, isX ? y : rest);
    this.cuts += rest > 0 ? pieces : pieces - 1;
    // All that was cut from it is as large as it: no cut, no setting.
    if (pieces === 1 && rest === 0) this.into.splice(this.into.indexOf(isX ? x : y), 1);
  }
}

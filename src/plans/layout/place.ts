/** The best free place for one more copy of a type. */
import type { Forest } from "./forest.ts";
import { CUT_X, CUT_Y, KIND, LEVEL, NONE, PARENT, WORDS, X, Y } from "./nodes.ts";
import type { Random } from "./random.ts";

const BLINK = 25; // one place in so many is overlooked, so that a step does not always end alike

/** What is left of the budget: one for each leaf looked at, more for each change of a sheet. */
export type Counter = { left: number };

/** Keeps what it found last, so that nothing is allocated: it is asked millions of times. */
export class Places {
  sheet = NONE;
  leaf = NONE;
  pose = NONE;
  first = NONE;
  /** How many places there are in all. */
  options = 0;
  private readonly kept = new Int32Array(4);
  private blink: number;
  private readonly versions: Float64Array;
  private readonly losses: Float64Array;
  private readonly leaves: Int32Array;
  private readonly ways: Int32Array;
  private readonly counts: Int32Array;

  constructor(
    private readonly forest: Forest,
    private readonly depth: number,
    private readonly random: Random | null, // null: no place is ever overlooked
    private readonly counter: Counter,
  ) {
    this.blink = random === null ? Number.POSITIVE_INFINITY : 1 + random.below(2 * BLINK);
    const size = forest.types.length * forest.beds.length;
    this.versions = new Float64Array(size).fill(-1);
    this.losses = new Float64Array(size);
    this.leaves = new Int32Array(size);
    this.ways = new Int32Array(size);
    this.counts = new Int32Array(size);
  }

  /** Finds the place that loses least of the squared waste: waste in one piece is worth most. False where there is none. */
  find(type: number): boolean {
    const { versions, losses, counts, random } = this;
    const { version } = this.forest;
    const n = version.length;
    const row = type * n;
    let least = Number.POSITIVE_INFINITY;
    let options = 0;
    let best = NONE;
    let { blink } = this;
    for (let s = 0; s < n; s++) {
      if (versions[row + s] !== version[s]) this.scan(type, s);
      const count = counts[row + s]!;
      if (count === 0) continue;
      options += count;
      if (losses[row + s]! < least) {
        if (--blink <= 0) {
          blink = 1 + random!.below(2 * BLINK);
          continue;
        }
        least = losses[row + s]!;
        best = s;
      }
    }
    this.blink = blink;
    this.counter.left -= n;
    this.options = options;
    if (best === NONE) return false;
    this.sheet = best;
    this.leaf = this.leaves[row + best]!;
    this.pose = this.ways[row + best]! >> 1;
    this.first = this.ways[row + best]! & 1 ? CUT_X : CUT_Y;
    return true;
  }

  /** Puts one copy in the place found last. */
  fill(): void {
    this.forest.insert(this.sheet, this.leaf, this.pose, this.first);
  }

  /** Remembers the place found last, while others are looked for. */
  keep(): void {
    this.kept[0] = this.sheet;
    this.kept[1] = this.leaf;
    this.kept[2] = this.pose;
    this.kept[3] = this.first;
  }

  fillKept(): void {
    this.forest.insert(this.kept[0]!, this.kept[1]!, this.kept[2]!, this.kept[3]!);
  }

  private scan(type: number, s: number): void {
    const { forest, depth } = this;
    const { nodes, wastes, wasteCount, room, poseX, poseY } = forest;
    let least = Number.POSITIVE_INFINITY;
    let options = 0;
    let best = NONE;
    let way = 0;
    const base = s * room;
    const count = wasteCount[s]!;
    for (let pose = 2 * type; pose < 2 * type + 2; pose++) {
      const x = poseX[pose]!;
      const y = poseY[pose]!;
      if (x === 0) continue;
      for (let i = 0; i < count; i++) {
        const leaf = wastes[base + i]!;
        const at = (base + leaf) * WORDS;
        const freeX = nodes[at + X]!;
        const freeY = nodes[at + Y]!;
        if (x > freeX || y > freeY) continue;
        const restX = freeX - x;
        const restY = freeY - y;
        const parent = nodes[at + PARENT]!;
        const around = parent === NONE ? forest.bedKind(s) : nodes[(base + parent) * WORDS + KIND]!;
        const level = nodes[at + LEVEL]!;
        const both = restX > 0 && restY > 0 ? 1 : 0;
        const whole = freeX * freeY;
        if (restX > 0 || restY === 0) {
          const needed = restX > 0 ? (around === CUT_X ? 0 : 1) + both : 0;
          if (level + needed <= depth) {
            const beside = restX * freeY;
            const above = x * restY;
            const loss = whole * whole - beside * beside - above * above;
            options += 1;
            if (loss < least) {
              least = loss;
              best = leaf;
              way = 2 * pose + 1;
            }
          }
        }
        if (restY > 0) {
          const needed = (around === CUT_Y ? 0 : 1) + both;
          if (level + needed <= depth) {
            const beside = restX * y;
            const above = freeX * restY;
            const loss = whole * whole - beside * beside - above * above;
            options += 1;
            if (loss < least) {
              least = loss;
              best = leaf;
              way = 2 * pose;
            }
          }
        }
      }
    }
    const at = type * forest.beds.length + s;
    this.versions[at] = forest.version[s]!;
    this.losses[at] = least;
    this.leaves[at] = best;
    this.ways[at] = way;
    this.counts[at] = options;
    this.counter.left -= 2 * count + 3;
  }
}

/** One step of the search: some pieces are taken out, and what is left over is put back in another order. */
import type { Forest } from "./forest.ts";
import { NONE } from "./nodes.ts";
import type { Counter, Places } from "./place.ts";
import type { Random } from "./random.ts";

const MOST_PIECES = 24; // taken out in one step
// Measured on the reference jobs, where each is well off its edge.
const FEWEST_FIRST = 0.4; // share of the steps that put back by the fewest places
const FEW = 12; // kinds of parts left over, up to which that pays
const TOGETHER = 0.95; // share of the steps that take pieces out of three sheets only

const RUINING = 12; // taking a piece out, in the counter's units (measured)

/** Nothing is allocated, and no function made, in a step: there are tens of thousands in a second. */
export class Steps {
  /** The types left over, in the order that they are put back in. */
  private readonly order: Int32Array;
  private readonly keys: Float64Array;
  private count = 0;

  constructor(
    private readonly forest: Forest,
    private readonly places: Places,
  ) {
    this.order = new Int32Array(forest.types.length);
    this.keys = new Float64Array(forest.types.length);
  }

  /** Takes pieces out, with all that is in them: of two or three sheets mostly, so that these can exchange parts. */
  ruin(random: Random, counter: Counter): void {
    const { forest } = this;
    const count = 1 + random.below(MOST_PIECES);
    const n = forest.beds.length;
    const focus = random.below(1024) < TOGETHER * 1024;
    const a = random.below(n);
    const b = random.below(n);
    const c = random.below(n);
    for (let i = 0; i < count; i++) {
      let s: number;
      if (focus) {
        const drawn = random.below(3);
        s = drawn === 0 ? a : drawn === 1 ? b : c;
      } else s = this.emptier(random);
      const node = forest.nodeAt(s, random.below(forest.nodesIn(s)));
      if (node === NONE) continue;
      forest.remove(s, node);
      counter.left -= RUINING;
    }
  }

  /** A sheet at random, one with much waste more likely. */
  private emptier(random: Random): number {
    const { used, bedAreas, beds } = this.forest;
    const a = random.below(beds.length);
    const b = random.below(beds.length);
    return random.once(2) || used[a]! / bedAreas[a]! <= used[b]! / bedAreas[b]! ? a : b;
  }

  /**
   * Puts back what finds a place: large before small with some noise, in any order at all, or the fewest places first. False as soon as
   * the step is sure to cost more than `most`: what found no place finds none later, and waste is only cut up further.
   */
  recreate(random: Random, most: number): boolean {
    const { forest, places, order, keys } = this;
    this.gather();
    if (this.count <= FEW && random.below(1024) < FEWEST_FIRST * 1024) {
      return this.fewest(most);
    }
    const noise = random.once(3) ? 1e3 : 0.5;
    // By insertion: there are few, and equal keys keep their order.
    for (let i = 0; i < this.count; i++) {
      const type = order[i]!;
      const key = forest.areas[type]! * (1 + (noise * random.below(1024)) / 1024);
      let j = i;
      for (; j > 0 && keys[j - 1]! < key; j--) {
        keys[j] = keys[j - 1]!;
        order[j] = order[j - 1]!;
      }
      keys[j] = key;
      order[j] = type;
    }
    let lost = 0;
    for (let i = 0; i < this.count; i++) {
      const type = order[i]!;
      while (forest.left[type]! > 0 && places.find(type)) places.fill();
      if (forest.left[type]! > 0) {
        lost += forest.left[type]! * forest.areas[type]!;
        if (forest.undoing.worse(lost) >= most) return false;
      }
    }
    return true;
  }

  /** The type with the fewest places first, of these the largest, as long as any has one. */
  fewestFirst(): void {
    this.gather();
    this.fewest(Number.POSITIVE_INFINITY);
  }

  private gather(): void {
    const { out, outCount } = this.forest;
    for (let i = 0; i < outCount; i++) this.order[i] = out[i]!;
    this.count = outCount;
  }

  private fewest(most: number): boolean {
    const { forest, places, order } = this;
    let lost = 0;
    while (this.count > 0) {
      let fewest = Number.POSITIVE_INFINITY;
      let best = NONE;
      for (let i = 0; i < this.count; ) {
        const type = order[i]!;
        if (!places.find(type)) {
          order[i] = order[--this.count]!;
          lost += forest.left[type]! * forest.areas[type]!;
          if (forest.undoing.worse(lost) >= most) return false;
          continue;
        }
        const { options } = places;
        if (options < fewest || (options === fewest && forest.areas[type]! > forest.areas[order[best]!]!)) {
          fewest = options;
          best = i;
          places.keep();
        }
        i++;
      }
      if (best === NONE) break;
      places.fillKept();
      if (forest.left[order[best]!] === 0) order[best] = order[--this.count]!;
    }
    return true;
  }
}

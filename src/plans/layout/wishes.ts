/**
 * What a shop wants of a layout once the sheets are the fewest: one large offcut, few fence settings, few cuts. Kept up to date as
 * a search changes the forest.
 */
import type { Care } from "./anneal.ts";
import type { Forest } from "./forest.ts";
import { Tallies, treesOf } from "./forest-trees.ts";
import type { Counter } from "./place.ts";
import type { Tree } from "./tree.ts";

// In sheets left over. A part left over must cost more than the offcut gains by it.
const LEFT = 1; // added to the search's own weight
const OFFCUT = 0.7;
const FENCE = 0.006;
const CUT = 0.0015;

const COUNTING = 25; // a strip, in the counter's units (measured)

/** The offcut in whole percent of a sheet: a slightly larger one is not worth another setting. */
export type Tally = { offcut: number; fences: number; cuts: number };

const isBetter = (a: Tally, b: Tally): boolean =>
  a.offcut !== b.offcut ? a.offcut > b.offcut : a.fences !== b.fences ? a.fences < b.fences : a.cuts < b.cuts;

export class Wishes implements Care {
  best: (Tally & { trees: Tree[] }) | null = null;
  private fences = 0;
  private cuts = 0;
  private readonly uses = new Map<number, number>();
  private readonly strips: number[][];
  private readonly cutsOf: number[];
  private readonly versions: number[];
  private readonly offcuts: Float64Array;
  private readonly tallies: Tallies;

  /** `free`: so many beds at the beginning are offcuts that are there already; what is left of them does not count as one. */
  constructor(
    private readonly forest: Forest,
    private readonly free: number,
    private readonly counter: Counter,
  ) {
    this.tallies = new Tallies(forest);
    this.strips = forest.beds.map(() => []);
    this.cutsOf = forest.beds.map(() => 0);
    this.versions = forest.beds.map(() => -1);
    this.offcuts = new Float64Array(forest.beds.length);
    forest.beds.forEach((_, s) => void this.count(s));
  }

  private largest(): number {
    let largest = 0;
    for (let s = this.free; s < this.offcuts.length; s++) if (this.offcuts[s]! > largest) largest = this.offcuts[s]!;
    return largest;
  }

  cost(): number {
    this.recount();
    return LEFT * this.forest.leftArea - OFFCUT * this.largest() + FENCE * this.fences + CUT * this.cuts;
  }

  back(): void {
    this.recount();
  }

  /** Keeps the best layout that holds everything; never satisfied. */
  whole(): boolean {
    const tally = { offcut: Math.floor(100 * this.largest()), fences: this.fences, cuts: this.cuts };
    if (this.best === null || isBetter(tally, this.best)) this.best = { ...tally, trees: treesOf(this.forest) };
    return false;
  }

  private recount(): void {
    const { touched, touchedCount } = this.forest.undoing;
    for (let i = 0; i < touchedCount; i++) this.count(touched[i]!);
  }

  private count(s: number): void {
    if (this.versions[s] === this.forest.version[s]) return;
    this.versions[s] = this.forest.version[s]!;
    const { uses } = this;
    const list = this.strips[s]!;
    for (const key of list) {
      const left = uses.get(key)! - 1;
      if (left > 0) uses.set(key, left);
      else uses.delete(key);
    }
    list.length = 0;
    const { cuts, largest } = this.tallies.of(s, list);
    this.counter.left -= COUNTING * list.length;
    for (const key of list) uses.set(key, (uses.get(key) ?? 0) + 1);
    this.cuts += cuts - this.cutsOf[s]!;
    this.cutsOf[s] = cuts;
    this.fences = uses.size;
    this.offcuts[s] = largest;
  }
}

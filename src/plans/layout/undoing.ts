/** How the changes of one step of a search are taken back: a sheet is copied when it is first changed. */
import { SIZES, SPARE, WORDS } from "./nodes.ts";

const GATHER = 0.07; // weight of waste in one piece against what is left over

/** What it takes of a forest: the second half of each array holds the saved sheets. */
type Sheets = {
  readonly beds: readonly unknown[];
  readonly bases: Int32Array;
  readonly nodes: Int32Array;
  readonly sizes: Float64Array;
  readonly wastes: Int32Array;
  readonly spare: Float64Array;
  readonly wasteCount: Int32Array;
  readonly top: Int32Array;
  readonly dead: Int32Array;
  readonly used: Float64Array;
  readonly squares: Float64Array;
  readonly widest: Float64Array;
  readonly version: Float64Array;
  take: (type: number) => void;
  putBack: (type: number) => void;
  leftArea: number;
};

export class Undoing {
  private readonly count: number;
  private readonly saved: Float64Array; // scalars of saved sheets
  readonly isSaved: Uint8Array;
  /** The sheets changed since `begin`. */
  readonly touched: Int32Array;
  touchedCount = 0;
  /** The nodes on them at `begin`. */
  copied = 0;
  /** The sheets whose changes stayed, one after another; the newest overwrite the oldest. */
  readonly lasting: Int32Array;
  lastingEnd = 0;
  private isUndone = true;
  private readonly log: Int32Array; // types laid, and types taken out as their complements
  private logCount = 0;
  private savedArea = 0;

  constructor(
    private readonly forest: Sheets,
    copies: number,
  ) {
    const count = forest.beds.length;
    this.count = count;
    this.saved = new Float64Array(4 * count);
    this.isSaved = new Uint8Array(count);
    this.touched = new Int32Array(count);
    this.lasting = new Int32Array(count);
    this.log = new Int32Array(4 * copies + 16);
  }

  begin(): void {
    const { touched, touchedCount, lasting } = this;
    for (let i = 0; i < touchedCount; i++) {
      const s = touched[i]!;
      this.isSaved[s] = 0;
      if (!this.isUndone) lasting[this.lastingEnd++ % lasting.length] = s;
    }
    this.isUndone = false;
    this.savedArea = this.forest.leftArea;
    this.logCount = 0;
    this.touchedCount = 0;
    this.copied = 0;
  }

  note(entry: number): void {
    this.log[this.logCount++] = entry;
  }

  /** Before a sheet is changed. */
  save(s: number): void {
    if (this.isSaved[s] === 1) return;
    const { forest } = this;
    this.isSaved[s] = 1;
    this.touched[this.touchedCount++] = s;
    this.copy(s);
    this.saved[4 * s] = forest.used[s]!;
    this.saved[4 * s + 1] = forest.squares[s]!;
    this.saved[4 * s + 2] = forest.version[s]!;
    this.saved[4 * s + 3] = forest.widest[s]!;
  }

  /** What so much left over, with the waste as it lies now, costs more than it did at `begin`. */
  worse(left: number): number {
    let gathered = 0;
    for (let i = 0; i < this.touchedCount; i++) {
      const s = this.touched[i]!;
      gathered += this.forest.squares[s]! - this.saved[4 * s + 1]!;
    }
    return left - this.savedArea - GATHER * gathered;
  }

  private copy(s: number): void {
    const { bases, nodes, sizes, wastes, spare, top, wasteCount, dead } = this.forest;
    const own = bases[s]!;
    const saved = s + this.count;
    const to = bases[saved]!;
    const used = top[s]!;
    this.copied += used;
    copyWords(nodes, to * WORDS, own * WORDS, used * WORDS);
    copyDoubles(sizes, to * SIZES, own * SIZES, used * SIZES);
    const count = wasteCount[s]!;
    copyWords(wastes, to, own, count);
    copyDoubles(spare, to * SPARE, own * SPARE, count * SPARE);
    wasteCount[saved] = count;
    top[saved] = used;
    dead[saved] = dead[s]!;
  }

  undo(): void {
    const { forest, saved, count } = this;
    const { bases, top, wasteCount, dead } = forest;
    for (let i = 0; i < this.touchedCount; i++) {
      const s = this.touched[i]!;
      // The saved block takes the place of the changed one.
      const base = bases[s]!;
      bases[s] = bases[s + count]!;
      bases[s + count] = base;
      wasteCount[s] = wasteCount[s + count]!;
      top[s] = top[s + count]!;
      dead[s] = dead[s + count]!;
      forest.used[s] = saved[4 * s]!;
      forest.squares[s] = saved[4 * s + 1]!;
      forest.version[s] = saved[4 * s + 2]!;
      forest.widest[s] = saved[4 * s + 3]!;
    }
    for (let i = this.logCount - 1; i >= 0; i--) {
      const entry = this.log[i]!;
      if (entry >= 0) forest.putBack(entry);
      else forest.take(~entry);
    }
    forest.leftArea = this.savedArea;
    this.logCount = 0;
    this.isUndone = true;
  }
}

// By hand, and each for one kind of array: most copies are so short that a call of the library's takes longer.
function copyWords(array: Int32Array, to: number, from: number, count: number): void {
  if (count > LONG) array.copyWithin(to, from, from + count);
  else for (let i = 0; i < count; i++) array[to + i] = array[from + i]!;
}

function copyDoubles(array: Float64Array, to: number, from: number, count: number): void {
  if (count > LONG) array.copyWithin(to, from, from + count);
  else for (let i = 0; i < count; i++) array[to + i] = array[from + i]!;
}

const LONG = 128;

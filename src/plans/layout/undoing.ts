/** How the changes of one step of a search are taken back: a sheet is copied when it is first changed. */
import { type Numbers, WORDS } from "./nodes.ts";

/** What it takes of a forest: the second half of each array holds the saved sheets. */
type Sheets = {
  readonly beds: readonly unknown[];
  readonly room: number;
  readonly nodes: Numbers;
  readonly wastes: Int32Array;
  readonly wasteCount: Int32Array;
  readonly top: Int32Array;
  readonly dead: Int32Array;
  readonly used: Float64Array;
  readonly squares: Float64Array;
  readonly version: Float64Array;
  readonly left: Int32Array;
  leftArea: number;
  leftCount: number;
};

export class Undoing {
  private readonly saved: Float64Array; // scalars of saved sheets
  private readonly isSaved: Uint8Array;
  /** The sheets changed since `begin`. */
  readonly touched: Int32Array;
  touchedCount = 0;
  private readonly log: Int32Array; // types laid, and types taken out as their complements
  private logCount = 0;
  private savedArea = 0;
  private savedCount = 0;

  constructor(
    private readonly forest: Sheets,
    copies: number,
  ) {
    const count = forest.beds.length;
    this.saved = new Float64Array(3 * count);
    this.isSaved = new Uint8Array(count);
    this.touched = new Int32Array(count);
    this.log = new Int32Array(4 * copies + 16);
  }

  begin(): void {
    this.savedArea = this.forest.leftArea;
    this.savedCount = this.forest.leftCount;
    this.logCount = 0;
    for (let i = 0; i < this.touchedCount; i++) this.isSaved[this.touched[i]!] = 0;
    this.touchedCount = 0;
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
    this.copy(s, s + forest.beds.length);
    this.saved[3 * s] = forest.used[s]!;
    this.saved[3 * s + 1] = forest.squares[s]!;
    this.saved[3 * s + 2] = forest.version[s]!;
  }

  private copy(from: number, to: number): void {
    const { room, nodes, wastes, top, wasteCount, dead } = this.forest;
    const used = top[from]!;
    nodes.copyWithin(to * room * WORDS, from * room * WORDS, (from * room + used) * WORDS);
    const count = wasteCount[from]!;
    for (let i = 0; i < count; i++) wastes[to * room + i] = wastes[from * room + i]!;
    wasteCount[to] = count;
    top[to] = used;
    dead[to] = dead[from]!;
  }

  undo(): void {
    const { forest, saved } = this;
    for (let i = 0; i < this.touchedCount; i++) {
      const s = this.touched[i]!;
      this.copy(s + forest.beds.length, s);
      forest.used[s] = saved[3 * s]!;
      forest.squares[s] = saved[3 * s + 1]!;
      forest.version[s] = saved[3 * s + 2]!;
    }
    for (let i = 0; i < this.logCount; i++) {
      const entry = this.log[i]!;
      if (entry >= 0) forest.left[entry]! += 1;
      else forest.left[~entry]! -= 1;
    }
    forest.leftArea = this.savedArea;
    forest.leftCount = this.savedCount;
    this.logCount = 0;
  }
}

/** The best free place for one more copy of a type. */
import type { Forest } from "./forest.ts";
import { CUT_X, CUT_Y, KIND, LEVEL, NONE, PARENT, SHORT, SPARE, WORDS, X, Y } from "./nodes.ts";
import type { Random } from "./random.ts";
import type { Undoing } from "./undoing.ts";

const BLINK = 60; // one place in so many is overlooked, so that a step does not always end alike

/** What is left of the budget: so much for each leaf looked at, more for each change of a sheet, in proportion to the time it takes. */
export type Counter = { left: number };

// In hundredths of a microsecond of the machine that they were measured on, by least squares over jobs of all kinds: 5 % off on average.
const ASKING = 2; // for a sheet known already
const LOOKING = 2; // at a leaf
const FILLING = 33;

/**
 * What was found on a sheet is remembered for each type: of the sheets as they were when the step began, most of which no step
 * changes, in a list of those with a place; of those that the step changed beside it, until they change again.
 */
export class Places {
  sheet = NONE;
  leaf = NONE;
  pose = NONE;
  first = NONE;
  /** How many places there are in all. */
  options = 0;
  private readonly kept = new Int32Array(4); // nothing is allocated: it is asked millions of times
  private blink: number;
  private readonly undoing: Undoing;
  private readonly shorts: Float64Array; // sides of the types
  private readonly longs: Float64Array;
  private readonly beds: number;
  /** Whether there are layouts with more levels of cuts than are allowed. */
  private readonly isLimited: boolean;
  private readonly levels: Int32Array; // of cutting that each sheet may have
  private readonly seconds: Int32Array; // cuts that no sheet may begin with where the others follow; none for a sheet that may begin with either
  // For each type and sheet; the second half: as the step has left it.
  private readonly versions: Float64Array;
  private readonly losses: Float64Array;
  private readonly leaves: Int32Array;
  private readonly ways: Int32Array;
  private readonly counts: Int32Array;
  /** For each type: the sheets with a place, and those that are to be looked at again. */
  private readonly open: Lists;
  private readonly changed: Lists;
  private readonly seen: Int32Array; // so much of the forest's lasting changes

  constructor(
    private readonly forest: Forest,
    depth: number,
    private readonly random: Random | null, // null: no place is ever overlooked
    private readonly counter: Counter,
  ) {
    this.blink = random === null ? Number.POSITIVE_INFINITY : 1 + random.below(2 * BLINK);
    const types = forest.types.length;
    this.shorts = Float64Array.from(forest.types, ({ length, width }) => Math.min(length, width));
    this.longs = Float64Array.from(forest.types, ({ length, width }) => Math.max(length, width));
    this.beds = forest.beds.length;
    this.undoing = forest.undoing;
    this.levels = Int32Array.from(forest.beds, ({ levels = depth }) => Math.min(levels, depth, forest.mostLevels));
    this.isLimited = this.levels.some((levels) => levels < forest.mostLevels);
    this.seconds = Int32Array.from(forest.beds, ({ first }) =>
      first === undefined ? NONE : first === "x" ? CUT_Y : CUT_X,
    );
    const size = 2 * types * this.beds;
    this.versions = new Float64Array(size).fill(-1);
    this.losses = new Float64Array(size);
    this.leaves = new Int32Array(size);
    this.ways = new Int32Array(size);
    this.counts = new Int32Array(size);
    this.open = new Lists(types, this.beds);
    this.changed = new Lists(types, this.beds);
    this.seen = new Int32Array(types).fill(-1 - this.beds);
  }

  /** Finds the place that loses least of the squared waste: waste in one piece is worth most. False where there is none. */
  find(type: number): boolean {
    this.catchUp(type);
    const { versions, losses, counts, beds } = this;
    const { touched, touchedCount, isSaved } = this.undoing;
    const { version, widest } = this.forest;
    const short = this.shorts[type]!;
    const { list, count } = this.open;
    const row = type * beds;
    const own = row + this.forest.types.length * beds;
    let least = Number.POSITIVE_INFINITY;
    let options = 0;
    let best = NONE;
    const known = count[type]!;
    for (let i = 0; i < known; i++) {
      const s = list[row + i]!;
      if (isSaved[s] === 1) continue;
      options += counts[row + s]!;
      if (losses[row + s]! < least && !this.isOverlooked()) {
        least = losses[row + s]!;
        best = row + s;
      }
    }
    for (let i = 0; i < touchedCount; i++) {
      const s = touched[i]!;
      if (short > widest[s]!) continue;
      const at = own + s;
      if (versions[at] !== version[s]) this.scan(type, s, at);
      if (counts[at] === 0) continue;
      options += counts[at]!;
      if (losses[at]! < least && !this.isOverlooked()) {
        least = losses[at]!;
        best = at;
      }
    }
    this.counter.left -= ASKING * (known + touchedCount + 1);
    this.options = options;
    if (best === NONE) return false;
    this.sheet = best >= own ? best - own : best - row;
    this.leaf = this.leaves[best]!;
    this.pose = this.ways[best]! >> 1;
    this.first = this.ways[best]! & 1 ? CUT_X : CUT_Y;
    return true;
  }

  private isOverlooked(): boolean {
    if (--this.blink > 0) return false;
    this.blink = 1 + this.random!.below(2 * BLINK);
    return true;
  }

  /** Puts one copy in the place found last. */
  fill(): void {
    this.counter.left -= FILLING;
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
    this.counter.left -= FILLING;
    this.forest.insert(this.kept[0]!, this.kept[1]!, this.kept[2]!, this.kept[3]!);
  }

  /** Looks again at the sheets that earlier steps changed, as far as this step has not changed them. */
  private catchUp(type: number): void {
    const { open, changed, undoing, beds } = this;
    const { lasting, lastingEnd, isSaved } = undoing;
    const seen = this.seen[type]!;
    if (seen !== lastingEnd) {
      this.seen[type] = lastingEnd;
      if (lastingEnd - seen > beds) for (let s = 0; s < beds; s++) changed.add(type, s);
      else for (let i = seen; i < lastingEnd; i++) changed.add(type, lasting[i % beds]!);
    }
    for (let i = changed.count[type]! - 1; i >= 0; i--) {
      const s = changed.list[type * beds + i]!;
      if (isSaved[s] === 1) continue;
      changed.drop(type, s);
      const at = type * beds + s;
      const isWide = this.shorts[type]! <= this.forest.widest[s]!;
      if (isWide && this.versions[at] !== this.forest.version[s]) this.scan(type, s, at);
      if (isWide && this.counts[at]! > 0) open.add(type, s);
      else open.drop(type, s);
    }
  }

  /** Looks at the leaves of a sheet that are wide enough. */
  private scan(type: number, s: number, slot: number): void {
    const { forest, isLimited } = this;
    const depth = this.levels[s]!;
    const second = this.seconds[s]!;
    const { nodes, wastes, wasteCount, spare, bases, poseX, poseY } = forest;
    const short = this.shorts[type]!;
    const long = this.longs[type]!;
    const end = poseX[2 * type + 1] === 0 ? 2 * type + 1 : 2 * type + 2;
    let least = Number.POSITIVE_INFINITY;
    let options = 0;
    let best = NONE;
    let way = 0;
    const base = bases[s]!;
    const last = base + wasteCount[s]!;
    let i = base;
    for (; i < last; i++) {
      if (short > spare[i * SPARE + SHORT]!) break;
      const freeX = spare[i * SPARE + X]!;
      const freeY = spare[i * SPARE + Y]!;
      if (long > freeX && long > freeY) continue;
      for (let pose = 2 * type; pose < end; pose++) {
        const x = poseX[pose]!;
        const y = poseY[pose]!;
        if (x > freeX || y > freeY) continue;
        const restX = freeX - x;
        const restY = freeY - y;
        let mayX = restX > 0 || restY === 0;
        let mayY = restY > 0;
        if (isLimited || second !== NONE) {
          const at = (base + wastes[i]!) * WORDS;
          const parent = nodes[at + PARENT]!;
          const around = parent === NONE ? forest.bedKind(s) : nodes[(base + parent) * WORDS + KIND]!;
          const levels = depth - nodes[at + LEVEL]! - (restX > 0 && restY > 0 ? 1 : 0);
          mayX &&= levels >= (restX === 0 || around === CUT_X ? 0 : 1);
          mayY &&= levels >= (around === CUT_Y ? 0 : 1);
          const isFree = around === NONE;
          const isOther = second !== NONE && (isFree || (nodes[at + LEVEL]! <= 1 && around === second));
          // Among pieces that are cut along the other axis first, or as the first of them, a part takes the whole of its strip.
          if (isOther && (second === CUT_X ? restY : restX) > 0) {
            mayX &&= isFree && second === CUT_Y;
            mayY &&= isFree && second === CUT_X;
          }
        }
        const whole = freeX * freeY;
        if (mayX) {
          const beside = restX * freeY;
          const above = x * restY;
          const loss = whole * whole - beside * beside - above * above;
          options += 1;
          if (loss < least) {
            least = loss;
            best = i;
            way = 2 * pose + 1;
          }
        }
        if (mayY) {
          const beside = restX * y;
          const above = freeX * restY;
          const loss = whole * whole - beside * beside - above * above;
          options += 1;
          if (loss < least) {
            least = loss;
            best = i;
            way = 2 * pose;
          }
        }
      }
    }
    this.versions[slot] = forest.version[s]!;
    this.losses[slot] = least;
    this.leaves[slot] = best === NONE ? NONE : wastes[best]!;
    this.ways[slot] = way;
    this.counts[slot] = options;
    this.counter.left -= LOOKING * (i - base + 1);
  }
}

/** A list of sheets for each type, each sheet once, in no order of its own. */
class Lists {
  readonly list: Int32Array;
  readonly count: Int32Array;
  private readonly places: Int32Array;

  constructor(
    types: number,
    private readonly beds: number,
  ) {
    this.list = new Int32Array(types * beds);
    this.count = new Int32Array(types);
    this.places = new Int32Array(types * beds).fill(NONE);
  }

  add(type: number, s: number): void {
    const row = type * this.beds;
    if (this.places[row + s] !== NONE) return;
    const count = this.count[type]!;
    this.list[row + count] = s;
    this.places[row + s] = count;
    this.count[type] = count + 1;
  }

  drop(type: number, s: number): void {
    const row = type * this.beds;
    const place = this.places[row + s]!;
    if (place === NONE) return;
    const count = this.count[type]! - 1;
    const last = this.list[row + count]!;
    this.list[row + place] = last;
    this.places[row + last] = place;
    this.places[row + s] = NONE;
    this.count[type] = count;
  }
}

/**
 * Where the sheets of a forest lie: a block of nodes for each in flat arrays of numbers, its waste listed beside, and what is left over.
 */
import type { LayoutItem } from "./engine.ts";
import { posesOf } from "./engine.ts";
import {
  DEAD,
  FIRST,
  KIND,
  LEVEL,
  NEXT,
  NONE,
  PARENT,
  SHORT,
  SIZES,
  SPARE,
  WASTE,
  WASTE_AT,
  WORDS,
  X,
  Y,
} from "./nodes.ts";
import type { Axis } from "./tree.ts";
import { Undoing } from "./undoing.ts";
import type { Nm } from "./units.ts";

/**
 * A piece to fill. `within`: it is itself a child of a cut along that axis, the rest of its sheet, `beyond` along it, being kept
 * free. `levels`: of cutting, where it is to have fewer than the search allows. `first`: the axis that its first cuts are to go along, where
 * there are cuts along both.
 */
export type Bed = {
  length: Nm;
  width: Nm;
  within: Axis | null;
  beyond?: Nm;
  levels?: number;
  first?: Axis | undefined;
};

export class Blocks {
  readonly beds: readonly Bed[];
  readonly types: readonly LayoutItem[];
  /** Two for each type: as it is, and turned; a pose that is not allowed has no size. */
  readonly poseX: Float64Array;
  readonly poseY: Float64Array;
  readonly areas: Float64Array; // of the types, in largest beds
  /** Copies that lie on no sheet. */
  readonly left: Int32Array;
  leftArea = 0; // in largest beds
  leftCount = 0;
  readonly whole: number; // area of the largest bed
  private readonly share: number; // of it, that a unit of area is
  readonly used: Float64Array; // area of the parts on each sheet, in largest beds
  readonly widest: Float64Array; // the longest short side of its waste
  readonly squares: Float64Array; // sum of the squares of its waste, in largest beds
  readonly bedAreas: Float64Array;
  readonly room: number; // nodes that a sheet's block holds
  /** Where the block of each sheet begins; the second half: of its saved state. */
  readonly bases: Int32Array;
  /** The types with copies left over, in no order. */
  readonly out: Int32Array;
  outCount = 0;
  private readonly outAt: Int32Array;
  readonly nodes: Int32Array;
  readonly sizes: Float64Array; // of the nodes
  readonly wastes: Int32Array; // nodes that are waste
  readonly spare: Float64Array; // their sizes once more, side by side: these are looked at most
  readonly wasteCount: Int32Array;
  /** Another number after every change of a sheet; the old one again when the change is taken back. */
  readonly version: Float64Array;
  protected versions = 0;
  readonly top: Int32Array; // nodes ever used in a block
  readonly dead: Int32Array; // first of the dead ones
  /** What was changed since `begin`. */
  readonly undoing: Undoing;

  /** Empty sheets, every copy left over. */
  constructor(types: readonly LayoutItem[], beds: readonly Bed[]) {
    this.beds = beds;
    this.types = types;
    const copies = types.reduce((sum, type) => sum + type.copies, 0);
    this.whole = Math.max(...beds.map((bed) => bed.length * bed.width));
    this.share = 1 / this.whole;
    this.bedAreas = Float64Array.from(beds, (bed) => (bed.length * bed.width) / this.whole);
    this.areas = Float64Array.from(types, (type) => (type.length * type.width) / this.whole);
    this.poseX = new Float64Array(2 * types.length);
    this.poseY = new Float64Array(2 * types.length);
    types.forEach((type, i) => {
      for (const [turned, length, width] of posesOf(type)) {
        this.poseX[2 * i + Number(turned)] = length;
        this.poseY[2 * i + Number(turned)] = width;
      }
    });
    this.left = Int32Array.from(types, (type) => type.copies);
    this.out = new Int32Array(types.length);
    this.outAt = new Int32Array(types.length);
    for (const [type, { copies: own }] of types.entries()) {
      this.outAt[type] = this.outCount;
      if (own > 0) this.out[this.outCount++] = type;
    }
    this.leftCount = copies;
    this.leftArea = types.reduce((sum, type, i) => sum + type.copies * this.areas[i]!, 0);
    this.room = 4 * Math.min(copies, this.mostOnOne()) + 8;
    const count = beds.length;
    this.bases = Int32Array.from({ length: 2 * count }, (_, s) => s * this.room);
    this.nodes = new Int32Array(2 * count * this.room * WORDS); // the second half: saved sheets
    this.sizes = new Float64Array(2 * count * this.room * SIZES);
    this.wastes = new Int32Array(2 * count * this.room);
    this.spare = new Float64Array(2 * count * this.room * SPARE);
    this.wasteCount = new Int32Array(2 * count);
    this.top = new Int32Array(2 * count);
    this.dead = new Int32Array(2 * count).fill(NONE);
    this.version = new Float64Array(count);
    this.used = new Float64Array(count);
    this.squares = new Float64Array(count);
    this.widest = new Float64Array(count);
    this.undoing = new Undoing(this, copies);
    beds.forEach((bed, s) => {
      this.top[s] = 1;
      this.write(s, 0, WASTE, bed.length, bed.width, NONE, bed.within === null ? 0 : 1);
      this.addWaste(s, 0);
    });
  }

  /** No layout has more levels of cuts: each part adds two at most. */
  get mostLevels(): number {
    return this.room / 2;
  }

  /** No sheet holds more of the smallest parts than its area allows. */
  private mostOnOne(): number {
    const each = this.types.flatMap((type, i) => Array.from({ length: type.copies }, () => this.areas[i]!));
    let room = 1 + 1e-9;
    let count = 0;
    for (const area of each.sort((a, b) => a - b)) {
      room -= area;
      if (room >= 0) count += 1;
    }
    return count;
  }

  protected write(s: number, node: number, kind: number, x: Nm, y: Nm, parent: number, level: number): void {
    const at = (this.bases[s]! + node) * WORDS;
    const { nodes, sizes } = this;
    const size = (this.bases[s]! + node) * SIZES;
    sizes[size + X] = x;
    sizes[size + Y] = y;
    nodes[at + KIND] = kind;
    nodes[at + PARENT] = parent;
    nodes[at + FIRST] = NONE;
    nodes[at + NEXT] = NONE;
    nodes[at + WASTE_AT] = NONE;
    nodes[at + LEVEL] = level;
  }

  protected fresh(s: number, kind: number, x: Nm, y: Nm, parent: number, level: number): number {
    let node = this.dead[s]!;
    if (node !== NONE) this.dead[s] = this.nodes[(this.bases[s]! + node) * WORDS + NEXT]!;
    else {
      node = this.top[s]!;
      this.top[s] = node + 1;
    }
    this.write(s, node, kind, x, y, parent, level);
    return node;
  }

  protected bury(s: number, node: number): void {
    const at = (this.bases[s]! + node) * WORDS;
    this.nodes[at + KIND] = DEAD;
    this.nodes[at + NEXT] = this.dead[s]!;
    this.dead[s] = node;
  }

  /** A node that has become waste is listed, those with the longest short side first, and made known to its parent. */
  protected addWaste(s: number, node: number): void {
    const base = this.bases[s]!;
    const { nodes, sizes, wastes, spare } = this;
    const x = sizes[(base + node) * SIZES + X]!;
    const y = sizes[(base + node) * SIZES + Y]!;
    const short = Math.min(x, y);
    let place = this.wasteCount[s]!;
    this.wasteCount[s] = place + 1;
    for (; place > 0; place--) {
      const at = (base + place - 1) * SPARE;
      if (spare[at + SHORT]! >= short) break;
      this.moveWaste(base, place - 1, place);
    }
    const at = (base + place) * SPARE;
    wastes[base + place] = node;
    spare[at + X] = x;
    spare[at + Y] = y;
    spare[at + SHORT] = short;
    if (place === 0) this.widest[s] = short;
    nodes[(base + node) * WORDS + WASTE_AT] = place;
    const parent = nodes[(base + node) * WORDS + PARENT]!;
    if (parent !== NONE) nodes[(base + parent) * WORDS + WASTE_AT] = node;
    const area = x * y * this.share;
    this.squares[s]! += area * area;
  }

  private moveWaste(base: number, from: number, to: number): void {
    const { nodes, wastes, spare } = this;
    const node = wastes[base + from]!;
    const own = (base + from) * SPARE;
    const other = (base + to) * SPARE;
    wastes[base + to] = node;
    spare[other + X] = spare[own + X]!;
    spare[other + Y] = spare[own + Y]!;
    spare[other + SHORT] = spare[own + SHORT]!;
    nodes[(base + node) * WORDS + WASTE_AT] = to;
  }

  protected dropWaste(s: number, node: number): void {
    const base = this.bases[s]!;
    const at = (base + node) * WORDS;
    const { nodes, spare } = this;
    const count = this.wasteCount[s]! - 1;
    const place = nodes[at + WASTE_AT]!;
    const area = spare[(base + place) * SPARE + X]! * spare[(base + place) * SPARE + Y]! * this.share;
    this.squares[s]! -= area * area;
    for (let i = place; i < count; i++) this.moveWaste(base, i + 1, i);
    this.wasteCount[s] = count;
    if (place === 0) this.widest[s] = count > 0 ? spare[base * SPARE + SHORT]! : 0;
    const parent = nodes[at + PARENT]!;
    if (parent !== NONE) nodes[(base + parent) * WORDS + WASTE_AT] = NONE;
    nodes[at + WASTE_AT] = NONE;
  }

  protected adopt(s: number, parent: number, child: number): void {
    const base = this.bases[s]!;
    this.nodes[(base + child) * WORDS + NEXT] = this.nodes[(base + parent) * WORDS + FIRST]!;
    this.nodes[(base + parent) * WORDS + FIRST] = child;
  }

  protected disown(s: number, parent: number, child: number): void {
    const base = this.bases[s]!;
    const { nodes } = this;
    let link = (base + parent) * WORDS + FIRST;
    while (nodes[link] !== child) link = (base + nodes[link]!) * WORDS + NEXT;
    nodes[link] = nodes[(base + child) * WORDS + NEXT]!;
  }

  /** One copy less is left over. */
  take(type: number): void {
    this.leftCount -= 1;
    const left = this.left[type]! - 1;
    this.left[type] = left;
    if (left > 0) return;
    const last = this.out[--this.outCount]!;
    const place = this.outAt[type]!;
    this.out[place] = last;
    this.outAt[last] = place;
  }

  /** One copy more is left over. */
  putBack(type: number): void {
    this.leftCount += 1;
    const left = this.left[type]!;
    this.left[type] = left + 1;
    if (left > 0) return;
    this.outAt[type] = this.outCount;
    this.out[this.outCount++] = type;
  }
}

/**
 * Sheets being filled, as trees of cuts in one flat array of numbers: a search changes a few of them in every step and mostly
 * takes the change back, so that copying a sheet has to cost next to nothing.
 *
 * A node is waste, a part, or a cut with children along one axis. The directions of cuts alternate from level to level. All waste
 * among the children of one cut is one node, for children may change places. So a node's level never changes while it lives.
 */
import type { LayoutItem } from "./engine.ts";
import { posesOf } from "./engine.ts";
import {
  CUT_X,
  CUT_Y,
  DEAD,
  FIRST,
  KIND,
  LEVEL,
  NEXT,
  NONE,
  type Numbers,
  PARENT,
  WASTE,
  WASTE_AT,
  WORDS,
  X,
  Y,
} from "./nodes.ts";
import type { Axis, Tree } from "./tree.ts";
import { Undoing } from "./undoing.ts";
import type { Nm } from "./units.ts";

/**
 * A piece to fill. `within`: it is itself a child of a cut along that axis, the rest of its sheet, `beyond` along it, being kept
 * free.
 */
export type Bed = { length: Nm; width: Nm; within: Axis | null; beyond?: Nm };

const MOST_INT = 2 ** 30;

export class Forest {
  readonly beds: readonly Bed[];
  readonly types: readonly LayoutItem[];
  /** Two for each type: as it is, and turned; a pose that is not allowed has no size. */
  readonly poseX: Numbers;
  readonly poseY: Numbers;
  readonly areas: Float64Array; // of the types, in largest beds
  /** Copies that lie on no sheet. */
  readonly left: Int32Array;
  leftArea = 0; // in largest beds
  leftCount = 0;
  readonly whole: number; // area of the largest bed
  readonly used: Float64Array; // area of the parts on each sheet, in largest beds
  readonly squares: Float64Array; // sum of the squares of its waste, in largest beds
  readonly bedAreas: Float64Array;
  readonly room: number; // nodes that a sheet's block holds
  readonly nodes: Numbers;
  readonly wastes: Int32Array; // nodes that are waste
  readonly wasteCount: Int32Array;
  /** Another number after every change of a sheet; the old one again when the change is taken back. */
  readonly version: Float64Array;
  private versions = 0;
  readonly top: Int32Array; // nodes ever used in a block
  readonly dead: Int32Array; // first of the dead ones
  /** What was changed since `begin`. */
  readonly undoing: Undoing;

  /** Empty sheets, every copy left over. */
  constructor(types: readonly LayoutItem[], beds: readonly Bed[]) {
    this.beds = beds;
    this.types = types;
    const copies = types.reduce((sum, type) => sum + type.copies, 0);
    const largest = Math.max(
      ...beds.flatMap((bed) => [bed.length, bed.width]),
      ...types.flatMap((t) => [t.length, t.width]),
    );
    const numbers = (count: number): Numbers => (largest < MOST_INT ? new Int32Array(count) : new Float64Array(count));
    this.whole = Math.max(...beds.map((bed) => bed.length * bed.width));
    this.bedAreas = Float64Array.from(beds, (bed) => (bed.length * bed.width) / this.whole);
    this.areas = Float64Array.from(types, (type) => (type.length * type.width) / this.whole);
    this.poseX = numbers(2 * types.length).fill(0);
    this.poseY = numbers(2 * types.length).fill(0);
    types.forEach((type, i) => {
      for (const [turned, length, width] of posesOf(type)) {
        this.poseX[2 * i + Number(turned)] = length;
        this.poseY[2 * i + Number(turned)] = width;
      }
    });
    this.left = Int32Array.from(types, (type) => type.copies);
    this.leftCount = copies;
    this.leftArea = types.reduce((sum, type, i) => sum + type.copies * this.areas[i]!, 0);
    this.room = 4 * Math.min(copies, this.mostOnOne()) + 8;
    const count = beds.length;
    this.nodes = numbers(2 * count * this.room * WORDS); // the second half: saved sheets
    this.wastes = new Int32Array(2 * count * this.room);
    this.wasteCount = new Int32Array(2 * count);
    this.top = new Int32Array(2 * count);
    this.dead = new Int32Array(2 * count).fill(NONE);
    this.version = new Float64Array(count);
    this.used = new Float64Array(count);
    this.squares = new Float64Array(count);
    this.undoing = new Undoing(this, copies);
    beds.forEach((bed, s) => {
      this.top[s] = 1;
      this.write(s, 0, WASTE, bed.length, bed.width, NONE, bed.within === null ? 0 : 1);
      this.addWaste(s, 0);
    });
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

  private write(s: number, node: number, kind: number, x: Nm, y: Nm, parent: number, level: number): void {
    const at = (s * this.room + node) * WORDS;
    const { nodes } = this;
    nodes[at + KIND] = kind;
    nodes[at + X] = x;
    nodes[at + Y] = y;
    nodes[at + PARENT] = parent;
    nodes[at + FIRST] = NONE;
    nodes[at + NEXT] = NONE;
    nodes[at + WASTE_AT] = NONE;
    nodes[at + LEVEL] = level;
  }

  private fresh(s: number, kind: number, x: Nm, y: Nm, parent: number, level: number): number {
    let node = this.dead[s]!;
    if (node !== NONE) this.dead[s] = this.nodes[(s * this.room + node) * WORDS + NEXT]!;
    else {
      node = this.top[s]!;
      this.top[s] = node + 1;
    }
    this.write(s, node, kind, x, y, parent, level);
    return node;
  }

  private bury(s: number, node: number): void {
    const at = (s * this.room + node) * WORDS;
    this.nodes[at + KIND] = DEAD;
    this.nodes[at + NEXT] = this.dead[s]!;
    this.dead[s] = node;
  }

  /** A node that has become waste is listed, and made known to its parent. */
  private addWaste(s: number, node: number): void {
    const at = (s * this.room + node) * WORDS;
    const { nodes } = this;
    const count = this.wasteCount[s]!;
    this.wastes[s * this.room + count] = node;
    this.wasteCount[s] = count + 1;
    nodes[at + WASTE_AT] = count;
    const parent = nodes[at + PARENT]!;
    if (parent !== NONE) nodes[(s * this.room + parent) * WORDS + WASTE_AT] = node;
    const area = (nodes[at + X]! * nodes[at + Y]!) / this.whole;
    this.squares[s]! += area * area;
  }

  private dropWaste(s: number, node: number): void {
    const base = s * this.room;
    const at = (base + node) * WORDS;
    const { nodes } = this;
    const count = this.wasteCount[s]! - 1;
    const place = nodes[at + WASTE_AT]!;
    const last = this.wastes[base + count]!;
    this.wastes[base + place] = last;
    nodes[(base + last) * WORDS + WASTE_AT] = place;
    this.wasteCount[s] = count;
    const parent = nodes[at + PARENT]!;
    if (parent !== NONE) nodes[(base + parent) * WORDS + WASTE_AT] = NONE;
    const area = (nodes[at + X]! * nodes[at + Y]!) / this.whole;
    this.squares[s]! -= area * area;
    nodes[at + WASTE_AT] = NONE;
  }

  private adopt(s: number, parent: number, child: number): void {
    const base = s * this.room;
    this.nodes[(base + child) * WORDS + NEXT] = this.nodes[(base + parent) * WORDS + FIRST]!;
    this.nodes[(base + parent) * WORDS + FIRST] = child;
  }

  private disown(s: number, parent: number, child: number): void {
    const base = s * this.room;
    const { nodes } = this;
    let link = (base + parent) * WORDS + FIRST;
    while (nodes[link] !== child) link = (base + nodes[link]!) * WORDS + NEXT;
    nodes[link] = nodes[(base + child) * WORDS + NEXT]!;
  }

  /** Puts one copy in a leaf. `first` matters only where the part is cut free along both axes. */
  insert(s: number, leaf: number, pose: number, first: number): void {
    this.undoing.save(s);
    this.version[s] = ++this.versions;
    const base = s * this.room;
    const { nodes } = this;
    const at = (base + leaf) * WORDS;
    const x = this.poseX[pose]!;
    const y = this.poseY[pose]!;
    const restX = nodes[at + X]! - x;
    const restY = nodes[at + Y]! - y;
    const type = pose >> 1;
    this.left[type]! -= 1;
    this.leftCount -= 1;
    this.leftArea -= this.areas[type]!;
    this.used[s]! += this.areas[type]!;
    this.undoing.note(type);
    this.dropWaste(s, leaf);
    if (restX === 0 && restY === 0) {
      nodes[at + KIND] = pose;
      return;
    }
    const outer = restX === 0 ? CUT_Y : restY === 0 ? CUT_X : first;
    const parent = nodes[at + PARENT]!;
    const level = nodes[at + LEVEL]!;
    const around = parent === NONE ? this.bedKind(s) : nodes[(base + parent) * WORDS + KIND]!;
    // The strip across the outer cut that holds the part.
    const stripX = outer === CUT_X ? x : nodes[at + X]!;
    const stripY = outer === CUT_Y ? y : nodes[at + Y]!;
    const inner = outer === CUT_X ? restY : restX;
    let strip: number;
    if (parent !== NONE && around === outer) {
      strip = this.fresh(s, pose, stripX, stripY, parent, level);
      this.adopt(s, parent, strip);
      // The leaf stays as what remains of it beside the strip.
      if (outer === CUT_X) nodes[at + X] = restX;
      else nodes[at + Y] = restY;
      this.addWaste(s, leaf);
    } else {
      nodes[at + KIND] = outer;
      const below = around === outer ? level : level + 1;
      strip = this.fresh(s, pose, stripX, stripY, leaf, below);
      this.adopt(s, leaf, strip);
      const rest = this.fresh(
        s,
        WASTE,
        outer === CUT_X ? restX : stripX,
        outer === CUT_Y ? restY : stripY,
        leaf,
        below,
      );
      this.adopt(s, leaf, rest);
      this.addWaste(s, rest);
    }
    if (inner > 0) this.divide(s, strip, pose, x, y, outer === CUT_X ? CUT_Y : CUT_X);
  }

  /** A strip becomes a cut of the part and the waste beside it. */
  private divide(s: number, strip: number, pose: number, x: Nm, y: Nm, kind: number): void {
    const { nodes } = this;
    const at = (s * this.room + strip) * WORDS;
    nodes[at + KIND] = kind;
    const level = nodes[at + LEVEL]! + 1;
    const part = this.fresh(s, pose, x, y, strip, level);
    const restX = kind === CUT_X ? nodes[at + X]! - x : x;
    const restY = kind === CUT_Y ? nodes[at + Y]! - y : y;
    const rest = this.fresh(s, WASTE, restX, restY, strip, level);
    this.adopt(s, strip, part);
    this.adopt(s, strip, rest);
    this.addWaste(s, rest);
  }

  bedKind(s: number): number {
    const { within } = this.beds[s]!;
    return within === "x" ? CUT_X : within === "y" ? CUT_Y : NONE;
  }

  /** Takes a node out with all that is in it; its place joins the waste beside it. */
  remove(s: number, node: number): void {
    this.undoing.save(s);
    this.version[s] = ++this.versions;
    this.empty(s, node);
    const base = s * this.room;
    const { nodes } = this;
    let now = node;
    for (;;) {
      const at = (base + now) * WORDS;
      const parent = nodes[at + PARENT]!;
      const beside = parent === NONE ? NONE : nodes[(base + parent) * WORDS + WASTE_AT]!;
      if (beside === NONE) {
        nodes[at + KIND] = WASTE;
        nodes[at + FIRST] = NONE;
        this.addWaste(s, now);
        return;
      }
      this.dropWaste(s, beside);
      const other = (base + beside) * WORDS;
      if (nodes[(base + parent) * WORDS + KIND] === CUT_X) nodes[other + X]! += nodes[at + X]!;
      else nodes[other + Y]! += nodes[at + Y]!;
      this.disown(s, parent, now);
      this.bury(s, now);
      const isAlone = nodes[(base + parent) * WORDS + FIRST] === beside && nodes[other + NEXT] === NONE;
      if (!isAlone) {
        this.addWaste(s, beside);
        return;
      }
      this.bury(s, beside);
      now = parent;
    }
  }

  /** Frees all below a node; the node itself stays. */
  private empty(s: number, node: number): void {
    const base = s * this.room;
    const { nodes } = this;
    const kind = nodes[(base + node) * WORDS + KIND]!;
    if (kind >= 0) {
      const type = kind >> 1;
      this.left[type]! += 1;
      this.leftCount += 1;
      this.leftArea += this.areas[type]!;
      this.used[s]! -= this.areas[type]!;
      this.undoing.note(~type);
      return;
    }
    if (kind === WASTE) {
      this.dropWaste(s, node);
      return;
    }
    let child = nodes[(base + node) * WORDS + FIRST]!;
    while (child !== NONE) {
      const next = nodes[(base + child) * WORDS + NEXT]!;
      this.empty(s, child);
      this.bury(s, child);
      child = next;
    }
    nodes[(base + node) * WORDS + WASTE_AT] = NONE;
  }

  /** Fills an empty sheet as in the tree, which is as large as its bed. */
  plant(s: number, tree: Tree): void {
    this.undoing.save(s);
    this.version[s] = ++this.versions;
    this.dropWaste(s, 0);
    this.grow(s, 0, tree);
  }

  private grow(s: number, node: number, tree: Tree): void {
    const at = (s * this.room + node) * WORDS;
    if (tree.kind === "waste") this.addWaste(s, node);
    else if (tree.kind === "part") {
      this.nodes[at + KIND] = 2 * tree.item + Number(tree.turned);
      this.left[tree.item]! -= 1;
      this.leftCount -= 1;
      this.leftArea -= this.areas[tree.item]!;
      this.used[s]! += this.areas[tree.item]!;
    } else {
      const kind = tree.across === "x" ? CUT_X : CUT_Y;
      this.nodes[at + KIND] = kind;
      const isBeds = node === 0 && kind === this.bedKind(s);
      const level = this.nodes[at + LEVEL]! + (isBeds ? 0 : 1);
      for (const child of tree.children) {
        const own = this.fresh(s, WASTE, child.length, child.width, node, level);
        this.adopt(s, node, own);
        this.grow(s, own, child);
      }
    }
  }

  /** A node of the sheet that is not waste, drawn by its number; none where the number hits no such node. */
  nodeAt(s: number, drawn: number): number {
    const kind = this.nodes[(s * this.room + drawn) * WORDS + KIND]!;
    return kind === WASTE || kind === DEAD ? NONE : drawn;
  }

  nodesIn(s: number): number {
    return this.top[s]!;
  }

  begin(): void {
    this.undoing.begin();
  }

  /** Takes back all since `begin`. */
  undo(): void {
    this.undoing.undo();
  }
}

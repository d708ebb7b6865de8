/**
 * Sheets being filled, as trees of cuts in one flat array of numbers: a search changes a few of them in every step and mostly
 * takes the change back, so that copying a sheet has to cost next to nothing.
 *
 * A node is waste, a part, or a cut with children along one axis. The directions of cuts alternate from level to level. All waste
 * among the children of one cut is one node, for children may change places. So a node's level never changes while it lives.
 */
import { Blocks } from "./blocks.ts";
import {
  CUT_X,
  CUT_Y,
  DEAD,
  FIRST,
  KIND,
  LEVEL,
  NEXT,
  NONE,
  PARENT,
  SIZES,
  WASTE,
  WASTE_AT,
  WORDS,
  X,
  Y,
} from "./nodes.ts";
import type { Tree } from "./tree.ts";
import type { Nm } from "./units.ts";

export class Forest extends Blocks {
  /** Puts one copy in a leaf. `first` matters only where the part is cut free along both axes. */
  insert(s: number, leaf: number, pose: number, first: number): void {
    this.undoing.save(s);
    this.version[s] = ++this.versions;
    const base = this.bases[s]!;
    const { nodes, sizes } = this;
    const at = (base + leaf) * WORDS;
    const size = (base + leaf) * SIZES;
    const x = this.poseX[pose]!;
    const y = this.poseY[pose]!;
    const freeX = sizes[size + X]!;
    const freeY = sizes[size + Y]!;
    const restX = freeX - x;
    const restY = freeY - y;
    const type = pose >> 1;
    this.take(type);
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
    const stripX = outer === CUT_X ? x : freeX;
    const stripY = outer === CUT_Y ? y : freeY;
    const inner = outer === CUT_X ? restY : restX;
    let strip: number;
    if (parent !== NONE && around === outer) {
      strip = this.fresh(s, pose, stripX, stripY, parent, level);
      this.adopt(s, parent, strip);
      // The leaf stays as what remains of it beside the strip.
      if (outer === CUT_X) sizes[size + X] = restX;
      else sizes[size + Y] = restY;
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
    const at = (this.bases[s]! + strip) * WORDS;
    nodes[at + KIND] = kind;
    const level = nodes[at + LEVEL]! + 1;
    const part = this.fresh(s, pose, x, y, strip, level);
    const size = (this.bases[s]! + strip) * SIZES;
    const restX = kind === CUT_X ? this.sizes[size + X]! - x : x;
    const restY = kind === CUT_Y ? this.sizes[size + Y]! - y : y;
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
    const base = this.bases[s]!;
    const { nodes, sizes } = this;
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
      const along = nodes[(base + parent) * WORDS + KIND] === CUT_X ? X : Y;
      sizes[(base + beside) * SIZES + along]! += sizes[(base + now) * SIZES + along]!;
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
    const base = this.bases[s]!;
    const { nodes } = this;
    const kind = nodes[(base + node) * WORDS + KIND]!;
    if (kind >= 0) {
      const type = kind >> 1;
      this.putBack(type);
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
    const at = (this.bases[s]! + node) * WORDS;
    if (tree.kind === "waste") this.addWaste(s, node);
    else if (tree.kind === "part") {
      this.nodes[at + KIND] = 2 * tree.item + Number(tree.turned);
      this.take(tree.item);
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
    const kind = this.nodes[(this.bases[s]! + drawn) * WORDS + KIND]!;
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

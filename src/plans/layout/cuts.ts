/** From a tree to the numbered cuts of one sheet, its parts where they lie, and its offcuts. */
import type { Axis, Cut, Tree } from "./tree.ts";
import { extent, nodesOf } from "./tree.ts";
import type { Nm } from "./units.ts";

type Edge = "x0" | "x1" | "y0" | "y1";

/** A rectangle, real size, kerfs left out. */
type Spot = { x: Nm; y: Nm; length: Nm; width: Nm };

type NumberedCut = {
  n: number;
  piece: string;
  makes: string[]; // low side first
  across: Axis;
  at: Nm; // the kerf fills at to at + kerf
  from: Nm;
  to: Nm;
  fence: Nm;
  reference: Edge;
};

export type CutSheet = {
  parts: (Spot & { id: string; turned: boolean })[];
  cuts: NumberedCut[];
  offcuts: (Spot & { id: string })[];
};

/** `letter`: what its pieces are named by, of a sheet "S", of a board "B". */
export type Blank = {
  n: number;
  letter: "S" | "B";
  length: Nm;
  width: Nm;
  trim: Nm;
  kerf: Nm;
  /** The least that is worth keeping; null: as is usual. */
  keep: { length: Nm; width: Nm } | null;
};

/** Smaller leftovers are waste: common practice, no source. */
const USEFUL = { S: { least: 150e6, most: 300e6 }, B: { least: 40e6, most: 300e6 } };
export const isUseful = (
  spot: Pick<Spot, "length" | "width">,
  { letter, keep }: Pick<Blank, "letter" | "keep">,
): boolean => {
  const { least, most } = keep === null ? USEFUL[letter] : { least: keep.width, most: keep.length };
  return Math.min(spot.length, spot.width) >= least && Math.max(spot.length, spot.width) >= most;
};

/** What is left over and thrown away, among the pieces that a cut makes. */
const WASTE = "waste";

/** Whether a part reaches right across a piece: then the cut that frees the piece sizes the part, and must not be left to what remains. */
const isSizing = (tree: Tree, axis: Axis): boolean => {
  for (const node of nodesOf(tree)) if (node.kind === "part" && extent(node, axis) === extent(tree, axis)) return true;
  return false;
};

/**
 * Pieces that a part reaches across first, then wide before narrow, equal ones beside each other, waste last: parts are sized by a fence
 * and not by what remains, the fence moves least, and a spoiled piece can become a smaller one.
 */
export function tidied(tree: Tree): Tree {
  if (tree.kind !== "cut") return tree;
  const children = tree.children.map(tidied);
  if (tree.ordered === true) return { ...tree, children };
  const keyed = children.map((child) => ({ child, shape: shapeOf(child) }));
  keyed.sort((a, b) => {
    const wasteLast = Number(a.child.kind === "waste") - Number(b.child.kind === "waste");
    const sizing = Number(isSizing(b.child, tree.across)) - Number(isSizing(a.child, tree.across));
    const wide = extent(b.child, tree.across) - extent(a.child, tree.across);
    return wasteLast || sizing || wide || (a.shape < b.shape ? -1 : a.shape > b.shape ? 1 : 0);
  });
  return { ...tree, children: keyed.map(({ child }) => child) };
}

/** Equal for trees that are cut alike. */
export const shapeOf = (tree: Tree): string =>
  tree.kind === "cut"
    ? `${tree.across}${tree.length},${tree.width}(${tree.children.map(shapeOf).join(" ")})`
    : `${tree.kind === "part" ? `p${String(tree.item).padStart(4, "0")}${tree.turned ? "t" : ""}` : "w"}${tree.length},${tree.width}`;

/** A piece still to be divided: the children of its cut from `next` on, `low` being its fresh edge across the cut. */
type Job = { piece: string; node: Cut; next: number; low: Nm; x: Nm; y: Nm; names: string[] };

/** `idOf` gives the piece that is cut as a copy of an item; it is asked once for each copy, in the order of the places on the sheet. */
export function cutSheet(tree: Tree, blank: Blank, idOf: (item: number) => string): CutSheet {
  const { kerf, trim } = blank;
  const name = `${blank.letter}${blank.n}`;
  const result: CutSheet = { parts: [], cuts: skims(blank, name), offcuts: [] };
  let pieces = 0;
  const add = (cut: Omit<NumberedCut, "n">): void => {
    result.cuts.push({ n: result.cuts.length + 1, ...cut });
  };

  /** Names a subtree and notes where it lies; a cut piece is queued for the next level. */
  const settle = (node: Tree, x: Nm, y: Nm, queue: Job[], own?: string): string => {
    const spot = { x, y, length: node.length - kerf, width: node.width - kerf };
    if (node.kind === "part") {
      const id = idOf(node.item);
      result.parts.push({ id, ...spot, turned: node.turned });
      return id;
    }
    if (node.kind === "waste") {
      if (node.isDefect === true || !isUseful(spot, blank)) return WASTE;
      const id = `${name}-O${result.offcuts.length + 1}`;
      result.offcuts.push({ id, ...spot });
      return id;
    }
    if (!own) pieces += 1;
    const piece = own ?? `${name}.${pieces}`;
    queue.push({ piece, node, next: 0, low: node.across === "x" ? x : y, x, y, names: [] });
    return piece;
  };

  /** The next cut of a piece: its first child cut from the rest, which keeps the piece's name until one child is left of it. */
  const advance = (job: Job): void => {
    const { node, piece, names } = job;
    const { across, children } = node;
    const child = children[job.next]!;
    const at = job.low + extent(child, across) - kerf;
    const rest = children.slice(job.next + 1);
    const high = (across === "x" ? job.x : job.y) + extent(node, across) - kerf;
    // The rest may be no more than the blade takes away.
    const beyond = at + kerf >= high ? [] : rest.length === 1 ? [names[job.next + 1]!] : [piece];
    const [from, to] = across === "x" ? [job.y, job.y + node.width - kerf] : [job.x, job.x + node.length - kerf];
    const reference: Edge = across === "x" ? "x0" : "y0";
    add({ piece, makes: [names[job.next]!, ...beyond], across, at, from, to, fence: at - job.low, reference });
    job.low = at + kerf;
    job.next += 1;
  };

  let level: Job[] = [];
  const whole = settle(tree, trim, trim, level, name);
  // A part as large as the trimmed sheet: the last skim makes it.
  const last = result.cuts.at(-1);
  if (last) last.makes = last.makes.map((made) => (made === name ? whole : made));
  while (level.length > 0) {
    const below: Job[] = [];
    for (const job of level) {
      let { x, y } = job;
      for (const child of job.node.children) {
        job.names.push(settle(child, x, y, below));
        if (job.node.across === "x") x += child.length;
        else y += child.width;
      }
    }
    // At one fence setting every piece that needs it, before the fence moves; settings from wide to narrow.
    for (let open = level.filter(isOpen); open.length > 0; open = open.filter(isOpen)) {
      const widest = Math.max(...open.map(nextExtent));
      for (const job of open) while (isOpen(job) && nextExtent(job) === widest) advance(job);
    }
    level = below;
  }
  return result;
}

const nextExtent = (job: Job): Nm => extent(job.node.children[job.next]!, job.node.across);

/** A cut is still to be made while something lies beyond the next child. */
const isOpen = (job: Job): boolean => job.next < job.node.children.length - 1;

/**
 * The skim cuts. A factory edge is straight but may be dented, so one long edge is skimmed first with the other against the
 * fence; then that fresh edge is the reference for its opposite, and the ends are squared off it, one measured from the other.
 */
function skims({ length, width, trim, kerf }: Blank, name: string): NumberedCut[] {
  if (trim === 0) return [];
  const cut = (n: number, low: boolean, across: Axis, size: Nm, cutLow: Nm, from: Nm, to: Nm): NumberedCut => {
    const at = low ? trim - kerf : size - trim;
    // The blade may hang over the edge, when it is thicker than what is taken off.
    const isAll = trim <= kerf;
    const makes = isAll ? [name] : low ? [WASTE, name] : [name, WASTE];
    const fence = low ? size - trim : size - trim - cutLow;
    return { n, piece: name, makes, across, at, from, to, fence, reference: `${across}${low ? 1 : 0}` };
  };
  return [
    cut(1, true, "y", width, 0, 0, length),
    cut(2, false, "y", width, trim, 0, length),
    cut(3, true, "x", length, 0, trim, width - trim),
    cut(4, false, "x", length, trim, trim, width - trim),
  ];
}

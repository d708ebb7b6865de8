/** A sheet as a search sees it, and the best free spot for an item. */
import type { LayoutItem } from "./engine.ts";
import { posesOf } from "./engine.ts";
import type { Random } from "./random.ts";
import type { Axis, Path, Tree } from "./tree.ts";
import { placed, replaced } from "./tree.ts";
import type { Nm } from "./units.ts";

/** A piece to fill. `within`: it is itself a child of a cut in that direction, the rest of its sheet being kept free. */
export type Bed = { length: Nm; width: Nm; within: Axis | null };

type Free = { path: Path; length: Nm; width: Nm; depth: number; across: Axis | null };

export type Sheet = {
  bed: Bed;
  tree: Tree;
  free: Free[];
  parts: { path: Path; item: number }[];
  used: number; // area of the parts
  squares: number; // sum of the squares of the free areas: high when the waste lies in few large pieces
};

export type Spot = { sheet: number; free: Free; first: Axis; turned: boolean; length: Nm; width: Nm };

/** How to judge a spot; the smaller the better. */
export type Rule =
  | "loss" // of squared free area: keeps the waste in one piece
  | "area" // smallest free piece that holds it
  | "side" // least margin on the tighter side
  | "strip"; // least margin across the strip, then along it

export type Manner = {
  rule: Rule;
  depth: number; // levels of cutting at most
  first: Axis | null; // direction of the first cuts of a fresh sheet; null: either
};

/** What is left of the budget: one for each free spot looked at, and as below for each sheet rebuilt. */
export type Counter = { left: number };

/** Rebuilding a sheet's tree takes about as long as looking at so many spots (measured). */
const REBUILDING = 40;

export function surveyed(bed: Bed, tree: Tree, counter: Counter): Sheet {
  counter.left -= REBUILDING;
  const sheet: Sheet = { bed, tree, free: [], parts: [], used: 0, squares: 0 };
  const walk = (node: Tree, path: Path, depth: number, across: Axis | null): void => {
    if (node.kind === "waste") {
      sheet.free.push({ path, length: node.length, width: node.width, depth, across });
      sheet.squares += (node.length * node.width) ** 2;
    } else if (node.kind === "part") {
      sheet.parts.push({ path, item: node.item });
      sheet.used += node.length * node.width;
    } else {
      for (const [i, child] of node.children.entries()) walk(child, [...path, i], depth + 1, node.across);
    }
  };
  walk(tree, [], bed.within === null ? 0 : 1, bed.within);
  return sheet;
}

const costOf = (rule: Rule, free: Free, length: Nm, width: Nm, first: Axis): number => {
  const along = free.length - length;
  const across = free.width - width;
  switch (rule) {
    case "loss": {
      const [beside, above] =
        first === "x" ? [along * free.width, length * across] : [along * width, free.length * across];
      const whole = free.length * free.width;
      return whole * whole - beside * beside - above * above;
    }
    case "area":
      // Of the two ways to cut it free, the one that leaves the larger rectangle.
      return free.length * free.width - (first === "x" ? along * free.width : free.length * across) / 1024;
    case "side":
      return Math.min(along, across) + (first === "x" ? across : along) / 1024;
    case "strip":
      return across + along / 1024 + (first === "x" && free.depth === 0 ? free.width : 0);
  }
};

/** The best free spot for the item on any of the sheets; null where none holds it. `blink`: now and then a spot is overlooked. */
export function bestSpot(
  sheets: readonly Sheet[],
  item: LayoutItem,
  manner: Manner,
  counter: Counter,
  blink: Random | null = null,
): Spot | null {
  let best: Spot | null = null;
  let least = Number.POSITIVE_INFINITY;
  for (const [turned, length, width] of posesOf(item)) {
    for (let s = 0; s < sheets.length; s++) {
      const { free: frees } = sheets[s]!;
      counter.left -= frees.length;
      for (const free of frees) {
        if (length > free.length || width > free.width) continue;
        if (blink?.once(50)) continue;
        const tall = width < free.width; // a cut across y is needed
        const long = length < free.length;
        for (const first of ["y", "x"] as const) {
          const needed = first === "x" ? long : tall;
          const after = first === "x" ? tall : long;
          if (!needed && after) continue; // the same as the other way round
          if (free.across === null && manner.first !== null && tall && long && manner.first !== first) continue;
          const depth = free.depth + (needed && free.across !== first ? 1 : 0) + (needed && after ? 1 : 0);
          if (depth > manner.depth) continue;
          const cost = costOf(manner.rule, free, length, width, first);
          if (cost < least) {
            least = cost;
            best = { sheet: s, free, first, turned, length, width };
          }
        }
      }
    }
  }
  return best;
}

/** The sheet with the item in its spot. */
export function filled(sheet: Sheet, spot: Spot, item: number, counter: Counter): Sheet {
  const part = { kind: "part", item, turned: spot.turned, length: spot.length, width: spot.width } as const;
  const piece = placed(part, spot.free.length, spot.free.width, spot.first);
  return surveyed(sheet.bed, replaced(sheet.tree, spot.free.path, piece), counter);
}

/** Finds room for words among lines: each item takes the cheapest of its places where it covers no item placed before it. */
import type { Mm } from "../../base/length.ts";
import type { Rect, Shape } from "../../paper/shape.ts";

/** A block of lettering, drawn from its own upper left corner; `turned`: what is drawn instead where it is turned about. */
export type Block = { width: Mm; height: Mm; shapes: Shape[]; turned?: Shape[] };

export type Spot = { x: Mm; y: Mm; cost: number };

/** What to place, in the forms it may take; a poorer form's places cost more. */
export type Item = { forms: { block: Block; spots: Spot[] }[] };

export type Placed = { box: Rect; block: Block };

const AIR: Mm = 0.7; // between two blocks

const areApart = (a: Rect, b: Rect): boolean =>
  a.x + a.width + AIR <= b.x ||
  b.x + b.width + AIR <= a.x ||
  a.y + a.height + AIR <= b.y ||
  b.y + b.height + AIR <= a.y;

/** Null where no form of the item finds room. */
export function placeItem(item: Item, placed: readonly Placed[]): Placed | null {
  let best: (Placed & { cost: number }) | null = null;
  for (const { block, spots } of item.forms) {
    for (const { x, y, cost } of spots) {
      if (best !== null && best.cost <= cost) continue;
      const box = { x, y, width: block.width, height: block.height };
      if (placed.every((other) => areApart(other.box, box))) best = { box, block, cost };
    }
  }
  return best === null ? null : { box: best.box, block: best.block };
}

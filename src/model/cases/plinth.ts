/** A plinth: boards on edge that a case stands on, an assembly of its own. */
import type { Vec } from "../../base/geometry.ts";
import type { Mm } from "../../base/length.ts";
import type { Case } from "../../project/case.ts";
import { RIBS } from "../../project/defaults.ts";
import type { Frame, Part } from "../model.ts";
import { FACING_LEVEL, PLAIN, type StockTable, stockOf } from "./carcase.ts";

const FACING_SIDE: Frame = { l: "+y", w: "+z", t: "+x" };

type Plinth = NonNullable<Case["plinth"]>;

/** Outside size of the base: the case's, less the toe space in front and the inset at the other three sides. */
export const plinthSize = (
  { width, depth }: Pick<Case, "width" | "depth">,
  { height, setBack, inset }: Plinth,
): Vec => [width - 2 * inset, depth - setBack - inset, height];

/** Front and rear board over the whole width; ends, and ribs at most so far apart, between them. */
export function layPlinth(design: Case, plinth: Plinth, prefix: string, stock: StockTable): Part[] {
  const [width, depth, height] = plinthSize(design, plinth);
  const { thickness } = stockOf(stock, design.stock.plinth);
  const board = (id: string, name: string, frame: Frame, lo: Vec, hi: Vec): Part => ({
    ...PLAIN,
    key: `${prefix}/plinth-${id}`,
    path: design.path,
    name: `${name} of the plinth`,
    role: "plinth",
    stock: design.stock.plinth,
    frame,
    box: [lo, hi],
  });
  const across = (id: string, name: string, from: Mm): Part =>
    board(id, name, FACING_LEVEL, [0, from, 0], [width, from + thickness, height]);
  const between = (id: string, name: string, from: Mm): Part =>
    board(id, name, FACING_SIDE, [from, thickness, 0], [from + thickness, depth - thickness, height]);
  const fields = Math.ceil((width - thickness) / RIBS);
  const pitch = (width - thickness) / fields;
  return [
    across("front", "front", 0),
    across("rear", "rear", depth - thickness),
    between("left", "left end", 0),
    between("right", "right end", width - thickness),
    ...Array.from({ length: fields - 1 }, (_, i) => between(`${i + 1}`, "rib", pitch * (i + 1))),
  ];
}

/** Dimensions on several sides of one view, each clear of the others at its corners. */
import type { Mm } from "../../base/length.ts";
import type { Rect } from "../../paper/shape.ts";
import { grow, meets } from "./block.ts";
import { type DimensionStyle, type Dimensions, drawDimensions, type Row, type Side } from "./dimension.ts";

/** `edge`: where the view ends on that side; `reserved`: kept free next to it for other marks. */
export type SideRows = { side: Side; edge: Mm; rows: readonly Row[]; reserved?: Mm };

const CORNER_AIR: Mm = 3;
const MORE_AIR: Mm = 1; // beyond figures that a row moves past

const isLevel = (side: Side): boolean => side === "above" || side === "below";

/** In the order asked. Figures spread along an upright side may stand out beyond the view's corner: level rows then stand farther out. */
export function drawDimensionsRound(asked: readonly SideRows[], style: DimensionStyle): Dimensions[] {
  const first = asked.map(({ side, edge, rows, reserved = 0 }) => drawDimensions(side, edge, rows, style, reserved));
  const beside = asked.flatMap(({ side }, i) => (isLevel(side) ? [] : first[i]!.boxes));
  return asked.map(({ side, edge, rows, reserved = 0 }, i) => {
    let settled = first[i]!;
    if (!isLevel(side)) return settled;
    const past = ({ y, height }: Rect): Mm => (side === "above" ? edge - y : y + height - edge);
    // Farther out they may meet figures that stand out farther yet.
    for (let out = reserved; ; ) {
      const near = beside.filter(
        (box) => past(box) > 0 && settled.boxes.some((own) => meets(own, grow(box, CORNER_AIR))),
      );
      if (near.length === 0) return settled;
      out = Math.max(out, reserved + Math.max(...near.map(past))) + MORE_AIR;
      settled = drawDimensions(side, edge, rows, style, out);
    }
  });
}

/** The mark of a datum on a part's view: a filled triangle, its base on the end or edge that goes against the fence or stop. */
import type { Mm } from "../../base/length.ts";
import { fill, polygonSteps } from "../../paper/draw.ts";
import type { Point, Rect, Shape } from "../../paper/shape.ts";
import type { Face, SetPart } from "../../set/schema.ts";
import { datumAt } from "../parts/datum.ts";
import type { OnPaper } from "../parts/part-axes.ts";
import type { Side } from "./dimension.ts";

/** Kept free beside a view for the mark. */
export const DATUM_SPACE: Mm = 3.6;
const DATUM_SIZE: Mm = 2.8;

/** The side of the view on which a datum lies. */
export function sideOfDatum(datum: Face, part: SetPart, paper: OnPaper, box: Rect): Side {
  const onL = datum[0] === "l";
  const at = onL ? paper.l(datumAt(part, datum)) : paper.w(datumAt(part, datum));
  return onL === (paper.lie === "lying") ? (at < box.width / 2 ? "left" : "right") : at < box.y / 2 ? "above" : "below";
}

const DATUM_ALONG = 0.2; // where along its edge a datum's triangle stands

const OUTWARDS: Record<Side, Point> = { left: [-1, 0], right: [1, 0], above: [0, -1], below: [0, 1] };

export function datumMark(datum: Face, part: SetPart, paper: OnPaper, box: Rect): Shape {
  const side = sideOfDatum(datum, part, paper, box);
  const half = DATUM_SIZE / 2;
  const base: Point =
    side === "left" || side === "right"
      ? [side === "left" ? box.x : box.x + box.width, box.y + box.height * (1 - DATUM_ALONG)]
      : [box.x + box.width * DATUM_ALONG, side === "above" ? box.y : box.y + box.height];
  const out = OUTWARDS[side];
  return fill(
    0,
    polygonSteps([
      [base[0] + out[1] * half, base[1] + out[0] * half],
      [base[0] - out[1] * half, base[1] - out[0] * half],
      [base[0] + out[0] * DATUM_SIZE, base[1] + out[1] * DATUM_SIZE],
    ]),
  );
}

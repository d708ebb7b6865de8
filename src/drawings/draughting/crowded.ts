/** Whether the figures along one side of a view stand near their lines, or so far aside that the eye loses the way from one to the other. */
import type { Mm } from "../../base/length.ts";
import { type DimensionStyle, figureRise, type Row, type Side, TEXT_SPACE } from "./dimension.ts";
import { measureLength } from "./figure.ts";
import { spread } from "./stretch.ts";

/** Two or three figures beside each other: within it the way to a line's end is still seen at a glance. */
const MOST_ASIDE: Mm = 20;

/** `row` in the piece's own millimetres, at no scale yet. */
export function isCrowded(side: Side, row: Extract<Row, { kind: "running" }>, style: DimensionStyle): boolean {
  const { unit, size, ratio } = style;
  const isLevel = side === "above" || side === "below";
  const { up, down } = figureRise(style);
  const wanted = [row.datum, ...row.at].map((point) => ({
    at: point * ratio,
    extent: isLevel
      ? measureLength(Math.abs(point - row.datum), unit, size, "regular", { check: point === row.total })
      : up + down,
  }));
  return spread(wanted, TEXT_SPACE).some((place, i) => Math.abs(place - wanted[i]!.at) > MOST_ASIDE);
}

/** A sheet on paper: where its pieces lie there, and the room round it for names and numbers. */
import type { Mm } from "../../base/length.ts";
import { measureText } from "../../paper/lettering.ts";
import type { Rect } from "../../paper/shape.ts";
import type { SetSheet } from "../../set/schema.ts";
import { balloonRadius } from "../draughting/balloon.ts";
import { SMALL } from "../draughting/cell.ts";
import { piecesOf, type SheetPiece } from "./sheet-pieces.ts";

export const NOTHING = { width: 0, height: 0, shapes: [] };
export const NUMBER: Mm = SMALL; // of a cut, in its circle
const NUMBER_RADIUS: Mm = balloonRadius("88", NUMBER);
/** Two rows of numbers beyond an edge, where cuts lie close. */
export const NUMBER_ROWS: Mm = 4 * NUMBER_RADIUS + 2;
const TOP: Mm = 7; // grain, one row of numbers

/** `box`: the sheet's outline; x and y turn a place on the sheet into one on paper, each at its own scale. */
export type Paper = { box: Rect; x: (x: Mm) => Mm; y: (y: Mm) => Mm; ratios: { along: number; across: number } };

/** Room round the sheet: strip names at the left, grain at the top, numbers at the right and below. */
export const marginsOf = (sheet: SetSheet): { left: Mm; right: Mm; top: Mm; bottom: Mm } => ({
  left: 3 + Math.max(0, ...stripsOf(sheet).map(({ name }) => measureText(name, SMALL, "regular"))),
  right: NUMBER_ROWS,
  top: TOP,
  bottom: NUMBER_ROWS,
});

export function paperOf(sheet: SetSheet, ratios: Paper["ratios"]): Paper {
  const { left, top } = marginsOf(sheet);
  const box = { x: left, y: top, width: sheet.length * ratios.along, height: sheet.width * ratios.across };
  return { box, ratios, x: (x) => box.x + x * ratios.along, y: (y) => box.y + box.height - y * ratios.across };
}

/** The pieces that begin at the sheet's left edge; a piece cut from one of them again stands in its place without a name. */
export function stripsOf(sheet: SetSheet): SheetPiece[] {
  const strips: SheetPiece[] = [];
  for (const piece of piecesOf(sheet)) {
    const isAtEdge = piece.x <= sheet.trim + sheet.kerf;
    const overlaps = strips.some((one) => piece.y < one.y + one.width && one.y < piece.y + piece.width);
    if (isAtEdge && !overlaps) strips.push(piece);
  }
  return strips;
}

export const onPaper = (paper: Paper, at: { x: Mm; y: Mm; length: Mm; width: Mm }): Rect => ({
  x: paper.x(at.x),
  y: paper.y(at.y + at.width),
  width: at.length * paper.ratios.along,
  height: at.width * paper.ratios.across,
});

export const partRect = (part: SetSheet["parts"][number]): { x: Mm; y: Mm; length: Mm; width: Mm } => ({
  x: part.x,
  y: part.y,
  length: part.turned ? part.width : part.length,
  width: part.turned ? part.length : part.width,
});

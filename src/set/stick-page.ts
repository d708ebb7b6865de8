/**
 * How a page of sticks.pdf is divided: the plan lays tiles by it and the drawing draws by it, so both read it here.
 * Reckoned in the page's own reading direction: u along the long side, v across it; a page held upright is read turned.
 */
import { MM_PER_INCH, type Mm } from "../base/length.ts";
import type { DryfitSet } from "./schema.ts";

export type StickPage = {
  long: Mm;
  short: Mm;
  direction: "right" | "down";
  /** Nothing is drawn nearer to the page's edge than this, in u and in v. */
  margin: { u: Mm; v: Mm };
  /** The stretch of u that a tile may fill. */
  run: { from: Mm; to: Mm };
  /** One tile a row: the strip's upper edge; every strip is `strip` high. */
  rows: Mm[];
  strip: Mm;
};

/** Desktop printers leave 4 to 6.35 mm unprinted; a little more keeps the thickest line clear of it. */
export const UNPRINTED: Mm = 6.35;
const LEAST_MARGIN = 7.5;

const HEADER = 12; // job, number, revision, what to do
const FOOTER = 9; // the check bars along the page
export const SIDE_BARS = 17; // the check bars across the page, at the right
const ZERO_WASTE = 5; // what is cut off beyond the zero end, so that no tile begins at the margin
export const CAPTION = 4.6; // the line above each strip
const GAP = 1.4; // between a strip and the caption below it
const LEAST_STRIP = 37; // two rows of 3.5 mm stacked figures from either edge, and a clear lane between
const MOST_STRIP = 50;

/** A correction that enlarges must not push marks into the unprinted edge. */
const marginOf = (half: Mm, measured: number): Mm =>
  Math.max(LEAST_MARGIN, half - (half - UNPRINTED) / Math.max(1, 1 / measured) + 0.5);

export function stickPage(paper: Pick<DryfitSet["paper"], "sticks" | "print">): StickPage {
  const { width, height } = paper.sticks;
  const upright = height >= width;
  const [long, short] = upright ? [height, width] : [width, height];
  const [alongU, alongV] = upright ? [paper.print.y, paper.print.x] : [paper.print.x, paper.print.y];
  const margin = { u: marginOf(long / 2, alongU), v: marginOf(short / 2, alongV) };
  const top = margin.v + HEADER;
  const room = short - margin.v - FOOTER - top;
  const count = Math.max(1, Math.floor(room / (CAPTION + LEAST_STRIP + GAP)));
  const pitch = Math.min(room / count, CAPTION + MOST_STRIP + GAP);
  return {
    long,
    short,
    direction: upright ? "down" : "right",
    margin,
    run: { from: margin.u + ZERO_WASTE, to: long - margin.u - SIDE_BARS },
    rows: Array.from({ length: count }, (_, i) => top + i * pitch + CAPTION),
    strip: pitch - CAPTION - GAP,
  };
}

/** A point of the reading direction, from the page's upper left corner as the page is held. */
export const onPage = (page: StickPage, u: Mm, v: Mm): { x: Mm; y: Mm } =>
  page.direction === "right" ? { x: u, y: v } : { x: page.short - v, y: u };

/** The scale that undoes what the printer was measured to do. */
export const correction = (print: DryfitSet["paper"]["print"]): { x: number; y: number } => ({
  x: 1 / print.x,
  y: 1 / print.y,
});

/** A page of PDF is at most 14,400 units of 1/72 in long (ISO 32000-1, annex C.2). */
export const LONGEST_PAGE: Mm = 200 * MM_PER_INCH;

/** Before and beyond a stick on a long page. */
export const LONG_MARGIN: Mm = 15;

/** How much of a stick one long page holds, once it is corrected for the roll's printer. */
export const longestOnRoll = ({ roll }: Pick<DryfitSet["paper"], "roll">): Mm =>
  (LONGEST_PAGE - 2 * LONG_MARGIN) / Math.max(1, 1 / roll.x);

/** How far two neighbouring tiles lie over each other. */
export const OVERLAP: Mm = 16;

/** Page 1 is the print check and the page map; the tapes' columns of figures follow the tiles. */
export const FIRST_TILE_PAGE = 2;

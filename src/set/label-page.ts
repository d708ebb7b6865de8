/** What a label leaves for its QR code: the plan drops words by it, the drawing draws by it, so both read it here. */
import { MM_PER_INCH, type Mm } from "../base/length.ts";
import { QUIET_ZONE } from "./qr.ts";
import type { DryfitSet } from "./schema.ts";
import { UNPRINTED } from "./stick-page.ts";

export type LabelFormat = DryfitSet["paper"]["labels"];

/** Modules of an office printer: whole dots of 8 a millimetre. */
const MODULE_SIZES: readonly Mm[] = [0.75, 0.625, 0.5, 0.375];
const MOST_MODULE: Mm = 0.8;

/** Under this a telephone at arm's length no longer reads the code: what it says is shortened first. */
export const GOOD_MODULE: Mm = 0.5;
/** Small labels: read from a hand's breadth. Never less. */
export const LEAST_MODULE: Mm = 0.375;

/** One dot of a label printer; null on an office printer, whose dots are much finer than a module. */
export const dotOf = ({ dpi }: Pick<LabelFormat, "dpi">): Mm | null => (dpi === null ? null : MM_PER_INCH / dpi);

/** Largest first. A label printer's are whole dots: half a dot is printed as one or as none. */
function moduleSizes(format: Pick<LabelFormat, "dpi">): readonly Mm[] {
  const dot = dotOf(format);
  if (dot === null) return MODULE_SIZES;
  const most = Math.floor(MOST_MODULE / dot);
  return Array.from({ length: most }, (_, i) => (most - i) * dot).filter((size) => size >= LEAST_MODULE);
}

/** Die-cut rows creep by up to 0.5 mm each way: the code keeps clear of the edge by that. */
const CREEP: Mm = 0.5;

/** Lettering keeps clear of the die cut at the sides; above and below of the rows' creep, and a little. */
export const LABEL_EDGE: Mm = 1.6;
export const LABEL_TOP: Mm = 1.1;

/** The code brings its own white: what is dark of it is this much farther in. */
const DARK_FROM_EDGE: Mm = CREEP + QUIET_ZONE * LEAST_MODULE;

/** How far in from each edge of a label its content begins to be. */
export type Insets = { left: Mm; right: Mm; top: Mm; bottom: Mm };

/**
 * What the labels at the page's edge lose to the strip that office printers leave white: all of the page lose as much, so that they look
 * alike. A label printer prints to the edge.
 */
export function insetsOf({ page, left, top, columns, rows, pitch, label, dpi }: LabelFormat): Insets {
  if (dpi !== null) return { left: 0, right: 0, top: 0, bottom: 0 };
  const [right, bottom] = [
    page.width - left - (columns - 1) * pitch.x - label.width,
    page.height - top - (rows - 1) * pitch.y - label.height,
  ];
  const short = (margin: Mm, clear: Mm): Mm => Math.max(0, UNPRINTED - margin - clear);
  return {
    left: short(left, LABEL_EDGE),
    right: short(right, Math.min(DARK_FROM_EDGE, LABEL_EDGE)),
    top: short(top, LABEL_TOP),
    bottom: short(bottom, LABEL_TOP),
  };
}

/** The part of each label that is drawn on. */
export function drawnSize(format: LabelFormat): { width: Mm; height: Mm } {
  const { left, right, top, bottom } = insetsOf(format);
  return { width: format.label.width - left - right, height: format.label.height - top - bottom };
}

/** The part of a label's width that may go to the code; the rest is for people. A narrow label would have no code at all by it. */
const CODE_SHARE = 0.36;
const NARROW_CODE_SHARE = 0.46;
const NARROW_LABEL: Mm = 50;

/** The side of the square, quiet zone included, that a code may fill. */
export function qrRoom(format: LabelFormat): Mm {
  const { width, height } = drawnSize(format);
  const share = width < NARROW_LABEL ? NARROW_CODE_SHARE : CODE_SHARE;
  return Math.min(height - 2 * CREEP, Math.max(share * width, width - LEAST_TEXT_WIDTH));
}

/** A column for words narrower than this is of no use to anyone; a wide label gives the rest to the code. */
const LEAST_TEXT_WIDTH: Mm = 42;

/** The largest module at which a code of so many modules fits the label; null where even `least` is too large. */
export const moduleSize = (format: LabelFormat, modules: number, least: Mm = LEAST_MODULE): Mm | null =>
  moduleSizes(format).find((size) => size >= least && (modules + 2 * QUIET_ZONE) * size <= qrRoom(format)) ?? null;

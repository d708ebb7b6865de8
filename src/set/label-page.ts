/** What a label leaves for its QR code: the plan drops words by it, the drawing draws by it, so both read it here. */
import { MM_PER_INCH, type Mm } from "../base/length.ts";
import { QUIET_ZONE } from "./qr.ts";
import type { DryfitSet } from "./schema.ts";

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

/** The part of a label's width that may go to the code; the rest is for people. */
const CODE_SHARE = 0.36;

/** The side of the square, quiet zone included, that a code may fill. */
export const qrRoom = ({ label }: Pick<LabelFormat, "label">): Mm =>
  Math.min(label.height - 2 * CREEP, Math.max(CODE_SHARE * label.width, label.width - LEAST_TEXT_WIDTH));

/** A column for words narrower than this is of no use to anyone; a wide label gives the rest to the code. */
const LEAST_TEXT_WIDTH: Mm = 42;

/** The largest module at which a code of so many modules fits the label; null where even `least` is too large. */
export const moduleSize = (
  format: Pick<LabelFormat, "label" | "dpi">,
  modules: number,
  least: Mm = LEAST_MODULE,
): Mm | null =>
  moduleSizes(format).find((size) => size >= least && (modules + 2 * QUIET_ZONE) * size <= qrRoom(format)) ?? null;

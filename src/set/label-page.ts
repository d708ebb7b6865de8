/** What a label leaves for its QR code: the plan drops words by it, the drawing draws by it, so both read it here. */
import type { Mm } from "../base/length.ts";
import { QUIET_ZONE } from "./qr.ts";
import type { DryfitSet } from "./schema.ts";

export type LabelFormat = DryfitSet["paper"]["labels"];

/** Whole dots of a 203 dpi printer (8 a mm); under 0.5 mm a telephone at arm's length no longer reads the code. */
const MODULE_SIZES: readonly Mm[] = [0.75, 0.625, 0.5];

/** Die-cut rows creep by up to 0.5 mm each way: the code keeps clear of the edge by that. */
const CREEP: Mm = 0.5;

/** The part of a label's width that may go to the code; the rest is for people. */
const CODE_SHARE = 0.36;

/** The side of the square, quiet zone included, that a code may fill. */
export const qrRoom = ({ label }: Pick<LabelFormat, "label">): Mm =>
  Math.min(label.height - 2 * CREEP, Math.max(CODE_SHARE * label.width, label.width - LEAST_TEXT_WIDTH));

/** A column for words narrower than this is of no use to anyone; a wide label gives the rest to the code. */
const LEAST_TEXT_WIDTH: Mm = 42;

/** The largest module at which a code of so many modules fits the label; null where it does not fit at 0.5 mm. */
export const moduleSize = (format: Pick<LabelFormat, "label">, modules: number): Mm | null =>
  MODULE_SIZES.find((size) => (modules + 2 * QUIET_ZONE) * size <= qrRoom(format)) ?? null;

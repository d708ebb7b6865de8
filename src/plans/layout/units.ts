/**
 * Layouts are reckoned in whole nanometres, so that parts, kerfs and trims add up without a remainder: a printed length is a
 * whole multiple of 3125 nm (0.1 mm = 32 of them, 1/64 in = 127), a kerf given to 0.00005 in or 0.000001 mm is exact too.
 */
import type { Mm } from "../../base/length.ts";

const PER_MM = 1_000_000;

/** A whole number of nanometres. */
export type Nm = number;

export const toNm = (length: Mm): Nm => Math.round(length * PER_MM);
export const toMm = (length: Nm): Mm => length / PER_MM;

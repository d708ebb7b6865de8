/** Lengths as the rounding stage will bring them to the grid of steps, for checks that depend on it. */
import { type Mm, SAME } from "../base/length.ts";

export const roundedDown = (length: Mm, step: Mm): Mm => Math.floor((length + SAME) / step) * step;
export const roundedNearest = (length: Mm, step: Mm): Mm => Math.round(length / step) * step;

/** Figures that are paced off or set by eye: no finer than is worth while. */
import { MM_PER_INCH, type Mm, SAME, type Unit } from "../../base/length.ts";

/** What is paced off, and what a collar on a drill is set to. */
const COARSE: Record<Unit, Mm> = { in: MM_PER_INCH / 4, mm: 5 };
const FINE: Record<Unit, Mm> = { in: MM_PER_INCH / 16, mm: 0.5 };

const inSteps = (round: (steps: number) => number, length: Mm, step: Mm): Mm => round(length / step + SAME) * step;

/** To the nearest quarter of an inch, or 5 mm. */
export const paced = (length: Mm, unit: Unit): Mm => inSteps(Math.round, length, COARSE[unit]);

/** Down to a sixteenth of an inch, or half a millimetre. */
export const noDeeper = (length: Mm, unit: Unit): Mm => inSteps(Math.floor, length, FINE[unit]);

/** Solid wood as it is sold: board feet, quarters, and what they come to when surfaced. */
import { MM_PER_INCH, type Mm, SAME } from "./length.ts";

/** One inch thick, a foot wide, a foot long: the trade's definition, 144 cubic inches. */
const BOARD_FOOT = 144 * MM_PER_INCH ** 3;

/** By the sizes in the rough; what is thinner than an inch counts as an inch. */
export const boardFeet = ({ length, width, thickness }: { length: Mm; width: Mm; thickness: Mm }): number =>
  (length * width * Math.max(thickness, MM_PER_INCH)) / BOARD_FOOT;

/**
 * Hardwood by its rough thickness in inches: the name it is sold by, and the thickness that is graded when both faces are surfaced (the
 * hardwood trade's grading rules). The shop finds less: 4/4 is often finished at 3/4 in.
 */
const QUARTERS: readonly { rough: number; quarters: string; surfaced: number }[] = [
  { rough: 1, quarters: "4/4", surfaced: 13 / 16 },
  { rough: 1.25, quarters: "5/4", surfaced: 17 / 16 },
  { rough: 1.5, quarters: "6/4", surfaced: 21 / 16 },
  { rough: 1.75, quarters: "7/4", surfaced: 1.5 },
  { rough: 2, quarters: "8/4", surfaced: 1.75 },
  { rough: 3, quarters: "12/4", surfaced: 2.75 },
  { rough: 3.5, quarters: "14/4", surfaced: 3.25 },
  { rough: 4, quarters: "16/4", surfaced: 3.75 },
];

/** The quarters a rough thickness is sold by, and how thick it is surfaced; null for one that is not sold so. */
export function quartersOf(rough: Mm): { quarters: string; surfaced: Mm } | null {
  const row = QUARTERS.find((one) => Math.abs(one.rough * MM_PER_INCH - rough) < SAME);
  return row === undefined ? null : { quarters: row.quarters, surfaced: row.surfaced * MM_PER_INCH };
}

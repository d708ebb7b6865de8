/** An offcut as it is told, on its sheet, on its label and in the rack. */
import { floorTo, MM_PER_INCH, type Mm, type Unit } from "../base/length.ts";

/** So fine is it measured. */
const STEP: Record<Unit, Mm> = { mm: 0.1, in: MM_PER_INCH / 64 };

type Size = { length: Mm; width: Mm };

/** Never larger than it is: a kerf leaves it any size. */
export const keptSize = ({ length, width }: Size, unit: Unit): Size => ({
  length: floorTo(length, STEP[unit]),
  width: floorTo(width, STEP[unit]),
});

/** How wide a hole is, by the bit that makes it: a bit of the other unit is taken from the rack by its own size. */
import type { Mm, Unit } from "../../base/length.ts";
import { unitSoldBy } from "../../base/sold.ts";
import { type Atom, checkFigure, FIGURE, figure, figureTwice, glue, TEXT, word } from "./cell.ts";

/** "8 mm (0.315)" in a job in inches; what is sold by the job's own unit as its lengths are: "5", or "1/4 0.250" where `isTwice`. */
export function boreFigure(diameter: Mm, unit: Unit, isTwice = false): Atom[] {
  const sold = unitSoldBy([diameter], unit);
  const weight = isTwice ? "bold" : "regular";
  if (sold === unit) return isTwice ? figureTwice(diameter, unit, FIGURE, weight) : [figure(diameter, unit)];
  const own = glue([figure(diameter, sold, FIGURE, weight), word(sold, isTwice ? FIGURE : TEXT, weight)]);
  return [own, checkFigure(diameter, unit)];
}

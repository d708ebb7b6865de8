/** How the site says lengths and the rest: small plain records that the templates only lay out. Ends and faces it names as the drawings do. */
import { closingSum, figureOf, formatDecimal, type Mm, type Unit } from "../base/length.ts";
import type { SetPart } from "../set/schema.ts";

/** A length ready for the `length` partial; an empty string is a piece it leaves out. */
export type LengthView = { whole: string; fraction: string; decimal: string };

/** Inch fractions carry their decimal: two different pictures of one number are hard to misread in the same way. */
export function lengthView(length: Mm, unit: Unit): LengthView {
  const figure = figureOf(length, unit);
  if (figure.kind === "decimal") return { whole: figure.text, fraction: "", decimal: "" };
  const minus = figure.minus ? "\u2212" : "";
  if (figure.numerator === 0) return { whole: `${minus}${figure.whole}`, fraction: "", decimal: "" };
  const whole = figure.whole === 0 ? minus : `${minus}${figure.whole}`;
  return { whole, fraction: `${figure.numerator}/${figure.denominator}`, decimal: formatDecimal(length, unit) };
}

export const unitName = (unit: Unit): string => (unit === "in" ? "inches" : "millimetres");

export const grainInWords = (part: Pick<SetPart, "grain">): string =>
  part.grain === "length" ? "along the length" : "none: may be turned";

/** "Between + joints = cut length", in terms that add up as they are shown. */
export function sumView(sum: SetPart["sums"][number], unit: Unit) {
  const [between, ...joints] = closingSum(sum.between, sum.joints, sum.total, unit);
  return {
    between: lengthView(between, unit),
    joints: joints.map((joint) => lengthView(joint, unit)),
    total: lengthView(sum.total, unit),
  };
}

/** How the site says lengths, masses, ends, edges and faces: small plain records that the templates only lay out. */
import { type AxisIndex, axesOf, axisOf, signOf } from "../base/geometry.ts";
import { figureOf, formatDecimal, type Mm, type Unit } from "../base/length.ts";
import type { DryfitSet, Face, SetPart } from "../set/schema.ts";

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

const KG_PER_POUND = 0.45359237; // exact, by definition of the pound

export function formatMass(mass: number, unit: Unit): string {
  const kilograms = `${mass.toFixed(1)} kg`;
  return unit === "mm" ? kilograms : `${(mass / KG_PER_POUND).toFixed(1)} lb (${kilograms})`;
}

export const unitName = (unit: Unit): string => (unit === "in" ? "inches" : "millimetres");

/** As the part stands in the case: outward direction of an end or edge, and of a face, by case axis and sign. */
const TOWARDS: Record<AxisIndex, { low: string; high: string }> = {
  0: { low: "left", high: "right" },
  1: { low: "front", high: "back" },
  2: { low: "bottom", high: "top" },
};
const LEVEL_FACE = { low: "lower", high: "upper" }; // a level panel has an upper face, not a "top face": the top panel is another part

const KINDS = { l: "end", w: "edge", t: "face" } as const;

/** "bottom end", "front edge", "inside face"; a part without a place (a spare) is spoken of by its own axes: "end l0". */
export function faceName(part: Pick<SetPart, "place" | "inside">, face: Face): string {
  const axis = face[0] as "l" | "w" | "t";
  const kind = KINDS[axis];
  if (axis === "t" && part.inside !== null) return face === part.inside ? "inside face" : "outside face";
  if (part.place === null) return `${kind} ${face}`;
  const signed = axesOf(part.place)[{ l: 0, w: 1, t: 2 }[axis] as AxisIndex];
  const high = (signOf(signed) === 1) === (face[1] === "1");
  const along = axisOf(signed);
  const names = along === 2 && axis === "t" ? LEVEL_FACE : TOWARDS[along];
  return `${high ? names.high : names.low} ${kind}`;
}

export const stockName = (set: DryfitSet, id: string): string => {
  const stock = set.stock.find((one) => one.id === id);
  if (stock === undefined) throw new Error(`Internal error: no stock ${id} in the set`);
  return stock.name;
};

export const grainInWords = (part: Pick<SetPart, "grain">): string =>
  part.grain === "length" ? "along the length" : "none: may be turned";

/** The name, with the case where the job has several: each case has its own left side. */
export const nameInSet = (set: DryfitSet, part: Pick<SetPart, "name" | "case">): string =>
  set.assemblies.length > 1 ? `${part.name}, ${part.case}` : part.name;

/** Names in a row: "left end, front edge and top end". */
export function listInWords(words: readonly string[]): string {
  if (words.length < 2) return words.join("");
  return `${words.slice(0, -1).join(", ")} and ${words[words.length - 1]}`;
}

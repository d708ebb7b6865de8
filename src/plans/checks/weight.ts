/** Weight: the whole, each piece that is lifted as one, and a full sheet of each stock. */
import { massOf } from "../../set/mass.ts";
import type { SetCheck } from "../../set/schema.ts";
import { isSheetStock, type SheetStock } from "../../set/stock.ts";
import { formatMass } from "../../set/words.ts";
import { type CheckInput, checkOf, PRACTICE } from "./input.ts";
import { carriedPieces } from "./piece.ts";

/** More than this is lifted by two: common practice, no source. */
const ONE_PERSON = 25; // kg

const sheetMass = ({ sheet, thickness, density }: SheetStock): number =>
  (sheet.length * sheet.width * thickness * density) / 1e9;

export function checkWeight(input: CheckInput): SetCheck[] {
  const { stock, mass, unit } = input;
  const show = (kg: number): string => formatMass(kg, unit);
  const lifted = carriedPieces(input).map(({ name, parts }) => ({
    name,
    mass: massOf(parts),
  }));
  const sheets = stock.filter(isSheetStock).map((one) => ({ name: `a sheet of ${one.name}`, mass: sheetMass(one) }));
  const heavy = [...lifted, ...sheets].filter((one) => one.mass > ONE_PERSON);
  const list = lifted.length === 1 ? "" : `: ${lifted.map((one) => `${one.name}: ${show(one.mass)}`).join(", ")}`;
  const total = `Without finish and hardware the job weighs ${show(mass)}${list}.`;
  const rule = `over ${show(ONE_PERSON)} two people lift (${PRACTICE}); mass is what is left of each part, by its stock's density`;
  if (heavy.length === 0) return [checkOf("weight", "ok", [], { text: total, rule })];
  return [
    checkOf("weight", "note", [], {
      text: `${total} Two people for ${heavy.map((one) => (sheets.includes(one) ? `${one.name}, ${show(one.mass)}` : one.name)).join("; ")}.`,
      rule,
      change: "nothing: a helper, or sheets cut down roughly before they are carried",
    }),
  ];
}

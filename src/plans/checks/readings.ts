/** Readings of the stock: none taken, a spread beyond the fit allowance, or a thickness that its standard does not allow. */
import { formatLength, SAME } from "../../base/length.ts";
import type { SetCheck, SetStock } from "../../set/schema.ts";
import { type CheckInput, checkOf, PRACTICE, shown } from "./input.ts";

export function checkReadings(input: CheckInput): SetCheck[] {
  return input.stock.flatMap((stock): SetCheck[] => {
    const using = input.parts.filter(({ material }) => material === stock.id).map(({ mark }) => mark);
    return stock.readings.length === 0
      ? [unmeasured(stock, using, input)]
      : [...spread(stock, using, input), ...outside(stock, using, input)];
  });
}

const unmeasured = ({ name, nominal }: SetStock, using: string[], { unit }: CheckInput): SetCheck =>
  checkOf("stock-unmeasured", "warning", using, {
    text: `${name} has not been measured: its nominal ${shown(nominal, unit)} was used.`,
    rule: "grooves follow the thickest reading, lengths the mean: sheets differ from their nominal thickness",
    change: "measure it at several places and build again before grooves are cut",
  });

/** Grooves follow the thickest, and a thin place rattles. */
function spread({ name, readings, thickness }: SetStock, using: string[], input: CheckInput): SetCheck[] {
  const { parts, assemblies, unit } = input;
  const allowance = Math.min(...assemblies.map(({ fits }) => fits.allowance));
  const [least, most] = [Math.min(...readings), Math.max(...readings)];
  if (most - least <= allowance + SAME) return [];
  const grooves = parts.flatMap((part) =>
    part.features
      .filter(({ kind, holds }) => kind !== "notch" && holds !== null && using.includes(holds))
      .map(({ holds }) => `${holds} in ${part.mark}`),
  );
  const test = [...new Set(grooves)];
  return [
    checkOf("stock-spread", "warning", using, {
      text: `${name} was measured from ${formatLength(least, unit)} to ${shown(most, unit)}, a spread of ${shown(most - least, unit)} about a mean of ${shown(thickness, unit)}: more than the fit allowance of ${shown(allowance, unit)}.`,
      rule: `grooves follow the thickest reading; a spread beyond the allowance leaves thin places loose (${PRACTICE})`,
      change: `${test.length === 0 ? "nothing: no groove holds it" : `test each groove with the part itself: ${test.join(", ")}`}`,
    }),
  ];
}

function outside({ name, readings, limits }: SetStock, using: string[], { unit }: CheckInput): SetCheck[] {
  if (limits === null) return [];
  const beyond = readings.filter((one) => one < limits.least - SAME || one > limits.most + SAME);
  if (beyond.length === 0) return [];
  const list = [...new Set(beyond.map((one) => formatLength(one, unit)))].join(", ");
  return [
    checkOf("stock-standard", "note", using, {
      text: `${name} was measured at ${list} ${unit}; its standard allows ${formatLength(limits.least, unit)} to ${shown(limits.most, unit)}.`,
      rule: `thickness by the standard it is sold by: ${limits.source}`,
      change:
        "nothing, if the calliper is right: every size follows the reading; measure again, away from the sheet's edge",
    }),
  ];
}

/** Square: what the limit for the diagonals means as a lean of the case. */
import type { Mm } from "../../base/length.ts";
import { listInWords } from "../../base/words.ts";
import { SQUARE } from "../../project/defaults.ts";
import type { SetAssembly, SetCheck } from "../../set/schema.ts";
import { type CheckInput, checkOf, computed, shown } from "./input.ts";

/**
 * How far the upper edge stands to one side of the lower, from both diagonals and the width of the lower edge: with the upper edge moved by
 * s, the squares of the diagonals are (a + s)2 + h2 and (a - s)2 + h2, and differ by 4 a s.
 */
export const leanOf = (long: Mm, short: Mm, width: Mm): Mm => (long ** 2 - short ** 2) / (4 * width);

export function checkSquare({ assemblies, unit }: CheckInput): SetCheck[] {
  const cases = assemblies.filter(({ kind }) => kind === "case");
  const figures = ({ diagonals }: SetAssembly): string => `${diagonals.outside} ${diagonals.width}`;
  const kinds = [...new Set(cases.map(figures))].map((kind) => cases.filter((one) => figures(one) === kind));
  return kinds.map((alike): SetCheck => {
    const { outside, width } = alike[0]!.diagonals;
    const lean = leanOf(outside + SQUARE.limit[unit] / 2, outside - SQUARE.limit[unit] / 2, width);
    return checkOf("square", "note", [], {
      text: `${listInWords(alike.map(({ name }) => name))}: square with both outside diagonals at ${computed(outside, unit)}. At the limit, ${shown(SQUARE.limit[unit], unit)} between them, the top leans ${computed(lean, unit)} to one side of the bottom.`,
      rule: `diagonals within ${shown(SQUARE.good[unit], unit)} are good, ${shown(SQUARE.limit[unit], unit)} is the limit (trade practice); lean = (d1² − d2²) / 4a`,
      change: "in the dry fit push the longer diagonal in by half the difference, at the front and at the back",
    });
  });
}

/** Square: what the limit for the diagonals means as a lean of the case. */
import { MM_PER_INCH, type Mm } from "../../base/length.ts";
import { listInWords } from "../../base/words.ts";
import type { SetAssembly, SetCheck } from "../../set/schema.ts";
import { type CheckInput, checkOf, computed, shown } from "./input.ts";

/** Diagonals that differ by no more are square enough (trade practice: 1/32 in is good, 1/16 the usual limit). */
const LIMIT: Mm = MM_PER_INCH / 16;

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
    const lean = leanOf(outside + LIMIT / 2, outside - LIMIT / 2, width);
    return checkOf("square", "note", [], {
      text: `${listInWords(alike.map(({ name }) => name))}: square with both outside diagonals at ${computed(outside, unit)}. At the limit, ${shown(LIMIT, unit)} between them, the top leans ${computed(lean, unit)} to one side of the bottom.`,
      rule: "diagonals within 1/32 in (0.8 mm) are good, 1/16 in (1.6 mm) is the limit (trade practice); lean = (d1² − d2²) / 4a",
      change: "in the dry fit push the longer diagonal in by half the difference, at the front and at the back",
    });
  });
}

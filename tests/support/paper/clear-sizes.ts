/** What is clear between two parts has one figure on all paper: the views have none a last place beside what a part's sum says. */
import { formatLength } from "../../../src/base/length.ts";
import { drawCases } from "../../../src/drawings/cases/case-views.ts";
import type { DryfitSet } from "../../../src/set/schema.ts";
import { parseFigure, tokensOf } from "../pages/read-figures.ts";
import { textBoxes } from "../pages/text-boxes.ts";

const PLACE = { mm: 0.0101, in: 0.00101 * 25.4 };

export function clearSizeFaults(set: DryfitSet): string[] {
  const { unit } = set.job;
  const clear = set.parts.flatMap((part) => part.sums.map(({ between }) => between));
  const figures = new Set(clear.map((between) => formatLength(between, unit)));
  return drawCases(set)
    .flatMap(({ shapes }) => tokensOf(textBoxes(shapes)))
    .filter(({ text }) => !figures.has(text))
    .flatMap(({ text }) => {
      const read = parseFigure(text, unit);
      const near = clear.find((between) => read !== null && Math.abs(between - read) < PLACE[unit]);
      return near === undefined ? [] : [`${text} on a view, ${formatLength(near, unit)} in a sum`];
    });
}

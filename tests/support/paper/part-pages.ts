/** The part drawings of a set as pages that the eye sees, and what is read from them. */
import { framePages } from "../../../src/drawings/draughting/frame.ts";
import { drawParts } from "../../../src/drawings/parts/part-drawing.ts";
import type { DryfitSet } from "../../../src/set/schema.ts";
import { strayFractions } from "./figure.ts";
import { differences } from "./likeness.ts";
import { type SeenPage, seenOnPage } from "./page.ts";
import { readParts } from "./part/part.ts";
import { type PartPage, readPartPage } from "./part-views.ts";

export const partPages = (set: DryfitSet): SeenPage[] => framePages(set, drawParts(set)).map(seenOnPage);

const IN_MM = { mm: 1, in: 25.4 };
/** Half of the last digit that is printed, in mm, and what a line is out by. */
const OFF_SCALE = { mm: 0.056, in: 0.0143 };

/** Details stand at full size: what each of their figures says is what lies between its ends on the paper. */
const detailFaults = ({ sections, unit }: PartPage): string[] =>
  sections.flatMap(({ rows }) =>
    rows.flatMap(({ dimensions }) =>
      dimensions.flatMap(({ from, to, figure }) =>
        Math.abs(Math.abs(to - from) - figure.value * IN_MM[unit]) < OFF_SCALE[unit]
          ? []
          : [`a detail says ${figure.value} where it measures ${Math.abs(to - from) / IN_MM[unit]}`],
      ),
    ),
  );

/** What is missing, told twice, at odds or otherwise than the part is, on one page; and the marks that are on it. */
export function closePage(set: DryfitSet, page: SeenPage): { marks: string[]; faults: string[] } {
  const read = readPartPage(page);
  const parts = readParts(read);
  return {
    marks: parts.flatMap(({ caption }) => caption.marks),
    faults: [
      ...strayFractions(page.words),
      ...detailFaults(read),
      ...parts.flatMap((read) => {
        const own = set.parts.filter(({ mark }) => read.caption.marks.includes(mark));
        if (own.length !== read.caption.count) return [`${own.length} parts are of ${read.caption.marks}`];
        return [...read.faults, ...differences(read, own.find(({ mark }) => mark === read.caption.marks[0])!, set)];
      }),
    ],
  };
}

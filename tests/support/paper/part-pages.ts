/** The part drawings of a set as pages that the eye sees, and what is read from them. */
import { framePages } from "../../../src/drawings/draughting/frame.ts";
import { drawParts } from "../../../src/drawings/parts/part-drawing.ts";
import type { DryfitSet } from "../../../src/set/schema.ts";
import { differences } from "./likeness.ts";
import { type SeenPage, seenOnPage } from "./page.ts";
import { readParts } from "./part.ts";
import { readPartPage } from "./part-views.ts";

export const partPages = (set: DryfitSet): SeenPage[] => framePages(set, drawParts(set)).map(seenOnPage);

/** What is missing, told twice, at odds or otherwise than the part is, on one page; and the marks that are on it. */
export function closePage(set: DryfitSet, page: SeenPage): { marks: string[]; faults: string[] } {
  const parts = readParts(readPartPage(page));
  return {
    marks: parts.flatMap(({ caption }) => caption.marks),
    faults: parts.flatMap((read) => {
      const own = set.parts.filter(({ mark }) => read.caption.marks.includes(mark));
      if (own.length !== read.caption.count) return [`${own.length} parts are of ${read.caption.marks}`];
      return [...read.faults, ...differences(read, own.find(({ mark }) => mark === read.caption.marks[0])!, set)];
    }),
  };
}

/** Whose notes are whose: each caption of a drawing with the notes that stand under it. */

import type { Caption, Note } from "../notes.ts";
import { type PartPage, wordsOfPage } from "../part-views.ts";
import { readPartWords } from "../part-words.ts";
import { fromFinishedEdges } from "../screw-table.ts";

/** Notes belong to the caption that they stand under; those that stand under one of a pair alone are for both. */
export function captionsOn(page: PartPage): { caption: Caption; notes: Note[] }[] {
  type Heap = { captions: Caption[]; notes: Note[]; x0: number; y0: number };
  const heaps: Heap[] = [];
  const loose: Heap[] = [];
  wordsOfPage(page).forEach((text, i) => {
    const { x0, y0 } = page.prose[i]!;
    readPartWords(text).forEach((one, n) => {
      const heap = { ...one, x0, y0: y0 + n };
      (heap.captions.length > 0 ? heaps : loose).push(heap);
    });
  });
  for (const { x0, y0, notes } of page.tables) loose.push({ captions: [], notes, x0, y0 });
  for (const { notes, x0, y0 } of loose) {
    const [first] = notes;
    const own =
      first?.kind === "detail"
        ? heaps.filter(({ captions }) => captions.some(({ marks }) => marks[0] === first.of))
        : heaps.filter((heap) => Math.abs(heap.x0 - x0) < 1 && heap.y0 < y0).sort((a, b) => b.y0 - a.y0);
    // A detail may stand where the drawing of another part has room, and what says so where the detail would have stood.
    if (own.length === 0 && (first?.kind === "detail" || first?.kind === "elsewhere")) continue;
    if (own.length === 0) throw new Error(`notes under no caption: ${JSON.stringify(notes)}`);
    own[0]!.notes.push(...notes);
  }
  const all = heaps.flatMap(({ captions, notes, y0 }) => captions.map((caption) => ({ caption, notes, y0 })));
  return all.map((one) => {
    const mate = all.find(
      (other) => one !== other && one.notes.length === 0 && isPair(one.caption, other.caption) && one.y0 === other.y0,
    );
    return { caption: one.caption, notes: fromFinishedEdges(mate?.notes ?? one.notes) };
  });
}

/** A left and a right one of the same name. */
const isPair = (a: Caption, b: Caption): boolean =>
  a.hand !== null &&
  b.hand !== null &&
  a.hand !== b.hand &&
  a.name.replace(/left|right/, "") === b.name.replace(/left|right/, "");

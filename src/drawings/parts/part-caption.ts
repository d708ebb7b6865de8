/** What stands over a part's views: its marks, name and hand; how many; its finished sizes and its stock. */
import type { Mm } from "../../base/length.ts";
import { listInWords } from "../../base/words.ts";
import { faceWords } from "../../set/facing.ts";
import { isMadeAlike } from "../../set/fastening.ts";
import type { DryfitSet, SetPart } from "../../set/schema.ts";
import { byMark, namesTogether, partOf, stockOf } from "../../set/words.ts";
import { isAlone } from "../cases/case-group.ts";
import {
  type Atom,
  figure,
  glue,
  type Block as Lettering,
  setLines,
  stackBlocks,
  TEXT,
  word,
  words,
} from "../draughting/cell.ts";
import { newTag, revisionTag } from "../draughting/cloud.ts";
import { type Earlier, isClouded, partsBefore, revised } from "../draughting/revised.ts";
import type { Before } from "./part-changes.ts";

const NAME: Mm = 5;
export const NOTE_GAP: Mm = 1.6;

/** A part with everything that shares its drawing: cut alike, and screwed alike. */
export type Pattern = { part: SetPart; marks: string[]; before: Before | null };

/** The names of all that share a drawing. */
export const namesOf = (set: DryfitSet, { marks }: Pick<Pattern, "marks">): string =>
  namesTogether(marks.map((mark) => partOf(set, mark).name));

export const patternsOf = (set: DryfitSet, earlier: Earlier | null = null): Pattern[] => {
  const patterns: Pattern[] = [];
  for (const part of [...set.parts].sort((a, b) => byMark(a.mark, b.mark))) {
    const known = patterns.find((one) => one.part.pattern === part.pattern && isMadeAlike(set, one.part, part));
    if (known === undefined) patterns.push({ part, marks: [part.mark], before: null });
    else known.marks.push(part.mark);
  }
  if (earlier === null) return patterns;
  return patterns.map((one) => ({ ...one, before: { ...earlier, parts: partsBefore(earlier, one.marks) } }));
};

const handWords = (part: SetPart): string =>
  part.hand === null ? "has no hand" : part.hand === "left" ? "left hand, L" : "right hand, R";

/** The cases a pattern's parts are in. */
const casesOf = (set: DryfitSet, marks: readonly string[]): string =>
  listInWords([...new Set(marks.map((mark) => partOf(set, mark).case))]);

/** "outside", "upper and lower". */
export const goodFaces = (part: SetPart): string =>
  part.show.map((face) => faceWords(part, face).replace(/ face$/, "")).join(" and ");

/** The part's mark, name and hand; how many; its scale, where it is not that of the title block; its finished sizes and its stock. */
export function captionOf(set: DryfitSet, pattern: Pattern, width: Mm, scale: string | null = null): Lettering {
  const { part, marks, before } = pattern;
  const plain = sizeAtoms(set, part);
  const sizes =
    before === null
      ? plain
      : revised(
          plain,
          before.parts.map((was) => sizeAtoms(before.set, was)),
        );
  const heading: Atom[] = [
    word(marks.join(", "), NAME, "bold"),
    ...(before === null ? [] : changeAtoms(before, isClouded(sizes, plain))),
    ...words(namesOf(set, pattern), NAME, "bold"),
    ...words(isAlone(set) ? "" : `${casesOf(set, marks)} \u00b7`),
    ...words(`make ${marks.length}, ${handWords(part)}`),
    ...(scale === null ? [] : [word("\u00b7"), glue(words(`scale ${scale}`, TEXT, "bold"))]),
  ];
  return stackBlocks([setLines(heading, width), setLines(sizes, width)], NOTE_GAP);
}

/** The letter, on what is new since the earlier set, and beside a size that changed. */
const changeAtoms = ({ parts, letter }: Before, isResized: boolean): Atom[] =>
  parts.length === 0 ? newTag(letter) : isResized ? [revisionTag(letter)] : [];

function sizeAtoms(set: DryfitSet, part: SetPart): Atom[] {
  const { unit } = set.job;
  const size = (length: Mm): Atom => figure(length, unit, 3.5, "bold");
  return [
    glue([size(part.length), word("\u00d7", 3.5), size(part.width), word(`${unit},`)]),
    word("thick"),
    size(part.thickness),
    ...words(`\u00b7 ${stockOf(set, part.material).name} \u00b7`),
    ...words(part.grain === "length" ? "grain lengthwise" : "no grain"),
    ...(part.show.length === 0 ? [] : words(`\u00b7 good face: ${goodFaces(part)}`, TEXT, "bold")),
  ];
}

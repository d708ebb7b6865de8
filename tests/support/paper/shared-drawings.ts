/**
 * Drawings that several parts share, read for each of them: what it holds, in which of its own ends and edges and how deep,
 * and its mating marks must follow from the drawn part's by the words of the drawing alone.
 */
import { type Pattern, patternsOf } from "../../../src/drawings/parts/part-caption.ts";
import { notesOf } from "../../../src/drawings/parts/part-notes.ts";
import { faceWords } from "../../../src/set/facing.ts";
import type { DryfitSet, Face, SetPart } from "../../../src/set/schema.ts";
import { textBoxes } from "../pages/text-boxes.ts";

const LIST = /\d+(?:(?:, | and )\d+)*/.source;

const marksIn = (text: string): string[] => text.match(/\d+/g) ?? [];

type Reading = { faces: Map<string, string>; marks: Map<string, string[]> };

/** "On 28 and 30: the left end here is its right end; 23 for 22." */
function readingFor(text: string, mark: string): Reading {
  const reading: Reading = { faces: new Map(), marks: new Map() };
  for (const [, own, said] of text.matchAll(new RegExp(`On (${LIST}): ([^.:]+)\\.`, "g"))) {
    if (!marksIn(own!).includes(mark)) continue;
    for (const [, here, there] of said!.matchAll(/the ([a-z]+ [a-z]+) here is its ([a-z]+ [a-z]+)/g))
      reading.faces.set(here!, there!);
    for (const [, others, one] of said!.matchAll(new RegExp(`(${LIST}) for (\\d+)`, "g")))
      reading.marks.set(one!, marksIn(others!));
  }
  return reading;
}

/** What a part holds: "23 in the right end, 24". */
const heldBy = (part: SetPart, as: Reading | null): string[] =>
  part.features
    .flatMap(({ holds, face, depth }) => {
      if (holds === null || !/^\d+$/.test(holds)) return [];
      const named = faceWords(part, face);
      const others = as?.marks.get(holds) ?? [holds];
      return [`${others.join(" or ")} in the ${as?.faces.get(named) ?? named}, ${depth.toFixed(2)}`];
    })
    .sort();

/** Which parts fixed to it by screws, dowels or glue it has on which face, by the joints. */
const fixedTo = (set: DryfitSet, part: SetPart, as: Reading | null): string[] =>
  set.joints
    .filter(
      ({ receiving, receivingFace, kind }) => receiving === part.mark && receivingFace[0] === "t" && kind === "face",
    )
    .map(({ entering, receivingFace }) => {
      const named = faceWords(part, receivingFace);
      return `${(as?.marks.get(entering) ?? [entering]).join(" or ")} on the ${as?.faces.get(named) ?? named}`;
    })
    .sort();

const lettersOf = (set: DryfitSet, part: SetPart): string[] =>
  set.joints.flatMap(({ entering, receiving, enteringEnd, receivingFace, mating }) => {
    const on = (face: Face): string[] => (mating === null ? [] : [`${mating} ${faceWords(part, face)}`]);
    return entering === part.mark ? on(enteringEnd) : receiving === part.mark ? on(receivingFace) : [];
  });

const isAmong = (told: readonly string[], wanted: readonly string[]): boolean =>
  told.length === wanted.length && told.every((one, i) => one === wanted[i] || one.includes(" or "));

function untoldOf(set: DryfitSet, pattern: Pattern): string[] {
  const { part, marks } = pattern;
  const text = textBoxes(notesOf(set, pattern, 400, false).shapes)
    .map((box) => box.text)
    .join(" ");
  return marks.flatMap((mark) => {
    const own = set.parts.find((one) => one.mark === mark)!;
    const as = mark === part.mark ? null : readingFor(text, mark);
    const start = mark === part.mark ? "Mating marks, joints: " : `Mating marks of ${mark}, joints: `;
    const letters = text.includes(start) ? text.slice(text.indexOf(start) + start.length).split(".")[0]! : "";
    return [
      ...(isAmong(heldBy(part, as), heldBy(own, null)) ? [] : [`part ${mark}: holds ${heldBy(own, null)}`]),
      ...(isAmong(fixedTo(set, part, as), fixedTo(set, own, null)) ? [] : [`part ${mark}: ${fixedTo(set, own, null)}`]),
      ...lettersOf(set, own)
        .filter((letter) => !letters.split(", ").includes(letter))
        .map((letter) => `part ${mark}: mating mark ${letter}`),
    ];
  });
}

/** Every part whose drawing does not tell what it holds, or its mating marks. */
export const untoldOnDrawings = (set: DryfitSet): string[] =>
  patternsOf(set).flatMap((pattern) => untoldOf(set, pattern));

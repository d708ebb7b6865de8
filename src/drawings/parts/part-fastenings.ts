/** What is fastened to a part, and what holds the part itself, in words. */

import { isSame, type Mm, type Unit } from "../../base/length.ts";
import { listInWords } from "../../base/words.ts";
import { faceWords } from "../../set/facing.ts";
import { type Fastening, fasteningsOf, heldThrough } from "../../set/fastening.ts";
import type { DryfitSet, SetPart } from "../../set/schema.ts";
import { byMark, partOf } from "../../set/words.ts";
import { type Atom, checkFigure, TEXT, words } from "../draughting/cell.ts";
import { figuresInWords } from "../draughting/figures-in-words.ts";
import { facesOf } from "./part-axes.ts";
import { isPlacedScrew } from "./part-rows.ts";

/** Screws of one joint, or of several that are alike but for their place across the face. */
export type Fastened = Fastening & { all: { mark: string; at: Mm; near: Mm; one: Fastening }[] };

const acrossOf = ({ along }: Fastening): "l" | "w" => (along === "l" ? "w" : "l");

export function fastenedAlike(set: DryfitSet, part: SetPart): Fastened[] {
  const heaps: Fastened[] = [];
  for (const one of fasteningsOf(set, part)) {
    const place = { mark: one.entering, at: one.at, near: one.reach, one };
    const known = heaps.find(
      (other) =>
        other.face === one.face &&
        other.kind === one.kind &&
        other.fixings === one.fixings &&
        other.along === one.along &&
        other.isFar === one.isFar &&
        other.positions?.map((at) => at.toFixed(4)).join() === one.positions?.map((at) => at.toFixed(4)).join(),
    );
    if (known === undefined) heaps.push({ ...one, all: [place] });
    else known.all.push(place);
  }
  for (const { all } of heaps) all.sort((a, b) => a.near - b.near);
  return heaps;
}

/**
 * "3 and 4: glue and screws, 3 screws each (120) apart; their near faces 0 and 782.4 from the bottom end" (of what stands out beyond that end, the far face): where the screws go is on
 * the view, but along a row from face to face, and where what is only glued begins. `isTabled`: what the table of screws says is left out.
 */
export function fastenedAtoms(set: DryfitSet, part: SetPart, isTabled: boolean): Atom[][] {
  const { unit } = set.job;
  const told = fastenedAlike(set, part).filter((one) => !isTabled || !isPlacedScrew(one));
  return told.map((one) => {
    const where = facesOf(set, part).length > 1 ? ` to the ${faceWords(part, one.face)}` : "";
    // Of the screws of an edge the view tells that they stand in the middle of it.
    const isRow = one.isFlat && one.kind === "screw" && one.positions !== null;
    const isOne = one.all.length === 1;
    const marks = one.all.map(({ mark }) => mark);
    const screws = one.kind === "screw" ? `, ${screwWords(one, isOne ? "" : " each")}` : "";
    return [
      ...words(`${listInWords(marks)}:`, TEXT, "bold"),
      ...placedAtoms(`${one.fixings}${where}${screws}`, one, part, unit),
      ...words(`${isOne ? "its" : "their"} ${one.isFar ? "far" : "near"} face${isOne ? "" : "s"}`),
      ...figuresInWords(
        one.all.map(({ near }) => near),
        unit,
        isRow ? "," : "",
        one.kind === "glue",
      ),
      ...(isRow
        ? [
            ...words("the screws"),
            ...figuresInWords(
              one.all.map(({ at }) => at),
              unit,
              ",",
              true,
            ),
          ]
        : []),
      ...words(`from the ${faceWords(part, `${acrossOf(one)}0`)}`),
    ];
  });
}

/** Where the screws from face to face stand along their row, which the view crosses but does not dimension; of those that it does, how far apart they are, as a check. */
function placedAtoms(how: string, { kind, positions, isFlat, along }: Fastening, part: SetPart, unit: Unit): Atom[] {
  if (kind !== "screw" || positions === null) return words(`${how};`);
  if (isFlat)
    return [
      ...words(`${how} at`),
      ...figuresInWords(positions, unit),
      ...words(`from the ${faceWords(part, `${along}0`)};`),
    ];
  const pitch = pitchOf({ positions });
  return pitch === null ? words(`${how};`) : [...words(how), checkFigure(pitch, unit), ...words("apart;")];
}

/** How far apart screws of a row stand, if they are evenly spaced; null where they are not, or are one alone. */
export function pitchOf({ positions }: Pick<Fastening, "positions">): Mm | null {
  if (positions === null || positions.length < 2) return null;
  const pitch = positions[1]! - positions[0]!;
  return positions.every((at, i) => i === 0 || isSame(at - positions[i - 1]!, pitch)) ? pitch : null;
}

const screwWords = ({ positions }: Fastening, each: string): string =>
  positions === null
    ? "spaced as the purchase list says"
    : `${positions.length} ${positions.length === 1 ? "screw" : "screws"}${each}`;

/** By what the parts of a drawing are held themselves: nothing is to be set out on them. What holds one otherwise than another is told of each. */
export function heldLines(set: DryfitSet, marks: readonly string[]): Atom[][] {
  const heaps: { told: string; marks: string[] }[] = [];
  for (const mark of marks) {
    for (const told of heldThroughWords(set, partOf(set, mark))) {
      const known = heaps.find((heap) => heap.told === told);
      if (known === undefined) heaps.push({ told, marks: [mark] });
      else known.marks.push(mark);
    }
  }
  return heaps.map(({ told, marks: own }) =>
    own.length === marks.length
      ? words(`Held by ${told}.`)
      : [...words(`${listInWords(own)}:`, TEXT, "bold"), ...words(`held by ${told}.`)],
  );
}

/** "glue and screws through 3 and 4" */
function heldThroughWords(set: DryfitSet, part: SetPart): string[] {
  const held = heldThrough(set, part).filter(({ fixings }) => fixings.includes("screws"));
  const kinds = [...new Set(held.map(({ fixings }) => fixings))];
  return kinds.map((kind) => {
    const through = held.filter(({ fixings }) => fixings === kind).map(({ mark }) => mark);
    return `${kind} through ${listInWords(through.sort(byMark))}`;
  });
}

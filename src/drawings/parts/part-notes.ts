/** What stands beside a part's views: each kind of groove and notch, what is fastened to it, and where it goes in, in words. */

import { isSame, type Mm } from "../../base/length.ts";
import { listInWords } from "../../base/words.ts";
import { axisOfFace, edgeThen, faceWords, isDrilledThrough } from "../../set/facing.ts";
import type { DryfitSet, Face, SetFeature, SetPart } from "../../set/schema.ts";
import { boreFigure } from "../draughting/bore.ts";
import {
  type Atom,
  checkFigure,
  figure,
  glue,
  type Block as Lettering,
  setLines,
  stackBlocks,
  TEXT,
  word,
  words,
} from "../draughting/cell.ts";
import { revisedLines } from "../draughting/revised.ts";
import { alikeLines, matingLines } from "./alike-lines.ts";
import { datumOf } from "./datum.ts";
import { holeRows, isTold } from "./hole-rows.ts";
import { isChannel, slotsOf } from "./part-axes.ts";
import { NOTE_GAP, type Pattern } from "./part-caption.ts";
import { type Before, drawnThen } from "./part-changes.ts";
import { dovetailAtoms } from "./part-dovetails.ts";
import { edgeLines } from "./part-edges.ts";
import { fastenedAtoms, heldLines } from "./part-fastenings.ts";
import { grooveLines } from "./part-grooves.ts";
import { boltAtoms, lineAtoms } from "./part-lines.ts";
import { mortiseAtoms } from "./part-mortises.ts";
import { hasPlacedScrews, screwTable } from "./screw-table.ts";
import { seatLines, standingBackLines } from "./seats.ts";

/** Notches of one size and reason are one line, whatever corners they are at. */
function notchAtoms(set: DryfitSet, part: SetPart): Atom[][] {
  const { unit } = set.job;
  const kinds = new Map<string, { length: Mm; width: Mm; behind: boolean; corners: string[] }>();
  for (const { kind, box, reason, lipping } of part.features) {
    if (kind !== "notch" || lipping) continue;
    const [lo, hi] = box;
    const [length, width] = [hi[0] - lo[0], hi[1] - lo[1]];
    const end = faceWords(part, lo[0] <= part.length - hi[0] ? "l0" : "l1");
    const edge = faceWords(part, lo[1] <= part.width - hi[1] ? "w0" : "w1");
    // Where a lipping ends short the corner is open already: the notch goes on behind it.
    const behind = !isSame(lo[1], 0) && !isSame(hi[1], part.width);
    const key = `${length.toFixed(3)} ${width.toFixed(3)} ${behind}`;
    const known = kinds.get(key) ?? { length, width, behind, corners: [] };
    known.corners.push(`${end} at the ${edge} (${reason})`);
    kinds.set(key, known);
  }
  return [...kinds.values()].map(({ length, width, behind, corners }) => [
    ...words("Notch", TEXT, "bold"),
    figure(length, unit),
    ...words("along,"),
    figure(width, unit),
    ...words(`across${behind ? ", behind the lipping" : ""}: ${corners.join("; ")}`),
  ]);
}

/**
 * "2 rows of 16 holes for shelf pins in the inside face, 5 across, 9 deep, every 32 from the first", or "right through": the first of a row is
 * on the view, as is the line that it stands on; of few holes each is. In an end or an edge their distance from a face is
 * told here.
 */
function holeAtoms(set: DryfitSet, part: SetPart): Atom[][] {
  const { unit } = set.job;
  const heaps: { key: string; count: number; rows: number; atoms: Atom[] }[] = [];
  for (const row of holeRows(set, part)) {
    const { face, edge, holds, diameter, depth, pitch, distance, count } = row;
    const ofFace = axisOfFace(edge) === "t";
    const each = isTold(row) ? null : { count, pitch };
    const key = JSON.stringify([holds, face, diameter, depth, each, ofFace ? [edge, distance] : null]);
    const known = heaps.find((heap) => heap.key === key);
    if (known !== undefined) {
      if (each === null) known.count += count;
      else known.rows += 1;
      continue;
    }
    const stop = each === null && !ofFace ? "" : ",";
    const atoms = [
      ...words(`for ${holds} in the ${faceWords(part, face)},`),
      ...boreFigure(diameter, unit),
      ...words("across,"),
      ...(isDrilledThrough(part, face, depth)
        ? words(`right through${stop}`)
        : [figure(depth, unit), ...words(`deep${stop}`)]),
      ...(each === null ? [] : [word("every"), figure(pitch, unit), ...words(`from the first${ofFace ? "," : ""}`)]),
      ...(ofFace ? [figure(distance, unit), ...words(`from the ${edgeThen(part, edge)}`)] : []),
    ];
    heaps.push({ key, count, rows: 1, atoms });
  }
  return heaps.map(({ count, rows, atoms }) => {
    const many = rows === 1 ? "" : `${rows} rows of `;
    return [...words(`${many}${count} ${count === 1 ? "hole" : "holes"}`, TEXT, "bold"), ...atoms];
  });
}

/** Slots are set out part by part on a drawing of their own. */
function slotAtoms(part: SetPart): Atom[][] {
  const slots = slotsOf(part);
  if (slots.length === 0) return [];
  return [
    [
      ...words(`${slots.length} ${slots.length === 1 ? "slot or hole" : "slots and holes"}`, TEXT, "bold"),
      ...words(`for the screws of ${slots[0]!.holds}: set out as its drawing of slots says`),
    ],
  ];
}

/** Each lipping, and what the panel itself is cut to: the finished size less these. */
function lippingAtoms(set: DryfitSet, part: SetPart): Atom[][] {
  if (part.lippings.length === 0) return [];
  const { unit } = set.job;
  return [
    ...part.lippings.map(({ name, edge, thickness, from, to, lipped }) => {
      return [
        ...words(`Lipping, ${name},`, TEXT, "bold"),
        figure(thickness, unit),
        ...words("thick,"),
        checkFigure(to - from, unit),
        ...words(`long, on the ${faceWords(part, edge)}`),
        ...stretchAtoms(set, part, edge[0] === "w" ? "l" : "w", from, to),
        ...words(`put on ${lipped} the grooves are cut`),
      ];
    }),
    [
      ...words("Panel cut to", TEXT, "bold"),
      glue([checkFigure(part.cut.length, unit), word("\u00d7", TEXT), checkFigure(part.cut.width, unit)]),
    ],
  ];
}

/** "from 9 to 573.8 from the left end:"; a figure only where it is not the part's own end. */
function stretchAtoms(set: DryfitSet, part: SetPart, along: "l" | "w", from: Mm, to: Mm): Atom[] {
  const { unit } = set.job;
  const [low, high] = ([`${along}0`, `${along}1`] as const).map((end) => faceWords(part, end));
  const isHigh = isSame(to, along === "l" ? part.length : part.width);
  if (isSame(from, 0)) {
    return isHigh
      ? words("from end to end:")
      : [...words(`from the ${low} to`), figure(to, unit), ...words("from there:")];
  }
  if (isHigh) return [word("from"), figure(from, unit), ...words(`from the ${low} to the ${high}:`)];
  return [word("from"), figure(from, unit), word("to"), figure(to, unit), ...words(`from the ${low}:`)];
}

/** What the running figures are measured from. */
function datumWords(set: DryfitSet, part: SetPart): Atom[] {
  // A groove in an edge is measured from the face that goes to the fence.
  const ofEdge = ({ kind, face }: SetFeature): boolean => kind === "groove" && !face.startsWith("t");
  const datums = new Set(
    part.features.flatMap((feature, i): Face[] => {
      if (!isChannel(feature)) return [];
      return [ofEdge(feature) ? "t0" : datumOf(set, part, i)];
    }),
  );
  if (datums.size === 0) return [];
  // Holes in a face that the settings measure otherwise: their row is on the view.
  const axes = new Set([...datums].map(axisOfFace));
  for (const { face, datum, edge } of holeRows(set, part))
    if (axisOfFace(face) === "t") for (const one of [datum, edge]) if (axes.has(axisOfFace(one))) datums.add(one);
  const ends = listInWords([...datums].map((datum) => `the ${edgeThen(part, datum)}`));
  return words(`Measured from ${ends}.`);
}

/** `isTabled`: with the table of its screws under them. */
export function notesOf(set: DryfitSet, pattern: Pattern, width: Mm, isTabled: boolean): Lettering {
  const { part, marks, before } = pattern;
  const plain = noteLines(set, part, marks, isTabled);
  const lines =
    before === null
      ? plain
      : revisedLines(
          plain,
          drawnThen(before).map((was) => noteLines(before.set, was, marksThen(before, marks), isTabled)),
          before.letter,
        );
  return stackBlocks(
    [
      ...lines.map((atoms) => setLines(atoms, width)),
      ...(isTabled && hasPlacedScrews(set, part) ? [screwTable(set, pattern, width)] : []),
    ],
    NOTE_GAP,
  );
}

const marksThen = ({ parts }: Before, marks: readonly string[]): string[] =>
  marks.filter((mark) => parts.some((part) => part.mark === mark));

const noteLines = (set: DryfitSet, part: SetPart, marks: readonly string[], isTabled: boolean): Atom[][] =>
  [
    ...grooveLines(set, part),
    ...notchAtoms(set, part),
    ...edgeLines(set, part, marks),
    ...fastenedAtoms(set, part, isTabled),
    ...holeAtoms(set, part),
    ...mortiseAtoms(set, part),
    ...dovetailAtoms(set, part),
    ...lineAtoms(set, part),
    ...boltAtoms(set, part),
    ...slotAtoms(part),
    ...heldLines(set, marks),
    ...alikeLines(set, part, marks),
    ...matingLines(set, part, marks),
    ...seatLines(set, marks),
    ...standingBackLines(set, marks),
    ...lippingAtoms(set, part),
    datumWords(set, part),
  ].filter((atoms) => atoms.length > 0);

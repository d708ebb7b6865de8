/** What stands beside a part's views: each kind of groove and notch, what is fastened to it, and where it goes in, in words. */

import { isSame, type Mm } from "../../base/length.ts";
import { listInWords } from "../../base/words.ts";
import {
  axisOfFace,
  edgeThen,
  endsSquare,
  faceWords,
  lippedAfter,
  longerFace,
  meetingGroove,
} from "../../set/facing.ts";
import { type Fastening, fasteningsOf, heldThrough } from "../../set/fastening.ts";
import { matingWords } from "../../set/mating.ts";
import type { DryfitSet, Face, SetFeature, SetPart } from "../../set/schema.ts";
import { scribesOf } from "../../set/scribe.ts";
import { byMark, partOf } from "../../set/words.ts";
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
import { figuresInWords } from "../draughting/figures-in-words.ts";
import { revisedLines } from "../draughting/revised.ts";
import { mitresIn, shapesIn } from "../draughting/shaped.ts";
import { datumOf } from "./datum.ts";
import { holeRows, isTold } from "./hole-rows.ts";
import { facesOf, isChannel, slotsOf } from "./part-axes.ts";
import { NOTE_GAP, type Pattern } from "./part-caption.ts";
import type { Before } from "./part-changes.ts";
import { lineAtoms } from "./part-lines.ts";
import { mortiseAtoms } from "./part-mortises.ts";
import { seatLines } from "./seats.ts";

/** How a cut ends short of its part's own end: in plain wood, or in the groove of another part. */
type Stop = { end: string; by: Mm } | { end: string; into: string };

/** Features cut alike, whatever they hold and wherever they lie. */
type Kind = { feature: SetFeature; holds: string[]; stops: Stop[] };

/** Whether a groove carries straight on from where another ends: two cuts on paper, one at the saw. */
const carriesOn = (a: SetFeature, b: SetFeature): boolean =>
  a.kind === b.kind &&
  a.face === b.face &&
  a.along === b.along &&
  isSame(a.at, b.at) &&
  isSame(a.width, b.width) &&
  isSame(a.depth, b.depth) &&
  isSame(a.to, b.from) &&
  a.ends[1] === "open" &&
  b.ends[0] === "open";

/** Features by their places in the part's list, those that carry each other on as one run, in order along it. */
function runsOf(part: SetPart): number[][] {
  const runs: number[][] = [];
  part.features.forEach((feature, i) => {
    if (!isChannel(feature)) return;
    const before = runs.find((run) => carriesOn(part.features[run.at(-1)!]!, feature));
    const after = runs.find((run) => carriesOn(feature, part.features[run[0]!]!));
    if (before !== undefined) before.push(i);
    else if (after !== undefined) after.unshift(i);
    else runs.push([i]);
  });
  // Across the length first: they are the most, and cut first.
  const isAlong = ([first]: number[]): number => (part.features[first!]!.along === "l" ? 1 : 0);
  return runs.sort((a, b) => isAlong(a) - isAlong(b));
}

function stopsOf(part: SetPart, run: readonly number[]): Stop[] {
  return ([0, 1] as const).flatMap((end): Stop[] => {
    const index = end === 0 ? run[0]! : run.at(-1)!;
    const feature = part.features[index]!;
    const size = feature.along === "l" ? part.length : part.width;
    const edge = `${feature.along}${end}` as Face;
    const named = edgeThen(part, edge);
    if (endsSquare(part, feature, end)) {
      return [{ end: named, by: (end === 0 ? feature.from : size - feature.to) - lippedAfter(part, edge) }];
    }
    const into = meetingGroove(part, index, end)?.holds ?? null;
    return into === null ? [] : [{ end: named, into }];
  });
}

const stopText = (stop: Stop): string =>
  "into" in stop ? `${stop.end} into ${stop.into}` : `${stop.end} ${stop.by.toFixed(4)}`;

const isAlike = (a: Kind, b: Kind): boolean =>
  a.feature.kind === b.feature.kind &&
  a.feature.face === b.feature.face &&
  a.feature.along === b.feature.along &&
  isSame(a.feature.width, b.feature.width) &&
  isSame(a.feature.depth, b.feature.depth) &&
  a.stops.map(stopText).join() === b.stops.map(stopText).join();

function kindsOf(part: SetPart): Kind[] {
  const kinds: Kind[] = [];
  for (const run of runsOf(part)) {
    const features = run.map((index) => part.features[index]!);
    const holds = features.flatMap((feature) => feature.holds ?? []);
    const one: Kind = { feature: features[0]!, holds, stops: stopsOf(part, run) };
    const same = kinds.find((kind) => isAlike(kind, one));
    if (same === undefined) kinds.push(one);
    else same.holds.push(...holds);
  }
  return kinds;
}

/** At an end or edge of the part: its one wall is on the view, so that its width is only a check. */
const isOpenBeside = (part: SetPart, { along, at, width }: SetFeature): boolean =>
  isSame(at, 0) || isSame(at + width, along === "l" ? part.width : part.length);

/**
 * "3, 5 and 8: groove, 17.9 wide, 9 deep, stopped short of the front edge": how far is on the view.
 */
function kindAtoms(set: DryfitSet, part: SetPart, { feature, holds, stops }: Kind): Atom[] {
  const { unit } = set.job;
  const isEdged = !feature.face.startsWith("t");
  const where = isEdged || facesOf(set, part).length > 1 ? ` in the ${faceWords(part, feature.face)}` : "";
  // A tongue may have a shoulder on either face.
  const taken = part.features
    .filter(
      ({ kind, along, at, holds: own }) =>
        kind === "shoulder" && along === feature.along && isSame(at, feature.at) && own === feature.holds,
    )
    .reduce((sum, { depth }) => sum + depth, 0);
  return [
    ...(holds.length === 0 ? [] : words(`${listInWords([...holds].sort(byMark))}:`, TEXT, "bold")),
    ...words(`${feature.kind}${feature.along === "l" ? " along the length" : ""}${where},`),
    (isOpenBeside(part, feature) ? checkFigure : figure)(feature.width, unit),
    ...words("wide,"),
    figure(feature.depth, unit),
    ...(feature.kind === "shoulder"
      ? [...words("deep, leaving a tongue"), checkFigure(part.thickness - taken, unit), ...words("thick,")]
      : words("deep,")),
    ...(isEdged && feature.kind === "groove"
      ? [figure(feature.at, unit), ...words(`from the ${faceWords(part, "t0")},`)]
      : []),
    ...(stops.length === 0 ? words(feature.kind === "lap" ? "halved with it" : "through") : []),
    ...stops.flatMap((stop, i) => [
      ...(i === 0 ? [] : words("and")),
      ...("into" in stop
        ? words(`at the ${stop.end} into the groove of ${stop.into}`)
        : isEdged
          ? [...words("stopped"), figure(stop.by, unit), ...words(`from the ${stop.end}`)]
          : words(`stopped short of the ${stop.end}`)),
    ]),
  ];
}

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

/** What is cut out of an edge; its figures are on the view. */
const shapeAtoms = (part: SetPart): Atom[][] =>
  shapesIn(part).map(({ face, outline }) => [
    ...words("Cut out", TEXT, "bold"),
    ...words(`of the ${faceWords(part, face)}${outline.length === 2 ? ", an arch" : ""} (template with the sticks)`),
  ]);

/** "22: 10 more left at the left edge, to scribe to the wall": in no other figure. */
const scribeAtoms = (set: DryfitSet, marks: readonly string[]): Atom[][] =>
  marks.flatMap((mark) => {
    const part = partOf(set, mark);
    return scribesOf(set, part).map(({ edge, allowance }) => [
      ...words(`${mark}:`, TEXT, "bold"),
      figure(allowance, set.job.unit),
      ...words(`more left at the ${faceWords(part, edge)}, to scribe to the wall`),
    ]);
  });

/** "Moulded, roundover of radius 6 along the front edge and left end": the bit has all of it; its section is on the worktop's drawing. */
function edgeAtoms(set: DryfitSet, part: SetPart): Atom[][] {
  const moulded = part.features.filter(({ kind }) => kind === "edge");
  const [first] = moulded;
  if (first === undefined) return [];
  const { reason, depth } = first;
  return [
    [
      ...words("Moulded,", TEXT, "bold"),
      ...words(reason === "chamfer" ? reason : `${reason} of radius`),
      figure(reason === "ogee" ? depth / 2 : depth, set.job.unit),
      ...words(
        `along the ${listInWords(moulded.map(({ face }) => faceWords(part, face)))}, from the ${faceWords(part, "t1")}`,
      ),
    ],
  ];
}

/** How far in it comes is on the view, its width the caption's. */
const mitreAtoms = (part: SetPart): Atom[][] =>
  mitresIn(part).map((mitre) => [
    ...words("Mitre, 45°,", TEXT, "bold"),
    ...words(`along the ${faceWords(part, mitre.face)}, its point on the ${faceWords(part, longerFace(mitre))}`),
  ]);

/**
 * "2 rows of 16 holes for shelf pins in the inside face, 5 across, 9 deep, every 32 from the first": the first of a row is
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
    const atoms = [
      ...words(`for ${holds} in the ${faceWords(part, face)},`),
      figure(diameter, unit),
      ...words("across,"),
      figure(depth, unit),
      ...words(each === null && !ofFace ? "deep" : "deep,"),
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

/** Screws of one joint, or of several that are alike but for their place across the face. */
type Fastened = Fastening & { all: { mark: string; at: Mm; near: Mm }[] };

const acrossOf = ({ along }: Fastening): "l" | "w" => (along === "l" ? "w" : "l");

function fastenedAlike(set: DryfitSet, part: SetPart): Fastened[] {
  const heaps: Fastened[] = [];
  for (const one of fasteningsOf(set, part)) {
    const near = one.covers[0][acrossOf(one) === "l" ? 0 : 1];
    const place = { mark: one.entering, at: one.at, near };
    const known = heaps.find(
      (other) =>
        other.face === one.face &&
        other.kind === one.kind &&
        other.fixings === one.fixings &&
        other.along === one.along &&
        other.positions?.map((at) => at.toFixed(4)).join() === one.positions?.map((at) => at.toFixed(4)).join(),
    );
    if (known === undefined) heaps.push({ ...one, all: [place] });
    else known.all.push(place);
  }
  for (const { all } of heaps) all.sort((a, b) => a.near - b.near);
  return heaps;
}

/**
 * "3 and 4: glue and screws, 3 screws each; their near faces 0 and 782.4 from the bottom end": where the screws go is on
 * the view.
 */
function fastenedAtoms(set: DryfitSet, part: SetPart): Atom[][] {
  const { unit } = set.job;
  return fastenedAlike(set, part).map((one) => {
    const where = facesOf(set, part).length > 1 ? ` to the ${faceWords(part, one.face)}` : "";
    const isOne = one.all.length === 1;
    const marks = one.all.map(({ mark }) => mark);
    const screws = one.kind === "screw" ? `, ${screwWords(one, isOne ? "" : " each")}` : "";
    return [
      ...words(`${listInWords(marks)}:`, TEXT, "bold"),
      ...words(`${one.fixings}${where}${screws}; ${isOne ? "its near face" : "their near faces"}`),
      ...figuresInWords(
        one.all.map(({ near }) => near),
        unit,
      ),
      ...words(`from the ${faceWords(part, `${acrossOf(one)}0`)}`),
    ];
  });
}

const screwWords = ({ positions }: Fastening, each: string): string =>
  positions === null
    ? "spaced as the purchase list says"
    : `${positions.length} ${positions.length === 1 ? "screw" : "screws"}${each}`;

/** By what it is held itself: nothing is to be set out on it. */
function heldAtoms(set: DryfitSet, part: SetPart): Atom[][] {
  const held = heldThrough(set, part).filter(({ fixings }) => fixings.includes("screws"));
  const kinds = [...new Set(held.map(({ fixings }) => fixings))];
  return kinds.map((kind) => {
    const marks = held.filter(({ fixings }) => fixings === kind).map(({ mark }) => mark);
    return words(`Held by ${kind} through ${listInWords(marks.sort(byMark))}.`);
  });
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
  const ends = listInWords([...datums].map((datum) => `the ${edgeThen(part, datum)}`));
  return words(`Measured from ${ends}.`);
}

export function notesOf(set: DryfitSet, { part, marks, before }: Pattern, width: Mm): Lettering {
  const plain = noteLines(set, part, marks);
  const lines =
    before === null
      ? plain
      : revisedLines(
          plain,
          before.parts.map((was) => noteLines(before.set, was, marksThen(before, marks))),
          before.letter,
        );
  return stackBlocks(
    lines.map((atoms) => setLines(atoms, width)),
    NOTE_GAP,
  );
}

const marksThen = ({ parts }: Before, marks: readonly string[]): string[] =>
  marks.filter((mark) => parts.some((part) => part.mark === mark));

const noteLines = (set: DryfitSet, part: SetPart, marks: readonly string[]): Atom[][] =>
  [
    ...kindsOf(part).map((kind) => kindAtoms(set, part, kind)),
    ...notchAtoms(set, part),
    ...shapeAtoms(part),
    ...edgeAtoms(set, part),
    ...scribeAtoms(set, marks),
    ...mitreAtoms(part),
    ...fastenedAtoms(set, part),
    ...holeAtoms(set, part),
    ...mortiseAtoms(set, part),
    ...lineAtoms(set, part),
    ...slotAtoms(part),
    ...heldAtoms(set, part),
    ...matingWords(set, part).map((said) => words(`Mating marks, ${said}.`)),
    ...seatLines(set, marks),
    ...lippingAtoms(set, part),
    datumWords(set, part),
  ].filter((atoms) => atoms.length > 0);

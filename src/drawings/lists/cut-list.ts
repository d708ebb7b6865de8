/** The cut list: what to cut, to what size and why, with a box to tick and one for the size as built. */
import { chunks } from "../../base/chunks.ts";
import { closingSum, formatLength, formatLengthWithUnit, type Mm, type Unit } from "../../base/length.ts";
import { faceWords } from "../../set/facing.ts";
import type { DryfitSet, SetPart, SetStock } from "../../set/schema.ts";
import { scribesOf } from "../../set/scribe.ts";
import { byMark, namesInSet } from "../../set/words.ts";
import {
  type Atom,
  BREAK,
  FIGURE,
  figure,
  figureTwice,
  glue,
  SMALL,
  setLines,
  TEXT,
  tickedMark,
  word,
  words,
  writeIn,
} from "../draughting/cell.ts";
import { newTag, revisionTag } from "../draughting/cloud.ts";
import type { Draft } from "../draughting/draft.ts";
import { type FlowGroup, flowEvenly, flowItem, heightOf } from "../draughting/flow.ts";
import { drawingSpace } from "../draughting/frame.ts";
import { numberDrafts } from "../draughting/numbered.ts";
import { type Earlier, earlierOf, isClouded, partsBefore, revised } from "../draughting/revised.ts";
import { type Column, type Row, setTable } from "../draughting/table.ts";
import { goodFaces } from "../parts/part-caption.ts";

const COLUMNS: readonly Column[] = [
  { head: "Part", most: 32 },
  { head: "Name", most: 60, firm: true },
  { head: "Hand" },
  { head: "Make", align: "middle" },
  { head: "Length", firm: true },
  { head: "Width", firm: true },
  { head: "Thick" },
  { head: "Grain" },
  { head: "Between + joints = cut size", firm: true },
  { head: "Look-alikes", most: 32 },
  { head: "Notes", grow: 1 },
  { head: "As built", grow: 1 },
];

const NOTES = COLUMNS.findIndex(({ head }) => head === "Notes");
const MUCH_LOWER = 0.8; // so much of the height saved, and notes stand under their rows

const AS_BUILT = 17; // room for "1016.5" or "40 3/16" by hand

const MOST_IN_ROW = 12; // a box for each: more would not stand on one page of the smallest paper

/** The terms of a sum as they stand on paper. */
const printedSum = ({ axis, between, joints, total }: SetPart["sums"][number], unit: Unit): string =>
  [axis, ...[...closingSum(between, joints, total, unit), total].map((term) => formatLength(term, unit))].join(" ");

/** Whether one sum, as printed, is true of both. */
const haveSameSums = (a: SetPart, b: SetPart, unit: Unit): boolean =>
  a.sums.length === b.sums.length && a.sums.every((sum, i) => printedSum(sum, unit) === printedSum(b.sums[i]!, unit));

/** Interchangeable parts of one case share a row where one sum proves them all, so many as a row can hold. */
function rowsOfParts(set: DryfitSet, stock: SetStock): SetPart[][] {
  const left = set.parts.filter((part) => part.material === stock.id).sort((a, b) => byMark(a.mark, b.mark));
  const rows: SetPart[][] = [];
  const taken = new Set<string>();
  for (const part of left) {
    if (taken.has(part.mark)) continue;
    const alike = left.filter(
      (one) =>
        one === part ||
        (!taken.has(one.mark) &&
          part.same.includes(one.mark) &&
          one.case === part.case &&
          haveSameSums(part, one, set.job.unit)),
    );
    for (const one of alike) taken.add(one.mark);
    rows.push(...chunks(alike, MOST_IN_ROW));
  }
  return rows;
}

/** "34 1/2 + 3/8 + 3/8 = 35 1/4", an axis a line; the terms add up as printed. */
export function sumAtoms(part: SetPart, unit: Unit): Atom[] {
  return part.sums.flatMap((sum, i) => {
    const [between, ...joints] = closingSum(sum.between, sum.joints, sum.total, unit);
    return [
      ...(i > 0 ? [BREAK] : []),
      ...(part.sums.length > 1 || sum.axis === "w" ? [word(sum.axis === "l" ? "L" : "W", SMALL)] : []),
      figure(between, unit, 3),
      ...joints.map((joint) => glue([word("+", 3), figure(joint, unit, 3)])),
      glue([word("=", 3), figure(sum.total, unit, 3)]),
    ];
  });
}

/** What it is easily taken for. */
function alikeAtoms(row: readonly SetPart[]): Atom[] {
  const marks = row.map((one) => one.mark);
  const alike = [...new Set(row.flatMap((one) => one.alike))].filter((mark) => !marks.includes(mark)).sort(byMark);
  return words(alike.join(", "), TEXT, "bold");
}

/** Where its grooves run on, and whether it is first cut larger. */
function noteAtoms(set: DryfitSet, row: readonly SetPart[]): Atom[] {
  const [part] = row as [SetPart];
  const marks = row.map((one) => one.mark);
  const runsOn = part.features.filter((feature) => feature.runOuts.length > 0);
  const held = [...new Set(runsOn.flatMap((feature) => feature.holds ?? []))].sort(byMark);
  const states = [...new Set(set.pieces.filter((piece) => marks.includes(piece.mark)).map((piece) => piece.state))];
  const notes = [
    ...(runsOn.length > 0
      ? [
          `${runsOn.length === 1 ? "groove runs" : "grooves run"} on past ${held.length > 0 ? held.join(", ") : "the joint"}`,
        ]
      : []),
    ...row.flatMap((one) =>
      scribesOf(set, one).map(
        ({ edge, allowance }) =>
          `${row.length > 1 ? `${one.mark}: ` : ""}${formatLengthWithUnit(allowance, set.job.unit)} more at the ${faceWords(one, edge)}, to scribe`,
      ),
    ),
    ...states.flatMap((state) => (state === "final" ? [] : [STATES[state]])),
  ];
  const lines = [words(notes.join("; "), SMALL), oversizeAtoms(set, part), lippingAtoms(set, part)];
  return lines.filter((line) => line.length > 0).flatMap((line, i) => (i === 0 ? line : [BREAK, ...line]));
}

/** What a panel measures as it comes from its sheet. */
function oversizeAtoms(set: DryfitSet, { mark }: SetPart): Atom[] {
  const piece = set.pieces.find((one) => one.mark === mark && one.kind === "panel" && one.state === "oversize");
  if (piece === undefined) return [];
  const { unit } = set.job;
  return [
    ...words("from the sheet", SMALL),
    glue([figure(piece.length, unit, SMALL), word("\u00d7", SMALL)]),
    figure(piece.width, unit, SMALL),
  ];
}

/** What the panel is cut to where lippings are part of the finished size, and the lippings, a line each. */
function lippingAtoms(set: DryfitSet, part: SetPart): Atom[] {
  if (part.lippings.length === 0) return [];
  const { unit } = set.job;
  // A line may end after a "by": on paper held upright the column is narrow.
  const by = (...sizes: Mm[]): Atom[] =>
    sizes.map((size, i) => {
      const one = figure(size, unit, SMALL);
      return i === sizes.length - 1 ? one : glue([one, word("\u00d7", SMALL)]);
    });
  return [
    ...words("cut the panel", SMALL),
    ...by(part.cut.length, part.cut.width),
    ...set.pieces
      .filter((piece) => piece.mark === part.mark && piece.kind === "lipping")
      .flatMap((piece) => [
        BREAK,
        ...words(`${piece.id} ${piece.stock}`, SMALL),
        ...by(piece.length, piece.width, piece.thickness),
      ]),
  ];
}

const STATES = {
  rough: "cut rough first, then to size",
  oversize: "cut oversize first, then trim",
} as const;

type Cells = Extract<Row, { cells: Atom[][] }>;

/** Figures that an earlier cut list did not have for these parts stand in clouds, the letter with the marks. */
function withChanges(set: DryfitSet, row: readonly SetPart[], earlier: Earlier): Cells {
  const now = rowOf(set, row);
  const before = partsBefore(
    earlier,
    row.map(({ mark }) => mark),
  ).map((was) => rowOf(earlier.set, [was]));
  const cells = now.cells.map((cell, i) =>
    revised(
      cell,
      before.map((was) => was.cells[i]!),
    ),
  );
  const isTold = before.length === 0 || cells.some((cell, i) => isClouded(cell, now.cells[i]!));
  if (!isTold) return now;
  const told = before.length === 0 ? newTag(earlier.letter) : [revisionTag(earlier.letter)];
  return { cells: [[...cells[0]!, ...told], ...cells.slice(1)] };
}

function rowOf(set: DryfitSet, row: readonly SetPart[]): Cells {
  const { unit } = set.job;
  const [part] = row as [SetPart];
  return {
    cells: [
      row.map((one) => tickedMark(one.mark)),
      [
        ...words(namesInSet(set, row)),
        ...(part.show.length > 0 ? [BREAK, ...words(`good: ${goodFaces(part)}`, SMALL)] : []),
      ],
      words(part.hand ?? "\u2013"),
      [word(String(row.length), FIGURE)],
      figureTwice(part.length, unit, FIGURE, "bold"),
      figureTwice(part.width, unit, FIGURE, "bold"),
      figureTwice(part.thickness, unit),
      words(part.grain === "length" ? "length" : "none"),
      sumAtoms(part, unit),
      alikeAtoms(row),
      noteAtoms(set, row),
      // Each box under its mark where the column is too narrow for both.
      row.length === 1 ? [writeIn(AS_BUILT)] : row.flatMap((one) => [word(one.mark, SMALL), writeIn(AS_BUILT), BREAK]),
    ],
  };
}

/** "Birch plywood 3/4, nominal 3/4 in, measured 0.703 in" */
function headingOf(stock: SetStock, unit: Unit): Atom[] {
  const measured = `nominal ${formatLengthWithUnit(stock.nominal, unit)}, measured ${formatLengthWithUnit(stock.thickness, unit)}`;
  return [...words(`${stock.name},`, 3, "bold"), ...words(measured, 3)];
}

/** Its notes under the row, across the table. */
const notesUnder = (row: Row): Row => {
  if ("heading" in row) return row;
  const notes = row.cells[NOTES]!;
  return {
    cells: row.cells.filter((_, i) => i !== NOTES),
    ...(notes.length > 0 ? { under: [word("Notes:", SMALL, "bold"), ...notes.map(running)] } : {}),
  };
};

/** What stood in lines of a narrow column goes on in one. */
const running = (atom: Atom): Atom => (atom.kind === "break" ? word("\u00b7", SMALL) : atom);

/** In a column where they have room there; where narrow paper would set them a word a line, under their rows. */
function listTable(rows: readonly Row[], width: Mm): FlowGroup {
  const inColumn = setTable(COLUMNS, rows, width);
  const under = setTable(
    COLUMNS.filter((_, i) => i !== NOTES),
    rows.map(notesUnder),
    width,
  );
  return heightOf(under, true) < MUCH_LOWER * heightOf(inColumn, true) ? under : inColumn;
}

const LEGEND =
  "Finished sizes, lippings on: length (L) is along the grain, width (W) across it. Check each part against its sum before it is cut; write the size as built in the last column, and build the set again where it differs by more than the step.";

/** `older`: the set whose figures these are laid beside; what changed stands in clouds. */
export function drawCutList(set: DryfitSet, older: DryfitSet | null = null): Draft[] {
  const space = drawingSpace(set);
  const earlier = earlierOf(set, older);
  const told = (row: readonly SetPart[]): Row => (earlier === null ? rowOf(set, row) : withChanges(set, row, earlier));
  const rows: Row[] = set.stock.flatMap((stock) => {
    const parts = rowsOfParts(set, stock);
    return parts.length === 0 ? [] : [{ heading: headingOf(stock, set.job.unit) }, ...parts.map(told)];
  });
  const legend = flowItem(setLines(words(LEGEND, SMALL), space.width), { keep: true });
  const table = listTable(rows, space.width).map((item, i) => (i === 0 ? { ...item, above: 3 } : item));
  return numberDrafts(
    "cut-list",
    "Cut list",
    flowEvenly([[legend, ...table]], () => [space]),
  );
}

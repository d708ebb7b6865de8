/**
 * Screws in a table, where their figures would not stand by their lines round the view: each row of crosses by the mark of what it
 * goes into, which stands beside the view, where that part lies, and every screw from one end.
 */
import { isSame, type Mm } from "../../base/length.ts";
import { lines as drawLines } from "../../paper/draw.ts";
import { edgeThen, faceWords, isHigh } from "../../set/facing.ts";
import { type Fastening, fasteningsOf } from "../../set/fastening.ts";
import type { DryfitSet, Face, SetPart } from "../../set/schema.ts";
import {
  type Atom,
  BREAK,
  checkFigure,
  FIGURE,
  figure,
  glue,
  type Block as Lettering,
  stackBlocks,
  TEXT,
  word,
  words,
} from "../draughting/cell.ts";
import { revisionTag } from "../draughting/cloud.ts";
import { isCrowded } from "../draughting/crowded.ts";
import { isClouded, revised } from "../draughting/revised.ts";
import { type Column, leastTable, type Row, setTable, snugTable } from "../draughting/table.ts";
import { FEW } from "./hole-rows.ts";
import { facesOf, type Lie, OWN } from "./part-axes.ts";
import type { Pattern } from "./part-caption.ts";
import { type Before, drawnThen } from "./part-changes.ts";
import { type Fastened, fastenedAlike, pitchOf } from "./part-fastenings.ts";
import { type Axis, isPlacedScrew, panelEdge, rowsOf, screwDatums } from "./part-rows.ts";
import { PART_FIGURE, WAYS } from "./part-view.ts";

const across = (axis: Axis): Axis => (axis === "l" ? "w" : "l");

export const hasPlacedScrews = (set: DryfitSet, part: SetPart): boolean => fasteningsOf(set, part).some(isPlacedScrew);

/** Whether the figures of its screws would not find room by their lines on some side of a view, as it lies. */
export function isCrowdedBy(set: DryfitSet, part: SetPart, lie: Lie, ratio: number): boolean {
  const style = { unit: set.job.unit, ratio, size: PART_FIGURE };
  const screws = fasteningsOf(set, part).filter(isPlacedScrew);
  return facesOf(set, part).some((face) => {
    const own = screws.filter((one) => one.face === face);
    if (own.length === 0) return false;
    const rows = rowsOf(set, part, face, OWN);
    return (["l", "w"] as const).some((axis) => {
      const places = own.flatMap(({ along, at, positions }) => (along === axis ? positions! : [at]));
      const count = places.filter((one, i) => places.findIndex((other) => isSame(one, other)) === i).length;
      const [side, told] = axis === "l" ? [WAYS[lie].along, rows.along] : [WAYS[lie].across, rows.across];
      return count > FEW && told.some((row) => row.kind === "running" && isCrowded(side, row, style));
    });
  });
}

const COLUMNS: readonly Column[] = [
  { head: "Into", firm: true },
  { head: "Near face", firm: true },
  { head: "Line", firm: true },
  { head: "Screws, right through" },
];
const PLACE_AIR: Mm = 2.6; // between two places in a row
const BRACE = { air: 2, foot: 0.9, over: 0.6 }; // before it, its feet and tip, and over and under a line: where the next piece begins

/** What one row of the table says: of each mark its face and its line, and the places of all. */
type Told = { heading: Atom[]; marks: string[]; faces: Atom[]; lines: Atom[]; places: Atom[] };

/** Everything from the same datums as the figures round the view. */
function toldIn(set: DryfitSet, part: SetPart): Told[] {
  const datums = new Map(facesOf(set, part).map((face) => [face, screwDatums(set, part, face)]));
  const told = fastenedAlike(set, part)
    .filter(isPlacedScrew)
    .map((one) => {
      const from = datums.get(one.face)!;
      return rowOf(set, part, one, { edge: from[across(one.along)], end: from[one.along] });
    });
  const headings = told.map(({ heading }) => said(heading));
  return told.sort((a, b) => headings.indexOf(said(a.heading)) - headings.indexOf(said(b.heading)));
}

const said = (atoms: readonly Atom[]): string => JSON.stringify(atoms);

/** "Glue and screws: faces and lines from the left edge, screws from the bottom end". */
function headingOf(
  set: DryfitSet,
  part: SetPart,
  { face, fixings }: Fastened,
  { edge, end }: { edge: Face; end: Face },
): Atom[] {
  const how = `${fixings.charAt(0).toUpperCase()}${fixings.slice(1)}`;
  const on = facesOf(set, part).length > 1 ? ` to the ${faceWords(part, face)}` : "";
  return [
    ...words(`${how}${on}:`, TEXT, "bold"),
    ...words(`faces and lines from the ${edgeThen(part, edge)},`),
    ...words(`screws from the ${edgeThen(part, end)}`),
  ];
}

function rowOf(set: DryfitSet, part: SetPart, one: Fastened, from: { edge: Face; end: Face }): Told {
  const { unit } = set.job;
  const { edge, end } = from;
  const distance = (datum: Face, at: Mm): Mm => Math.abs(at - panelEdge(part, datum));
  const all = [...one.all].sort((a, b) => distance(edge, a.at) - distance(edge, b.at));
  const places = one.positions!.map((place) => distance(end, place)).sort((a, b) => a - b);
  const pitch = pitchOf(one);
  return {
    heading: headingOf(set, part, one, from),
    marks: all.map(({ mark }) => mark),
    faces: all.map((own) => {
      const { at, isFar } = faceOf(own.one, edge);
      const face = figure(distance(edge, at), unit);
      return isFar ? glue([face, ...words("far")]) : face;
    }),
    lines: all.map(({ at }) => figure(distance(edge, at), unit)),
    places: [
      ...placeAtoms(places, unit),
      ...(pitch === null ? [] : [glue([checkFigure(pitch, unit), ...words("apart")])]),
    ],
  };
}

/** Where the nearer face of what the screws go into lies; of what stands out beyond the edge, the other one. */
function faceOf({ along, covers, isFar, isBeyond }: Fastening, edge: Face): { at: Mm; isFar: boolean } {
  const [low, high] = covers.map((corner) => corner[along === "l" ? 1 : 0]) as [Mm, Mm];
  return isHigh(edge) ? { at: isBeyond ? low : high, isFar: isBeyond } : { at: isFar ? high : low, isFar };
}

const inLines = (atoms: readonly Atom[]): Atom[] => atoms.flatMap((atom, i) => (i === 0 ? [atom] : [BREAK, atom]));

const widthOf = (atom: Atom): Mm => (atom.kind === "drawn" ? atom.width : 0);

const riseOf = (atoms: readonly Atom[]): { up: Mm; down: Mm } => {
  const drawn = atoms.flatMap((one) => (one.kind === "drawn" ? [one] : []));
  return { up: Math.max(0, ...drawn.map(({ up }) => up)), down: Math.max(0, ...drawn.map(({ down }) => down)) };
};

/** As high as what stands beside it in other cells, so that their lines stay level. */
function level(atom: Atom, beside: readonly Atom[]): Atom {
  const own = glue([atom]);
  return own.kind === "drawn" ? { ...own, ...riseOf([own, ...beside]) } : own;
}

/** As wide as the widest, so that they stand in columns where they wrap. */
function placeAtoms(places: readonly Mm[], unit: DryfitSet["job"]["unit"]): Atom[] {
  const figures = places.map((place) => figure(place, unit));
  const wide = Math.max(...figures.map(widthOf)) + PLACE_AIR;
  return figures.map((one) => glue([one, gapOf(wide - widthOf(one))], 0));
}

/** What was not said before of a mark stands in clouds. */
function withChanges(told: readonly Told[], before: Before): Told[] {
  const then = drawnThen(before).map((was) => toldIn(before.set, was));
  return told.map((row) => {
    const own = (column: "faces" | "lines"): Atom[] =>
      row[column].flatMap((atom, i) =>
        revised(
          [atom],
          then.map((some) => {
            const was = some.find(({ marks }) => marks.includes(row.marks[i]!));
            return was === undefined ? [] : [was[column][was.marks.indexOf(row.marks[i]!)]!];
          }),
        ),
      );
    const places = then.flatMap((some) =>
      row.marks.map((mark) => some.find(({ marks }) => marks.includes(mark))?.places ?? []),
    );
    return { ...row, faces: own("faces"), lines: own("lines"), places: revised(row.places, places) };
  });
}

/** The marks, their faces and their lines level with each other; several braced together, for all of them the places beside. */
function cellsOf({ marks, faces, lines, places }: Told): Atom[][] {
  const braced = marks.length === 1 ? lines : withBrace(lines, (i) => [faces[i]!, lines[i]!]);
  const beside = (i: number): Atom[] => [word(marks[i]!, FIGURE, "bold"), faces[i]!, braced[i]!];
  const column = (n: number): Atom[] => inLines(marks.map((_, i) => level(beside(i)[n]!, beside(i))));
  return [column(0), column(1), column(2), places];
}

/** A piece of it behind each figure, all in one line; the tip between two of them, or behind the middle one. */
function withBrace(figures: readonly Atom[], besideOf: (i: number) => readonly Atom[]): Atom[] {
  const wide = Math.max(...figures.map(widthOf));
  const last = figures.length - 1;
  return figures.map((atom, i) => {
    const rise = riseOf(besideOf(i));
    const up = rise.up + (i === 0 ? 0 : BRACE.over);
    const down = rise.down + (i === last ? 0 : BRACE.over);
    const isTip = i === Math.ceil(last / 2);
    const tip = last % 2 === 0 ? (rise.down - rise.up) / 2 : -rise.up;
    const strokes = [
      [
        [0, -up],
        [0, down],
      ] as const,
      ...(i === 0
        ? [
            [
              [-BRACE.foot, -up],
              [0, -up],
            ] as const,
          ]
        : []),
      ...(i === last
        ? [
            [
              [-BRACE.foot, down],
              [0, down],
            ] as const,
          ]
        : []),
      ...(isTip
        ? [
            [
              [0, tip],
              [BRACE.foot, tip],
            ] as const,
          ]
        : []),
    ];
    const piece: Atom = { kind: "drawn", width: BRACE.foot, up: 0, down: 0, shapes: [drawLines("thin", strokes)] };
    return glue([atom, gapOf(wide - widthOf(atom) + BRACE.air), piece], 0);
  });
}

const gapOf = (width: Mm): Atom => ({ kind: "drawn", width, up: 0, down: 0, shapes: [] });

/** As wide as it needs to be, and no wider than `width` if it can be so narrow. */
export function screwTable(set: DryfitSet, { part, before }: Pattern, width: Mm): Lettering {
  const plain = toldIn(set, part);
  const told = before === null ? plain : withChanges(plain, before);
  const isChanged = (row: Told, i: number): boolean =>
    (["faces", "lines", "places"] as const).some((column) => isClouded(row[column], plain[i]![column]));
  const rows = told.flatMap((row, i): Row[] => {
    const isFirst = i === 0 || said(told[i - 1]!.heading) !== said(row.heading);
    const isRevised = told.some((one, n) => said(one.heading) === said(row.heading) && isChanged(one, n));
    const heading = before !== null && isRevised ? [revisionTag(before.letter), ...row.heading] : row.heading;
    return [...(isFirst ? [{ heading }] : []), { cells: cellsOf(row) }];
  });
  const wide = Math.max(leastTable(COLUMNS, rows), Math.min(width, snugTable(COLUMNS, rows)));
  const table = setTable(COLUMNS, rows, wide);
  return stackBlocks(
    table.map(({ block }) => block),
    0,
  );
}

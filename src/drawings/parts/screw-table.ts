/**
 * Screws in a table, where their figures would not stand by their lines round the view: each row of crosses by the mark of what it
 * goes into, which stands beside the view, where that part lies, and every screw from one end.
 */
import { isSame, type Mm } from "../../base/length.ts";
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

/** What one row of the table says: the marks, their faces and lines level with each other, the places of all. */
type Told = { heading: Atom[]; marks: string[]; cells: Atom[][] };

/** Everything from the same datums as the figures round the view. */
function toldIn(set: DryfitSet, part: SetPart): Told[] {
  const rows = fastenedAlike(set, part).filter(isPlacedScrew);
  const datums = new Map(facesOf(set, part).map((face) => [face, screwDatums(set, part, face)]));
  const told = rows.map((one) => {
    const edge = datums.get(one.face)![across(one.along)];
    const end = datums.get(one.face)![one.along];
    return { one, heading: headingOf(set, part, one, { edge, end }), cells: cellsOf(set, part, one, { edge, end }) };
  });
  const headings = told.map(({ heading }) => said(heading));
  return told
    .map(({ one, heading, cells }) => ({ heading, marks: one.all.map(({ mark }) => mark), cells }))
    .sort((a, b) => headings.indexOf(said(a.heading)) - headings.indexOf(said(b.heading)));
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

function cellsOf(set: DryfitSet, part: SetPart, one: Fastened, { edge, end }: { edge: Face; end: Face }): Atom[][] {
  const { unit } = set.job;
  const from = (datum: Face, at: Mm): Mm => Math.abs(at - panelEdge(part, datum));
  const lines = [...one.all].sort((a, b) => from(edge, a.at) - from(edge, b.at));
  const figures = lines.map((own) => {
    const { at, isFar } = faceOf(own.one, edge);
    const face = figure(from(edge, at), unit);
    return [isFar ? glue([face, ...words("far")]) : face, figure(from(edge, own.at), unit)] as const;
  });
  const places = one.positions!.map((place) => from(end, place)).sort((a, b) => a - b);
  const pitch = pitchOf(one);
  return [
    inLines(lines.map(({ mark }, i) => level(word(mark, FIGURE, "bold"), figures[i]!))),
    inLines(figures.map((both) => level(both[0], both))),
    inLines(figures.map((both) => level(both[1], both))),
    [...placeAtoms(places, unit), ...(pitch === null ? [] : [glue([checkFigure(pitch, unit), ...words("apart")])])],
  ];
}

/** Where the nearer face of what the screws go into lies; of what stands out beyond the edge, the other one. */
function faceOf({ along, covers, isFar, isBeyond }: Fastening, edge: Face): { at: Mm; isFar: boolean } {
  const [low, high] = covers.map((corner) => corner[along === "l" ? 1 : 0]) as [Mm, Mm];
  return isHigh(edge) ? { at: isBeyond ? low : high, isFar: isBeyond } : { at: isFar ? high : low, isFar };
}

const inLines = (atoms: readonly Atom[]): Atom[] => atoms.flatMap((atom, i) => (i === 0 ? [atom] : [BREAK, atom]));

/** As high as what stands beside it in other cells, so that their lines stay level. */
function level(atom: Atom, beside: readonly Atom[]): Atom {
  const own = glue([atom]);
  if (own.kind !== "drawn") return own;
  const rises = [own, ...beside].flatMap((one) => (one.kind === "drawn" ? [one] : []));
  return { ...own, up: Math.max(...rises.map(({ up }) => up)), down: Math.max(...rises.map(({ down }) => down)) };
}

/** As wide as the widest, so that they stand in columns where they wrap. */
function placeAtoms(places: readonly Mm[], unit: DryfitSet["job"]["unit"]): Atom[] {
  const figures = places.map((place) => figure(place, unit));
  const wide = Math.max(...figures.map((one) => (one.kind === "drawn" ? one.width : 0))) + PLACE_AIR;
  return figures.map((one) =>
    one.kind === "drawn" ? glue([one, { kind: "drawn", width: wide - one.width, up: 0, down: 0, shapes: [] }], 0) : one,
  );
}

/** What a row did not say before stands in clouds: it is laid beside the rows that had one of its marks. */
function withChanges(told: readonly Told[], before: Before): Told[] {
  const then = drawnThen(before).map((was) => toldIn(before.set, was));
  return told.map((row) => {
    const rows = then.map((some) => some.find(({ marks }) => marks.some((mark) => row.marks.includes(mark))));
    const cells = row.cells.map((cell, i) =>
      revised(
        cell,
        rows.map((one) => one?.cells[i] ?? []),
      ),
    );
    return { ...row, cells };
  });
}

/** As wide as it needs to be, and no wider than `width` if it can be so narrow. */
export function screwTable(set: DryfitSet, { part, before }: Pattern, width: Mm): Lettering {
  const plain = toldIn(set, part);
  const told = before === null ? plain : withChanges(plain, before);
  const isChanged = (row: Told, i: number): boolean =>
    row.cells.some((cell, n) => isClouded(cell, plain[i]!.cells[n]!));
  const rows = told.flatMap((row, i): Row[] => {
    const isFirst = i === 0 || said(told[i - 1]!.heading) !== said(row.heading);
    const group = told.filter((one) => said(one.heading) === said(row.heading));
    const isRevised = group.some((one) => isChanged(one, told.indexOf(one)));
    const heading = before !== null && isRevised ? [revisionTag(before.letter), ...row.heading] : row.heading;
    return [...(isFirst ? [{ heading }] : []), { cells: row.cells }];
  });
  const wide = Math.max(leastTable(COLUMNS, rows), Math.min(width, snugTable(COLUMNS, rows)));
  const table = setTable(COLUMNS, rows, wide);
  return stackBlocks(
    table.map(({ block }) => block),
    0,
  );
}

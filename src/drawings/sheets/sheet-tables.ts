/** The tables of a sheet layout: its cuts in their order, and the parts that they make. */
import type { Mm, Unit } from "../../base/length.ts";
import type { Rect, Shape } from "../../paper/shape.ts";
import type { DryfitSet, SetSheet } from "../../set/schema.ts";
import { byMark, partOf } from "../../set/words.ts";
import { type Atom, FIGURE, figure, figureTwice, glue, tick, word, words } from "../draughting/cell.ts";
import { type Columns, columnsOf, type FlowGroup, flow, loosely } from "../draughting/flow.ts";
import { type Column, leastTable, type Row, setTable, snugTable } from "../draughting/table.ts";

const LEAST_PARTS: Mm = 66; // part, name, length x width
export const GUTTER: Mm = 5;
const LEAST_ROOM: Mm = 30; // under the diagram, worth a column of the table

const EDGES = { x0: "left", x1: "right", y0: "lower", y1: "upper" } as const;

/** Columns as wide as the table, from the left; none where the area is narrower, or too low to be worth one. */
export const tableColumns = (area: Rect, wide: Mm): Rect[] => {
  const count = area.height < LEAST_ROOM ? 0 : Math.floor((area.width + GUTTER) / (wide + GUTTER));
  return Array.from({ length: count }, (_, i) => ({ ...area, x: area.x + i * (wide + GUTTER), width: wide }));
};

const distinctIds = (alike: readonly SetSheet[], index: number): string[] => [
  ...new Set(alike.map((sheet) => sheet.parts[index]!.id)),
];

/** "3", or "3 / 9" on two sheets cut alike. */
const idOf = (alike: readonly SetSheet[], index: number): string => distinctIds(alike, index).join(" / ");

/** As lettered in a part: "3 / 9 / 15"; where that has no room, "3 + 2". */
export function idsOf(alike: readonly SetSheet[], index: number): string[] {
  const ids = distinctIds(alike, index);
  return ids.length < 2 ? ids : [ids.join(" / "), `${ids[0]} + ${ids.length - 1}`];
}

const FEW = 4; // sheets cut alike: of more, not every row carries every mark, and boxes may stand in several lines
const MARKS_IN_ROW = 8;
const TICKS_WIDE: Mm = 22;

/** A piece that a cut makes: a part on every sheet, or a strip named on the first. */
function madeAs(alike: readonly SetSheet[], name: string): Atom[] {
  const index = alike[0]!.parts.findIndex((part) => part.id === name);
  if (index === -1) return [word(name)];
  return words(alike.length <= FEW ? idOf(alike, index) : idsOf(alike, index).at(-1)!, FIGURE, "bold");
}

/** A box for each sheet, then the cut's number; the number first where the boxes take several lines. */
const tickedCut = (alike: readonly SetSheet[], n: number): Atom[] =>
  alike.length <= FEW
    ? [glue([...alike.map(tick), word(String(n), FIGURE)])]
    : [word(String(n), FIGURE), ...alike.map(tick)];

const CUT_COLUMNS: Column[] = [
  { head: "Cut", most: TICKS_WIDE },
  { head: "Piece" },
  { head: "Fence", firm: true },
  { head: "Edge" },
  { head: "Makes", grow: 1 },
];

const cutRows = (alike: readonly SetSheet[], unit: Unit): Row[] =>
  alike[0]!.cuts.map(
    (cut): Row => ({
      cells: [
        tickedCut(alike, cut.n),
        words(cut.piece),
        figureTwice(cut.fence, unit, FIGURE, "bold"),
        words(EDGES[cut.reference]),
        cut.makes.flatMap((name, i) => [...(i > 0 ? [word("+")] : []), ...madeAs(alike, name)]),
      ],
    }),
  );

/** The marks of many sheets in several rows: none grows higher than a drawing. */
const inRows = (ids: readonly string[]): string[][] =>
  Array.from({ length: Math.ceil(ids.length / MARKS_IN_ROW) }, (_, i) =>
    ids.slice(i * MARKS_IN_ROW, (i + 1) * MARKS_IN_ROW),
  );

const PART_COLUMNS: Column[] = [{ head: "Part", most: 30 }, { head: "Name", grow: 1 }, { head: "Length x width" }];

function partRows(set: DryfitSet, alike: readonly SetSheet[]): Row[] {
  const { unit } = set.job;
  return alike[0]!.parts
    .map((part, i) => ({ part, ids: alike.map((sheet) => sheet.parts[i]!.id) }))
    .sort((a, b) => byMark(a.ids[0]!, b.ids[0]!))
    .flatMap(({ part, ids }) => inRows(ids).map((some) => ({ part, ids: some })))
    .map(
      ({ part, ids }): Row => ({
        cells: [
          ids.map((id) => glue([tick(), word(id, FIGURE, "bold")])),
          words(partOf(set, part.mark).name),
          [glue([figure(part.length, unit), word("\u00d7"), figure(part.width, unit)])],
        ],
      }),
    );
}

const tallestOf = (rows: FlowGroup): Mm =>
  rows.reduce((most, { block, head }) => Math.max(most, block.height + (head?.height ?? 0)), 0);

/**
 * Room for tables on the first drawing: beside the diagram and under it, or in columns as wide as the table; `later`: what
 * a further drawing has.
 */
type Places = { beside: { right: Rect; under: Rect } | null; first: Rect[]; later: Rect; wide: Mm };

/** What stands on each drawing; whether the parts do, too. */
export type Tables = { drawings: Shape[][]; areParts: boolean };

/** The parts beside the cuts, where both stand beside the diagram whole; null where they do not. */
function setAbreast(right: Rect, sawn: Row[], listed: Row[], wide: Mm): Shape[] | null {
  const least = Math.max(LEAST_PARTS, leastTable(PART_COLUMNS, listed));
  const room: Rect = { ...right, x: right.x + wide + GUTTER, width: right.width - wide - GUTTER };
  if (room.width < least) return null;
  const columns = columnsOf(room, Math.floor((room.width + GUTTER) / (least + GUTTER)), GUTTER);
  const rows = setTable(PART_COLUMNS, listed, Math.min(columns[0]!.width, wide));
  if (tallestOf(rows) > room.height) return null;
  const cuts = flow([setTable(CUT_COLUMNS, sawn, wide)], () => [{ ...right, width: wide }]);
  const parts = flow(loosely(rows), () => columns);
  return cuts.length === 1 && parts.length === 1 ? [...cuts[0]!, ...parts[0]!] : null;
}

/**
 * The cuts beside the diagram and the parts under it, or beside the cuts. Cuts that find no room there go on under it and on further drawings;
 * the parts are then left to the cut list where they would need a drawing of their own and the cuts name them all.
 */
export function flowTables(set: DryfitSet, alike: readonly SetSheet[], { beside, first, later, wide }: Places): Tables {
  const listed = partRows(set, alike);
  const sawn = cutRows(alike, set.job.unit);
  if (beside !== null && beside.under.height >= LEAST_ROOM) {
    const { right, under } = beside;
    const cuts = flow([setTable(CUT_COLUMNS, sawn, right.width)], () => [right]);
    const least = Math.max(LEAST_PARTS, leastTable(PART_COLUMNS, listed));
    const columns = columnsOf(under, Math.floor((under.width + GUTTER) / (least + GUTTER)), GUTTER);
    const rows = columns.length === 0 ? [] : setTable(PART_COLUMNS, listed, columns[0]!.width);
    // Many sheets cut alike make rows higher than what is left under the diagram; under a narrow one there is no room.
    const parts = columns.length > 0 && tallestOf(rows) <= under.height ? flow(loosely(rows), () => columns) : [];
    if (cuts.length === 1 && parts.length === 1) return { drawings: [[...cuts[0]!, ...parts[0]!]], areParts: true };
  }
  const abreast = beside === null ? null : setAbreast(beside.right, sawn, listed, wide);
  if (abreast !== null) return { drawings: [abreast], areParts: true };
  // Where nothing is left on the first drawing, its tables all go on further ones.
  const columns: Columns = (drawing) => (drawing === 0 && first.length > 0 ? first : tableColumns(later, wide));
  const drawings = (groups: FlowGroup[]): Shape[][] => [...(first.length > 0 ? [] : [[]]), ...flow(groups, columns)];
  const cuts = setTable(CUT_COLUMNS, sawn, wide);
  const parts = setTable(PART_COLUMNS, listed, wide).map((item, i) => (i === 0 ? { ...item, above: 6 } : item));
  const alone = drawings(loosely(cuts));
  const both = drawings([...loosely(cuts), ...loosely(parts)]);
  const areParts = both.length === alone.length || alike.length > FEW;
  return { drawings: areParts ? both : alone, areParts };
}

/** So wide that no line of the tables wraps. */
export const snugFor = (set: DryfitSet, alike: readonly SetSheet[]): Mm =>
  Math.max(snugTable(CUT_COLUMNS, cutRows(alike, set.job.unit)), leastTable(PART_COLUMNS, partRows(set, alike)));

/** As narrow as the tables go with their lines wrapped. */
export const leastFor = (set: DryfitSet, alike: readonly SetSheet[]): Mm =>
  Math.max(leastTable(CUT_COLUMNS, cutRows(alike, set.job.unit)), leastTable(PART_COLUMNS, partRows(set, alike)));

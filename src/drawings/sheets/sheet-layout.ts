/** Sheet layouts: each sheet to scale with its numbered cuts beside it; sheets cut alike are drawn once. */

import type { Mm, Unit } from "../../base/length.ts";
import { listInWords } from "../../base/words.ts";
import { group, line } from "../../paper/draw.ts";
import type { Rect, Shape } from "../../paper/shape.ts";
import type { DryfitSet, SetSheet } from "../../set/schema.ts";
import { byMark, partOf, stockOf } from "../../set/words.ts";
import {
  type Atom,
  type Block,
  FIGURE,
  figure,
  figureTwice,
  glue,
  placeBlock,
  tick,
  word,
  words,
} from "../draughting/cell.ts";
import type { Draft } from "../draughting/draft.ts";
import { filledShare, footOf } from "../draughting/filled.ts";
import { type Columns, columnsOf, type FlowGroup, flow, loosely } from "../draughting/flow.ts";
import { drawingSpace } from "../draughting/frame.ts";
import { type Scale, scalesOf } from "../draughting/scale.ts";
import { type Column, leastTable, type Row, setTable, snugTable } from "../draughting/table.ts";
import { drawSheetDiagram } from "./sheet-diagram.ts";
import { type Noun, setNote, setTitle } from "./sheet-note.ts";
import { marginsOf, partRect } from "./sheet-paper.ts";
import { alikeSheets } from "./sheet-pieces.ts";
import { standing } from "./sheet-standing.ts";

const MOST_TABLE: Mm = 84; // the cuts: number, piece, fence, edge, what it makes; narrower where none of its lines needs as much
const LEAST_PARTS: Mm = 66; // part, name, length x width
const GUTTER: Mm = 5;
const LEAST_NOTE: Mm = 45; // a column of words beside a diagram
const LEAST_ROOM: Mm = 30; // under the diagram, worth a column of the table
const SHARE_BESIDE = 0.75; // of the height, for a diagram with its table beside it
const SHARE_OVER = 0.67; // and with its table under it
const SMALLER = 0.45; // of the largest scale, the next of the series, to have everything on one drawing

const EDGES = { x0: "left", x1: "right", y0: "lower", y1: "upper" } as const;

/** A room for the diagram: its table beside it, or under it, or on a drawing of its own, the note beside it; the sheet lying or standing. */
type Room = { scale: Scale; across: Scale; diagram: Rect; tables: "beside" | "under" | "apart"; stands: boolean };

const NARROW = 1 / 4; // of its length: a board, or a long offcut
const LEAST_WIDE: Mm = 9; // of a part on paper: room for its mark, its size and the end of a leader
const SHARE_WIDE = 0.36; // of the height, for widths that are drawn larger than lengths

/** Of what is narrow the widths have a scale of their own: the smallest at which every part can be lettered, else the largest there is room for. */
function acrossOf(sheet: SetSheet, scale: Scale, space: Rect, unit: Unit): Scale {
  if (sheet.width > NARROW * sheet.length) return scale;
  const larger = scalesOf(unit)
    .filter(({ ratio }) => ratio > scale.ratio && sheet.width * ratio <= SHARE_WIDE * space.height)
    .reverse();
  const least = Math.min(sheet.width, ...sheet.parts.map((part) => partRect(part).width));
  const isEnough = ({ ratio }: Scale): boolean => least * ratio >= LEAST_WIDE;
  return isEnough(scale) ? scale : (larger.find(isEnough) ?? larger.at(-1) ?? scale);
}

/** Larger before smaller, lying before standing (on paper that is held upright): the diagram with its table beside it, or under it, or apart, whichever shows the sheet larger. */
function* roomsFor(sheet: SetSheet, space: Rect, unit: Unit, table: Mm): Generator<Room> {
  const mayStand = space.height > space.width && sheet.width > NARROW * sheet.length;
  for (const scale of scalesOf(unit)) {
    for (const stands of mayStand ? [false, true] : [false]) {
      const held = stands ? standing(sheet) : sheet;
      const { left, right, top, bottom } = marginsOf(held);
      const across = stands ? scale : acrossOf(sheet, scale, space, unit);
      const width = held.length * scale.ratio + left + right;
      const height = held.width * across.ratio + top + bottom;
      const isBeside = width + GUTTER + table <= space.width && height <= SHARE_BESIDE * space.height;
      const isOver = width <= space.width && height <= SHARE_OVER * space.height;
      const isApart = stands && width + GUTTER + LEAST_NOTE <= space.width && height <= space.height;
      const tables = isBeside ? "beside" : isOver ? "under" : isApart ? "apart" : null;
      if (tables === null) continue;
      yield { scale, across, diagram: { x: space.x, y: space.y, width, height }, tables, stands };
    }
  }
}

/** Columns as wide as the table, from the left; none where the area is narrower, or too low to be worth one. */
const tableColumns = (area: Rect, wide: Mm): Rect[] => {
  const count = area.height < LEAST_ROOM ? 0 : Math.floor((area.width + GUTTER) / (wide + GUTTER));
  return Array.from({ length: count }, (_, i) => ({ ...area, x: area.x + i * (wide + GUTTER), width: wide }));
};

const distinctIds = (alike: readonly SetSheet[], index: number): string[] => [
  ...new Set(alike.map((sheet) => sheet.parts[index]!.id)),
];

/** "3", or "3 / 9" on two sheets cut alike. */
const idOf = (alike: readonly SetSheet[], index: number): string => distinctIds(alike, index).join(" / ");

/** As lettered in a part: "3 / 9 / 15"; where that has no room, "3 + 2". */
function idsOf(alike: readonly SetSheet[], index: number): string[] {
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

/**
 * The cuts beside the diagram and the parts under it. Cuts that find no room there go on under it and on further drawings;
 * the parts are then left to the cut list where they would need a drawing of their own and the cuts name them all.
 */
function flowTables(set: DryfitSet, alike: readonly SetSheet[], { beside, first, later, wide }: Places): Shape[][] {
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
    if (cuts.length === 1 && parts.length === 1) return [[...cuts[0]!, ...parts[0]!]];
  }
  // Where nothing is left on the first drawing, its tables all go on further ones.
  const columns: Columns = (drawing) => (drawing === 0 && first.length > 0 ? first : tableColumns(later, wide));
  const drawings = (groups: FlowGroup[]): Shape[][] => [...(first.length > 0 ? [] : [[]]), ...flow(groups, columns)];
  const cuts = setTable(CUT_COLUMNS, sawn, wide);
  const parts = setTable(PART_COLUMNS, listed, wide).map((item, i) => (i === 0 ? { ...item, above: 6 } : item));
  const alone = drawings(loosely(cuts));
  const both = drawings([...loosely(cuts), ...loosely(parts)]);
  return both.length > alone.length && alike.length <= FEW ? alone : both;
}

type Drawn = { scale: Scale; drawings: Shape[][]; outside: number };

/** Where the note stands, and what is left for tables so wide; `diagram` has its title over it. */
function placesFor({ diagram, tables }: Room, space: Rect, noteOf: (width: Mm) => Block, table: Mm) {
  const bottom = space.y + space.height;
  const end = space.x + space.width;
  const rightX = diagram.x + diagram.width + GUTTER;
  const right: Rect = { x: rightX, y: diagram.y, width: end - rightX, height: bottom - diagram.y };
  const footY = diagram.y + diagram.height;
  const below = (y: Mm, x: Mm, width: Mm): Rect => ({ x, y: y + 4, width, height: bottom - y - 4 });
  if (tables === "apart") {
    const note = noteOf(right.width);
    const first = [
      ...tableColumns(below(right.y + note.height, rightX, right.width), table),
      ...tableColumns(below(footY, space.x, diagram.width), table),
    ];
    return { note: placeBlock(note, [rightX, diagram.y]), places: { beside: null, first, later: space, wide: table } };
  }
  const wide = tables === "beside" ? diagram.width : space.width;
  const note = noteOf(wide);
  const under = below(footY + 2 + note.height, space.x, wide);
  const isBeside = tables === "beside";
  const first = [...(isBeside ? [{ ...right, width: table }] : []), ...tableColumns(under, table)];
  return {
    note: placeBlock(note, [space.x, footY + 2]),
    places: { beside: isBeside ? { right, under } : null, first, later: space, wide: table },
  };
}

function drawIn(
  set: DryfitSet,
  alike: readonly SetSheet[],
  space: Rect,
  title: Block,
  room: Room,
  { noun, snug }: { noun: Noun; snug: Mm },
): Drawn {
  const { scale, across, diagram, stands } = room;
  const held = stands ? alike.map(standing) : alike;
  const lettering = {
    unit: set.job.unit,
    stock: stockOf(set, alike[0]!.stock),
    idsOf: (index: number) => idsOf(alike, index),
    stands,
  };
  const drawn = drawSheetDiagram(held[0]!, scale.ratio, lettering, across.ratio);
  const scales = scale === across ? null : { scale, across };
  const told = { noun, scales, stands };
  const lay = (table: Mm): Shape[][] => {
    const { note, places } = placesFor(room, space, (wide) => setNote(set, alike, drawn, wide, told), table);
    const fixed = [placeBlock(title, [space.x, space.y]), placeBlock(drawn.block, [diagram.x, diagram.y]), note];
    return flowTables(set, held, places).map((shapes, i) => (i === 0 ? [...fixed, ...shapes] : shapes));
  };
  // No line wraps where there is room for that; beside the diagram, the room beside it is what there is.
  const wide = room.tables === "under" && snug > MOST_TABLE && snug <= space.width ? lay(snug) : null;
  const table = room.tables === "apart" ? besideOr(set, held, room, space, snug) : snug;
  return { scale, outside: drawn.outside, drawings: wide?.length === 1 ? wide : lay(Math.min(MOST_TABLE, table)) };
}

/** Beside a sheet that stands, a table as narrow as the room there, if its lines may wrap so far. */
function besideOr(set: DryfitSet, held: readonly SetSheet[], { diagram }: Room, space: Rect, snug: Mm): Mm {
  const room = space.width - diagram.width - GUTTER;
  const least = Math.max(
    leastTable(CUT_COLUMNS, cutRows(held, set.job.unit)),
    leastTable(PART_COLUMNS, partRows(set, held)),
  );
  return least <= room ? Math.min(snug, room) : snug;
}

/** So wide that no line of the tables wraps, whether the sheet lies or stands. */
const snugOf = (set: DryfitSet, alike: readonly SetSheet[]): Mm =>
  Math.max(
    ...[alike, alike.map(standing)].flatMap((held) => [
      snugTable(CUT_COLUMNS, cutRows(held, set.job.unit)),
      leastTable(PART_COLUMNS, partRows(set, held)),
    ]),
  );

/** As large as it goes; somewhat smaller where that saves a drawing and every mark keeps its place in its part. */
function drawSheet(set: DryfitSet, alike: readonly SetSheet[], space: Rect, noun: Noun): Drawn {
  const [sheet] = alike as [SetSheet];
  const title = setTitle(set, alike, space.width, noun);
  const below: Rect = { ...space, y: space.y + title.height + 2, height: space.height - title.height - 2 };
  const snug = snugOf(set, alike);
  let largest: Drawn | null = null;
  for (const room of roomsFor(sheet, below, set.job.unit, Math.min(MOST_TABLE, snug))) {
    if (largest !== null && room.scale.ratio < SMALLER * largest.scale.ratio) break;
    const drawn = drawIn(set, alike, space, title, room, { noun, snug });
    if (drawn.drawings.length === 1 && drawn.outside <= (largest?.outside ?? drawn.outside)) return drawn;
    largest ??= drawn;
  }
  if (largest === null) throw new Error("Internal error: no scale is small enough for a sheet layout");
  return largest;
}

type Kind = { noun: Noun; key: string };
const SHEETS: Kind = { noun: "Sheet", key: "sheet-layout" };
const BOARDS: Kind = { noun: "Board", key: "board-layout" };

export const drawSheetLayouts = (set: DryfitSet): Draft[] => drawLayouts(set, set.sheets, SHEETS);

/** Boards in the rough likewise. */
export const drawBoardLayouts = (set: DryfitSet): Draft[] => drawLayouts(set, set.boards, BOARDS);

/** One layout, or more that share a drawing. */
type Layout = { numbers: string[]; scale: Scale; drawings: Shape[][] };

function drawLayouts(set: DryfitSet, sheets: readonly SetSheet[], { noun, key }: Kind): Draft[] {
  const space = drawingSpace(set);
  const each = alikeSheets(sheets).map((alike): Layout => {
    const { scale, drawings } = drawSheet(set, alike, space, noun);
    return { numbers: alike.map(({ n }) => String(n)), scale, drawings };
  });
  return shared(each, space).flatMap(({ numbers, scale, drawings }) => {
    const name = `${noun} layout ${listInWords(numbers)}`;
    return drawings.map(
      (shapes, i): Draft => ({
        key: `${key}-${numbers[0]}${i === 0 ? "" : `-${i + 1}`}`,
        name: i === 0 ? name : `${name}, continued`,
        bookmark: [`${noun} layouts`, i === 0 ? name : `${name}, continued`],
        scale: i === 0 ? scale.name : null,
        shapes,
      }),
    );
  });
}

const SPARSE = 1 / 3;
const BETWEEN: Mm = 8; // two layouts on one drawing

/** A layout that would leave its drawing nearly blank stands under the one before it, or the next one under it, where both have room at their scale. */
function shared(layouts: readonly Layout[], space: Rect): Layout[] {
  const joined: Layout[] = [];
  for (const layout of layouts) {
    const before = joined.at(-1);
    const both = before === undefined ? null : onOne(before, layout, space);
    if (both === null) joined.push(layout);
    else joined[joined.length - 1] = both;
  }
  return joined;
}

function onOne(upper: Layout, lower: Layout, space: Rect): Layout | null {
  const [[first, ...more], [second, ...others]] = [upper.drawings, lower.drawings];
  if (more.length + others.length > 0 || upper.scale !== lower.scale) return null;
  if ([first!, second!].every((shapes) => filledShare(shapes, space) >= SPARSE)) return null;
  const [foot, need] = [footOf(first!), footOf(second!) - space.y];
  if (foot + BETWEEN + need > space.y + space.height) return null;
  const y = foot + BETWEEN / 2;
  const shapes = [
    ...first!,
    line("outline", [space.x, y], [space.x + space.width, y]),
    group(second!, { move: [0, foot + BETWEEN - space.y] }),
  ];
  return { numbers: [...upper.numbers, ...lower.numbers], scale: upper.scale, drawings: [shapes] };
}

/** Sheet layouts: each sheet to scale with its numbered cuts beside it; sheets cut alike are drawn once. */

import type { Mm, Unit } from "../../base/length.ts";
import { listInWords } from "../../base/words.ts";
import type { Rect } from "../../paper/shape.ts";
import type { DryfitSet, SetSheet } from "../../set/schema.ts";
import { stockOf } from "../../set/words.ts";
import { type Block, placeBlock } from "../draughting/cell.ts";
import type { Draft } from "../draughting/draft.ts";
import { footOf } from "../draughting/filled.ts";
import { drawingSpace } from "../draughting/frame.ts";
import { type Scale, scalesOf } from "../draughting/scale.ts";
import type { Movable } from "../draughting/sharing.ts";
import { tooSmall } from "../draughting/too-small.ts";
import { drawSheetDiagram } from "./sheet-diagram.ts";
import { type Noun, setNote, setTitle } from "./sheet-note.ts";
import { marginsOf, partRect } from "./sheet-paper.ts";
import { alikeSheets } from "./sheet-pieces.ts";
import { standing } from "./sheet-standing.ts";
import { flowTables, GUTTER, idsOf, leastFor, snugFor, type Tables, tableColumns } from "./sheet-tables.ts";

const MOST_TABLE: Mm = 84; // the cuts: number, piece, fence, edge, what it makes; narrower where none of its lines needs as much
const LEAST_NOTE: Mm = 45; // a column of words beside a diagram
const SHARE_BESIDE = 0.75; // of the height, for a diagram with its table beside it
const SHARE_OVER = 0.67; // and with its table under it
const SMALLER = 0.45; // of the largest scale, the next of the series, to have everything on one drawing

/** A room for the diagram: its table beside it, or under it, or on a drawing of its own, the note beside it; the sheet lying or standing. */
type Room = { scale: Scale; across: Scale; diagram: Rect; tables: "beside" | "under" | "apart"; stands: boolean };

type Scales = { scale: Scale; across: Scale };

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
function* roomsFor(sheet: SetSheet, space: Rect, unit: Unit, table: Mm, only: Scales | null): Generator<Room> {
  const mayStand = space.height > space.width && sheet.width > NARROW * sheet.length;
  for (const scale of only === null ? scalesOf(unit) : [only.scale]) {
    for (const stands of mayStand ? [false, true] : [false]) {
      const held = stands ? standing(sheet) : sheet;
      const { left, right, top, bottom } = marginsOf(held);
      const across = only?.across ?? (stands ? scale : acrossOf(sheet, scale, space, unit));
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

type Drawn = Scales & Tables & { outside: number };

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
  const lay = (table: Mm): Tables => {
    const { note, places } = placesFor(room, space, (wide) => setNote(set, alike, drawn, wide, told), table);
    const fixed = [placeBlock(title, [space.x, space.y]), placeBlock(drawn.block, [diagram.x, diagram.y]), note];
    const { drawings, areParts } = flowTables(set, held, places);
    return { drawings: drawings.map((shapes, i) => (i === 0 ? [...fixed, ...shapes] : shapes)), areParts };
  };
  // No line wraps where there is room for that; beside the diagram, the room beside it is what there is.
  const wide = room.tables === "under" && snug > MOST_TABLE && snug <= space.width ? lay(snug) : null;
  const table = room.tables === "apart" ? besideOr(set, held, room, space, snug) : snug;
  const tables = wide?.drawings.length === 1 ? wide : lay(Math.min(MOST_TABLE, table));
  return { scale, across, outside: drawn.outside, ...tables };
}

/** Beside a sheet that stands, a table as narrow as the room there, if its lines may wrap so far. */
function besideOr(set: DryfitSet, held: readonly SetSheet[], { diagram }: Room, space: Rect, snug: Mm): Mm {
  const room = space.width - diagram.width - GUTTER;
  return leastFor(set, held) <= room ? Math.min(snug, room) : snug;
}

/** As large as it goes; somewhat smaller where that saves a drawing and every mark keeps its place in its part. `only`: at these scales, which its title tells. Null where no scale is small enough. */
function drawSheet(
  set: DryfitSet,
  alike: readonly SetSheet[],
  space: Rect,
  noun: Noun,
  only: Scales | null = null,
): Drawn | null {
  const [sheet] = alike as [SetSheet];
  const title = setTitle(set, alike, space.width, noun, only?.scale ?? null);
  const below: Rect = { ...space, y: space.y + title.height + 2, height: space.height - title.height - 2 };
  const snug = Math.max(snugFor(set, alike), snugFor(set, alike.map(standing))); // whether it lies or stands
  const table = Math.min(MOST_TABLE, snug);
  if (tableColumns(below, table).length === 0) return null;
  let largest: Drawn | null = null;
  for (const room of roomsFor(sheet, below, set.job.unit, table, only)) {
    if (largest !== null && room.scale.ratio < SMALLER * largest.scale.ratio) break;
    const drawn = drawIn(set, alike, space, title, room, { noun, snug });
    if (footOf(drawn.drawings[0]!) > space.y + space.height + 1e-6) continue; // its note is longer than what is left under it
    if (drawn.drawings.length === 1 && drawn.outside <= (largest?.outside ?? drawn.outside)) return drawn;
    largest ??= drawn;
  }
  return largest;
}

const LEAST_SHARE = 0.5; // of its scale alone, where it shares a drawing

/** In a room of a drawing that it shares, all that it shows alone: at its scale, or at the largest below at which no more is lettered outside its part; null where it has no room there. */
function drawBeside(set: DryfitSet, alike: readonly SetSheet[], room: Rect, noun: Noun, alone: Drawn): Drawn | null {
  const isEqual = alone.scale === alone.across;
  const smaller = scalesOf(set.job.unit).filter(
    ({ ratio }) => ratio < alone.scale.ratio && ratio >= LEAST_SHARE * alone.scale.ratio - 1e-9,
  );
  for (const scale of [alone.scale, ...smaller]) {
    const across = isEqual ? scale : alone.across;
    const drawn = drawSheet(set, alike, room, noun, { scale, across });
    const isWhole = drawn !== null && drawn.drawings.length === 1 && drawn.areParts === alone.areParts;
    const isWithin = isWhole && footOf(drawn.drawings[0]!) <= room.y + room.height;
    if (isWithin && drawn.outside <= alone.outside) return drawn;
  }
  return null;
}

type Kind = { noun: Noun; key: string };
const SHEETS: Kind = { noun: "Sheet", key: "sheet-layout" };
const BOARDS: Kind = { noun: "Board", key: "board-layout" };

export const drawSheetLayouts = (set: DryfitSet): Movable[] => drawLayouts(set, set.sheets, SHEETS);

/** Boards in the rough likewise. */
export const drawBoardLayouts = (set: DryfitSet): Movable[] => drawLayouts(set, set.boards, BOARDS);

function drawLayouts(set: DryfitSet, sheets: readonly SetSheet[], { noun, key }: Kind): Movable[] {
  const space = drawingSpace(set);
  return alikeSheets(sheets).flatMap((alike): Movable[] => {
    const numbers = alike.map(({ n }) => String(n));
    const name = `${noun} layout ${listInWords(numbers)}`;
    const drafts = ({ scale, drawings }: Drawn): Draft[] =>
      drawings.map((shapes, i): Draft => {
        const own = i === 0 ? name : `${name}, continued`;
        return {
          key: `${key}-${numbers[0]}${i === 0 ? "" : `-${i + 1}`}`,
          name: own,
          bookmark: [`${noun} layouts`, own],
          scale: i === 0 ? scale.name : null,
          shapes,
        };
      });
    const alone = drawSheet(set, alike, space, noun);
    if (alone === null)
      throw tooSmall(
        `${name}, whose diagram leaves no room for its cuts and what is said of them, however small it is drawn`,
        "a drawing that holds the diagram, its note and one column of cuts",
      );
    const redrawn = (room: Rect): Draft | null => {
      const drawn = drawBeside(set, alike, room, noun, alone);
      return drawn && drafts(drawn)[0]!;
    };
    const all = drafts(alone);
    return all.map((one) => ({ ...one, hasHeading: true, redrawn: all.length === 1 ? redrawn : () => null }));
  });
}

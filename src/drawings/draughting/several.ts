/** Blocks on one drawing where they have room there, and on as few as they need where they have not. */
import type { Unit } from "../../base/length.ts";
import { group } from "../../paper/draw.ts";
import type { Rect, Shape } from "../../paper/shape.ts";
import { AIR, arrange, type Block, columnOf, noRoomFor, type Placed, placeBlock } from "./block.ts";
import type { Block as Lettering } from "./cell.ts";
import type { Draft } from "./draft.ts";
import { filledShare } from "./filled.ts";
import { largestScale, type Scale } from "./scale.ts";

/** Blocks in rows, each as full as it will be, the rows one under the other; null where they need more than the room. */
function inRows(blocks: readonly Block[], room: Rect): Placed | null {
  const rows: Block[][] = [];
  const widthOf = (row: readonly Block[]): number =>
    row.reduce((sum, { box }) => sum + box.width, 0) + AIR * (row.length - 1);
  for (const block of blocks) {
    const row = rows.at(-1);
    if (row !== undefined && widthOf([...row, block]) <= room.width) row.push(block);
    else rows.push([block]);
  }
  const heights = rows.map((row) => Math.max(...row.map(({ box }) => box.height)));
  const spare = room.height - heights.reduce((sum, one) => sum + one, 0) - AIR * (rows.length - 1);
  if (spare < -1e-9 || rows.some((row) => widthOf(row) > room.width + 1e-9)) return null;
  const share = spare / (rows.length + 1);
  let y = room.y + share;
  const placed: Placed = { shapes: [], boxes: [] };
  rows.forEach((row, i) => {
    const air = (room.width - widthOf(row)) / (row.length + 1);
    let x = room.x + air;
    for (const block of row) {
      const at = [x, y + (heights[i]! - block.box.height) / 2] as const;
      placed.shapes.push(placeBlock(block, at));
      placed.boxes.push({ ...block.box, x: at[0], y: at[1] });
      x += block.box.width + AIR + air;
    }
    y += heights[i]! + AIR + share;
  });
  return placed;
}

/** In a line; the first with the others in a column beside or under it; or in rows. */
const together = (blocks: readonly Block[], room: Rect): Placed | null =>
  arrange(blocks, room) ??
  (blocks.length > 2 ? arrange([blocks[0]!, ...columnOf(blocks.slice(1))], room) : null) ??
  inRows(blocks, room);

/** Every way to part a list in so many runs. */
function partings<T>(list: readonly T[], runs: number): T[][][] {
  if (runs === 1) return [[[...list]]];
  return list
    .slice(1)
    .flatMap((_, i) => partings(list.slice(i + 1), runs - 1).map((rest) => [list.slice(0, i + 1), ...rest]));
}

const areaOf = (blocks: readonly Block[]): number => blocks.reduce((sum, { box }) => sum + box.width * box.height, 0);

/** One of several drawings: which blocks stand on it, from the first to before the last, and where. */
type Run = { from: number; to: number; placed: Placed };

/** Of the ways in which all fit on so many drawings the one whose emptiest drawing is the fullest; null where there is none. */
function placeOn(blocks: readonly Block[], count: number, rooms: Rooms): Run[] | null {
  const ways = partings(blocks, count)
    .map((runs) => ({ runs, least: Math.min(...runs.map(areaOf)) }))
    .sort((a, b) => b.least - a.least);
  for (const { runs } of ways) {
    const placed = runs.map((run, i) => together(run, roomAt(rooms, i, count)));
    if (!placed.every((one) => one !== null)) continue;
    let to = 0;
    return placed.map((one, i) => {
      const from = to;
      to += runs[i]!.length;
      return { from, to, placed: one };
    });
  }
  return null;
}

/** What a drawing with the notes at its foot has free, and what each other one has. */
type Rooms = { noted: Rect; plain: Rect; notesOn: "first" | "last" };

const isNoted = ({ notesOn }: Rooms, i: number, count: number): boolean => i === (notesOn === "first" ? 0 : count - 1);

const roomAt = (rooms: Rooms, i: number, count: number): Rect => (isNoted(rooms, i, count) ? rooms.noted : rooms.plain);

/** Drawn smaller than this, a view is worth a further drawing. */
const LEAST_RATIO = 1 / 24;
const GAIN = 1.5;

type Draw = (ratio: number, withMarks: boolean) => Block[];
type Drawing = { shapes: Shape[]; scale: Scale };
type Fitted = { drawings: Drawing[]; scale: Scale };

/** At the largest scale, on so many drawings; null where they fit there at none. */
const fitOn = (unit: Unit, count: number, rooms: Rooms, draw: Draw): Fitted | null =>
  largestScale(unit, (scale) => {
    if (placeOn(draw(scale.ratio, false), count, rooms) === null) return null;
    const placed = placeOn(draw(scale.ratio, true), count, rooms);
    if (placed === null) return null;
    return { drawings: placed.map((run, i) => asFull(unit, run, scale, draw, roomAt(rooms, i, count))), scale };
  });

/** One of several drawings at the scale of the others; at the largest that it has room for itself where it would stay nearly blank. */
function asFull(unit: Unit, { from, to, placed }: Run, scale: Scale, draw: Draw, room: Rect): Drawing {
  const { shapes } = placed;
  if (filledShare(shapes, room) >= LEAST_FILLED) return { shapes, scale };
  const larger = largestScale(unit, (one): Drawing | null => {
    const own = together(draw(one.ratio, true).slice(from, to), room);
    return own && { shapes: own.shapes, scale: one };
  });
  return larger ?? { shapes, scale };
}

/**
 * On one drawing; on more where they fit there at no scale, or where that makes them larger than they would be, small, on
 * fewer. `draws`: the same in blocks joined as they read best, then in blocks apart where these are larger on as many. Throws
 * ProblemsFound where one of them alone has no room.
 */
function fitOnDrawings(unit: Unit, rooms: Rooms, draws: readonly Draw[]): Fitted {
  let best = null as Fitted | null;
  const counts = draws.flatMap((draw) => draw(LEAST_RATIO, false).map((_, i) => ({ draw, count: i + 1 })));
  for (const { draw, count } of counts.sort((a, b) => a.count - b.count)) {
    const isMore = best !== null && count > best.drawings.length;
    if (isMore && best!.scale.ratio >= LEAST_RATIO - 1e-9) break;
    const fitted = fitOn(unit, count, rooms, draw);
    const least = best === null ? 0 : (isMore ? GAIN : 1) * best.scale.ratio + 1e-9;
    if (fitted !== null && fitted.scale.ratio > least) best = fitted;
  }
  if (best === null) throw noRoomFor(rooms.noted);
  return best;
}

const NOTE_AIR = 3;
const LEAST_FILLED = 1 / 3;

type Note = Lettering | null;

/** Each drawing with what stands on it, the notes at the foot of theirs. */
const withNotes = ({ drawings }: Fitted, { plain, ...rooms }: Rooms, note: Note): Drawing[] =>
  drawings.map(({ shapes, scale }, i) => {
    if (note === null || note.height === 0 || !isNoted({ plain, ...rooms }, i, drawings.length))
      return { shapes, scale };
    const foot = group(note.shapes, { move: [plain.x, plain.y + plain.height - note.height] });
    return { shapes: [...shapes, foot], scale };
  });

/** Notes stand with the first of several drawings, or with the last where that makes the views larger, or else a drawing would stay nearly blank. */
function fitWithNotes(unit: Unit, space: Rect, note: Note, draws: readonly Draw[]): Fitted {
  const foot = note === null || note.height === 0 ? 0 : note.height + NOTE_AIR;
  const rooms: Rooms = { noted: { ...space, height: space.height - foot }, plain: space, notesOn: "first" };
  const first = fitOnDrawings(unit, rooms, draws);
  const noted: Fitted = { ...first, drawings: withNotes(first, rooms, note) };
  if (first.drawings.length === 1 || foot === 0) return noted;
  const others: Rooms = { ...rooms, notesOn: "last" };
  const last = fitOnDrawings(unit, others, draws);
  const least = ({ drawings }: Fitted): number => Math.min(...drawings.map(({ shapes }) => filledShare(shapes, space)));
  const told: Fitted = { ...last, drawings: withNotes(last, others, note) };
  const isFuller = least(noted) < LEAST_FILLED && least(told) > least(noted);
  const isLarger = last.scale.ratio > first.scale.ratio + 1e-9;
  return last.drawings.length === first.drawings.length && (isLarger || isFuller) ? told : noted;
}

/** Views with notes, as drafts of one name. */
export function draftViews(
  { unit, space, note, key, name }: { unit: Unit; space: Rect; note: Note; key: string; name: string },
  ...draws: readonly Draw[]
): Draft[] {
  const { drawings } = fitWithNotes(unit, space, note, draws);
  return drawings.map(({ shapes, scale }, i): Draft => {
    const own = drawings.length === 1 ? name : `${name}, ${i + 1} of ${drawings.length}`;
    return {
      key: i === 0 ? key : `${key}-more-${i}`,
      name: own,
      bookmark: ["Views", own],
      scale: scale.name,
      projected: true,
      shapes,
    };
  });
}

/** A block: shapes laid out about a point of their own, with the box they need, to be put on a drawing as one. */
import type { Mm, Unit } from "../../base/length.ts";
import type { ProblemsFound } from "../../base/problem.ts";
import { group } from "../../paper/draw.ts";
import type { Point, Rect, Shape } from "../../paper/shape.ts";
import { largestScale, type Scale } from "./scale.ts";
import { tooSmall } from "./too-small.ts";

export type Block = { shapes: Shape[]; box: Rect };

export function unionOf(boxes: readonly Rect[]): Rect {
  const x = Math.min(...boxes.map((box) => box.x));
  const y = Math.min(...boxes.map((box) => box.y));
  return {
    x,
    y,
    width: Math.max(...boxes.map((box) => box.x + box.width)) - x,
    height: Math.max(...boxes.map((box) => box.y + box.height)) - y,
  };
}

export const grow = (box: Rect, by: Mm): Rect => ({
  x: box.x - by,
  y: box.y - by,
  width: box.width + 2 * by,
  height: box.height + 2 * by,
});

export const meets = (a: Rect, b: Rect): boolean =>
  a.x < b.x + b.width && b.x < a.x + a.width && a.y < b.y + b.height && b.y < a.y + a.height;

export const isWithin = (inner: Rect, outer: Rect): boolean =>
  inner.x >= outer.x &&
  inner.y >= outer.y &&
  inner.x + inner.width <= outer.x + outer.width &&
  inner.y + inner.height <= outer.y + outer.height;

/** The block with its box's upper left corner at a point. */
export const placeBlock = (block: Block, at: Point): Shape =>
  group(block.shapes, { move: [at[0] - block.box.x, at[1] - block.box.y] });

/** What stands on a drawing, and the room that each block takes there. */
export type Placed = { shapes: Shape[]; boxes: Rect[] };

export const AIR: Mm = 8; // between two blocks on one drawing

const IN_COLUMN: Mm = 6;

/** Blocks one under the other, as one. */
export function columnOf(blocks: readonly Block[]): Block[] {
  if (blocks.length === 0) return [];
  let y = 0;
  const shapes: Shape[] = [];
  let width = 0;
  for (const block of blocks) {
    shapes.push(group(block.shapes, { move: [-block.box.x, y - block.box.y] }));
    y += block.box.height + IN_COLUMN;
    width = Math.max(width, block.box.width);
  }
  return [{ shapes, box: { x: 0, y: 0, width, height: y - IN_COLUMN } }];
}

/** Blocks in a row or a column, centred on each other; null where they need more than the room. */
function lineUp(blocks: readonly Block[], room: Rect, isRow: boolean): Placed | null {
  const run = (block: Block): Mm => (isRow ? block.box.width : block.box.height);
  const across = (block: Block): Mm => (isRow ? block.box.height : block.box.width);
  const needed = blocks.reduce((sum, block) => sum + run(block), 0) + AIR * (blocks.length - 1);
  const [roomRun, roomAcross] = isRow ? [room.width, room.height] : [room.height, room.width];
  if (needed > roomRun + 1e-9 || Math.max(...blocks.map(across)) > roomAcross + 1e-9) return null;
  // What is left over is shared out between and around the blocks.
  const share = (roomRun - needed) / (blocks.length + 1);
  let start = share;
  const boxes = blocks.map((block): Rect => {
    const aside = (roomAcross - across(block)) / 2;
    const [x, y] = isRow ? [room.x + start, room.y + aside] : [room.x + aside, room.y + start];
    start += run(block) + AIR + share;
    return { ...block.box, x, y };
  });
  return { shapes: blocks.map((block, i) => placeBlock(block, [boxes[i]!.x, boxes[i]!.y])), boxes };
}

/** Blocks side by side, or one under the other where that is what fits; null where neither does. */
export const arrange = (blocks: readonly Block[], room: Rect): Placed | null =>
  lineUp(blocks, room, true) ?? lineUp(blocks, room, false);

/**
 * Arranged at the largest scale at which all fit. `draw` is asked first without marks, which move nothing but take long
 * to place; only what fits is drawn with them. Null where they fit at no scale.
 */
export function fitAllOrNone<T>(
  unit: Unit,
  room: Rect,
  draw: (ratio: number, withMarks: boolean) => T[],
  place: (all: readonly T[], room: Rect) => Placed | null,
): { shapes: Shape[]; scale: Scale } | null {
  return largestScale(unit, (scale) => {
    if (place(draw(scale.ratio, false), room) === null) return null;
    const placed = place(draw(scale.ratio, true), room);
    return placed === null ? null : { shapes: placed.shapes, scale };
  });
}

export const noRoomFor = ({ width, height }: Rect): ProblemsFound =>
  tooSmall(
    `views that need more than the ${width.toFixed(0)} x ${height.toFixed(0)} mm the paper for drawings leaves them`,
    "views that fit at some scale",
  );

/** The same where they must fit: throws ProblemsFound where they do at no scale. */
export function fitAll<T>(
  unit: Unit,
  room: Rect,
  draw: (ratio: number, withMarks: boolean) => T[],
  place: (all: readonly T[], room: Rect) => Placed | null,
): { shapes: Shape[]; scale: Scale } {
  const fitted = fitAllOrNone(unit, room, draw, place);
  if (fitted === null) throw noRoomFor(room);
  return fitted;
}

/** Blocks in a row, or in a column, at the largest scale. */
export const fitBlocks = (
  unit: Unit,
  room: Rect,
  draw: (ratio: number, withMarks: boolean) => Block[],
): { shapes: Shape[]; scale: Scale } => fitAll(unit, room, draw, arrange);

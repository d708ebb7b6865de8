/** A block: shapes laid out about a point of their own, with the box they need, to be put on a drawing as one. */
import type { Mm, Unit } from "../../base/length.ts";
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

export const AIR: Mm = 8; // between two blocks on one drawing

/** Blocks in a row or a column, centred on each other; null where they need more than the room. */
function lineUp(blocks: readonly Block[], room: Rect, isRow: boolean): Shape[] | null {
  const run = (block: Block): Mm => (isRow ? block.box.width : block.box.height);
  const across = (block: Block): Mm => (isRow ? block.box.height : block.box.width);
  const needed = blocks.reduce((sum, block) => sum + run(block), 0) + AIR * (blocks.length - 1);
  const [roomRun, roomAcross] = isRow ? [room.width, room.height] : [room.height, room.width];
  if (needed > roomRun + 1e-9 || Math.max(...blocks.map(across)) > roomAcross + 1e-9) return null;
  // What is left over is shared out between and around the blocks.
  const share = (roomRun - needed) / (blocks.length + 1);
  let start = share;
  return blocks.map((block) => {
    const aside = (roomAcross - across(block)) / 2;
    const at: Point = isRow ? [room.x + start, room.y + aside] : [room.x + aside, room.y + start];
    start += run(block) + AIR + share;
    return placeBlock(block, at);
  });
}

/** Blocks side by side, or one under the other where that is what fits; null where neither does. */
export const arrange = (blocks: readonly Block[], room: Rect): Shape[] | null =>
  lineUp(blocks, room, true) ?? lineUp(blocks, room, false);

/**
 * Arranged blocks at the largest scale at which they fit. `draw` is asked first without marks, which move nothing but
 * take long to place; only what fits is drawn with them.
 */
export function fitBlocks(
  unit: Unit,
  room: Rect,
  draw: (ratio: number, withMarks: boolean) => Block[],
): { shapes: Shape[]; scale: Scale } {
  const fitted = largestScale(unit, (scale) => {
    if (arrange(draw(scale.ratio, false), room) === null) return null;
    const shapes = arrange(draw(scale.ratio, true), room);
    return shapes === null ? null : { shapes, scale };
  });
  if (fitted === null) {
    const size = `${room.width.toFixed(0)} x ${room.height.toFixed(0)} mm`;
    throw tooSmall(
      `views that need more than the ${size} the paper for drawings leaves them`,
      "views that fit at some scale",
    );
  }
  return fitted;
}

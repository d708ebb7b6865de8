/**
 * Views of one piece on one drawing as third angle has them: what is seen from above over the front, what is seen from
 * the right beside it, their corners in line with the front's. Each block lies about its view's lower left corner.
 *
 *     +-----+
 *     |above|
 *     +-----+
 *     +-----+ +-----+ +-----+
 *     |front| |right| |right|
 *     +-----+ +-----+ +-----+
 */
import type { Mm, Unit } from "../../base/length.ts";
import { group } from "../../paper/draw.ts";
import type { Rect, Shape } from "../../paper/shape.ts";
import { AIR, arrange, type Block, fitAllOrNone, type Placed } from "./block.ts";
import type { Scale } from "./scale.ts";

export type ProjectedView = { block: Block; stands: "front" | "above" | "right" };

const leftOf = ({ box }: Block): Mm => -box.x;
const rightOf = ({ box }: Block): Mm => box.x + box.width;
const upOf = ({ box }: Block): Mm => -box.y;
const downOf = ({ box }: Block): Mm => box.y + box.height;

const most = (sizes: readonly Mm[]): Mm => Math.max(0, ...sizes);
const sum = (sizes: readonly Mm[]): Mm => sizes.reduce((total, one) => total + one, 0);

/** Null where they need more than the room. Without a front they stand in a row or a column, or the last that is seen from above takes its place. */
export function arrangeViews(views: readonly ProjectedView[], room: Rect): Placed | null {
  const blocksAt = (stands: ProjectedView["stands"]): Block[] =>
    views.filter((view) => view.stands === stands).map(({ block }) => block);
  const [[front], above, right] = [blocksAt("front"), blocksAt("above"), blocksAt("right")];
  if (front !== undefined && views.length > 1) return arrangeRound(front, above, right, room);
  const inLine = arrange([...(front === undefined ? [] : [front]), ...above, ...right], room);
  if (inLine !== null || above.length === 0 || right.length === 0) return inLine;
  return arrangeRound(above.at(-1)!, above.slice(0, -1), right, room);
}

function arrangeRound(front: Block, above: readonly Block[], right: readonly Block[], room: Rect): Placed | null {
  const column = [...above, front];
  const [left, columnRight] = [most(column.map(leftOf)), most(column.map(rightOf))];
  const inRow = [front, ...right];
  // What lies over and under the line that the front stands on.
  const stacked = sum(above.map(({ box }) => box.height)) + AIR * above.length + upOf(front);
  const [up, down] = [most([stacked, ...right.map(upOf)]), most(inRow.map(downOf))];
  const wide = left + columnRight + sum(right.map(({ box }) => box.width + AIR));
  if (wide > room.width + 1e-9 || up + down > room.height + 1e-9) return null;
  // What is left over is shared out between and around the views.
  const acrossShare = (room.width - wide) / (right.length + 2);
  const upShare = (room.height - up - down) / (above.length + 2);
  const ground = room.y + room.height - upShare - down;
  const shapes: Shape[] = [];
  const boxes: Rect[] = [];
  const put = ({ shapes: drawn, box }: Block, x: Mm, y: Mm): void => {
    shapes.push(group(drawn, { move: [x, y] }));
    boxes.push({ ...box, x: x + box.x, y: y + box.y });
  };
  const columnX = room.x + acrossShare + left;
  put(front, columnX, ground);
  let top = ground - upOf(front);
  for (const block of [...above].reverse()) {
    const y = top - AIR - upShare - downOf(block);
    put(block, columnX, y);
    top = y - upOf(block);
  }
  let x = columnX + columnRight;
  for (const block of right) {
    x += AIR + acrossShare + leftOf(block);
    put(block, x, ground);
    x += rightOf(block);
  }
  return { shapes, boxes };
}

/** Views at the largest scale at which they fit, asked for without marks first; null where they fit at none. */
export const fitViews = (
  unit: Unit,
  room: Rect,
  draw: (ratio: number, withMarks: boolean) => ProjectedView[],
): { shapes: Shape[]; scale: Scale } | null => fitAllOrNone(unit, room, draw, arrangeViews);

/**
 * Views of one piece on one drawing (ISO 5456-2): in third angle what is seen from above stands over the front and what is seen from
 * the right at its right, in first angle under it and at its left; their corners are in line with the front's. Each block lies about
 * its view's lower left corner.
 *
 *     third angle                    first angle
 *     +-----+                        +-----+ +-----+ +-----+
 *     |above|                        |right| |right| |front|
 *     +-----+                        +-----+ +-----+ +-----+
 *     +-----+ +-----+ +-----+                        +-----+
 *     |front| |right| |right|                        |above|
 *     +-----+ +-----+ +-----+                        +-----+
 */
import type { Mm } from "../../base/length.ts";
import { group } from "../../paper/draw.ts";
import type { Rect, Shape } from "../../paper/shape.ts";
import type { DryfitSet } from "../../set/schema.ts";
import { AIR, arrange, type Block, fitAllOrNone, type Placed } from "./block.ts";
import type { Scale } from "./scale.ts";

export type Projection = DryfitSet["job"]["projection"];
export type ProjectedView = { block: Block; stands: "front" | "above" | "right" };

const leftOf = ({ box }: Block): Mm => -box.x;
const rightOf = ({ box }: Block): Mm => box.x + box.width;
const upOf = ({ box }: Block): Mm => -box.y;
const downOf = ({ box }: Block): Mm => box.y + box.height;

const most = (sizes: readonly Mm[]): Mm => Math.max(0, ...sizes);
const sum = (sizes: readonly Mm[]): Mm => sizes.reduce((total, one) => total + one, 0);

/** Null where they need more than the room. Without a front they stand in a row or a column, or the last that is seen from above takes its place. */
export function arrangeViews(
  views: readonly ProjectedView[],
  room: Rect,
  projection: Projection = "third",
): Placed | null {
  const blocksAt = (stands: ProjectedView["stands"]): Block[] =>
    views.filter((view) => view.stands === stands).map(({ block }) => block);
  const [[front], above, right] = [blocksAt("front"), blocksAt("above"), blocksAt("right")];
  if (front !== undefined && views.length > 1) return arrangeRound(front, above, right, room, projection);
  const inLine = arrange([...(front === undefined ? [] : [front]), ...above, ...right], room);
  if (inLine !== null || above.length === 0 || right.length === 0) return inLine;
  return arrangeRound(above.at(-1)!, above.slice(0, -1), right, room, projection);
}

/** `above` and `right` from the farthest of the front to the nearest, and from the nearest to the farthest. */
function arrangeRound(
  front: Block,
  above: readonly Block[],
  right: readonly Block[],
  room: Rect,
  projection: Projection,
): Placed | null {
  const isThird = projection === "third";
  // From the top down, and from the left.
  const column = isThird ? [...above, front] : [front, ...above.toReversed()];
  const row = isThird ? [front, ...right] : [...right.toReversed(), front];
  const beyond = column.filter((block) => block !== front);
  const [columnLeft, columnRight] = [most(column.map(leftOf)), most(column.map(rightOf))];
  const stacked = sum(beyond.map(({ box }) => box.height)) + AIR * beyond.length;
  // What lies over and under the line that the front stands on.
  const up = Math.max(upOf(front) + (isThird ? stacked : 0), ...right.map(upOf));
  const down = Math.max(downOf(front) + (isThird ? 0 : stacked), ...right.map(downOf));
  const wide = columnLeft + columnRight + sum(right.map(({ box }) => box.width + AIR));
  if (wide > room.width + 1e-9 || up + down > room.height + 1e-9) return null;
  // What is left over is shared out between and around the views.
  const acrossShare = (room.width - wide) / (right.length + 2);
  const upShare = (room.height - up - down) / (above.length + 2);
  const shapes: Shape[] = [];
  const boxes: Rect[] = [];
  const put = ({ shapes: drawn, box }: Block, x: Mm, y: Mm): void => {
    shapes.push(group(drawn, { move: [x, y] }));
    boxes.push({ ...box, x: x + box.x, y: y + box.y });
  };
  const ground = isThird ? room.y + room.height - upShare - down : room.y + upShare + up;
  let x = room.x + acrossShare;
  for (const block of row) {
    const left = block === front ? columnLeft : leftOf(block);
    x += left;
    if (block === front) {
      put(front, x, ground);
      putBeyond(x);
      x += columnRight;
    } else {
      put(block, x, ground);
      x += rightOf(block);
    }
    x += AIR + acrossShare;
  }
  return { shapes, boxes };

  function putBeyond(columnX: Mm): void {
    let edge = isThird ? ground - upOf(front) : ground + downOf(front);
    for (const block of isThird ? beyond.toReversed() : beyond) {
      const y = isThird ? edge - AIR - upShare - downOf(block) : edge + AIR + upShare + upOf(block);
      put(block, columnX, y);
      edge = isThird ? y - upOf(block) : y + downOf(block);
    }
  }
}

/** Views at the largest scale at which they fit, asked for without marks first; null where they fit at none. */
export const fitViews = (
  { unit, projection }: Pick<DryfitSet["job"], "unit" | "projection">,
  room: Rect,
  draw: (ratio: number, withMarks: boolean) => ProjectedView[],
): { shapes: Shape[]; scale: Scale } | null =>
  fitAllOrNone(unit, room, draw, (views, space) => arrangeViews(views, space, projection));

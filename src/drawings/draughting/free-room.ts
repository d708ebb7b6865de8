/** The free rectangles between what stands on a drawing. */
import type { Mm } from "../../base/length.ts";
import type { Rect } from "../../paper/shape.ts";
import { grow, meets } from "./block.ts";

/** Every rectangle between edges of the boxes and of the room that keeps clear of all boxes. */
export function freeRooms(room: Rect, taken: readonly Rect[], air: Mm): Rect[] {
  const grown = taken.map((box) => grow(box, air));
  const within = (at: Mm, from: Mm, size: Mm): boolean => at >= from && at <= from + size;
  const xs = [room.x, room.x + room.width, ...grown.flatMap(({ x, width }) => [x, x + width])].filter((x) =>
    within(x, room.x, room.width),
  );
  const ys = [room.y, room.y + room.height, ...grown.flatMap(({ y, height }) => [y, y + height])].filter((y) =>
    within(y, room.y, room.height),
  );
  const free: Rect[] = [];
  for (const x of xs) {
    for (const right of xs) {
      if (right <= x) continue;
      for (const y of ys) {
        for (const low of ys) {
          if (low <= y) continue;
          const one = { x, y, width: right - x, height: low - y };
          if (!grown.some((box) => meets(box, one))) free.push(one);
        }
      }
    }
  }
  return free;
}

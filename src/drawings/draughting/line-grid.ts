/**
 * The lines of a picture in a grid of square cells, so that what is asked about a place looks only at the lines near it:
 * balloons and dots ask hundreds of thousands of times for one drawing.
 */
import type { Mm } from "../../base/length.ts";
import type { Point, Rect } from "../../paper/shape.ts";
import type { Line } from "./clip.ts";

export type LineGrid = {
  /** Looks at each line that may reach into the rectangle, once, until `look` says that it is enough. */
  forEachNear: (box: Rect, look: (line: Line) => boolean) => void;
  /** How far the nearest line is from a spot; no farther than `most`. */
  distance: (spot: Point, most: Mm) => Mm;
};

const CELL: Mm = 4;

/** Without Math.hypot, which is slow. */
function distanceTo([x, y]: Point, [a, b]: Line): Mm {
  const [dx, dy] = [b[0] - a[0], b[1] - a[1]];
  const f = Math.max(0, Math.min(1, ((x - a[0]) * dx + (y - a[1]) * dy) / (dx * dx + dy * dy)));
  const [ox, oy] = [a[0] + dx * f - x, a[1] + dy * f - y];
  return Math.sqrt(ox * ox + oy * oy);
}

export function gridOf(all: readonly Line[]): LineGrid {
  const bound = (i: 0 | 1, pick: (...values: number[]) => number, from: number): number =>
    all.reduce((sum, [a, b]) => pick(sum, a[i], b[i]), from);
  const [x0, y0] = [bound(0, Math.min, Infinity), bound(1, Math.min, Infinity)];
  const [x1, y1] = [bound(0, Math.max, -Infinity), bound(1, Math.max, -Infinity)];
  const columns = all.length === 0 ? 0 : Math.floor((x1 - x0) / CELL) + 1;
  const rows = all.length === 0 ? 0 : Math.floor((y1 - y0) / CELL) + 1;
  const cells: number[][] = Array.from({ length: columns * rows }, () => []);
  const clamp = (value: number, count: number): number => Math.max(0, Math.min(count - 1, value));
  const columnOf = (x: Mm): number => clamp(Math.floor((x - x0) / CELL), columns);
  const rowOf = (y: Mm): number => clamp(Math.floor((y - y0) / CELL), rows);
  all.forEach(([a, b], n) => {
    const [left, right] = a[0] <= b[0] ? [a, b] : [b, a];
    const run = right[0] - left[0];
    const slope = run < 1e-9 ? 0 : (right[1] - left[1]) / run;
    const last = columnOf(right[0]);
    for (let i = columnOf(left[0]); i <= last; i++) {
      // Its heights where it runs through this column, a hair wider, so that rounding leaves no cell out.
      const from = Math.max(0, Math.min(run, x0 + i * CELL - 1e-6 - left[0]));
      const to = Math.max(0, Math.min(run, x0 + (i + 1) * CELL + 1e-6 - left[0]));
      const [p, q] = run < 1e-9 ? [left[1], right[1]] : [left[1] + slope * from, left[1] + slope * to];
      for (let j = rowOf(Math.min(p, q) - 1e-6); j <= rowOf(Math.max(p, q) + 1e-6); j++) cells[i * rows + j]!.push(n);
    }
  });
  const asked = new Uint32Array(all.length);
  let question = 0;
  return {
    forEachNear: ({ x, y, width, height }, look) => {
      if (columns === 0) return;
      question++;
      const [right, foot] = [columnOf(x + width), rowOf(y + height)];
      for (let i = columnOf(x); i <= right; i++) {
        for (let j = rowOf(y); j <= foot; j++) {
          for (const n of cells[i * rows + j]!) {
            if (asked[n] === question) continue;
            asked[n] = question;
            if (look(all[n]!)) return;
          }
        }
      }
    },
    distance: (spot, most) => {
      let least = most;
      const [i0, j0] = [Math.floor((spot[0] - x0) / CELL), Math.floor((spot[1] - y0) / CELL)];
      // Rings of cells about the spot's own: what lies in the next ring is at least this ring's number of cells away.
      for (let ring = 0; (ring - 1) * CELL < least; ring++) {
        for (let i = Math.max(0, i0 - ring); i <= Math.min(columns - 1, i0 + ring); i++) {
          const isEnd = Math.abs(i - i0) === ring;
          for (let j = j0 - ring; j <= j0 + ring; j += isEnd || ring === 0 ? 1 : 2 * ring) {
            if (j < 0 || j >= rows) continue;
            for (const n of cells[i * rows + j]!) least = Math.min(least, distanceTo(spot, all[n]!));
          }
        }
      }
      return least;
    },
  };
}

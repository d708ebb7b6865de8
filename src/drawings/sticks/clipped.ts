import type { Mm } from "../../base/length.ts";
import type { Point } from "../../paper/shape.ts";

/** What of the lines lies between two places along the page. */
export function clippedAlong(segments: readonly [Point, Point][], [low, high]: readonly [Mm, Mm]): [Point, Point][] {
  return segments.flatMap(([a, b]): [Point, Point][] => {
    if (Math.max(a[0], b[0]) < low || Math.min(a[0], b[0]) > high) return [];
    const at = (point: Point): Point => {
      const x = Math.min(Math.max(point[0], low), high);
      return x === point[0] ? point : [x, a[1] + ((b[1] - a[1]) * (x - a[0])) / (b[0] - a[0])];
    };
    return [[at(a), at(b)]];
  });
}

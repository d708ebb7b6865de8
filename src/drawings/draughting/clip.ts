/** Lines and rectangles: which stretch of a line lies in a box, and lines broken where a text stands. */
import type { Mm } from "../../base/length.ts";
import { LEAST_LINE } from "../../paper/pen.ts";
import type { Point, Rect } from "../../paper/shape.ts";

export type Line = readonly [Point, Point];

const BREAK: Mm = 0.5; // air around a text where a line is broken for it

/** Lines with the stretches that would run through a text left out. */
export function breakLines(all: readonly Line[], boxes: readonly Rect[]): Line[] {
  return all.flatMap((whole) => {
    let rest: Line[] = [whole];
    for (const box of boxes) rest = rest.flatMap((piece) => breakLine(piece, box));
    return rest;
  });
}

function breakLine([a, b]: Line, box: Rect): Line[] {
  const inside = clipToBox(a, b, {
    x: box.x - BREAK,
    y: box.y - BREAK,
    width: box.width + 2 * BREAK,
    height: box.height + 2 * BREAK,
  });
  if (inside === null) return [[a, b]];
  const at = (f: number): Point => [a[0] + (b[0] - a[0]) * f, a[1] + (b[1] - a[1]) * f];
  const pieces: Line[] = [];
  if (inside[0] > 1e-9) pieces.push([a, at(inside[0])]);
  if (inside[1] < 1 - 1e-9) pieces.push([at(inside[1]), b]);
  return pieces;
}

/** The stretch of a line inside a rectangle, as fractions of the line; null where it only passes or touches. */
export function clipToBox(a: Point, b: Point, box: Rect): readonly [number, number] | null {
  let [low, high] = [0, 1];
  for (const i of [0, 1] as const) {
    const [lo, hi] = i === 0 ? [box.x, box.x + box.width] : [box.y, box.y + box.height];
    const run = b[i] - a[i];
    if (Math.abs(run) < 1e-12) {
      if (a[i] <= lo || a[i] >= hi) return null;
      continue;
    }
    const [f, g] = [(lo - a[i]) / run, (hi - a[i]) / run];
    low = Math.max(low, Math.min(f, g));
    high = Math.min(high, Math.max(f, g));
  }
  return high - low > 1e-9 ? [low, high] : null;
}

export const withoutSpecks = (all: readonly Line[]): Line[] =>
  all.filter(([a, b]) => Math.hypot(b[0] - a[0], b[1] - a[1]) >= LEAST_LINE - 1e-9);

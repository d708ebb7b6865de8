/** Convex outlines in plan, and how they turn about an upright line. */
import type { Mm } from "../../base/length.ts";

export type Point = readonly [x: Mm, y: Mm];
/** Convex; corner after corner. */
export type Outline = readonly Point[];
/** In radians, anticlockwise seen from above, x to the right and y away. */
export type Swing = { pivot: Point; from: number; to: number };

export const turned = (outline: Outline, [px, py]: Point, angle: number): Outline => {
  const [c, s] = [Math.cos(angle), Math.sin(angle)];
  return outline.map(([x, y]) => [px + (x - px) * c - (y - py) * s, py + (x - px) * s + (y - py) * c]);
};

export const edgesOf = (outline: Outline): [Point, Point][] =>
  outline.map((corner, i) => [corner, outline[(i + 1) % outline.length]!]);

export const distance = ([ax, ay]: Point, [bx, by]: Point): Mm => Math.hypot(bx - ax, by - ay);

/** How deep two convex outlines lie in one another: how far one has to move to be clear. Zero or less where they are. */
export function depthOf(a: Outline, b: Outline): Mm {
  let least = Number.POSITIVE_INFINITY;
  for (const [from, to] of [...edgesOf(a), ...edgesOf(b)]) {
    const length = distance(from, to);
    const [nx, ny] = [(to[1] - from[1]) / length, (from[0] - to[0]) / length];
    const reach = (outline: Outline): [Mm, Mm] => {
      const along = outline.map(([x, y]) => x * nx + y * ny);
      return [Math.min(...along), Math.max(...along)];
    };
    const [one, other] = [reach(a), reach(b)];
    least = Math.min(least, one[1] - other[0], other[1] - one[0]);
  }
  return least;
}

const FULL = 2 * Math.PI;

/** Every turn that brings an angle into the swing. */
export const within = ({ from, to }: Swing, angle: number): number[] => {
  const first = from + ((((angle - from) % FULL) + FULL) % FULL);
  return first <= to + 1e-12 ? [first] : [];
};

/** A cut across the front, y to the right and z up: convex outlines that are moved straight or turned, and what they come into on the way. Exact: what a convex outline sweeps moving straight is the hull of where it begins and ends. */
import type { Box } from "../../base/geometry.ts";
import type { Mm } from "../../base/length.ts";
import { depthOf, type Outline, type Point } from "./turned.ts";

/** Its outline seen from the right-hand end, with the front at the left. */
export const sectionOf = ([lo, hi]: Box): Outline => [
  [lo[1], lo[2]],
  [hi[1], lo[2]],
  [hi[1], hi[2]],
  [lo[1], hi[2]],
];

export const shifted = (outline: Outline, [y, z]: Point): Outline => outline.map(([a, b]) => [a + y, b + z]);

/** How deep an outline that moves straight comes into a still one; zero or less where it passes clear. */
export const depthMoved = (outline: Outline, by: Point, still: Outline): Mm =>
  depthOf(hullOf([...outline, ...shifted(outline, by)]), still);

/** Anticlockwise (A. M. Andrew, Information Processing Letters 9, 1979). */
function hullOf(points: readonly Point[]): Outline {
  const sorted = [...points].sort((a, b) => a[0] - b[0] || a[1] - b[1]);
  const half = (ordered: readonly Point[]): Point[] => {
    const hull: Point[] = [];
    for (const point of ordered) {
      while (hull.length > 1 && turn(hull.at(-2)!, hull.at(-1)!, point) <= 0) hull.pop();
      hull.push(point);
    }
    return hull.slice(0, -1);
  };
  return [...half(sorted), ...half([...sorted].reverse())];
}

const turn = (a: Point, b: Point, c: Point): number => (b[0] - a[0]) * (c[1] - a[1]) - (b[1] - a[1]) * (c[0] - a[0]);

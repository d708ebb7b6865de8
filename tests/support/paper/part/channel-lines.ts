/** What is let into a face, by the lines of the view alone: its walls, and from where to where it runs. */

import { isDrawn, type Outline } from "../outline.ts";
import type { Stroke } from "../page.ts";

/** The two walls of what is let in here: the nearest lines at one distance to either side. */
export function wallsAt(outline: Outline, way: "x" | "y", at: number): [number, number] | null {
  const lines = way === "x" ? outline.xs : outline.ys;
  const below = lines.filter((one) => one < at).reverse();
  for (const low of below) {
    const high = lines.find((one) => Math.abs(one - (2 * at - low)) < 2e-3);
    if (high !== undefined && isHatched(outline, way, low, high)) return [low, high];
  }
  return null;
}

/** Hatch lines that rise, both their ends between the walls. */
function hatchIn({ hatching }: Outline, way: "x" | "y", low: number, high: number): Stroke[] {
  const i = way === "x" ? 0 : 1;
  const within = (value: number): boolean => value > low - 0.01 && value < high + 0.01;
  return hatching.filter(
    ({ from, to }) => (to[1] - from[1]) * (to[0] - from[0]) < 0 && within(from[i]!) && within(to[i]!),
  );
}

const isHatched = (outline: Outline, way: "x" | "y", low: number, high: number): boolean =>
  hatchIn(outline, way, low, high).length > 0;

/** From where to where the wood is taken out between two walls: hatched, or both walls drawn. What lies between two such stretches is crossed by another groove. */
export function runsAt(outline: Outline, way: "x" | "y", [low, high]: readonly [number, number]): [number, number][] {
  const lines = way === "x" ? outline.ys : outline.xs;
  const j = way === "x" ? 1 : 0;
  const hatch = hatchIn(outline, way, low, high);
  const isTaken = (a: number, b: number): boolean =>
    hatch.some(({ from, to }) => {
      const [p, q] = [Math.min(from[j]!, to[j]!), Math.max(from[j]!, to[j]!)];
      return Math.min(q, b) - Math.max(p, a) > Math.min(0.3, 0.5 * (q - p));
    }) ||
    (b - a < 3 && isDrawn(outline, way, low, a, b) && isDrawn(outline, way, high, a, b));
  const stretches = lines.slice(1).map((b, i) => ({ a: lines[i]!, b, taken: isTaken(lines[i]!, b) }));
  // With no line to close it off, what is taken goes on, along a wall.
  const other = way === "x" ? "y" : "x";
  for (let grown = true; grown; ) {
    grown = false;
    stretches.slice(1).forEach((one, i) => {
      const before = stretches[i]!;
      if (one.taken === before.taken || isDrawn(outline, other, one.a, low, high)) return;
      const { a, b } = one.taken ? before : one;
      if (!isDrawn(outline, way, low, a, b) && !isDrawn(outline, way, high, a, b)) return;
      one.taken = true;
      before.taken = true;
      grown = true;
    });
  }
  const runs: [number, number][] = [];
  for (const { a, b, taken } of stretches) {
    if (!taken) continue;
    const last = runs.at(-1);
    if (last !== undefined && a - last[1] < 12 && !isWood(outline, way, low, high, last[1], a)) last[1] = b;
    else runs.push([a, b]);
  }
  return runs;
}

/** A stretch is wood where a line closes it off at either end, and these are not the walls of a groove that crosses. */
const isWood = (outline: Outline, way: "x" | "y", low: number, high: number, a: number, b: number): boolean => {
  if (b - a < 1e-6) return false;
  const other = way === "x" ? "y" : "x";
  const isClosed = [a, b].every((at) => isDrawn(outline, other, at, low, high));
  const goesOn = (at: number): boolean =>
    isDrawn(outline, other, at, low - BEYOND, low) || isDrawn(outline, other, at, high, high + BEYOND);
  return isClosed && !(goesOn(a) && goesOn(b));
};

const BEYOND = 0.3; // of a wall that goes on past the groove it crosses

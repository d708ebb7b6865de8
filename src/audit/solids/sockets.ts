/**
 * Sockets of a dovetailed corner: a trapezoid from the plane of the tails' ends to that of their roots. As boxes each third of one is taken out as wide as it is at
 * its widest, so that tails still hook behind pins; how the two fill each other is judged by their slopes.
 */
import type { AxisIndex, Box } from "../../base/geometry.ts";
import type { Mm } from "../../base/length.ts";
import type { SetFeature } from "../../set/schema.ts";
import { drawnOut, otherAxes } from "./boxes.ts";

const LETTERS = ["l", "w", "t"] as const;
const WIDTH: AxisIndex = 1;
const THIRDS = 3;

/** A place along the way from the tails' ends, with what is open there across the part. */
export type Slice = { at: Mm; from: Mm; to: Mm };

/** The two planes of a socket, in the part's own axes, and the axis that leads from one to the other; null where its outline is none. */
export function slicesOf({ axis, outline }: SetFeature): { deep: AxisIndex; slices: [Slice, Slice] } | null {
  const [a, b] = otherAxes(LETTERS.indexOf(axis) as AxisIndex);
  if (outline.length !== 4 || (a !== WIDTH && b !== WIDTH)) return null;
  const deep = a === WIDTH ? b : a;
  const corners = outline.map(([u, v]) => (a === WIDTH ? { deep: v, across: u } : { deep: u, across: v }));
  const planes = [...new Set(corners.map((corner) => corner.deep))];
  if (planes.length !== 2) return null;
  const slices = planes.map((at): Slice => {
    const across = corners.filter((corner) => corner.deep === at).map((corner) => corner.across);
    return { at, from: Math.min(...across), to: Math.max(...across) };
  });
  return { deep, slices: slices as [Slice, Slice] };
}

/** In the part's own axes. */
export function socketBoxes(feature: SetFeature): Box[] {
  const found = slicesOf(feature);
  if (found === null) return [feature.box];
  const { deep, slices } = found;
  const [one, other] = slices;
  const along = (share: number): Slice => ({
    at: one.at + share * (other.at - one.at),
    from: one.from + share * (other.from - one.from),
    to: one.to + share * (other.to - one.to),
  });
  return Array.from({ length: THIRDS }, (_, i): Box => {
    const [a, b] = [along(i / THIRDS), along((i + 1) / THIRDS)];
    const third = drawnOut(feature.box, deep, Math.min(a.at, b.at), Math.max(a.at, b.at));
    return drawnOut(third, WIDTH, Math.min(a.from, b.from), Math.max(a.to, b.to));
  });
}

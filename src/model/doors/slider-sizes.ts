/** Sizes of doors that slide in grooves, and how they go in, worked out before a part is laid. */
import { MM_PER_INCH, type Mm, SAME, type Unit } from "../../base/length.ts";
import type { SliderGrooves } from "../../project/doors.ts";
import type { Grid } from "../grid.ts";

type Range = readonly [Mm, Mm];

/** `x`: from the opening's left edge to each door's, closed; `overlap`: what rounding leaves of what was asked for. */
export type Widths = { width: Mm; overlap: Mm; x: Mm[] };

/** Each = (opening + (n - 1) x overlap) / n, a whole step and never more: the outer two stand against the sides, and all cover the next by as much. */
export function widthsIn(opening: Mm, count: number, overlap: Mm, grid: Grid): Widths {
  const width = grid.end((opening + (count - 1) * overlap) / count);
  const left = (count * width - opening) / (count - 1);
  return { width, overlap: left, x: Array.from({ length: count }, (_, i) => i * (width - left)) };
}

/** Seated on the floor of the lower groove: `height` = opening + upper depth - spare; `held` by the upper one; `up`: as far as it can be lifted. */
export type Heights = { upper: Mm; lower: Mm; height: Mm; spare: Mm; held: Mm; up: Mm };

export function heightsIn(opening: Mm, grooves: SliderGrooves, grid: Grid): Heights {
  const [upper, lower] = [grid.end(grooves.upper), grid.end(grooves.lower)];
  const height = grid.end(opening + upper - grooves.spare);
  const spare = opening + upper - height;
  return { upper, lower, height, spare, held: upper - lower - spare, up: lower + spare };
}

/** Where the front wall of either groove lies behind the case's front, and the wood that is left between them. */
export function tracksIn(
  grooves: SliderGrooves,
  edge: Mm,
  grid: Grid,
): { from: readonly [Mm, Mm]; width: Mm; apart: Mm } {
  const width = edge + grooves.play;
  const first = grid.place(grooves.setIn);
  const second = grid.atLeast(first + width + grooves.apart);
  return { from: [first, second], width, apart: second - first - width };
}

/** How far each may slide from where it stands closed, the others where they are: to the sides, or to the next door in its own groove. */
export function rangesOf({ width, x }: Widths, opening: Mm): Range[] {
  return x.map((from, i) => {
    const before = i < 2 ? 0 : x[i - 2]! + width;
    const after = x[i + 2] ?? opening;
    return [Math.min(0, before - from), Math.max(0, after - width - from)];
  });
}

/** Each brings the lean that a letting down asks for nearer by a tenth or better. */
const ROUNDS = 12;

/** A hand keeps so far off the edge that a door is leaned past (common practice, no source). */
const CLEAR_OF_EDGE: Mm = 2;

/** How far a lower end leans out is told in whole steps of this: it is seen, not measured (common practice, no source). */
const LEAN_STEP: Record<Unit, Mm> = { mm: 5, in: MM_PER_INCH / 4 };

/**
 * How far its lower end must lean out to the front, as an angle too, before it comes down in front of the case: with its upper end in its groove,
 * against the rear wall, its lower rear corner is h sin a - t cos a in front of the face that stands at that wall's side; let down by d, under a
 * rail that hangs in front of that groove, it still has to be that far less d tan a.
 *
 *        |  |        upper groove, the door's front upper edge at its floor
 *       /| /
 *      / |/          a
 *     /  /
 *    |  /------      the case's front edge
 */
export function leanOf(
  { height, thickness, before, down }: { height: Mm; thickness: Mm; before: Mm; down: Mm },
  unit: Unit,
): { out: Mm; degrees: number } {
  const diagonal = Math.hypot(height, thickness);
  const leaning = (clear: Mm): number => Math.asin(Math.min(1, clear / diagonal)) + Math.atan(thickness / height);
  let angle = leaning(before + CLEAR_OF_EDGE);
  // Let down, its rear face comes nearer to the edge by as much as it leans over that height.
  for (let i = 0; i < ROUNDS && down > SAME; i++) angle = leaning(before + CLEAR_OF_EDGE + down * Math.tan(angle));
  const step = LEAN_STEP[unit];
  const out = Math.min(height, Math.ceil((height * Math.sin(angle)) / step - SAME) * step);
  return { out, degrees: (Math.asin(out / height) * 180) / Math.PI };
}

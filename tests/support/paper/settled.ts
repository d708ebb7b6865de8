/** Placed parts in mm, the planes that printing parts from each other made one again. */
import type { Box, Place, Vec } from "../../../src/base/geometry.ts";
import { AXES, boxToInner, boxToOuter } from "../../../src/base/geometry.ts";
import { MM_PER_INCH } from "../../../src/base/length.ts";
import type { Placed } from "./case.ts";
import type { ReadFeature, ReadPart } from "./part/part.ts";

/** `size` and `features` in mm, along the part's own axes. */
export type Settled = Omit<Placed, "place"> & { place: Place; size: Vec; features: ReadFeature[] };

export const inMm = ({ unit }: ReadPart): number => (unit === "in" ? MM_PER_INCH : 1);

/** Values that follow each other closer than `within` become the lowest of them. */
function steadied(values: readonly number[], within: number): (value: number) => number {
  const sorted = [...values].sort((a, b) => a - b);
  const lows: number[] = [];
  sorted.forEach((value, i) => {
    if (i === 0 || value - sorted[i - 1]! > within) lows.push(value);
  });
  return (value) => lows.findLast((low) => low <= value + 1e-9)!;
}

const scaled = (box: Box, k: number): Box => box.map((corner) => corner.map((one) => one * k)) as unknown as Box;

const mapped = ([lo, hi]: Box, on: readonly ((value: number) => number)[]): Box => [
  AXES.map((i) => on[i]!(lo[i])) as unknown as Vec,
  AXES.map((i) => on[i]!(hi[i])) as unknown as Vec,
];

export function settle(placed: readonly Placed[], within: number): Settled[] {
  const inCase = placed.map((one) => {
    const k = inMm(one.read);
    const { length, width, thickness } = one.read.caption;
    const place: Place = { ...one.place, at: one.place.at.map((at) => at * k) as unknown as Vec };
    const outer = (box: Box): Box => boxToOuter(place, scaled(box, k));
    return {
      one,
      bounds: outer([
        [0, 0, 0],
        [length, width, thickness],
      ]),
      cuts: one.read.features.map(({ box }) => outer(box)),
    };
  });
  const on = AXES.map((i) =>
    steadied(
      inCase.flatMap(({ bounds, cuts }) => [bounds, ...cuts].flatMap(([lo, hi]) => [lo[i], hi[i]])),
      within,
    ),
  );
  return inCase.map(({ one, bounds, cuts }): Settled => {
    const [lo, hi] = mapped(bounds, on);
    const turn = { ...one.place, at: [0, 0, 0] as Vec };
    const size = sizeAlong(turn, [lo, hi]);
    const [corner] = boxToOuter(turn, [[0, 0, 0], size]);
    const place: Place = { ...turn, at: AXES.map((i) => lo[i] - corner[i]) as unknown as Vec };
    return {
      ...one,
      place,
      size,
      features: one.read.features.map((feature, n) => ({ ...feature, box: boxToInner(place, mapped(cuts[n]!, on)) })),
    };
  });
}

/** Of a box in the case, along the axes of a part that is turned so. */
function sizeAlong(turn: Place, box: Box): Vec {
  const [lo, hi] = boxToInner(turn, box);
  return AXES.map((i) => hi[i] - lo[i]) as unknown as Vec;
}

/** Parts that share a drawing. */
import type { Box, Vec } from "../../../src/base/geometry.ts";

/** The first of a drawing lies as it is named there; one that is made alike may have been turned round, by half a turn about one of its axes. */
export const TURNS: readonly (readonly (0 | 1 | 2)[])[] = [[], [0, 1], [0, 2], [1, 2]];

export const turned = ([lo, hi]: Box, flips: readonly number[], size: Vec): Box => {
  const flip = (a: Vec, b: Vec): Vec =>
    a.map((one, i) => (flips.includes(i) ? size[i]! - b[i]! : one)) as unknown as Vec;
  return [flip(lo, hi), flip(hi, lo)];
};

/** What is at odds with the drawing, a part of it lying in the way that agrees best: the first as it is drawn. */
export const leastFaults = (i: number, faultsOf: (flips: readonly (0 | 1 | 2)[]) => string[]): string[] =>
  (i === 0 ? TURNS.slice(0, 1) : TURNS).map(faultsOf).sort((a, b) => a.length - b.length)[0]!;

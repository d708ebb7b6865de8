/** The scale of a drawing: the largest of the standard series at which the thing fits its space. */
import type { Unit } from "../../base/length.ts";

/** `ratio` is paper millimetres to one millimetre of the piece; `name` as lettered in the title block. */
export type Scale = { ratio: number; name: string };

const ratioScale = (denominator: number): Scale => ({ ratio: 1 / denominator, name: `1:${denominator}` });

/** Shop drawings in inches: so much on paper to the foot. Common practice, no source; 1/8 and 1/16 carry the series on. */
const INCH_SCALES: readonly Scale[] = [
  { ratio: 1, name: "full size" },
  { ratio: 1 / 2, name: '6" = 1\'-0"' },
  { ratio: 1 / 4, name: '3" = 1\'-0"' },
  { ratio: 1 / 8, name: '1 1/2" = 1\'-0"' },
  { ratio: 1 / 12, name: '1" = 1\'-0"' },
  { ratio: 1 / 16, name: '3/4" = 1\'-0"' },
  { ratio: 1 / 24, name: '1/2" = 1\'-0"' },
  { ratio: 1 / 48, name: '1/4" = 1\'-0"' },
  { ratio: 1 / 96, name: '1/8" = 1\'-0"' },
  { ratio: 1 / 192, name: '1/16" = 1\'-0"' },
];

/** ISO 5455, clause 5.1: full size and reductions. */
const MM_SCALES: readonly Scale[] = [1, 2, 5, 10, 20, 50, 100, 200, 500, 1000].map(ratioScale);

export const scalesOf = (unit: Unit): readonly Scale[] => (unit === "in" ? INCH_SCALES : MM_SCALES);

/** What comes of the largest scale, up to `most`, at which the attempt succeeds; null where it does at none. */
export function largestScale<T>(unit: Unit, attempt: (scale: Scale) => T | null, most = 1): T | null {
  for (const scale of scalesOf(unit)) {
    const made = scale.ratio > most + 1e-9 ? null : attempt(scale);
    if (made !== null) return made;
  }
  return null;
}

/** The ratio of a scale by its name; null for a name that is in neither series. */
export const ratioNamed = (name: string | null): number | null =>
  [...INCH_SCALES, ...MM_SCALES].find((one) => one.name === name)?.ratio ?? null;

/** How much water wood holds, and how much it moves with it across the grain. */
import type { Mm } from "./length.ts";

/** Relative humidity in percent, and the air's temperature. */
export type Climate = { humidity: number; temperature: number; scale: "C" | "F" };

type Quadratic = readonly [number, number, number];
type Constants = { W: Quadratic; K: Quadratic; K1: Quadratic; K2: Quadratic };

/** Wood Handbook, USDA Forest Products Laboratory, FPL-GTR-282 (2021), equation 4-5: each constant is a + b T + c T squared. */
const EQUATION: Record<Climate["scale"], Constants> = {
  C: {
    W: [349, 1.29, 0.0135],
    K: [0.805, 0.000736, -0.00000273],
    K1: [6.27, -0.00938, -0.000303],
    K2: [1.91, 0.0407, -0.000293],
  },
  F: {
    W: [330, 0.452, 0.00415],
    K: [0.791, 0.000463, -0.000000844],
    K1: [6.34, 0.000775, -0.0000935],
    K2: [1.09, 0.0284, -0.0000904],
  },
};

/** Moisture content in percent that wood comes to where the air stays so. The same book's equation 4-5. */
export function moistureIn({ humidity, temperature, scale }: Climate): number {
  const at = ([a, b, c]: Quadratic): number => a + b * temperature + c * temperature ** 2;
  const { W, K, K1, K2 } = EQUATION[scale];
  const kh = at(K) * (humidity / 100);
  const [one, two] = [at(K1) * kh, at(K1) * at(K2) * kh ** 2];
  return (1800 / at(W)) * (kh / (1 - kh) + (one + 2 * two) / (1 + one + two));
}

/**
 * How much wider wood gets for so many points of moisture content; less than nothing where it dries. `coefficient`: fraction of the width for
 * each point, tangential for flat-sawn boards, radial for quarter-sawn (Wood Handbook, FPL-GTR-190 (2010), chapter 13: good from 6 to 14 %).
 */
export const movementOf = (width: Mm, coefficient: number, points: number): Mm => width * coefficient * points;

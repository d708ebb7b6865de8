/** Sizes of what is bought, as the shop that sells it says them. */
import { figureOf, formatLength, isSame, type Mm, type Unit } from "./length.ts";

/** Metric hardware is sold by half millimetres at the finest. */
const METRIC: Mm = 0.5;

const isMetric = (size: Mm): boolean => isSame(size / METRIC, Math.round(size / METRIC));
const isImperial = (size: Mm): boolean => figureOf(size, "in").kind === "fraction";

/** The unit that hardware, or a bit, of these sizes is sold by: the job's own unless they are sizes of the other alone. */
export function unitSoldBy(sizes: readonly Mm[], unit: Unit): Unit {
  const [own, other] = unit === "in" ? [isImperial, isMetric] : [isMetric, isImperial];
  if (sizes.every(own) || !sizes.every(other)) return unit;
  return unit === "in" ? "mm" : "in";
}

/** "3/8 x 1 1/2 in"; what is sold by the other unit is said in that first: "8 x 35 mm (0.315 x 1.378 in)". */
export function soldSize(sizes: readonly Mm[], unit: Unit): string {
  const say = (one: Unit): string => `${sizes.map((size) => formatLength(size, one)).join(" x ")} ${one}`;
  const sold = unitSoldBy(sizes, unit);
  return sold === unit ? say(unit) : `${say(sold)} (${say(unit)})`;
}

/** A number as both writers put it down: four decimals (0.0001 mm), no exponent, no negative zero. */
export function decimal(value: number): string {
  if (!Number.isFinite(value)) throw new Error(`Internal error: ${value} cannot be drawn`);
  const rounded = Math.round(value * 1e4) / 1e4;
  return rounded === 0 ? "0" : String(rounded);
}

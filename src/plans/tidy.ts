/** Float noise below a nanometre is taken off every number of a plan, so that two routes to a length give the same bytes. */

const PLACES = 1e6;

export function tidy<T>(value: T): T {
  if (typeof value === "number") return (Math.round(value * PLACES) / PLACES + 0) as T; // + 0 makes -0 into 0
  if (Array.isArray(value)) return value.map(tidy) as T;
  if (value !== null && typeof value === "object") {
    return Object.fromEntries(Object.entries(value).map(([key, inner]) => [key, tidy(inner)])) as T;
  }
  return value;
}

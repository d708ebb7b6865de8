/** Stretches along a line. */

/** What is left of `from` to `to` once the taken stretches are out of it, in order. */
export function freeStretches(
  from: number,
  to: number,
  taken: readonly (readonly [number, number])[],
): [number, number][] {
  const free: [number, number][] = [];
  let start = from;
  for (const [a, b] of [...taken].sort((p, q) => p[0] - q[0])) {
    if (a > start) free.push([start, Math.min(a, to)]);
    start = Math.max(start, b);
  }
  if (to > start) free.push([start, to]);
  return free;
}

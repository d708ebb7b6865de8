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

/** Rows of stretches in which none overlaps another, the shortest in the first. */
export function stackStretches(stretches: readonly (readonly [number, number])[]): (readonly [number, number])[][] {
  const rows: (readonly [number, number])[][] = [];
  const ordered = stretches
    .map(([a, b]) => (a < b ? ([a, b] as const) : ([b, a] as const)))
    .sort((a, b) => a[1] - a[0] - (b[1] - b[0]) || a[0] - b[0]);
  for (const one of ordered) {
    const row = rows.find((others) => others.every((other) => one[1] <= other[0] || other[1] <= one[0]));
    if (row === undefined) rows.push([one]);
    else row.push(one);
  }
  return rows;
}

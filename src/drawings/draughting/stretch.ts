/** Stretches along a line: what is free, what overlaps, what is moved apart. */

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

/** Moves intervals apart, keeping their order, each as little as the others allow. */
export function spread(wanted: readonly { at: number; extent: number }[], gap: number): number[] {
  const order = wanted.map((_, i) => i).sort((a, b) => wanted[a]!.at - wanted[b]!.at || a - b);
  // Groups of touching intervals; each stands where its members' wishes average.
  const groups: { members: number[]; start: number; length: number }[] = [];
  for (const i of order) {
    let group = { members: [i], start: wanted[i]!.at - wanted[i]!.extent / 2, length: wanted[i]!.extent };
    for (let last = groups.at(-1); last && last.start + last.length + gap > group.start; last = groups.at(-1)) {
      groups.pop();
      const members = [...last.members, ...group.members];
      const length = last.length + gap + group.length;
      let offset = 0;
      let wish = 0;
      for (const m of members) {
        wish += wanted[m]!.at - (offset + wanted[m]!.extent / 2);
        offset += wanted[m]!.extent + gap;
      }
      group = { members, length, start: wish / members.length };
    }
    groups.push(group);
  }
  const places: number[] = new Array(wanted.length).fill(0);
  for (const group of groups) {
    let offset = group.start;
    for (const m of group.members) {
      places[m] = offset + wanted[m]!.extent / 2;
      offset += wanted[m]!.extent + gap;
    }
  }
  return places;
}

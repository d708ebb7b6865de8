/** A slope or an arch made of levels is a stair of boxes: where its steps lie, and the lines drawn in place of them. */
import type { AxisIndex, Box, Vec } from "../../base/geometry.ts";
import type { Mm } from "../../base/length.ts";
import type { Edge } from "./edge.ts";

const SAME: Mm = 1e-3;
/** A line in place of several steps keeps as near to their corners: below a pen's width at any scale. */
const NEAR: Mm = 0.3;

/** One end of the levels taken out, from the part's edge inwards. `axis`: the part's thickness, along which every step runs. */
export type Stair = { axis: AxisIndex; steps: readonly Step[] };

/** Wood ends at `from` to `to`, of which the last level begins at `last`; levels that end alike are one step. */
type Step = { from: Vec; last: Vec; to: Vec };

/** Which axis another becomes. */
function turned(axis: AxisIndex, move: (spot: Vec) => Vec): AxisIndex {
  const origin = move([0, 0, 0]);
  const along = move(at(axis, [0, 0, 0], 1));
  return ([0, 1, 2] as const).find((i) => Math.abs(along[i] - origin[i]) > 0.5)!;
}

export const moveStair = ({ axis, steps }: Stair, move: (spot: Vec) => Vec): Stair => ({
  axis: turned(axis, move),
  steps: steps.map(({ from, last, to }) => ({ from: move(from), last: move(last), to: move(to) })),
});

/** `levels`: from the part's edge inwards, in the part's own axes. */
export function stairsOf(levels: readonly Box[], isLow: boolean, toOuter: (spot: Vec) => Vec): Stair[] {
  const axis = turned(2, toOuter);
  return ([0, 1] as const).flatMap((end) => {
    const steps: Step[] = [];
    let before: Mm | null = null;
    for (const level of levels) {
      const x = level[end][0];
      const [near, far] = isLow ? [level[0][1], level[1][1]] : [level[1][1], level[0][1]];
      const [from, to] = [toOuter([x, near, 0]), toOuter([x, far, 0])];
      const alike = before !== null && Math.abs(x - before) < SAME ? steps.pop()! : null;
      steps.push({ from: alike?.from ?? from, last: from, to });
      before = x;
    }
    return steps.length < 2 ? [] : [{ axis, steps }];
  });
}

/** The same, seen along the stair. */
const isSame = (axis: AxisIndex, a: Vec, b: Vec): boolean =>
  ([0, 1, 2] as const).every((i) => i === axis || Math.abs(a[i] - b[i]) < SAME);

const at = (axis: AxisIndex, spot: Vec, value: Mm): Vec =>
  [0, 1, 2].map((i) => (i === axis ? value : spot[i]!)) as unknown as Vec;

const long = (a: Vec, b: Vec): Mm => Math.hypot(a[0] - b[0], a[1] - b[1], a[2] - b[2]);

/** From a spot to the line between two others. */
function offLine(spot: Vec, a: Vec, b: Vec): Mm {
  const whole = long(a, b);
  if (whole < SAME) return long(spot, a);
  const share = [0, 1, 2].reduce((sum, i) => sum + (spot[i]! - a[i]!) * (b[i]! - a[i]!), 0) / whole ** 2;
  return long(spot, [0, 1, 2].map((i) => a[i]! + (b[i]! - a[i]!) * share) as unknown as Vec);
}

/** As few of the corners as keep near to all of them. */
function fewOf(corners: readonly Vec[]): Vec[] {
  const kept = [corners[0]!];
  for (let i = 0; i + 1 < corners.length; ) {
    let j = i + 1;
    while (
      j + 1 < corners.length &&
      corners.slice(i + 1, j + 1).every((spot) => offLine(spot, corners[i]!, corners[j + 1]!) < NEAR)
    )
      j++;
    kept.push(corners[j]!);
    i = j;
  }
  return kept;
}

/** One stair: edges of its steps out, a line along its corners in wherever both edges of a step are there. */
function withoutSteps(edges: readonly Edge[], { axis, steps }: Stair): Edge[] {
  const joins = ([a, b]: Edge["ends"], p: Vec, q: Vec): boolean =>
    (isSame(axis, a, p) && isSame(axis, b, q)) || (isSame(axis, a, q) && isSame(axis, b, p));
  const isAlong = ([a, b]: Edge["ends"]): boolean => isSame(axis, a, b);
  const inner = steps.flatMap(({ from, to }, i) => [...(i > 0 ? [from] : []), ...(i + 1 < steps.length ? [to] : [])]);
  const taken = new Set<Edge>(
    edges.filter(({ ends }) => isAlong(ends) && inner.some((spot) => isSame(axis, ends[0], spot))),
  );
  const across = edges.filter(({ ends }) => !isAlong(ends));
  const runs: { value: Mm; i: number; riser: Edge; tread: Edge }[] = [];
  for (let i = 0; i + 1 < steps.length; i++) {
    const [step, next] = [steps[i]!, steps[i + 1]!];
    const treads = across.filter(({ ends }) => joins(ends, step.to, next.from));
    for (const riser of across.filter(({ ends }) => joins(ends, step.from, step.to))) {
      const value = riser.ends[0][axis];
      const tread = treads.find(({ ends }) => Math.abs(ends[0][axis] - value) < SAME);
      if (tread === undefined) continue;
      taken.add(riser).add(tread);
      runs.push({ value, i, riser, tread });
    }
  }
  const lines: Edge[] = [];
  runs.sort((a, b) => a.value - b.value || a.i - b.i);
  for (let n = 0; n < runs.length; ) {
    let end = n + 1;
    while (end < runs.length && runs[end]!.value - runs[n]!.value < SAME && runs[end]!.i === runs[end - 1]!.i + 1)
      end++;
    const some = runs.slice(n, end);
    const { value, riser, tread } = some[0]!;
    const corners = some.flatMap(({ i }) => [
      steps[i]!.from,
      ...(isSame(axis, steps[i]!.last, steps[i]!.from) ? [] : [steps[i]!.last]),
    ]);
    const spots = fewOf([...corners, steps[some.at(-1)!.i + 1]!.from].map((spot) => at(axis, spot, value)));
    spots.slice(1).forEach((b, k) => {
      const a = spots[k]!;
      // A slope looks the way that the greater part of it looks.
      const i = ([0, 1, 2] as const).find((one) => Math.abs(riser.ends[0][one] - riser.ends[1][one]) > SAME)!;
      const j = ([0, 1, 2] as const).find((one) => one !== axis && one !== i)!;
      const { outs } = Math.abs(a[i] - b[i]) >= Math.abs(a[j] - b[j]) ? riser : tread;
      lines.push({ ends: [a, b], outs });
    });
    n = end;
  }
  return [...edges.filter((edge) => !taken.has(edge)), ...lines];
}

/** The edges of a part as boxes, with its stairs as the slopes that they stand for. */
export const smoothed = (edges: readonly Edge[], stairs: readonly Stair[]): Edge[] =>
  stairs.reduce<Edge[]>(withoutSteps, [...edges]);

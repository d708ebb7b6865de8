/** The audit's own box arithmetic: it shares nothing with the code that derived the parts, so that one mistake cannot hide in both. */
import type { AxisIndex, Box } from "../../base/geometry.ts";

/** Solids that share less than this on an axis only touch: float noise, a thousandth of what a calliper shows. */
export const TOUCH = 1e-4;

export const otherAxes = (axis: AxisIndex): readonly [AxisIndex, AxisIndex] =>
  axis === 0 ? [1, 2] : axis === 1 ? [0, 2] : [0, 1];

/** What two boxes share, where that is thicker than a touch on every axis. Most boxes share nothing: that is told before anything is made. */
export function sharedBox(a: Box, b: Box): Box | null {
  const [alo, ahi] = a;
  const [blo, bhi] = b;
  const x0 = Math.max(alo[0], blo[0]);
  const x1 = Math.min(ahi[0], bhi[0]);
  if (x1 - x0 <= TOUCH) return null;
  const y0 = Math.max(alo[1], blo[1]);
  const y1 = Math.min(ahi[1], bhi[1]);
  if (y1 - y0 <= TOUCH) return null;
  const z0 = Math.max(alo[2], blo[2]);
  const z1 = Math.min(ahi[2], bhi[2]);
  if (z1 - z0 <= TOUCH) return null;
  return [
    [x0, y0, z0],
    [x1, y1, z1],
  ];
}

/** Every box that one list of boxes shares with another. */
export function sharedBoxes(a: readonly Box[], b: readonly Box[]): Box[] {
  const shared: Box[] = [];
  for (const one of a) {
    for (const other of b) {
      const box = sharedBox(one, other);
      if (box) shared.push(box);
    }
  }
  return shared;
}

/** Whether two boxes come within `reach` of each other on every axis. */
export const isNear = (a: Box, b: Box, reach: number): boolean =>
  a[0][0] <= b[1][0] + reach &&
  b[0][0] <= a[1][0] + reach &&
  a[0][1] <= b[1][1] + reach &&
  b[0][1] <= a[1][1] + reach &&
  a[0][2] <= b[1][2] + reach &&
  b[0][2] <= a[1][2] + reach;

/** The same box with one axis cut down to a stretch. */
export function within(box: Box, axis: AxisIndex, from: number, to: number): Box {
  const lo: [number, number, number] = [...box[0]];
  const hi: [number, number, number] = [...box[1]];
  lo[axis] = Math.max(lo[axis], from);
  hi[axis] = Math.min(hi[axis], to);
  return [lo, hi];
}

/** A box drawn out along an axis, so that what lies anywhere in front of it can be taken off it. */
export const drawnOut = (box: Box, axis: AxisIndex, from: number, to: number): Box => {
  const lo: [number, number, number] = [...box[0]];
  const hi: [number, number, number] = [...box[1]];
  lo[axis] = from;
  hi[axis] = to;
  return [lo, hi];
};

/** What is left of a box when another is taken out of it: at most six boxes that share no volume. */
export function cutAway(box: Box, tool: Box): Box[] {
  const bite = sharedBox(box, tool);
  if (!bite) return [box];
  const left: Box[] = [];
  let rest = box;
  for (const axis of [0, 1, 2] as const) {
    if (bite[0][axis] - rest[0][axis] > TOUCH) left.push(within(rest, axis, rest[0][axis], bite[0][axis]));
    if (rest[1][axis] - bite[1][axis] > TOUCH) left.push(within(rest, axis, bite[1][axis], rest[1][axis]));
    rest = within(rest, axis, bite[0][axis], bite[1][axis]);
  }
  return left;
}

export function cutAwayAll(boxes: readonly Box[], tools: readonly Box[]): Box[] {
  let left = [...boxes];
  for (const tool of tools) {
    if (left.some((box) => sharedBox(box, tool) !== null)) left = left.flatMap((box) => cutAway(box, tool));
  }
  return left;
}

/** The least box around several. */
export function around(boxes: readonly Box[]): Box {
  const least = (i: AxisIndex): number => Math.min(...boxes.map((box) => box[0][i]));
  const most = (i: AxisIndex): number => Math.max(...boxes.map((box) => box[1][i]));
  return [
    [least(0), least(1), least(2)],
    [most(0), most(1), most(2)],
  ];
}

export const volumeOf = (box: Box): number =>
  (box[1][0] - box[0][0]) * (box[1][1] - box[0][1]) * (box[1][2] - box[0][2]);

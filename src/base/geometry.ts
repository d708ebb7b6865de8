/** Axis-aligned geometry in millimetres: vectors, boxes, and the signed axes that place one frame in another. */
import type { Mm } from "./length.ts";

export type Vec = readonly [Mm, Mm, Mm];
export type Box = readonly [lo: Vec, hi: Vec];
export type AxisIndex = 0 | 1 | 2;
export const AXES: readonly AxisIndex[] = [0, 1, 2];
export type SignedAxis = "+x" | "-x" | "+y" | "-y" | "+z" | "-z";

/** Where a frame's origin and its own l, w and t axes lie in the frame around it. */
export type Place = { at: Vec; l: SignedAxis; w: SignedAxis; t: SignedAxis };

export const axisOf = (axis: SignedAxis): AxisIndex => (axis[1] === "x" ? 0 : axis[1] === "y" ? 1 : 2);
export const signOf = (axis: SignedAxis): 1 | -1 => (axis[0] === "+" ? 1 : -1);
export const axesOf = (place: Place): readonly [SignedAxis, SignedAxis, SignedAxis] => [place.l, place.w, place.t];

/** A point given in the placed frame, in the frame around it. */
export function toOuter(place: Place, point: Vec): Vec {
  const out: [Mm, Mm, Mm] = [place.at[0], place.at[1], place.at[2]];
  axesOf(place).forEach((axis, i) => {
    out[axisOf(axis)] += signOf(axis) * point[i as AxisIndex];
  });
  return out;
}

/** A point given in the frame around, in the placed frame. */
export function toInner(place: Place, point: Vec): Vec {
  const along = (axis: SignedAxis): Mm => signOf(axis) * (point[axisOf(axis)] - place.at[axisOf(axis)]);
  return [along(place.l), along(place.w), along(place.t)];
}

/** The box with these two corners, whichever way round they come. */
export const boxOf = (a: Vec, b: Vec): Box => [
  [Math.min(a[0], b[0]), Math.min(a[1], b[1]), Math.min(a[2], b[2])],
  [Math.max(a[0], b[0]), Math.max(a[1], b[1]), Math.max(a[2], b[2])],
];

export const boxToOuter = (place: Place, box: Box): Box => boxOf(toOuter(place, box[0]), toOuter(place, box[1]));
export const boxToInner = (place: Place, box: Box): Box => boxOf(toInner(place, box[0]), toInner(place, box[1]));

/** The common part of two boxes; null where they share no volume thicker than `least` on every axis. */
export function intersectBoxes(a: Box, b: Box, least = 0): Box | null {
  const lo: Vec = [Math.max(a[0][0], b[0][0]), Math.max(a[0][1], b[0][1]), Math.max(a[0][2], b[0][2])];
  const hi: Vec = [Math.min(a[1][0], b[1][0]), Math.min(a[1][1], b[1][1]), Math.min(a[1][2], b[1][2])];
  return AXES.every((i) => hi[i] - lo[i] > least) ? [lo, hi] : null;
}

/** The least box around all of them; there is at least one. */
export const boxAround = (boxes: readonly Box[]): Box => {
  const most = (end: 0 | 1, pick: (...values: Mm[]) => Mm): Vec =>
    AXES.map((i) => pick(...boxes.map((box) => box[end][i]))) as unknown as Vec;
  return [most(0, Math.min), most(1, Math.max)];
};

export const boxSize = (box: Box): Vec => [box[1][0] - box[0][0], box[1][1] - box[0][1], box[1][2] - box[0][2]];
export const boxVolume = (box: Box): number => {
  const [a, b, c] = boxSize(box);
  return a * b * c;
};

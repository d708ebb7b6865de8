/** Ways that a part can travel in its assembly: right, to the back and up are the positive axes. */
import type { AxisIndex } from "../../base/geometry.ts";

export type Velocity = readonly [number, number, number];

/** The six ways out, in the order in which a blocking graph keeps them. */
export const WAYS: readonly Velocity[] = [
  [1, 0, 0],
  [-1, 0, 0],
  [0, 1, 0],
  [0, -1, 0],
  [0, 0, 1],
  [0, 0, -1],
];
export const [BACK, FRONT, UP] = [2, 3, 4] as const;

export const axisOfWay = (way: number): AxisIndex => (way >> 1) as AxisIndex;
export const opposite = (way: number): number => way ^ 1;

export const less = (a: Velocity, b: Velocity): Velocity => [a[0] - b[0], a[1] - b[1], a[2] - b[2]];
/** Back the way it came. `0 - x`, for a minus zero is another number in a file. */
export const reversed = (v: Velocity): [number, number, number] => [0 - v[0], 0 - v[1], 0 - v[2]];
export const isStill = (v: Velocity): boolean => v[0] === 0 && v[1] === 0 && v[2] === 0;

/** Every velocity with parts -1, 0 and 1: standing first, then straight, then slanting. */
export const VELOCITIES: readonly Velocity[] = [-1, 0, 1]
  .flatMap((x) => [-1, 0, 1].flatMap((y) => [-1, 0, 1].map((z): Velocity => [x, y, z])))
  .map((v, i) => ({ v, i, length: v.filter((part) => part !== 0).length }))
  .sort((a, b) => a.length - b.length || a.i - b.i)
  .map(({ v }) => v);

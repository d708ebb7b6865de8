/** Parts and their features spoiled by hand: told again, resized, mirrored, turned, compared. */
import { cutAwayAll } from "../../../src/audit/solids/boxes.ts";
import type { Box, Place, SignedAxis } from "../../../src/base/geometry.ts";
import type { Face, SetFeature, SetPart } from "../../../src/set/schema.ts";

export type Axis = 0 | 1 | 2;
export type Corner = [number, number, number];
export const LETTERS = ["l", "w", "t"] as const;
const SIZES = ["length", "width", "thickness"] as const;
export const near = (a: number, b: number): boolean => Math.abs(a - b) < 1e-6;

export const sizeOf = (part: SetPart): Corner => [part.length, part.width, part.thickness];
export const axisOfFace = (face: Face): Axis => LETTERS.indexOf(face[0] as "l") as Axis;
export const runOf = (feature: SetFeature): Axis => LETTERS.indexOf(feature.along) as Axis;
export const acrossOf = (feature: SetFeature): Axis => (3 - axisOfFace(feature.face) - runOf(feature)) as Axis;

/** A feature's figures, told again from its box. */
function retell(part: SetPart, feature: SetFeature): void {
  const [lo, hi] = feature.box;
  const [run, across, depth] = [runOf(feature), acrossOf(feature), axisOfFace(feature.face)];
  feature.at = lo[across];
  feature.width = hi[across] - lo[across];
  feature.from = lo[run];
  feature.to = hi[run];
  feature.depth = hi[depth] - lo[depth];
  const stop = (end: 0 | 1): "square" | "open" | "round" =>
    feature.kind === "slot" ? "round" : feature.ends[end] === "open" ? "open" : "square";
  feature.ends = [near(lo[run], 0) ? "through" : stop(0), near(hi[run], sizeOf(part)[run]) ? "through" : stop(1)];
  const [u, v] = ([0, 1, 2] as const).filter((axis) => LETTERS[axis] !== feature.axis) as [Axis, Axis];
  if (feature.kind === "slot" && !near(hi[u] - lo[u], hi[v] - lo[v])) {
    const radius = Math.min(hi[u] - lo[u], hi[v] - lo[v]) / 2;
    const isAlong = hi[u] - lo[u] > hi[v] - lo[v];
    feature.outline = isAlong
      ? [
          [hi[u] - radius, lo[v], 1],
          [hi[u] - radius, hi[v]],
          [lo[u] + radius, hi[v], 1],
          [lo[u] + radius, lo[v]],
        ]
      : [
          [lo[u], lo[v] + radius, 1],
          [hi[u], lo[v] + radius],
          [hi[u], hi[v] - radius, 1],
          [lo[u], hi[v] - radius],
        ];
    return;
  }
  if (feature.kind === "hole" || feature.kind === "slot") {
    const middle = (lo[v] + hi[v]) / 2;
    feature.outline = [
      [lo[u], middle, 1],
      [hi[u], middle, 1],
    ];
    return;
  }
  feature.outline = [
    [lo[u], lo[v]],
    [hi[u], lo[v]],
    [hi[u], hi[v]],
    [lo[u], hi[v]],
  ];
}

export function reshape(part: SetPart, feature: SetFeature, change: (lo: Corner, hi: Corner) => void): void {
  const [lo, hi]: [Corner, Corner] = [[...feature.box[0]], [...feature.box[1]]];
  change(lo, hi);
  feature.box = [lo, hi];
  retell(part, feature);
}

/** A part cut to another size: what reached the moved end still does, what lies wholly beyond it is gone. */
export function resize(part: SetPart, axis: Axis, delta: number): void {
  const before = sizeOf(part)[axis];
  const after = before + delta;
  part[SIZES[axis]] = after;
  for (const feature of part.features) {
    const reaches = near(feature.box[1][axis], before);
    reshape(part, feature, (lo, hi) => {
      if (feature.kind === "notch" && reaches && lo[axis] > 1e-6) lo[axis] += delta;
      hi[axis] = reaches ? after : Math.min(hi[axis], after);
    });
    if (runOf(feature) === axis) {
      feature.runOuts = feature.runOuts
        .map(([from, to]): [number, number] => [from, near(to, before) ? after : Math.min(to, after)])
        .filter(([from, to]) => to > from);
    }
  }
  part.features = part.features.filter((feature) => feature.box[1][axis] - feature.box[0][axis] > 1e-6);
}

const AXIS_OF: Record<string, Axis> = { x: 0, y: 1, z: 2 };
export const signed = (axis: SignedAxis): { axis: Axis; sign: 1 | -1 } => ({
  axis: AXIS_OF[axis[1]!]!,
  sign: axis[0] === "+" ? 1 : -1,
});
export const flipped = (axis: SignedAxis): SignedAxis => `${axis[0] === "+" ? "-" : "+"}${axis[1]}` as SignedAxis;

export function move(part: SetPart, along: SignedAxis, by: number): void {
  const { axis, sign } = signed(along);
  part.place!.at[axis] += sign * by;
}

/** The features of a part seen in a mirror across one of its axes. */
export function mirrored(part: SetPart, axis: Axis): SetFeature[] {
  const size = sizeOf(part)[axis];
  const copy = structuredClone(part);
  for (const feature of copy.features) {
    if (axisOfFace(feature.face) === axis)
      feature.face = `${LETTERS[axis]}${feature.face[1] === "0" ? "1" : "0"}` as Face;
    if (runOf(feature) === axis) feature.runOuts = feature.runOuts.map(([from, to]) => [size - to, size - from]);
    reshape(copy, feature, (lo, hi) => {
      [lo[axis], hi[axis]] = [size - hi[axis], size - lo[axis]];
    });
  }
  return copy.features;
}

/** The same wood is taken away: grooves that lie beside or in each other count as one. */
export function isSameCut(a: readonly SetFeature[], b: readonly SetFeature[]): boolean {
  const holes = (features: readonly SetFeature[]): number[][] =>
    features.filter(({ kind }) => kind === "hole").map(({ box }) => box.flat());
  const areIn = (some: number[][], others: number[][]): boolean =>
    some.every((hole) => others.some((other) => hole.every((x, i) => near(x, other[i]!))));
  const cut = (features: readonly SetFeature[]): Box[] =>
    features.filter(({ kind }) => kind !== "hole").map(({ box }) => box);
  const isIn = (some: Box[], others: Box[]): boolean => cutAwayAll(some, others).length === 0;
  return areIn(holes(a), holes(b)) && areIn(holes(b), holes(a)) && isIn(cut(a), cut(b)) && isIn(cut(b), cut(a));
}

/** A part turned half round about one of its axes, in the space it fills: the same part, put in the wrong way. */
export function turn(part: SetPart, about: Axis): void {
  const place = part.place as Place;
  const size = sizeOf(part);
  const at: Corner = [...place.at] as Corner;
  for (const axis of ([0, 1, 2] as const).filter((each) => each !== about)) {
    const direction = signed(place[LETTERS[axis]]);
    at[direction.axis] += direction.sign * size[axis];
    place[LETTERS[axis]] = flipped(place[LETTERS[axis]]);
  }
  part.place = { ...place, at };
}

const turnedFeatures = (part: SetPart, about: Axis): SetFeature[] => {
  const copy = structuredClone(part);
  for (const axis of ([0, 1, 2] as const).filter((each) => each !== about)) copy.features = mirrored(copy, axis);
  return copy.features;
};

export const isSameTurned = (part: SetPart, about: Axis): boolean =>
  isSameCut(turnedFeatures(part, about), part.features);

/** Turned, only its notches, or mortises for loose tenons, lie otherwise, and by no more than a step: as much as rounding may leave at a wall. */
export function isTurnHarmless(part: SetPart, about: Axis, step: number): boolean {
  const turned = turnedFeatures(part, about);
  const channels = (features: readonly SetFeature[]): SetFeature[] =>
    features.filter(({ kind }) => kind !== "notch" && kind !== "mortise");
  if (!isSameCut(channels(turned), channels(part.features))) return false;
  const isNear = (a: SetFeature, b: SetFeature): boolean =>
    a.box.every((corner, i) => corner.every((x, j) => Math.abs(x - b.box[i as 0 | 1][j as Axis]) < step + 1e-6));
  return turned.every((feature) => part.features.some((each) => each.kind === feature.kind && isNear(feature, each)));
}

export const isSameShape = (a: SetPart, b: SetPart): boolean =>
  sizeOf(a).every((size, i) => near(size, sizeOf(b)[i as Axis])) && isSameCut(a.features, b.features);

/** Parts as boxes of wood in the axes of one assembly: each blank less its features. Holes are left out: they take pins, dowels and loose tenons alone. */
import {
  AXES,
  type AxisIndex,
  type Box,
  boxToInner,
  boxToOuter,
  intersectBoxes,
  type Place,
} from "../../base/geometry.ts";
import { socketAt } from "../../set/dovetail.ts";
import type { DryfitSet, SetAssembly, SetFeature, SetPart } from "../../set/schema.ts";

export type OrderInput = Pick<DryfitSet, "parts" | "joints" | "assemblies">;

/** Wood that shares less than this on an axis only touches: a thousandth of what a calliper shows. */
export const TOUCH = 1e-4;

export type Wood = {
  part: SetPart;
  bounds: Box;
  cells: Box[];
  place: Place; // in this assembly
  borrowed: boolean; // it stands already, as part of the assembly beside
};

/** The parts that are put together as one assembly, its own first, then what it borrows; spares are left out. */
export function woodOf(assembly: SetAssembly, { parts, assemblies }: OrderInput): Wood[] {
  const own = parts.filter((part) => part.assembly === assembly.name && part.place !== null);
  const borrowed = parts.filter(({ mark, place }) => assembly.borrows.includes(mark) && place !== null);
  return [
    ...own.map((part) => cutOut(part, part.place!, false)),
    ...borrowed.map((part) => {
      const home = assemblies.find(({ name }) => name === part.assembly);
      if (!home) throw new Error(`${assembly.name} borrows ${part.mark}, whose assembly ${part.assembly} is not there`);
      return cutOut(part, placeIn(assembly, placeOut(home, part.place!, assemblies), assemblies), true);
    }),
  ];
}

export function cutOut(part: SetPart, place: Place, borrowed: boolean): Wood {
  const bounds = boxToOuter(place, [
    [0, 0, 0],
    [part.length, part.width, part.thickness],
  ]);
  const holes = part.features
    .filter(({ kind }) => kind !== "hole" && kind !== "mortise" && kind !== "slot" && kind !== "edge")
    .flatMap((feature) => (feature.kind === "socket" ? socketSteps(part, feature) : [feature.box]))
    .map((box) => boxToOuter(place, box));
  return {
    part,
    bounds,
    cells: holes.reduce((left, hole) => left.flatMap((cell) => less(cell, hole)), [bounds]),
    place,
    borrowed,
  };
}

/** Steps that a socket is taken out in: as many as make a tail's end wider than the gap between two pins' roots. */
const STEPS = 4;

function socketSteps(part: SetPart, feature: SetFeature): Box[] {
  const { at, roots } = socketAt(part, feature);
  const [lo, hi] = feature.box;
  const deep = feature.axis === "t" ? 0 : 2;
  // From the tails' ends to their roots.
  const tip = feature.outline[0]![feature.axis === "t" ? 0 : 1];
  const root = Math.abs(tip - lo[deep]) < TOUCH ? hi[deep] : lo[deep];
  return Array.from({ length: STEPS }, (_, i): Box => {
    const wall = (end: 0 | 1, n: number): number => at[end] + ((roots[end] - at[end]) * n) / STEPS;
    const plane = (n: number): number => tip + ((root - tip) * n) / STEPS;
    const [from, to]: [[number, number, number], [number, number, number]] = [[...lo], [...hi]];
    [from[deep], to[deep]] = [Math.min(plane(i), plane(i + 1)), Math.max(plane(i), plane(i + 1))];
    from[1] = Math.min(wall(0, i), wall(0, i + 1));
    to[1] = Math.max(wall(1, i), wall(1, i + 1));
    return [from, to];
  });
}

/** The axis, in its assembly, that a part's own axis lies along. */
export const axisIn = (place: Place, letter: "l" | "w" | "t"): AxisIndex =>
  ({ x: 0, y: 1, z: 2 })[place[letter][1] as "x" | "y" | "z"] as AxisIndex;

export const featureBox = ({ place }: Wood, feature: SetFeature): Box => boxToOuter(place, feature.box);

/** What is left of a box when another is taken out of it. */
function less(box: Box, hole: Box): Box[] {
  const bite = intersectBoxes(box, hole, TOUCH);
  if (!bite) return [box];
  const left: Box[] = [];
  const lo: [number, number, number] = [...box[0]];
  const hi: [number, number, number] = [...box[1]];
  for (const axis of AXES) {
    for (const side of [0, 1] as const) {
      const slice: [[number, number, number], [number, number, number]] = [[...lo], [...hi]];
      slice[1 - side]![axis] = bite[side][axis];
      if (slice[1][axis] - slice[0][axis] > TOUCH) left.push(slice);
    }
    lo[axis] = bite[0][axis];
    hi[axis] = bite[1][axis];
  }
  return left;
}

const turnedBy = (to: Place, axis: Place["l"]): Place["l"] => {
  const letter = ({ x: "l", y: "w", z: "t" } as const)[axis[1] as "x" | "y" | "z"];
  const turned = to[letter];
  return axis[0] === "+" ? turned : (`${turned[0] === "+" ? "-" : "+"}${turned[1]}` as Place["l"]);
};

/** A place in an assembly, told in the frame around that assembly. */
const outOf = (around: Place, place: Place): Place => ({
  at: [...boxToOuter(around, [place.at, place.at])[0]],
  l: turnedBy(around, place.l),
  w: turnedBy(around, place.w),
  t: turnedBy(around, place.t),
});

function placeOut(home: SetAssembly, place: Place, all: readonly SetAssembly[]): Place {
  const outer = outOf(home.place, place);
  const next = home.in === null ? undefined : all.find(({ name }) => name === home.in);
  return next ? placeOut(next, outer, all) : outer;
}

/** A place in the room, told in an assembly. */
function placeIn(assembly: SetAssembly, place: Place, all: readonly SetAssembly[]): Place {
  const here = placeOut(assembly, { at: [0, 0, 0], l: "+x", w: "+y", t: "+z" }, all);
  const axes = (["+x", "-x", "+y", "-y", "+z", "-z"] as const).map((own) => [turnedBy(here, own), own] as const);
  const find = (axis: Place["l"]): Place["l"] => axes.find(([outer]) => outer === axis)![1];
  return {
    at: [...boxToInner(here, [place.at, place.at])[0]],
    l: find(place.l),
    w: find(place.w),
    t: find(place.t),
  };
}

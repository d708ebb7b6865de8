/** A part as it will be cut and placed: its printed blank less its printed features, as boxes in the axes of its case. */
import type { AxisIndex, Box, Place, SignedAxis, Vec } from "../../base/geometry.ts";
import type { Mm } from "../../base/length.ts";
import type { DryfitSet, Face, SetAssembly, SetFeature, SetPart, SetStock } from "../../set/schema.ts";
import { cutAwayAll, drawnOut, sharedBox, TOUCH } from "./boxes.ts";
import { type Slant, slantOf } from "./slants.ts";
import { socketBoxes } from "./sockets.ts";

/** A groove or rabbet as a hole in its case, with its directions there. */
export type Channel = {
  owner: Solid;
  feature: SetFeature;
  box: Box;
  run: AxisIndex;
  across: AxisIndex;
  depth: AxisIndex;
  /** From the face into the wood, along the depth axis. */
  inward: 1 | -1;
  /** Stretches of the run, in the case, that nothing is to enter. */
  runOuts: readonly (readonly [number, number])[];
};

/** A drilled hole: its box, the axis it goes along, and which way it goes into the wood. */
export type Hole = { owner: Solid; feature: SetFeature; box: Box; depth: AxisIndex; inward: 1 | -1 };

export type Notch = { owner: Solid; feature: SetFeature; box: Box };

/** An assembly where it stands beside those that it shares a side with: their parts are all in the frame of the first of them. */
export type Standing = SetAssembly & { row: string; origin: Vec };

export type Solid = {
  part: SetPart;
  stock: SetStock;
  assembly: Standing;
  /** The blank. */
  bounds: Box;
  /** The blank less every feature but drilled holes, and mortises for loose tenons. */
  cells: Box[];
  /** Its wood lies behind each of these, whatever the cells say: mitred edges. */
  slants: Slant[];
  /** The blank less its notches, laps, sockets and shoulders: what fills a groove, whatever other grooves cross the tongue. */
  hull: Box[];
  channels: Channel[];
  /** Grooves that something of an assembly that slides stands in: nothing of its own enters them. */
  slideways: Channel[];
  notches: Notch[];
  /** Rabbets at the part's own ends, which leave a tongue. */
  shoulders: Notch[];
  /** Halved, to lie over another part that is halved. */
  laps: Notch[];
  holes: Hole[];
  /** For loose tenons: no other part fills them. */
  mortises: Hole[];
  /** Where it stands, in the frame of its row. */
  place: Place;
  /** Case axis and sign of the local l, w and t axes. */
  directions: readonly [Direction, Direction, Direction];
};

export type Direction = { axis: AxisIndex; sign: 1 | -1 };

const LOCAL = { l: 0, w: 1, t: 2 } as const;
export const localAxis = (letter: "l" | "w" | "t"): AxisIndex => LOCAL[letter];
export const faceAxis = (face: Face): AxisIndex => localAxis(face[0] as "l" | "w" | "t");
export const isHighFace = (face: Face): boolean => face[1] === "1";
export const sizeOf = (part: SetPart): Vec => [part.length, part.width, part.thickness];

export const directionOf = (axis: SignedAxis): Direction => ({
  axis: axis[1] === "x" ? 0 : axis[1] === "y" ? 1 : 2,
  sign: axis[0] === "+" ? 1 : -1,
});

/** l x w = t, each on its own axis. A left-handed place would be a mirrored part. */
export function isRightHanded(place: Place): boolean {
  const [l, w, t] = [directionOf(place.l), directionOf(place.w), directionOf(place.t)];
  if (new Set([l.axis, w.axis, t.axis]).size !== 3) return false;
  const turn = (w.axis - l.axis + 3) % 3 === 1 ? 1 : -1;
  return l.sign * w.sign * t.sign * turn === 1;
}

/** A box of the placed frame, in the frame around. */
export function placeBox(place: Place, box: Box): Box {
  const lo: [number, number, number] = [...place.at];
  const hi: [number, number, number] = [...place.at];
  [place.l, place.w, place.t].forEach((signed, i) => {
    const { axis, sign } = directionOf(signed);
    const [near, far] = [box[0][i as AxisIndex], box[1][i as AxisIndex]];
    lo[axis] += sign === 1 ? near : -far;
    hi[axis] += sign === 1 ? far : -near;
  });
  return [lo, hi];
}

/** A box given beside the assemblies that share sides with this one, in the room. */
export function roomBox({ origin, ...assembly }: Standing, all: readonly SetAssembly[], [lo, hi]: Box): Box {
  const own = (v: Vec): Vec => [v[0] - origin[0], v[1] - origin[1], v[2] - origin[2]];
  const outwards = (inner: SetAssembly, box: Box): Box => {
    const placed = placeBox(inner.place, box);
    const outer = inner.in === null ? undefined : all.find(({ name }) => name === inner.in);
    return outer ? outwards(outer, placed) : placed;
  };
  return outwards(assembly, [own(lo), own(hi)]);
}

/** The face of a part that looks along a case axis. */
export function faceTowards(solid: Solid, axis: AxisIndex, sign: 1 | -1): Face {
  const i = solid.directions.findIndex((direction) => direction.axis === axis);
  const high = solid.directions[i as AxisIndex].sign === sign;
  return `${(["l", "w", "t"] as const)[i as AxisIndex]}${high ? "1" : "0"}` as Face;
}

/** The depth, run and across axes of a feature; null where its face and its run name the same axis. */
export function axesOfFeature(feature: SetFeature): { depth: AxisIndex; run: AxisIndex; across: AxisIndex } | null {
  const depth = faceAxis(feature.face);
  const run = localAxis(feature.along);
  return depth === run ? null : { depth, run, across: (3 - depth - run) as AxisIndex };
}

function channelOf(owner: Solid, place: Place, feature: SetFeature): Channel | null {
  const axes = axesOfFeature(feature);
  if (!axes) return null;
  const [depth, run, across] = [
    owner.directions[axes.depth],
    owner.directions[axes.run],
    owner.directions[axes.across],
  ];
  const origin = place.at[run.axis];
  return {
    owner,
    feature,
    box: placeBox(place, feature.box),
    run: run.axis,
    across: across.axis,
    depth: depth.axis,
    inward: (isHighFace(feature.face) ? -depth.sign : depth.sign) as 1 | -1,
    runOuts: feature.runOuts.map(([from, to]) =>
      run.sign === 1 ? [origin + from, origin + to] : [origin - to, origin - from],
    ),
  };
}

function holeOf(owner: Solid, place: Place, feature: SetFeature): Hole {
  const { axis, sign } = owner.directions[faceAxis(feature.face)];
  const inward = (isHighFace(feature.face) ? -sign : sign) as 1 | -1;
  return { owner, feature, box: placeBox(place, feature.box), depth: axis, inward };
}

/** What lies so far before a hole's mouth, as wide as the hole. */
export const inFrontOfHole = ({ box, depth, inward }: Hole, reach: Mm): Box => {
  const mouth = box[inward === 1 ? 0 : 1][depth];
  return inward === 1 ? drawnOut(box, depth, mouth - reach, mouth) : drawnOut(box, depth, mouth, mouth + reach);
};

/** The assembly whose part another enters stands first; how far the other stands from it. */
function standingOf(set: Pick<DryfitSet, "parts" | "assemblies">, assembly: SetAssembly): Standing {
  const lender = set.parts.find(({ mark }) => assembly.borrows.includes(mark))?.assembly;
  const beside = set.assemblies.find(({ name }) => name === lender && name !== assembly.name);
  if (!beside) return { ...assembly, row: assembly.name, origin: [0, 0, 0] };
  const { row, origin } = standingOf(set, beside);
  const [from, to] = [beside.place.at, assembly.place.at];
  return {
    ...assembly,
    row,
    origin: [origin[0] + to[0] - from[0], origin[1] + to[1] - from[1], origin[2] + to[2] - from[2]],
  };
}

/** Whether two parts may meet: of one assembly, or where one's assembly borrows the other. */
export const mayMeet = (a: Solid, b: Solid): boolean =>
  a.assembly.name === b.assembly.name ||
  a.assembly.borrows.includes(b.part.mark) ||
  b.assembly.borrows.includes(a.part.mark);

/** A part that was made to a measured opening stands so far off the printed groove that it slides in. */
const OFF: Mm = 20;

/** Where the parts of assemblies that slide stand in the room, drawn out up and down. */
function slidingBoxes({ parts, assemblies }: Pick<DryfitSet, "parts" | "assemblies">): Sliding[] {
  return parts.flatMap((part) => {
    const assembly = assemblies.find(({ name }) => name === part.assembly);
    if (assembly?.travel.kind !== "slide" || !part.place || !isRightHanded(part.place)) return [];
    const box = placeBox(assembly.place, placeBox(part.place, [[0, 0, 0], sizeOf(part)]));
    const { axis } = directionOf(assembly.travel.axis);
    return [{ of: part.assembly, axis, box: drawnOut(box, 2, box[0][2] - OFF, box[1][2] + OFF) }];
  });
}

/** `axis`: that it slides along; the groove runs along it as well. */
type Sliding = { of: string; axis: AxisIndex; box: Box };

const boxesOf = (feature: SetFeature): Box[] => (feature.kind === "socket" ? socketBoxes(feature) : [feature.box]);

/** Every placed part as a solid. Parts without a stock, an assembly or a right-handed place are left out: other checks name them. */
export function solidsOf(set: Pick<DryfitSet, "parts" | "stock" | "assemblies">): Solid[] {
  const standing = new Map(set.assemblies.map((assembly) => [assembly.name, standingOf(set, assembly)]));
  const sliding = slidingBoxes(set);
  return set.parts.flatMap((part) => {
    const stock = set.stock.find((each) => each.id === part.material);
    const assembly = standing.get(part.assembly);
    if (!stock || !assembly || !part.place || !isRightHanded(part.place)) return [];
    const { origin } = assembly;
    const [x, y, z] = part.place.at;
    const place: Place = { ...part.place, at: [x + origin[0], y + origin[1], z + origin[2]] };
    const bounds = placeBox(place, [[0, 0, 0], sizeOf(part)]);
    const notches = part.features.filter((feature) => feature.kind === "notch");
    // A drilled hole, a slot and a shaped edge free no space that another part may fill: their wood is never left out.
    const hollows = part.features
      .filter(
        ({ kind }) =>
          kind !== "hole" &&
          kind !== "mortise" &&
          kind !== "slot" &&
          kind !== "shape" &&
          kind !== "edge" &&
          kind !== "mitre",
      )
      .flatMap(boxesOf)
      .map((box) => placeBox(place, box));
    const solid: Solid = {
      part,
      stock,
      assembly,
      bounds,
      cells: cutAwayAll([bounds], hollows),
      slants: part.features.flatMap((feature) => slantOf(feature, place) ?? []),
      hull: cutAwayAll(
        [bounds],
        part.features
          .filter(({ kind }) => kind === "notch" || kind === "shoulder" || kind === "lap" || kind === "socket")
          .flatMap(boxesOf)
          .map((box) => placeBox(place, box)),
      ),
      channels: [],
      slideways: [],
      notches: [],
      shoulders: [],
      laps: [],
      holes: [],
      mortises: [],
      place,
      directions: [directionOf(place.l), directionOf(place.w), directionOf(place.t)],
    };
    solid.notches = notches.map((feature) => ({ owner: solid, feature, box: placeBox(place, feature.box) }));
    solid.shoulders = part.features
      .filter(({ kind }) => kind === "shoulder")
      .map((feature) => ({ owner: solid, feature, box: placeBox(place, feature.box) }));
    solid.laps = part.features
      .filter(({ kind }) => kind === "lap")
      .map((feature) => ({ owner: solid, feature, box: placeBox(place, feature.box) }));
    solid.holes = part.features.filter(({ kind }) => kind === "hole").map((feature) => holeOf(solid, place, feature));
    solid.mortises = part.features
      .filter(({ kind }) => kind === "mortise")
      .map((feature) => holeOf(solid, place, feature));
    const cut = part.features.filter(({ kind }) => ["groove", "rabbet", "stub mortise"].includes(kind));
    const channels = cut.flatMap((feature) => channelOf(solid, place, feature) ?? []);
    const isSlideway = ({ feature, run, box }: Channel): boolean =>
      feature.kind === "groove" &&
      sliding.some(
        ({ of, axis, box: inRoom }) =>
          of !== part.assembly && axis === run && sharedBox(inRoom, roomBox(assembly, set.assemblies, box)) !== null,
      );
    solid.channels = channels.filter((channel) => !isSlideway(channel));
    solid.slideways = channels.filter(isSlideway);
    return [solid];
  });
}

/** Where a part ends in a direction of its case. */
export const reachOf = (solid: Solid, axis: AxisIndex, sign: 1 | -1): number => solid.bounds[sign === 1 ? 1 : 0][axis];

/** The boxes of a part that lie at its outermost plane in a direction. */
export const cellsAtEnd = (solid: Solid, axis: AxisIndex, sign: 1 | -1): Box[] =>
  solid.cells.filter((cell) => Math.abs(cell[sign === 1 ? 1 : 0][axis] - reachOf(solid, axis, sign)) < TOUCH);

/** Ends and edges; the two faces are not among them. */
export const ENDS: readonly Face[] = ["l0", "l1", "w0", "w1"];

export const outward = (solid: Solid, face: Face): Direction => {
  const { axis, sign } = solid.directions[faceAxis(face)];
  return { axis, sign: (isHighFace(face) ? sign : -sign) as 1 | -1 };
};

/** The space that an end's own wood would sweep if it grew by `reach`. */
export const inFrontOf = (solid: Solid, { axis, sign }: Direction, reach: Mm): Box[] => {
  const plane = reachOf(solid, axis, sign);
  const [from, to] = sign === 1 ? [plane, plane + reach] : [plane - reach, plane];
  return cellsAtEnd(solid, axis, sign).map((cell) => drawnOut(cell, axis, from, to));
};

/** How far an end lies inside the outside of its case: 0 where they are flush, negative where it stands out. */
export function insideEnvelope(solid: Solid, { axis, sign }: Direction): Mm {
  const plane = reachOf(solid, axis, sign) - solid.assembly.origin[axis];
  return sign === 1 ? solid.assembly.size[axis] - plane : plane;
}

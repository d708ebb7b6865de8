/** Doors that hang from a flat track: laid along it before the frame, the case's top panel or the worktop, as these came to stand. */
import type { Box, Vec } from "../../base/geometry.ts";
import { formatLengthWithUnit, type Mm, SAME } from "../../base/length.ts";
import type { Problem } from "../../base/problem.ts";
import type { Bay } from "../../project/bay.ts";
import { LEAST_CLEAR } from "../../project/defaults.ts";
import { type Project, whereIn } from "../../project/project.ts";
import type { Track } from "../../project/track.ts";
import { stockOf } from "../cases/carcase.ts";
import { frameOn } from "../frames/framed.ts";
import { frontOpening } from "../front-openings.ts";
import type { Grid } from "../grid.ts";
import { type AssemblyModel, BARE } from "../model.ts";
import type { Ground, Stage } from "../stage.ts";
import { crampedBy, layMembers } from "./door-members.ts";
import { hangerMiddles, hangersOn, hardwareOf } from "./track-hardware.ts";
import type { Sliding, TrackDoorModel, TrackModel } from "./track-model.ts";
import { boltsAlong, doorsAlong, edgeAtStop, guidesAlong, openTogether, slidesOf, wayOf } from "./track-sizes.ts";

type Range = readonly [Mm, Mm];

/** The doors on a track before each case, as the cases, their frames and worktops stand. */
export const TRACKS: Stage = {
  heeds: "as built",
  lay: (standing, ground) => standing.flatMap((one) => layTrack(one, standing, ground)),
  faults: cramped,
};

/** What the track is bolted to: its front face, and what of it the doors' height follows from. */
type Backing = { name: string; face: Mm; edge: Range | null };

function layTrack(one: AssemblyModel, standing: readonly AssemblyModel[], ground: Ground): AssemblyModel[] {
  const { track } = one.design;
  if (one.kind !== "case" || track === null) return [];
  const { grid, project } = ground;
  const openings = openingsOf(one, standing);
  const bays = openings.map(({ x }): Range => [x[0] - one.at[0], x[1] - one.at[0]]);
  const along = doorsAlong(bays, track, project.step, grid);
  const way = wayOf(bays, along, track, grid);
  const inset = edgeAtStop(track, grid);
  const needed = grid.atLeast(way[1] - way[0] + 2 * inset);
  const length = track.length === null ? needed : grid.place(track.length);
  // A track of another length is shared out at both ends; stops never let the doors beyond what it holds.
  const start = grid.place(way[0] - inset - (length - needed) / 2);
  const ends: Range =
    length < needed - SAME ? [Math.max(way[0], start + inset), Math.min(way[1], start + length - inset)] : way;
  const doors = slidesOf(along, ends, track.between);
  const thickness = stockOf(
    ground.stock,
    track.make.kind === "slab" ? one.design.stock.slab : one.design.stock.doorStile,
  ).thickness;
  const backing = backingOf(track, one, standing);
  const { under, height } = heightsOf(track, openings, backing, grid);
  const middle = under + height + track.hangers.drop + track.bar.height / 2;
  const at: Vec = [one.at[0] + start, backing.face, middle];
  const off = (door: Sliding): Sliding => ({
    ...door,
    closed: door.closed - start,
    from: door.from - start,
    to: door.to - start,
  });
  const names = doors.map((_, i) => `${one.name} door ${i + 1}`);
  const model: TrackModel = {
    case: one.name,
    on: backing.name,
    asked: track,
    at,
    length,
    needed,
    bolts: boltsAlong(length, track.bolts, grid).map((x) => ({
      at: x,
      part: partAt(at[0] + x, at[1], at[2], standing),
    })),
    stops: stopsOf(ends, start, track),
    guides: guidesOf(doors, ends, start, at, under, track, standing, grid),
    under,
    openings,
    doors: doors.map((door, i) => ({ ...off(door), ...fittingsOf(track, door.width, grid), name: names[i]! })),
    together: openTogether(bays, doors, ends, track.between, grid).map(({ open, at: places }) => ({
      open,
      at: places.map((place) => place - start),
    })),
    clear: clearOf(doors, [bays[0]![0], bays.at(-1)![1]]),
  };
  return doors.map((door, i): AssemblyModel => {
    const size: Vec = [door.width, thickness, height];
    const shell = { name: names[i]!, path: track.path, one, make: track.make, size };
    const parts = layMembers(shell, ground);
    const bored = hangersOn(parts, size, track, grid);
    return {
      ...BARE,
      name: names[i]!,
      kind: "door",
      design: one.design,
      at: [at[0] + door.closed - start, backing.face - rearOf(track, door.track, thickness) - thickness, under],
      size,
      parts: bored,
      travel: { kind: "slide", axis: "+x", range: [door.from - door.closed, door.to - door.closed] },
      hardware: hardwareOf(model, i, bored),
      track: i === 0 ? model : null,
    };
  });
}

/** Where its hangers and knobs are, and the horns of its stiles. */
function fittingsOf(track: Track, width: Mm, grid: Grid): Pick<TrackDoorModel, "hangers" | "knobs" | "horns"> {
  const { knob, make } = track;
  const middles = hangerMiddles(track, width, grid);
  const edge = knob === null ? 0 : grid.place(knob.fromEdge);
  return {
    hangers: [middles.left, middles.right],
    knobs:
      knob === null ? [] : knob.sides.map((side) => [side === "left" ? edge : width - edge, grid.place(knob.height)]),
    horns: make.kind === "slab" ? 0 : grid.atLeast(make.horns),
  };
}

/** Each column from its own opening in the front. */
function openingsOf(one: AssemblyModel, standing: readonly AssemblyModel[]): TrackModel["openings"] {
  const { bays } = one.design;
  const columns: Bay[] = bays.kind === "columns" ? bays.bays : [bays];
  return columns.map((bay, i) => {
    const opening = frontOpening(bay.path, one, standing);
    if (opening === null) throw new Error(`Internal error: ${one.name} has no opening before ${bay.path}`);
    return { name: bay.name ?? `bay ${i + 1}`, x: [...opening.x], z: [...opening.z], front: opening.front };
  });
}

function backingOf({ on }: Track, one: AssemblyModel, standing: readonly AssemblyModel[]): Backing {
  if (on === "frame") {
    const frame = frameOn(one, standing)!;
    return { name: frame.name, face: frame.at[1], edge: null };
  }
  const home =
    on === "top"
      ? one
      : standing.find(({ kind, worktop }) => kind === "worktop" && worktop?.over.includes(one.name) === true)!;
  const { box } = home.parts.find(({ role }) => role === on)!;
  return { name: home.name, face: home.at[1] + box[0][1], edge: [home.at[2] + box[0][2], home.at[2] + box[1][2]] };
}

/** The doors' lower edge in the room, and their height: from the openings, and under a track whose height is given by the edge it is on. */
function heightsOf(
  { above, below, bar, hangers }: Track,
  openings: TrackModel["openings"],
  { edge }: Backing,
  grid: Grid,
): { under: Mm; height: Mm } {
  const low = Math.min(...openings.map(({ z }) => z[0])) - below;
  if (edge === null) {
    const high = Math.max(...openings.map(({ z }) => z[1])) + above;
    return { under: low, height: grid.atLeast(high - low) };
  }
  const high = (edge[0] + edge[1]) / 2 - bar.height / 2 - hangers.drop;
  const height = grid.atLeast(Math.max(0, high - low));
  return { under: high - height, height };
}

/** From the face to the back of a door on this track: the door hangs in line with the bar. */
export const rearOf = ({ bar }: Track, track: 1 | 2, thickness: Mm): Mm =>
  bar.standOff + (track - 1) * bar.apart + (bar.thickness - thickness) / 2;

/** A bumper's end is where the hanger is when its door has gone all the way. */
function stopsOf([low, high]: Range, start: Mm, { hangers, stops }: Track): [Mm, Mm] {
  const in_ = hangers.fromEdge - stops.bumper / 2;
  return [low + in_ - start, high - in_ - start];
}

function guidesOf(
  doors: readonly Sliding[],
  ends: Range,
  start: Mm,
  at: Vec,
  under: Mm,
  { guide }: Track,
  standing: readonly AssemblyModel[],
  grid: Grid,
): TrackModel["guides"] {
  return ([1, 2] as const).flatMap((track) => {
    const own = doors.filter((door) => door.track === track);
    if (own.length === 0) return [];
    return guidesAlong(own, ends, guide.width, grid).map((x) => ({
      track,
      at: x - start,
      part: partAt(at[0] + x - start, at[1], under - guide.height / 2, standing),
    }));
  });
}

/** What a screw meets that is driven into the face at a place in the room. */
function partAt(x: Mm, face: Mm, z: Mm, standing: readonly AssemblyModel[]): string | null {
  for (const { at, parts } of standing) {
    const found = parts.find(({ box: [lo, hi] }: { box: Box }) => {
      const meets = (axis: 0 | 2, place: Mm): boolean => lo[axis] + at[axis] < place && place < hi[axis] + at[axis];
      return Math.abs(lo[1] + at[1] - face) < SAME && meets(0, x) && meets(2, z);
    });
    if (found !== undefined) return found.key;
  }
  return null;
}

function clearOf(doors: readonly Sliding[], [low, high]: Range): TrackModel["clear"] {
  const rightmost = Math.max(...doors.map(({ from, width }) => from + width));
  const leftmost = Math.min(...doors.map(({ to }) => to));
  return { left: Math.max(0, leftmost - low), right: Math.max(0, high - rightmost) };
}

/** Doors that leave no panel, or that are no doors. */
function cramped({ parts, size, design, name }: AssemblyModel, project: Project): Problem[] {
  const little = crampedBy({ parts, size });
  if (little === null) return [];
  const show = (length: Mm): string => formatLengthWithUnit(Math.max(0, length), project.unit);
  const isSlab = little.of === "slab";
  return [
    {
      level: "error",
      kind: "design",
      where: whereIn(project, `${design.path}.track`),
      found: isSlab
        ? `"${name}", ${show(size[0])} wide and ${show(size[2])} high`
        : `"${name}", ${show(size[0])} wide and ${show(size[2])} high, whose stiles and rails leave ${show(little.clear)} for its panel`,
      expected: `at least ${show(LEAST_CLEAR)}`,
      remedy: isSlab
        ? "make the bays larger, or the track higher"
        : "make stiles and rails narrower, or the bays larger",
    },
  ];
}

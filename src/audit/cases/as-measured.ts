/** The set with the members that bound a measured opening where the measure says they came to stand: what was made to the opening is judged against that. */
import type { AxisIndex, Box } from "../../base/geometry.ts";
import type { Mm } from "../../base/length.ts";
import type { DryfitSet, SetAssembly, SetOpening, SetPart } from "../../set/schema.ts";
import { casesBehind } from "../frames/behind.ts";
import { TOUCH } from "../solids/boxes.ts";
import { type Solid, solidsOf } from "../solids/solid.ts";

type Way = { way: "width" | "height"; axis: AxisIndex };
const WAYS: readonly Way[] = [
  { way: "width", axis: 0 },
  { way: "height", axis: 2 },
];

const other = (axis: AxisIndex): AxisIndex => (axis === 0 ? 2 : 0);
const sizeOf = ({ width, height }: SetOpening, axis: AxisIndex): Mm => (axis === 0 ? width : height);

/** A copy; the set itself where nothing was measured. */
export function asMeasured(set: DryfitSet): DryfitSet {
  if (set.asBuilt.length === 0) return set;
  const solids = solidsOf(set);
  const shifts = new Map<string, [Mm, Mm, Mm]>();
  for (const assembly of set.assemblies) for (const way of WAYS) shiftAlong(set, assembly, solids, way, shifts);
  const move = (part: SetPart): SetPart => {
    const by = shifts.get(part.mark);
    if (by === undefined || part.place === null) return part;
    const [x, y, z] = part.place.at;
    return { ...part, place: { ...part.place, at: [x + by[0], y + by[1], z + by[2]] } };
  };
  const aside = asideOf(set, solids, shifts);
  const moved = (one: SetAssembly): SetAssembly => {
    const [x, y, z] = one.place.at;
    return { ...one, place: { ...one.place, at: [x + (aside.get(one.name) ?? 0), y, z] } };
  };
  return { ...set, assemblies: set.assemblies.map(moved), parts: set.parts.map(move) };
}

/** Cases behind one frame are joined before that goes on: each stands against the one before, however wide that came out. */
function asideOf(
  { assemblies }: DryfitSet,
  solids: readonly Solid[],
  shifts: ReadonlyMap<string, readonly [Mm, Mm, Mm]>,
): Map<string, Mm> {
  const aside = new Map<string, Mm>();
  for (const frame of assemblies.filter(({ kind }) => kind === "frame")) {
    let by = 0;
    for (const { name } of casesBehind(frame, assemblies)) {
      aside.set(name, by);
      const sides = solids.filter(({ part, assembly }) => part.role === "side" && assembly.name === name);
      const [last] = sides.sort((a, b) => b.bounds[1][0] - a.bounds[1][0]);
      by += (last && shifts.get(last.part.mark)?.[0]) ?? 0;
    }
  }
  return aside;
}

function shiftAlong(
  set: DryfitSet,
  { name }: SetAssembly,
  solids: readonly Solid[],
  { way, axis }: Way,
  shifts: Map<string, [Mm, Mm, Mm]>,
): void {
  const measured = set.asBuilt.filter((one) => one.assembly === name && one.way === way);
  if (measured.length === 0) return;
  const openings = set.openings.filter((one) => one.case === name).sort((a, b) => a.at[axis] - b.at[axis]);
  const own = solids.filter((solid) => solid.assembly.name === name && solid.part.role !== "looseShelf");
  const at = (solid: Solid, end: 0 | 1): Mm => solid.bounds[end][axis] - solid.assembly.origin[axis];
  /** The members that begin (or end) at a plane, beside an opening. */
  const members = (opening: SetOpening, plane: Mm, end: 0 | 1): Solid[] =>
    own.filter((solid) => Math.abs(at(solid, end) - plane) < TOUCH && isBeside(solid.bounds, solid, opening, axis));
  const shiftOf = (solid: Solid | undefined): Mm =>
    solid === undefined ? 0 : (shifts.get(solid.part.mark)?.[axis] ?? 0);
  const shift = (solid: Solid, by: Mm): void => {
    const known = shifts.get(solid.part.mark) ?? [0, 0, 0];
    known[axis] = by;
    shifts.set(solid.part.mark, known);
  };
  const done = new Set<string>();
  const over = measured.find(({ opening }) => opening === null);
  if (over !== undefined) {
    // Members that no opening lies beyond stand at the far end.
    for (const opening of openings) {
      const high = opening.at[axis] + sizeOf(opening, axis);
      for (const solid of members(opening, high, 0)) {
        const isLast = openings.every((one) => Math.abs(at(solid, 1) - one.at[axis]) > TOUCH);
        if (isLast) shift(solid, over.measured - over.printed);
        if (isLast) done.add(solid.part.mark);
      }
    }
  }
  for (const opening of openings) {
    const found = measured.find((one) => one.opening === opening.name);
    if (found === undefined) continue;
    const from = shiftOf(members(opening, opening.at[axis], 1)[0]);
    for (const solid of members(opening, opening.at[axis] + sizeOf(opening, axis), 0)) {
      if (!done.has(solid.part.mark)) shift(solid, from + found.measured - found.printed);
      done.add(solid.part.mark);
    }
  }
}

const isBeside = (bounds: Box, { assembly }: Solid, opening: SetOpening, axis: AxisIndex): boolean => {
  const across = other(axis);
  const [low, high] = [bounds[0][across] - assembly.origin[across], bounds[1][across] - assembly.origin[across]];
  return low < opening.at[across] + sizeOf(opening, across) - TOUCH && high > opening.at[across] + TOUCH;
};

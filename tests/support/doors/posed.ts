/**
 * A set with its fronts somewhere on their way, put there as a hand would: what slides or is pulled stands elsewhere, what hangs is turned. Wood that is
 * then in two parts at once, by their names. Each pose is looked at by itself; that nothing happens between two of them is for sweeps to prove.
 */

import { checkOverlaps } from "../../../src/audit/joints/overlaps.ts";
import { roomBox, solidsOf } from "../../../src/audit/solids/solid.ts";
import { depthOf, type Outline, turned } from "../../../src/audit/solids/turned.ts";
import type { Box } from "../../../src/base/geometry.ts";
import type { DryfitSet, SetAssembly } from "../../../src/set/schema.ts";

/** How far an assembly has gone from where it is printed, in mm or degrees. */
export type Pose = (assembly: SetAssembly) => number;

const TOUCH = 0.01;

const outlineOf = ([lo, hi]: Box): Outline => [
  [lo[0], lo[1]],
  [hi[0], lo[1]],
  [hi[0], hi[1]],
  [lo[0], hi[1]],
];

function moved(assembly: SetAssembly, by: number): SetAssembly {
  const { travel, place } = assembly;
  if (travel.kind !== "slide" && travel.kind !== "pull") return assembly;
  const axis = "xyz".indexOf(travel.axis[1]!);
  const sign = travel.axis[0] === "-" ? -1 : 1;
  return {
    ...assembly,
    place: { ...place, at: place.at.map((at, i) => (i === axis ? at + sign * by : at)) as [number, number, number] },
  };
}

/** Pairs that meet in this pose. */
export function meetsIn(set: DryfitSet, pose: Pose): string[] {
  const assemblies = set.assemblies.map((one) => moved(one, pose(one)));
  const posed = { ...set, assemblies };
  const solids = solidsOf(posed);
  const swings = new Map(
    assemblies.flatMap((one) => (one.travel.kind === "swing" && pose(one) !== 0 ? [[one.name, one] as const] : [])),
  );
  const still = solids.filter(({ assembly }) => !swings.has(assembly.name));
  const met = checkOverlaps(posed, still).checks.map(({ text }) => text);
  const turning = solids
    .filter(({ assembly }) => swings.has(assembly.name))
    .flatMap((solid) => {
      const home = swings.get(solid.assembly.name)!;
      if (home.travel.kind !== "swing") return [];
      const { pivot } = home.travel;
      const about = [home.place.at[0] + pivot[0], home.place.at[1] + pivot[1]] as const;
      const angle = (pose(home) * Math.PI) / 180;
      return solid.cells.map((cell) => {
        const box = roomBox(solid.assembly, assemblies, cell);
        return { solid, z: [box[0][2], box[1][2]] as const, plan: turned(outlineOf(box), about, angle) };
      });
    });
  const standing = still.flatMap((solid) =>
    solid.cells.map((cell) => {
      const box = roomBox(solid.assembly, assemblies, cell);
      return { solid, z: [box[0][2], box[1][2]] as const, plan: outlineOf(box) };
    }),
  );
  const all = [...standing, ...turning];
  for (const one of turning) {
    for (const other of all) {
      if (other.solid.assembly.name === one.solid.assembly.name) continue;
      if (Math.min(one.z[1], other.z[1]) - Math.max(one.z[0], other.z[0]) <= TOUCH) continue;
      if (depthOf(one.plan, other.plan) > TOUCH)
        met.push(
          `${one.solid.part.name} ${one.solid.part.mark} meets ${other.solid.part.name} ${other.solid.part.mark}`,
        );
    }
  }
  return [...new Set(met)];
}

/** The poses that every front is to fit in: closed, opened all, and so far from one end of its travel to the other. */
export function posesOf(set: DryfitSet, between: number): [string, Pose][] {
  const along =
    (part: number): Pose =>
    ({ travel }) =>
      travel.kind === "none" ? 0 : travel.range[0] + part * (travel.range[1] - travel.range[0]);
  const only =
    (kind: SetAssembly["travel"]["kind"], pose: Pose): Pose =>
    (one) =>
      one.travel.kind === kind ? pose(one) : 0;
  const kinds = [...new Set(set.assemblies.map(({ travel }) => travel.kind))].filter((kind) => kind !== "none");
  // A door on hinges is closed at one end of its range, whichever way it turns.
  const open: Pose = ({ travel }) =>
    travel.kind === "none" ? 0 : travel.kind === "swing" ? travel.range[0] + travel.range[1] : travel.range[1];
  return [
    ["closed", () => 0],
    ["all open", open],
    ...kinds.flatMap((kind) =>
      Array.from({ length: between + 2 }, (_, i): [string, Pose] => [
        `${kind} ${i} of ${between + 1}`,
        only(kind, along(i / (between + 1))),
      ]),
    ),
  ];
}

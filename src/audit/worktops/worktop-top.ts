/** A worktop with all that lies under it, in the room, and how far its wood moves. */
import type { Box } from "../../base/geometry.ts";
import type { Mm } from "../../base/length.ts";
import { movementOf } from "../../base/moisture.ts";
import type { DryfitSet, SetWorktop } from "../../set/schema.ts";
import { casesBehind } from "../frames/behind.ts";
import { placeBox, roomBox, type Solid } from "../solids/solid.ts";

/** What the dry fit knows of a worktop, all in the room. */
export type Top = {
  told: SetWorktop;
  solid: Solid;
  box: Box;
  /** Parts of the cases it lies on, and of the frames before them, each where it stands. */
  below: { solid: Solid; box: Box }[];
  /** How far it moves at so much from its fixed line, outwards and inwards; 0 where it keeps its size. */
  travel: (distance: Mm) => { out: Mm; in: Mm };
};

export function topOf(set: DryfitSet, told: SetWorktop, solid: Solid, solids: readonly Solid[]): Top {
  const inRoom = (one: Solid): Box => roomBox(one.assembly, set.assemblies, one.bounds);
  const box = inRoom(solid);
  const cases = set.assemblies.filter(({ name }) => told.over.includes(name));
  const frames = set.assemblies.filter(
    (one) => one.kind === "frame" && casesBehind(one, set.assemblies).some((behind) => cases.includes(behind)),
  );
  const names = new Set([...cases, ...frames].map(({ name }) => name));
  return {
    told,
    solid,
    box,
    below: solids.filter(({ assembly }) => names.has(assembly.name)).map((one) => ({ solid: one, box: inRoom(one) })),
    travel: travelOf(set, told, solid),
  };
}

/** By the species and the job's moisture alone. */
function travelOf({ job }: DryfitSet, { glued }: SetWorktop, { stock }: Solid): Top["travel"] {
  const { species } = stock;
  if (species === null || glued === null) return () => ({ out: 0, in: 0 });
  const each = glued.sawn === "flat" ? species.tangential : species.radial;
  const { made, driest, wettest } = job.moisture;
  const points = made === null ? [wettest - driest, wettest - driest] : [wettest - made, made - driest];
  const [out, back] = points.map((some) => Math.max(0, some)) as [number, number];
  return (distance) => ({ out: movementOf(distance, each, out), in: movementOf(distance, each, back) });
}

/** A slot where its part stands, in the room. */
export const slotBox = (set: DryfitSet, { place, assembly }: Solid, box: Box): Box =>
  roomBox(assembly, set.assemblies, placeBox(place, box));

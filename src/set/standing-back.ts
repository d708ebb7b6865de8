/** How far a part stands back behind the front edges of what it goes into, where nothing else of it says so. */
import { type AxisIndex, axesOf, axisOf } from "../base/geometry.ts";
import { type Mm, SAME } from "../base/length.ts";
import { axisOfFace } from "./facing.ts";
import { boxOfPart } from "./fastening.ts";
import type { DryfitSet, Face, SetJoint, SetPart } from "./schema.ts";
import { byMark, partOf } from "./words.ts";

export type StandingBack = { by: Mm; behind: string[] };

const DEPTH: AxisIndex = 1;
const LOCAL = ["l", "w", "t"] as const;

/** The case's axis that an end, edge or face of the part looks along. */
const looksAlong = (part: SetPart, face: Face): AxisIndex =>
  axisOf(axesOf(part.place!)[LOCAL.indexOf(axisOfFace(face))]!);

const isHeld = ({ kind }: SetJoint): boolean => kind === "housed" || kind === "tongue";

/** Null where its front is in line with that of something it goes into, or where a groove places it from front to back. */
export function standingBack(set: DryfitSet, part: SetPart): StandingBack | null {
  const { place } = part;
  if (place === null || set.assemblies.find(({ name }) => name === part.assembly)?.kind !== "case") return null;
  const joints = set.joints.filter((joint) => joint.entering === part.mark && isHeld(joint));
  if (joints.length === 0 || axisOf(place.t) === DEPTH) return null;
  if (joints.some(({ enteringEnd }) => looksAlong(part, enteringEnd) === DEPTH)) return null;
  const front = boxOfPart(set, part)[0][DEPTH];
  const behind = joints.map(({ receiving }) => {
    const mark = receiving;
    return { mark, by: front - boxOfPart(set, partOf(set, mark))[0][DEPTH] };
  });
  if (behind.some(({ by }) => Math.abs(by) <= SAME)) return null;
  const back = behind.filter(({ by }) => by > SAME);
  if (back.length === 0) return null;
  const by = Math.min(...back.map((one) => one.by));
  return {
    by,
    behind: [...new Set(back.filter((one) => one.by - by <= SAME).map(({ mark }) => mark))].sort(byMark),
  };
}

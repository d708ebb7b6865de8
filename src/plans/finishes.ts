/** What goes over the wood: on which parts, over what area, how much of it. */
import { AXES, type AxisIndex, type Box, boxToOuter, type Place } from "../base/geometry.ts";
import { type Mm, SAME } from "../base/length.ts";
import type { Finish } from "../project/project.ts";
import type { DryfitSet, SetPart } from "../set/schema.ts";
import { unionVolume } from "./mass.ts";

type SetFinish = DryfitSet["finishes"][number];

const MM2_PER_M2 = 1e6;

export function planFinishes(finishes: readonly Finish[], parts: readonly SetPart[]): SetFinish[] {
  if (finishes.length === 0) return [];
  const areas = new Map(parts.map((part) => [part.mark, openArea(part, parts)]));
  return finishes.map(({ name, kind, roles, coats, coverage, dry, before }): SetFinish => {
    const own = parts.filter(({ role }) => roles === null || roles.includes(role));
    const area = own.reduce((sum, { mark }) => sum + areas.get(mark)!, 0) / MM2_PER_M2;
    return {
      name,
      kind,
      parts: own.map(({ mark }) => mark),
      area,
      coats,
      litres: (coats * area) / coverage,
      dry,
      before,
    };
  });
}

const boxOf = ({ place, length, width, thickness }: SetPart): Box =>
  boxToOuter(place as Place, [
    [0, 0, 0],
    [length, width, thickness],
  ]);

/** Faces, edges and ends of the blank, less what lies against or goes into another part of its assembly, in mm2. What is cut out is left in: a groove's walls take more than its mouth. */
export function openArea(part: SetPart, parts: readonly SetPart[]): number {
  const { length, width, thickness } = part;
  if (part.place === null) return 2 * (length * width + length * thickness + width * thickness);
  const own = boxOf(part);
  const others = parts
    .filter(
      ({ assembly, mark, place, role }) =>
        assembly === part.assembly && mark !== part.mark && place !== null && role !== "looseShelf",
    )
    .map(boxOf);
  return AXES.flatMap((axis) => ([0, 1] as const).map((end) => faceArea(own, axis, own[end][axis], others))).reduce(
    (sum, area) => sum + area,
    0,
  );
}

/** One face of a box, less what the other boxes cover of it. */
function faceArea(own: Box, axis: AxisIndex, plane: Mm, others: readonly Box[]): number {
  const [u, v] = AXES.filter((one) => one !== axis) as [AxisIndex, AxisIndex];
  const covered = others
    .filter((box) => box[0][axis] <= plane + SAME && box[1][axis] >= plane - SAME)
    .map((box): Box => {
      const low = (one: AxisIndex): Mm => Math.max(own[0][one], box[0][one]);
      const high = (one: AxisIndex): Mm => Math.min(own[1][one], box[1][one]);
      return [
        [low(u), low(v), 0],
        [high(u), high(v), 1],
      ];
    })
    .filter(([lo, hi]) => hi[0] - lo[0] > SAME && hi[1] - lo[1] > SAME);
  return (own[1][u] - own[0][u]) * (own[1][v] - own[0][v]) - unionVolume(covered);
}

/** Screws and dowels as the joints tell them: each in the middle of what it holds, with wood all round it, and long enough a hole for a dowel. */
import type { AxisIndex, Box, Vec } from "../../base/geometry.ts";
import type { Mm } from "../../base/length.ts";
import type { DryfitSet, SetCheck, SetJoint } from "../../set/schema.ts";
import { cutAwayAll, drawnOut, otherAxes, TOUCH } from "../solids/boxes.ts";
import { faceAxis, isHighFace, localAxis, placeBox, type Solid, sizeOf } from "../solids/solid.ts";
import { amount, failure, nameOf } from "../words.ts";
import { isInLine, middleOf } from "./dowels.ts";

type Fasteners = NonNullable<SetJoint["fasteners"]>;

/** Half of a screw's shank, where only the shop knows which it takes (common practice, no source). */
const SHANK: Mm = 2;

export function checkFasteners(set: DryfitSet, solids: readonly Solid[]): SetCheck[] {
  const byMark = new Map(solids.map((solid) => [solid.part.mark, solid]));
  return set.joints.flatMap((joint): SetCheck[] => {
    const [entering, receiving] = [byMark.get(joint.entering), byMark.get(joint.receiving)];
    const { fasteners } = joint;
    if (fasteners === null || !entering || !receiving) return [];
    const told = [
      ...new Set(
        fasteners.positions.flatMap((position) => faultsOf(joint, fasteners, position, entering, receiving, set.job)),
      ),
      ...dowelFaults(joint, fasteners, entering, receiving, set.job),
    ];
    if (told.length === 0) return [];
    return [
      failure(
        "fasteners",
        [entering.part, receiving.part],
        `A ${fasteners.kind} of ${nameOf(entering.part)} in ${nameOf(receiving.part)} ${told.join("; it ")}. Change: where it goes, or the hole for it.`,
      ),
    ];
  });
}

/** Where a fastener goes through the receiving face, in the frame of the row. */
export function pointOf(
  { receivingFace }: SetJoint,
  { along, at }: Fasteners,
  position: Mm,
  { part, place }: Solid,
): Vec {
  const run = localAxis(along);
  const into = faceAxis(receivingFace);
  const local: [number, number, number] = [0, 0, 0];
  local[run] = position;
  local[into] = isHighFace(receivingFace) ? sizeOf(part)[into] : 0;
  local[(3 - run - into) as AxisIndex] = at;
  return placeBox(place, [local, local])[0];
}

function faultsOf(
  joint: SetJoint,
  fasteners: Fasteners,
  position: Mm,
  entering: Solid,
  receiving: Solid,
  job: DryfitSet["job"],
): string[] {
  const point = pointOf(joint, fasteners, position, receiving);
  const told: string[] = [];
  const across = entering.directions[2].axis;
  const off = Math.abs(middleOf(entering.bounds)[across] - point[across]);
  if (off > TOUCH) told.push(`is ${amount(off, job)} off the middle of the thickness`);
  const { axis, sign } = receiving.directions[faceAxis(joint.receivingFace)];
  const outwards = isHighFace(joint.receivingFace) ? sign : -sign;
  const radius = (fasteners.size?.diameter ?? 2 * SHANK) / 2;
  const lo: [number, number, number] = [...point];
  const hi: [number, number, number] = [...point];
  for (const each of otherAxes(axis)) {
    lo[each] -= radius;
    hi[each] += radius;
  }
  const slab = (from: Mm, to: Mm): Box => drawnOut([lo, hi], axis, Math.min(from, to), Math.max(from, to));
  const plane = point[axis];
  // Just below the receiving face, and just behind where rounding lets the entering end lie.
  const below = slab(plane - outwards * 0.5, plane);
  const behind = slab(plane + outwards * (job.step + TOUCH), plane + outwards * (job.step + 0.5));
  if (cutAwayAll([below], receiving.cells).length > 0)
    told.push(`has no wood all round it at ${amount(position, job)}`);
  if (cutAwayAll([behind], entering.cells).length > 0)
    told.push(`misses the end that it holds at ${amount(position, job)}`);
  if (fasteners.kind === "dowel") {
    const own = receiving.holes.find(
      (hole) =>
        hole.depth === axis &&
        otherAxes(axis).every((each) => Math.abs(middleOf(hole.box)[each] - point[each]) < TOUCH),
    );
    if (own === undefined) told.push(`has no hole at ${amount(position, job)}`);
  }
  return told;
}

/** The two halves of each hole take the dowel, and none is left over. */
function dowelFaults(
  { receivingFace, enteringEnd }: SetJoint,
  { kind, size, positions }: Fasteners,
  entering: Solid,
  receiving: Solid,
  job: DryfitSet["job"],
): string[] {
  if (kind !== "dowel" || size === null) return [];
  const told: string[] = [];
  const drilled = receiving.holes.filter(({ feature }) => feature.face === receivingFace);
  const ends = entering.holes.filter(({ feature }) => feature.face === enteringEnd);
  const halves = drilled.flatMap((hole) => {
    const mate = ends.find((each) => isInLine(hole, each));
    return mate ? [hole.feature.depth + mate.feature.depth] : [];
  });
  if (halves.length !== positions.length) told.push(`is one of ${positions.length}, but ${halves.length} holes go on`);
  for (const depth of new Set(halves))
    if (depth < size.length - TOUCH)
      told.push(`is ${amount(size.length, job)} long, but its hole is ${amount(depth, job)} deep in all`);
  return told;
}

/** Screws and dowels as the joints tell them: each in the middle of the edge that it holds, or through sound wood into the face, with wood all round it, and long enough a hole for a dowel. */
import type { AxisIndex, Box, Vec } from "../../base/geometry.ts";
import type { Mm } from "../../base/length.ts";
import type { DryfitSet, SetCheck, SetJoint } from "../../set/schema.ts";
import { cutAwayAll, drawnOut, otherAxes, sharedBox, TOUCH } from "../solids/boxes.ts";
import { faceAxis, isHighFace, localAxis, placeBox, type Solid, sizeOf } from "../solids/solid.ts";
import { amount, failure, nameOf } from "../words.ts";
import { isInLine, middleOf } from "./dowels.ts";

type Fasteners = NonNullable<SetJoint["fasteners"]>;

/** Half of a screw's shank, where only the shop knows which it takes (common practice, no source). */
const SHANK: Mm = 2;
/** From face to face a screw holds at least so much of the second part, and its head is so wide (common practice, no source). */
const LEAST_HOLD: Mm = 6;
const HEAD: Mm = 8;

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
      ...(isFlat(joint) ? flatFaults(joint, fasteners, entering, receiving, solids, set) : []),
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

/** The entering part lies on the other with its face. */
const isFlat = ({ enteringEnd }: SetJoint): boolean => enteringEnd.startsWith("t");

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

/** Of the entering part's thickness, what lies on the other: of two back sections each has its share of the divider behind which they meet. */
const sharedAcross = (entering: Solid, receiving: Solid, axis: AxisIndex): [Mm, Mm] => [
  Math.max(entering.bounds[0][axis], receiving.bounds[0][axis]),
  Math.min(entering.bounds[1][axis], receiving.bounds[1][axis]),
];

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
  const [low, high] = sharedAcross(entering, receiving, across);
  const off = Math.abs((low + high) / 2 - point[across]);
  if (!isFlat(joint) && off > TOUCH) told.push(`is ${amount(off, job)} off the middle of the thickness`);
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

/** From face to face: through wood from the head to the joint and on into the other part, through no hole, its head against no other part, and no screw on another. */
function flatFaults(
  joint: SetJoint,
  fasteners: Fasteners,
  entering: Solid,
  receiving: Solid,
  solids: readonly Solid[],
  { job, joints }: DryfitSet,
): string[] {
  const { axis, sign } = receiving.directions[faceAxis(joint.receivingFace)];
  const outwards = isHighFace(joint.receivingFace) ? sign : -sign;
  const beside = otherAxes(axis);
  const all = joints
    .filter((one) => one.receiving === joint.receiving && one.fasteners !== null)
    .flatMap((one) => one.fasteners!.positions.map((place) => pointOf(one, one.fasteners!, place, receiving)));
  return fasteners.positions.flatMap((position) => {
    const told: string[] = [];
    const point = pointOf(joint, fasteners, position, receiving);
    const slab = (half: Mm, from: Mm, to: Mm): Box => {
      const lo: [number, number, number] = [...point];
      const hi: [number, number, number] = [...point];
      for (const each of beside) {
        lo[each] -= half;
        hi[each] += half;
      }
      const ends = [point[axis] + outwards * from, point[axis] + outwards * to];
      return drawnOut([lo, hi], axis, Math.min(...ends), Math.max(...ends));
    };
    const through = slab(SHANK, -receiving.part.thickness, 0);
    const into = slab(SHANK, job.step + TOUCH, LEAST_HOLD);
    const isCut = (solid: Solid, box: Box): boolean =>
      cutAwayAll([box], solid.cells).length > 0 || solid.holes.some((hole) => sharedBox(hole.box, box) !== null);
    if (isCut(receiving, through) || isCut(entering, into))
      told.push(`meets what is cut there at ${amount(position, job)}`);
    const head = slab(HEAD / 2, -receiving.part.thickness - 1, -receiving.part.thickness);
    const under = solids.find(
      (solid) =>
        solid.part.assembly === receiving.part.assembly && solid.cells.some((cell) => sharedBox(cell, head) !== null),
    );
    if (under !== undefined) told.push(`has ${nameOf(under.part)} over its head at ${amount(position, job)}`);
    if (all.filter((other) => beside.every((each) => Math.abs(other[each] - point[each]) < HEAD)).length > 1)
      told.push(`stands on another at ${amount(position, job)}`);
    return told;
  });
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

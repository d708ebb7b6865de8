/** Loose tenons: each mortise goes on, in line and as wide, in the part before its mouth; one of a joint is tight, the others let it; wood is left all round. */
import type { AxisIndex, Box } from "../../base/geometry.ts";
import { isSame, type Mm } from "../../base/length.ts";
import type { DryfitSet, SetCheck, SetJoint } from "../../set/schema.ts";
import { around, cutAwayAll, otherAxes, TOUCH } from "../solids/boxes.ts";
import type { Neighbours } from "../solids/neighbours.ts";
import { faceAxis, type Hole, localAxis, placeBox, type Solid } from "../solids/solid.ts";
import { amount, failure, featureName, type Job, nameOf } from "../words.ts";
import { isInLine, middleOf, partBefore } from "./dowels.ts";
import { pointOf } from "./fasteners.ts";

/** Wood that stays beside a mortise and behind its floor (common practice, no source). */
const WALL: Mm = 3;

/** Along the mortise, and across it: how thick its tenon is. */
function sizesOf({ owner, feature, box }: Hole): { length: Mm; thickness: Mm; across: AxisIndex } {
  const along = owner.directions[localAxis(feature.along)].axis;
  const across = owner.directions[(3 - localAxis(feature.along) - faceAxis(feature.face)) as AxisIndex].axis;
  return { length: box[1][along] - box[0][along], thickness: box[1][across] - box[0][across], across };
}

const mateOf = (mortise: Hole, other: Solid): Hole | undefined =>
  other.mortises.find((each) => isInLine(mortise, each));

export function checkTenons(set: DryfitSet, solids: readonly Solid[], near: Neighbours): SetCheck[] {
  const { job } = set;
  const each = solids.flatMap((solid) =>
    solid.mortises.flatMap((mortise): SetCheck[] => {
      const name = featureName(solid.part, mortise.feature, job);
      const walls = checkWalls(mortise, job);
      const other = partBefore(mortise, near, job.step);
      if (other === undefined)
        return [
          ...walls,
          failure("tenon", [solid.part], `${name} opens on nothing. Change: leave it out, or place the part.`),
        ];
      const mate = mateOf(mortise, other);
      if (mate === undefined)
        return [
          ...walls,
          failure(
            "tenon",
            [solid.part, other.part],
            `${name} has no mortise in line with it in ${nameOf(other.part)}, which covers it. Change: mark both across the joint at once.`,
          ),
        ];
      const [own, its] = [sizesOf(mortise), sizesOf(mate)];
      if (own.across === its.across && isSame(own.thickness, its.thickness)) return walls;
      return [
        ...walls,
        failure(
          "tenon",
          [solid.part, other.part],
          `${name} is ${amount(own.thickness, job)} wide, and goes on in ${nameOf(other.part)} with ${amount(its.thickness, job)}. Change: cut both with one bit.`,
        ),
      ];
    }),
  );
  return [...each, ...set.joints.flatMap((joint) => checkJoint(joint, solids, job))];
}

/** Nothing else is cut so near to it, and no face, edge or end lies so near. */
function checkWalls({ owner, feature, box, depth, inward }: Hole, job: Job): SetCheck[] {
  const lo: [number, number, number] = [...box[0]];
  const hi: [number, number, number] = [...box[1]];
  for (const axis of otherAxes(depth)) {
    lo[axis] -= WALL;
    hi[axis] += WALL;
  }
  if (inward === 1) hi[depth] += WALL;
  else lo[depth] -= WALL;
  const { part, place } = owner;
  const others = part.features.filter((one) => one !== feature).map((one) => placeBox(place, one.box));
  const wood = cutAwayAll([owner.bounds], others);
  const wanted: Box = [lo, hi];
  const missing = cutAwayAll([wanted], wood);
  if (missing.length === 0) return [];
  const least = around(missing);
  const left = ([0, 1, 2] as const).map((axis) => WALL - (least[1][axis] - least[0][axis])).filter((one) => one > 0);
  return [
    failure(
      "tenon-wood",
      [part],
      `${featureName(part, feature, job)} leaves less than ${amount(WALL, job)} of wood beside it or behind it${left.length > 0 ? `, ${amount(Math.max(...left), job)} at one place` : ""}. Change: a smaller tenon, or a wider member.`,
    ),
  ];
}

/** As the joint tells it: so many, so large, half in either part, the first of them tight. */
function checkJoint(joint: SetJoint, solids: readonly Solid[], job: Job): SetCheck[] {
  const tenon = joint.fasteners?.tenon;
  const entering = solids.find(({ part }) => part.mark === joint.entering);
  const receiving = solids.find(({ part }) => part.mark === joint.receiving);
  if (!joint.fasteners || !tenon || !entering || !receiving) return [];
  const own = receiving.mortises.filter(({ feature }) => feature.face === joint.receivingFace);
  const pairs = own.flatMap((mortise) => {
    const mate = mateOf(mortise, entering);
    return mate === undefined || mate.feature.face !== joint.enteringEnd ? [] : [{ mortise, mate }];
  });
  const told: string[] = [];
  const { positions } = joint.fasteners;
  if (pairs.length !== positions.length)
    told.push(`are ${positions.length}, but ${pairs.length} mortises of the one go on in the other`);
  for (const position of positions) {
    const point = pointOf(joint, joint.fasteners, position, receiving);
    const axis = receiving.directions[localAxis(joint.fasteners.along)].axis;
    if (!pairs.some(({ mortise }) => Math.abs(middleOf(mortise.box)[axis] - point[axis]) < TOUCH))
      told.push(`have no mortise at ${amount(position, job)}`);
  }
  const slacks = pairs.map(({ mortise, mate }) => {
    const [wide, end] = [sizesOf(mortise), sizesOf(mate)];
    if (!isSame(end.thickness, tenon.thickness))
      told.push(`are ${amount(tenon.thickness, job)} thick, but their mortises are ${amount(end.thickness, job)} wide`);
    if (!isSame(end.length, tenon.width))
      told.push(`are ${amount(tenon.width, job)} wide, but the mortise in the end is ${amount(end.length, job)} long`);
    const room = mortise.feature.depth + mate.feature.depth - tenon.length;
    if (room < -TOUCH)
      told.push(`are ${amount(-room, job)} longer than their mortises are deep, and keep the joint open`);
    else if (!isSame(room, tenon.spare))
      told.push(`have ${amount(room, job)} beyond their ends, where ${amount(tenon.spare, job)} is told`);
    return wide.length - tenon.width;
  });
  if (slacks.length > 0 && slacks.filter((slack) => isSame(slack, 0)).length !== 1)
    told.push("are not tight at one place alone: it takes one to set the members, and the others to let it");
  if (slacks.some((slack) => !isSame(slack, 0) && !isSame(slack, tenon.slack)))
    told.push(`have a mortise that is not slotted by ${amount(tenon.slack, job)}`);
  if (told.length === 0) return [];
  return [
    failure(
      "tenon",
      [entering.part, receiving.part],
      `The loose tenons of ${nameOf(entering.part)} in ${nameOf(receiving.part)} ${[...new Set(told)].join("; they ")}. Change: the mortises, or the tenons.`,
    ),
  ];
}

/** Notches: each clears something and fits it within rounding, or is the toe space in front of a kick. */
import type { AxisIndex, Box } from "../../base/geometry.ts";
import type { Mm } from "../../base/length.ts";
import type { DryfitSet, SetCheck } from "../../set/schema.ts";
import { checkSkirtingNotch, isOverSkirting } from "../cases/skirting.ts";
import { around, cutAwayAll, sharedBoxes, TOUCH, within } from "../solids/boxes.ts";
import type { Neighbours } from "../solids/neighbours.ts";
import { mayMeet, type Notch, type Solid } from "../solids/solid.ts";
import { amount, failure, nameAll, nameOf, partsOf, where } from "../words.ts";

/** What rounding may leave open: one step at each wall of the notch that is the part's own wood. */
function roundingZones({ box, owner }: Notch, step: Mm): Box[] {
  return ([0, 1, 2] as AxisIndex[]).flatMap((axis) => {
    const zones: Box[] = [];
    if (box[0][axis] - owner.bounds[0][axis] > TOUCH) zones.push(within(box, axis, box[0][axis], box[0][axis] + step));
    if (owner.bounds[1][axis] - box[1][axis] > TOUCH) zones.push(within(box, axis, box[1][axis] - step, box[1][axis]));
    return zones;
  });
}

/** What of a notch lies more than a step beyond all that it clears: in one no wider than a step, the zones of rounding would cover it all. */
const beyond = ({ box, owner }: Notch, cleared: Box, step: Mm): Box[] =>
  ([0, 1, 2] as AxisIndex[]).flatMap((axis) => {
    const low = box[0][axis] - owner.bounds[0][axis] > TOUCH && cleared[0][axis] - box[0][axis] > step + TOUCH;
    const high = owner.bounds[1][axis] - box[1][axis] > TOUCH && box[1][axis] - cleared[1][axis] > step + TOUCH;
    return [
      ...(low ? [within(box, axis, box[0][axis], cleared[0][axis])] : []),
      ...(high ? [within(box, axis, cleared[1][axis], box[1][axis])] : []),
    ];
  });

/** At the floor and the front of a side: the foot's room, as deep as the kick stands back and as high as the kick is. */
const isToeCorner = ({ owner, box }: Notch): boolean =>
  owner.part.role === "side" && box[0][1] - owner.bounds[0][1] < TOUCH && box[0][2] - owner.bounds[0][2] < TOUCH;

const kicksFor = (side: Solid, solids: readonly Solid[]): Solid[] =>
  solids.filter((solid) => solid.part.role === "kick" && mayMeet(solid, side));

function checkToeSpace(set: DryfitSet, notch: Notch, kicks: readonly Solid[]): SetCheck[] {
  const { job } = set;
  const { owner, box } = notch;
  const name = `the toe space of ${nameOf(owner.part)}`;
  const fits = (kick: Solid): boolean =>
    Math.abs(kick.bounds[0][1] - box[1][1]) < job.step + TOUCH &&
    Math.abs(kick.bounds[1][2] - box[1][2]) < job.step + TOUCH;
  if (kicks.some(fits)) return [];
  const text =
    kicks.length === 0
      ? `Nothing stands behind ${name}, ${where(box, owner.assembly, job)}. Change: put a kick there, or leave the notch out.`
      : `${name} is ${amount(box[1][1], job)} deep and ${amount(box[1][2], job)} high, but ${kicks.map((kick) => `${nameOf(kick.part)} stands ${amount(kick.bounds[0][1], job)} back and is ${amount(kick.bounds[1][2], job)} high`).join(", ")}, ${where(box, owner.assembly, job)}; rounding leaves at most ${amount(job.step, job)}. Change: cut the notch to the kick's front and upper edge.`;
  return [failure("notch", [owner.part, ...partsOf(kicks)], text)];
}

/** A kick that stands back between two sides needs its toe space in both, or the foot meets one of them. */
function checkToePairs(set: DryfitSet, solids: readonly Solid[]): SetCheck[] {
  const sides = solids.filter((solid) => solid.part.role === "side");
  const hasToe = (side: Solid): boolean => side.notches.some(isToeCorner);
  return set.assemblies.flatMap((assembly) => {
    const pair = sides.filter((side) => side.assembly.name === assembly.name);
    const whole = pair.filter((side) => !hasToe(side));
    if (whole.length === 0 || whole.length === pair.length) return [];
    return failure(
      "notch",
      partsOf(whole),
      `${nameAll(partsOf(whole))} has no toe space, but ${nameAll(partsOf(pair.filter(hasToe)))} has, in ${assembly.name} at the front lower corner. Change: cut it in both sides, or in neither.`,
    );
  });
}

export function checkNotches(set: DryfitSet, solids: readonly Solid[], near: Neighbours): SetCheck[] {
  const { job } = set;
  const each = solids
    .flatMap((solid) => solid.notches)
    .flatMap((notch) => {
      const { owner, box } = notch;
      if (isOverSkirting(set, notch)) return checkSkirtingNotch(set, notch);
      const inside = near.of(owner).filter((solid) => sharedBoxes(solid.hull, [box]).length > 0);
      if (inside.length === 0 && isToeCorner(notch)) return checkToeSpace(set, notch, kicksFor(owner, solids));
      // An applied kick stands in the notch, against its rear wall: the foot's room is what lies before the kick.
      const kick = isToeCorner(notch) ? inside.find(({ part }) => part.role === "kick") : undefined;
      const toe = kick ? [within(box, 1, box[0][1], kick.bounds[0][1])] : [];
      // The blanks of the others, for their own grooves are judged as grooves, even where they run into this notch.
      const filled = inside.flatMap((solid) => solid.hull);
      const cleared = sharedBoxes([...filled, ...toe], [box]);
      const open = [
        ...cutAwayAll([box], [...filled, ...toe, ...roundingZones(notch, job.step)]),
        ...(cleared.length > 0 ? beyond(notch, around(cleared), job.step) : []),
      ];
      if (open.length === 0 && inside.length > 0) return [];
      const name = `the notch at ${notch.feature.face} of ${nameOf(owner.part)}`;
      const text =
        inside.length === 0
          ? `Nothing stands in ${name}, ${where(box, owner.assembly, job)}. Change: leave the notch out, or move it to the corner that has something to clear.`
          : `${name} is larger than what it clears (${nameAll(partsOf(inside))}): open ${where(around(open), owner.assembly, job)}, and rounding leaves at most ${amount(job.step, job)} at a wall. Change: cut the notch smaller.`;
      return failure("notch", [owner.part, ...partsOf(inside)], text);
    });
  return [...each, ...checkToePairs(set, solids)];
}

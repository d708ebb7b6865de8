/** Cross-grain joints: solid wood fixed along a part that does not move with it. Panels keep their size; solid wood does not, across its grain. */
import { AXES, type AxisIndex, axisOf } from "../../base/geometry.ts";
import { type Mm, SAME, type Unit } from "../../base/length.ts";
import { movementOf } from "../../base/moisture.ts";
import type { SetCheck, SetJoint, SetPart } from "../../set/schema.ts";
import {
  axisOfFace,
  blankOf,
  type CheckInput,
  capital,
  checkOf,
  computed,
  moved,
  nameOf,
  PRACTICE,
  shown,
  stockOfPart,
} from "./input.ts";

/** Narrower solid wood gives way to glue without a crack: common practice, no source. */
const HARMLESS: Mm = 75;
/** As the trade says it in either unit: a limit is remembered as a round figure. */
const HARMLESS_SAID = { mm: `${HARMLESS} mm`, in: "3 in" };
/** The end of a rail on the edge of a stile: both are solid, and joints so wide have held in doors and frames for centuries (common practice, no source). */
const HARMLESS_RAIL: Mm = 101.6;
/** Between the coefficients of the common cabinet woods, flat-grained (Wood Handbook 2010, table 13-5), and a heated winter against a damp summer (common practice). */
const COEFFICIENT = 0.003;
const POINTS = 4;

const RULE = `solid wood wider than ${HARMLESS_SAID.mm} (${HARMLESS_SAID.in}) is not fixed rigidly across what does not move with it, nor a rail wider than 4 in (102 mm) to a stile (${PRACTICE}); movement: width x ${COEFFICIENT} x ${POINTS} points of moisture (Wood Handbook 2010, table 13-5: flat-grained cabinet woods)`;

/** How little of such a joint is glued. */
export const glueOnly = (joint: SetJoint, unit: Unit): string =>
  isRail(joint)
    ? `glue only the middle ${HARMLESS_SAID[unit]} of its end`
    : `glue only the first ${HARMLESS_SAID[unit]} at the front and let the rest slide`;

type Input = Pick<CheckInput, "joints" | "parts" | "assemblies" | "stock">;

/** Joints that are fixed over more than gives way without a crack. */
export function crossGrainJoints(input: Input): (Crossed & { joint: SetJoint })[] {
  const { joints, parts } = input;
  return joints.filter(isRigid).flatMap((joint) => {
    const entering = parts.find(({ mark }) => mark === joint.entering)!;
    const receiving = parts.find(({ mark }) => mark === joint.receiving)!;
    return crossed(joint, entering, receiving, input).map((one) => ({ ...one, joint }));
  });
}

export function checkCrossGrain(input: CheckInput): SetCheck[] {
  const { joints, parts, stock, unit } = input;
  const fixed = joints.filter(isRigid);
  const found = crossGrainJoints(input).map(({ joint, mover, still, width }): SetCheck => {
    const moves = movementOf(width, COEFFICIENT, POINTS);
    return checkOf("cross-grain", "warning", [mover.mark, still.mark], {
      text: `${capital(nameOf(mover))} is solid wood, fixed across its grain to ${nameOf(still)} (${joint.fixings}) over ${shown(width, unit)}: it moves about ${computed(moves, unit)} with the seasons, ${still.name} does not.`,
      rule: RULE,
      change: isRail(joint)
        ? `${glueOnly(joint, unit)}, as the step of its glue-up says, or make ${nameOf(mover)} narrower`
        : `${glueOnly(joint, unit)}, as the step of its glue-up says, or screws in slots; or make ${nameOf(mover)} of plywood`,
    });
  });
  if (found.length > 0) return found;
  const solid = parts.filter((part) => stockOfPart(part, stock).solid);
  const lipped = parts.filter(({ lippings }) => lippings.length > 0);
  const strips = Math.max(0, ...lipped.map(({ thickness }) => thickness));
  const looked = [
    solid.length === 0
      ? "every part is plywood, which keeps its size"
      : `${solid.length === 1 ? "one part is" : `${solid.length} parts are`} solid wood, none fixed across its grain`,
    ...(lipped.length > 0
      ? [`strips on edges run along their grain, and across it only over the panel's ${shown(strips, unit)}`]
      : []),
  ];
  return [
    checkOf("cross-grain", "ok", [], {
      text: `No cross-grain joint in the ${fixed.length} that are glued or screwed: ${looked.join("; ")}.`,
      rule: RULE,
    }),
  ];
}

const isRigid = ({ fit, fixings }: SetJoint): boolean =>
  fit === "seated" && /glue|screw|dowel/.test(fixings) && !fixings.startsWith("no glue");

/** The end of one member on the edge of another. */
const isRail = ({ enteringEnd, receivingFace }: SetJoint): boolean =>
  enteringEnd.startsWith("l") && receivingFace.startsWith("w");

type Crossed = { mover: SetPart; still: SetPart; width: Mm };

/** In each direction of the plane they meet in: one moves, the other does not, over so much. */
function crossed(joint: SetJoint, entering: SetPart, receiving: SetPart, input: Input): Crossed[] {
  const { assemblies, stock } = input;
  const boxes = [entering, receiving].map((part) => {
    const blank = blankOf(part);
    return blank === null ? null : moved(blank, assemblies.find(({ name }) => name === part.assembly)!.place.at);
  });
  const [a, b] = boxes;
  if (!a || !b) return [];
  const through = axisOfFace(receiving.place!, joint.receivingFace);
  const moves = (part: SetPart, axis: AxisIndex): boolean =>
    stockOfPart(part, stock).solid && axisOf(part.place!.l) !== axis;
  return AXES.filter((axis) => axis !== through).flatMap((axis): Crossed[] => {
    const width = Math.min(a[1][axis], b[1][axis]) - Math.max(a[0][axis], b[0][axis]);
    const [one, other] = [moves(entering, axis), moves(receiving, axis)];
    if (width <= (isRail(joint) ? HARMLESS_RAIL : HARMLESS) + SAME || one === other) return [];
    return [one ? { mover: entering, still: receiving, width } : { mover: receiving, still: entering, width }];
  });
}

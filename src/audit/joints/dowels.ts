/** Dowel holes: each goes on, in line and of one diameter, in the part that stands before its mouth. */
import type { AxisIndex, Box, Vec } from "../../base/geometry.ts";
import { isSame, type Mm } from "../../base/length.ts";
import type { DryfitSet, SetCheck } from "../../set/schema.ts";
import { otherAxes, sharedBox, TOUCH } from "../solids/boxes.ts";
import type { Neighbours } from "../solids/neighbours.ts";
import { type Hole, inFrontOfHole, type Solid } from "../solids/solid.ts";
import { amount, failure, featureName, nameOf } from "../words.ts";

export const middleOf = ([lo, hi]: Box): Vec => [(lo[0] + hi[0]) / 2, (lo[1] + hi[1]) / 2, (lo[2] + hi[2]) / 2];

export const isInLine = (a: Hole, b: Hole): boolean =>
  a.depth === b.depth &&
  a.inward === -b.inward &&
  otherAxes(a.depth).every((axis) => Math.abs(middleOf(a.box)[axis] - middleOf(b.box)[axis]) < TOUCH);

const diameterOf = ({ box, depth }: Hole): Mm => {
  const [axis] = otherAxes(depth);
  return box[1][axis] - box[0][axis];
};

/** The part whose wood lies before a hole's mouth, within a rounding step. */
export const partBefore = (hole: Hole, near: Neighbours, step: Mm): Solid | undefined =>
  near
    .of(hole.owner)
    .find(({ hull }) => hull.some((cell) => sharedBox(cell, inFrontOfHole(hole, step + 2 * TOUCH)) !== null));

export const isAsWide = (a: Hole, b: Hole): boolean => isSame(diameterOf(a), diameterOf(b));

const UP: AxisIndex = 2;

/** In a clear face that stands upright, with nothing before it; a door's are for its hinges. */
export const isForPin = (hole: Hole, near: Neighbours, step: Mm): boolean =>
  hole.owner.assembly.kind !== "door" &&
  hole.depth !== UP &&
  !isInEnd(hole) &&
  partBefore(hole, near, step) === undefined;

const isInEnd = ({ feature: { face } }: Hole): boolean => face[0] !== "t";

/** Which holes the drilling says are for dowels. */
function dowelHoles({ drilling }: DryfitSet): (hole: Hole) => boolean {
  const rows = drilling.filter(({ holds }) => holds === "dowels").flatMap((each) => each.rows);
  return ({ owner: { part }, feature }) =>
    rows.some(({ mark, features }) => mark === part.mark && features.some((i) => part.features[i] === feature));
}

/** A hole in an end, one that a part covers, or one that is drilled for a dowel, is half of a dowel's. Any other is for a pin. */
export function checkDowels(set: DryfitSet, solids: readonly Solid[], near: Neighbours): SetCheck[] {
  const { job } = set;
  const isDrilledForDowel = dowelHoles(set);
  return solids.flatMap((solid) =>
    solid.holes.flatMap((hole): SetCheck[] => {
      const name = featureName(solid.part, hole.feature, job);
      const other = partBefore(hole, near, job.step);
      if (other === undefined) {
        if (!isInEnd(hole) && !isDrilledForDowel(hole)) return [];
        return [failure("dowel", [solid.part], `${name} opens on nothing. Change: leave it out, or place the part.`)];
      }
      const mate = other.holes.find((each) => isInLine(hole, each));
      if (mate === undefined)
        return [
          failure(
            "dowel",
            [solid.part, other.part],
            `${name} has no hole in line with it in ${nameOf(other.part)}, which covers it. Change: drill both on one line.`,
          ),
        ];
      if (isAsWide(hole, mate)) return [];
      return [
        failure(
          "dowel",
          [solid.part, other.part],
          `${name} is ${amount(diameterOf(hole), job)} in diameter, and goes on in ${nameOf(other.part)} with ${amount(diameterOf(mate), job)}. Change: drill both with one bit.`,
        ),
      ];
    }),
  );
}

/** Half laps: what is taken from the one is filled by what is left of the other, down to a rounding step beside it, and the faces are flush. */
import type { AxisIndex, Box } from "../../base/geometry.ts";
import { isSame, type Mm } from "../../base/length.ts";
import type { DryfitSet, Face, SetCheck } from "../../set/schema.ts";
import { around, cutAwayAll, sharedBox, sharedBoxes, TOUCH, within } from "../solids/boxes.ts";
import type { Neighbours } from "../solids/neighbours.ts";
import { faceTowards, type Notch, outward, reachOf, type Solid } from "../solids/solid.ts";
import { amount, extent, failure, featureName, nameOf, where } from "../words.ts";

/** The part that ends there, on the part that it goes on over: halved at its front, on the one that it lies behind, or with its pins between that one's tails. */
export type Lapped = {
  kind: "lap" | "dovetail";
  entering: Solid;
  end: Face;
  receiving: Solid;
  receivingFace: Face;
  depth: Mm;
  gap: Mm;
};

/** At an end of what goes on, whichever way the two are let into each other. */
export function lapped(kind: Lapped["kind"], entering: Solid, end: Face, receiving: Solid): Lapped {
  const { axis, sign } = outward(entering, end);
  return {
    kind,
    entering,
    end,
    receiving,
    receivingFace: faceTowards(receiving, axis, -sign as 1 | -1),
    depth: receiving.bounds[1][axis] - receiving.bounds[0][axis],
    gap: (reachOf(receiving, axis, sign) - reachOf(entering, axis, sign)) * sign,
  };
}

const isFrontOf = ({ box, owner }: Notch): boolean => isSame(box[0][1], owner.bounds[0][1]);

/** Where two laps lie against each other, one from the front and one from behind. */
const fits = (front: Notch, rear: Notch): boolean =>
  isFrontOf(front) &&
  !isFrontOf(rear) &&
  ([0, 2] as const).every(
    (axis) => Math.min(front.box[1][axis], rear.box[1][axis]) > Math.max(front.box[0][axis], rear.box[0][axis]) + TOUCH,
  );

export function lappedOf(solids: readonly Solid[], near: Neighbours): Lapped[] {
  return solids.flatMap((entering) =>
    entering.laps.flatMap((front) => {
      const end = (["l0", "l1"] as const).find((one) => isAtEnd(front, one));
      if (end === undefined) return [];
      return near
        .of(entering)
        .filter((receiving) => receiving.laps.some((rear) => fits(front, rear)))
        .map((receiving) => lapped("lap", entering, end, receiving));
    }),
  );
}

const isAtEnd = ({ owner, box }: Notch, end: Face): boolean => {
  const { axis, sign } = outward(owner, end);
  return Math.abs(box[sign === 1 ? 1 : 0][axis] - reachOf(owner, axis, sign)) < TOUCH;
};

/** What rounding may leave open beside a lap: a step at each wall of its own wood; nothing over it, for the faces are to be flush. */
const besideWalls = ({ box, owner }: Notch, step: Mm): Box[] =>
  ([0, 2] as AxisIndex[]).flatMap((axis) => [
    ...(box[0][axis] - owner.bounds[0][axis] > TOUCH ? [within(box, axis, box[0][axis], box[0][axis] + step)] : []),
    ...(owner.bounds[1][axis] - box[1][axis] > TOUCH ? [within(box, axis, box[1][axis] - step, box[1][axis])] : []),
  ]);

export function checkLaps(set: DryfitSet, solids: readonly Solid[], near: Neighbours): SetCheck[] {
  const { job } = set;
  return solids.flatMap((solid) =>
    solid.laps.flatMap((lap): SetCheck[] => {
      const name = featureName(solid.part, lap.feature, job);
      const others = near.of(solid).filter((other) => sharedBox(other.bounds, lap.box) !== null);
      const mates = others.filter((other) => other.laps.some((one) => fits(lap, one) || fits(one, lap)));
      if (mates.length !== 1)
        return [
          failure(
            "lap",
            [solid.part],
            `${name} takes ${mates.length === 0 ? "no other part" : "more than one part"}, ${where(lap.box, solid.assembly, job)}. Change: halve the part that lies there, or leave the lap out.`,
          ),
        ];
      const [mate] = mates as [Solid];
      const filled = sharedBoxes(mate.cells, [lap.box]);
      const open = cutAwayAll([lap.box], [...filled, ...besideWalls(lap, job.step)]);
      if (open.length === 0) return [];
      const region = around(open);
      const parts = [solid.part, mate.part];
      return [
        failure(
          "lap",
          parts,
          `${nameOf(mate.part)} does not fill ${name}: ${extent(region, job)} is left open ${where(region, solid.assembly, job)}; rounding leaves at most ${amount(job.step, job)} beside it, and nothing over it. Change: what is cut from one of the two by as much.`,
        ),
      ];
    }),
  );
}

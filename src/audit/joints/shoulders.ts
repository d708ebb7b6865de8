/** Shoulders: what is cut away beside a tongue is filled, once it is together, by the wood that the shoulder comes down on. */
import type { DryfitSet, Face, SetCheck } from "../../set/schema.ts";
import { around, cutAwayAll, TOUCH, within } from "../solids/boxes.ts";
import { faceAxis, localAxis, type Notch, type Solid } from "../solids/solid.ts";
import { amount, extent, failure, nameOf, where } from "../words.ts";
import type { Housing } from "./grooves.ts";

/** The end of the part that a shoulder is cut at. */
function endOfShoulder({ owner, feature: { box, along, face } }: Notch): Face {
  const axis = (3 - localAxis(along) - faceAxis(face)) as 0 | 1;
  const size = axis === 0 ? owner.part.length : owner.part.width;
  return `${axis === 0 ? "l" : "w"}${box[1][axis] >= size - TOUCH ? 1 : 0}`;
}

/** Empty but for one rounding step at the shoulder, and at the ends of what it comes down on. */
export function checkShoulders(set: DryfitSet, solids: readonly Solid[], housings: readonly Housing[]): SetCheck[] {
  const { job } = set;
  return solids.flatMap((solid) =>
    solid.shoulders.flatMap((shoulder): SetCheck[] => {
      const { box, feature } = shoulder;
      const end = endOfShoulder(shoulder);
      const { axis, sign } = solid.directions[faceAxis(end)];
      const outwards = (end[1] === "1" ? sign : -sign) as 1 | -1;
      const wall = outwards === 1 ? box[0][axis] : box[1][axis];
      const gap = within(box, axis, wall - job.step, wall + job.step);
      const run = solid.directions[localAxis(feature.along)].axis;
      const entered = housings.filter(({ entering, end: own }) => entering === solid && own === end);
      if (entered.length === 0)
        return [
          failure(
            "shoulder",
            [solid.part],
            `The tongue beside the shoulder on face ${feature.face} of ${nameOf(solid.part)} enters no groove, ${where(box, solid.assembly, job)}. Change: leave the shoulder out, or give the tongue its groove.`,
          ),
        ];
      return entered.flatMap(({ channel: { owner } }) => {
        // It may reach beyond what it comes down on, before a back.
        const covered = within(box, run, owner.bounds[0][run] + job.step, owner.bounds[1][run] - job.step);
        const open = cutAwayAll([covered], [...owner.hull, gap]);
        if (open.length === 0) return [];
        const region = around(open);
        return [
          failure(
            "shoulder",
            [solid.part, owner.part],
            `The shoulder on face ${feature.face} of ${nameOf(solid.part)} does not come down on ${nameOf(owner.part)}: ${extent(region, job)} is left open ${where(region, solid.assembly, job)}, and rounding leaves at most ${amount(job.step, job)}. Change: cut the shoulder as far in as the tongue enters.`,
          ),
        ];
      });
    }),
  );
}

/** "Between + joints = cut length": the sum that a maker checks a part by. */
import type { DryfitSet, SetCheck } from "../../set/schema.ts";
import type { Housing } from "../joints/grooves.ts";
import { TOUCH } from "../solids/boxes.ts";
import type { Solid } from "../solids/solid.ts";
import { amount, failure, nameOf } from "../words.ts";

export function checkSums(set: DryfitSet, solids: readonly Solid[], housings: readonly Housing[]): SetCheck[] {
  const { job } = set;
  return solids.flatMap((solid) =>
    solid.part.sums.flatMap((sum): SetCheck[] => {
      const { part } = solid;
      const what = sum.axis === "l" ? "length" : "width";
      const size = sum.axis === "l" ? part.length : part.width;
      const added = sum.between + sum.joints[0] + sum.joints[1];
      const checks: SetCheck[] = [];
      if (Math.abs(sum.total - size) > TOUCH || Math.abs(added - size) > TOUCH) {
        checks.push(
          failure(
            "sums",
            [part],
            `The sum for the ${what} of ${nameOf(part)}, ${amount(sum.between, job)} + ${amount(sum.joints[0], job)} + ${amount(sum.joints[1], job)} = ${amount(sum.total, job)}, does not make its ${amount(size, job)}. Change: the sum.`,
          ),
        );
      }
      (["0", "1"] as const).forEach((side, i) => {
        const at = housings.filter((housing) => housing.entering === solid && housing.end === `${sum.axis}${side}`);
        const entries = at.map((housing) => housing.channel.feature.depth - housing.gap);
        const stated = sum.joints[i]!;
        if (entries.length === 0 || entries.some((entry) => Math.abs(entry - stated) < TOUCH)) return;
        checks.push(
          failure(
            "sums",
            [part, ...at.map((housing) => housing.channel.owner.part)],
            `The sum for the ${what} of ${nameOf(part)} counts ${amount(stated, job)} at ${sum.axis}${side}, but it goes in ${entries.map((entry) => amount(entry, job)).join(", ")}. Change: the sum.`,
          ),
        );
      });
      return checks;
    }),
  );
}

/** Lengths: how far the printed model lies from the exact one, and what that leaves at the joints. */
import { AXES } from "../../base/geometry.ts";
import { type Mm, SAME } from "../../base/length.ts";
import type { SetCheck, SetJoint } from "../../set/schema.ts";
import { type CheckInput, checkOf, shown } from "./input.ts";

/** Every face of every part. */
function roundings({ exact, printed }: CheckInput): { key: string; by: Mm }[] {
  return exact.assemblies.flatMap((one, i) =>
    one.parts.flatMap(({ key, box }, j) => {
      const round = printed.assemblies[i]!.parts[j]!.box;
      return AXES.flatMap((axis) =>
        ([0, 1] as const).map((side) => ({ key, by: Math.abs(box[side][axis] - round[side][axis]) })),
      );
    }),
  );
}

const RULE =
  "lengths are rounded once, from one datum a case; ends inwards, walls to the nearest step, depths down; thicknesses and the widths of grooves never";

export function checkLengths(input: CheckInput): SetCheck[] {
  const { marks, unit, step, joints } = input;
  const largest = roundings(input).reduce((most, one) => (one.by > most.by ? one : most));
  const show = (length: Mm): string => shown(length, unit);
  if (largest.by < SAME) {
    return [
      checkOf("lengths", "ok", [], {
        text: `Every length is exact at the step of ${show(step)}: none was rounded.`,
        rule: RULE,
      }),
    ];
  }
  return [
    checkOf("lengths", "note", [marks.get(largest.key)!], {
      text: `Lengths are printed to ${show(step)}. The largest rounding moved an end or face by ${show(largest.by)}. ${atJoints(joints, show)}`,
      rule: RULE,
      change:
        "nothing: ends that stop short of their seat by less than a step are held as well; a finer step leaves less",
    }),
  ];
}

/** Joints by what rounding adds to their gap, the largest first. */
function atJoints(joints: readonly SetJoint[], show: (length: Mm) => string): string {
  const touched = joints.filter(({ rounding }) => rounding > SAME);
  if (touched.length === 0) return `At none of the ${joints.length} joints does it add to the gap.`;
  const amounts = [...new Set(touched.map(({ rounding }) => show(rounding)))];
  const most = touched.reduce((worst, one) => (one.rounding > worst.rounding ? one : worst));
  const many = amounts.length === 1 ? "" : "up to ";
  return `It adds to the gap at ${touched.length} of the ${joints.length} joints, ${many}${show(most.rounding)} (${most.entering} in ${most.receiving}).`;
}

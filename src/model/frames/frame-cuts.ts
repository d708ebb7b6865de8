/** What stub tenons and half laps take out of the members of a frame. Every member keeps its front face whole along its stile, its rail ends there from behind. */
import { axisOf, type Box, signOf } from "../../base/geometry.ts";
import { type Mm, SAME } from "../../base/length.ts";
import { opposite } from "../contacts.ts";
import { runAxis } from "../joints.ts";
import type { Direction, Feature, FeatureEnd, Joint, Part } from "../model.ts";
import { facePlane } from "../seat.ts";

const bare = { holds: null, runOuts: [], row: null, lipping: false } as const;

/** A rail's stub tenon has a mortise of its own in the stile's edge: no groove is to show in the opening. */
export const isMortised = ({ kind }: Joint, receiving: Part): boolean =>
  kind === "tongue" && (receiving.role === "stile" || receiving.role === "rail");

/** As long as what enters is wide, as deep as that goes in; open only where both end together. `lower`: its exact wall. */
export function stubMortise(joint: Joint, entering: Part, parts: ReadonlyMap<string, Part>, lower: Mm): Feature {
  const receiving = parts.get(joint.receiving)!;
  const run = runAxis(joint, entering);
  const [into, across] = [axisOf(joint.direction), axisOf(entering.frame.t)];
  const face = facePlane(joint, parts);
  const floor = face + signOf(joint.direction) * joint.depth;
  const lo: [Mm, Mm, Mm] = [0, 0, 0];
  const hi: [Mm, Mm, Mm] = [0, 0, 0];
  [lo[into], hi[into]] = [Math.min(face, floor), Math.max(face, floor)];
  [lo[across], hi[across]] = [lower, lower + joint.width];
  [lo[run], hi[run]] = [entering.box[0][run], entering.box[1][run]];
  const endAt = (end: 0 | 1): FeatureEnd =>
    Math.abs(entering.box[end][run] - receiving.box[end][run]) < SAME ? "through" : "square";
  return {
    ...bare,
    kind: "stub mortise",
    face: opposite(joint.direction),
    along: run,
    box: [lo, hi],
    ends: [endAt(0), endAt(1)],
    holds: entering.key,
    runOuts: [],
    reason: "",
  };
}

/** Where the two lie over each other; the front half is taken from what ends there, the rear half from what it ends on. */
export function cutLap(joint: Joint, entering: Part, receiving: Part): { entering: Feature; receiving: Feature } {
  const box: Box = [
    [0, 1, 2].map((axis) => Math.max(entering.box[0][axis]!, receiving.box[0][axis]!)) as unknown as Box[0],
    [0, 1, 2].map((axis) => Math.min(entering.box[1][axis]!, receiving.box[1][axis]!)) as unknown as Box[1],
  ];
  const [front] = joint.shoulders;
  if (front === undefined) throw new Error(`The lap of ${joint.entering} on ${joint.receiving} has no depth`);
  const middle = box[0][1] + front.depth;
  const lap = (part: Part, face: Direction, from: Mm, to: Mm, other: Part): Feature => ({
    ...bare,
    kind: "lap",
    face,
    along: axisOf(part.frame.w),
    box: [
      [box[0][0], from, box[0][2]],
      [box[1][0], to, box[1][2]],
    ],
    ends: ["through", "through"],
    holds: other.key,
    runOuts: [],
    reason: "halved",
  });
  return {
    entering: lap(entering, "-y", box[0][1], middle, receiving),
    receiving: lap(receiving, "+y", middle, box[1][1], entering),
  };
}

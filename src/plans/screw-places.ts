/** Screws that no joint of the model places itself, set out by the plan: written into the joint, so that the dry fit and the drawings have them. */
import type { Unit } from "../base/length.ts";
import { axisOfFace, isHigh, sizeAlong } from "../set/facing.ts";
import type { SetJoint, SetPart } from "../set/schema.ts";
import { screwsOf } from "./screws.ts";

/** In the axes of the part whose broad face takes the other. From face to face, where there is no sound wood for a single one or the two are too thin, glue does it alone. */
export function placeScrews(joints: readonly SetJoint[], parts: readonly SetPart[], unit: Unit): SetJoint[] {
  const byMark = new Map(parts.map((part) => [part.mark, part]));
  return joints.map((joint) => {
    const screwed = screwsOf(joint, byMark, unit);
    if (screwed === null && joint.kind === "face" && joint.fixings === "glue and screws")
      return { ...joint, fixings: "glue" };
    if (screwed?.row == null || screwed.through.mark !== joint.receiving) return joint;
    const { through, row } = screwed;
    const along = axisOfFace(row.from);
    const own = (face: typeof row.from, from: number): number =>
      isHigh(face) ? sizeAlong(through, axisOfFace(face)) - from : from;
    return {
      ...joint,
      fasteners: {
        kind: "screw" as const,
        size: null,
        tenon: null,
        along,
        at: own(row.edge, row.in),
        positions: row.positions.map((place) => own(row.from, place)).sort((a, b) => a - b),
      },
    };
  });
}

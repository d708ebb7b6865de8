/** Loose tenons between members of a frame: where they stand, and the mortises that they go into on both sides of the joint. */
import { type AxisIndex, axisOf, type Box, signOf } from "../../base/geometry.ts";
import type { Mm } from "../../base/length.ts";
import { tenonLength, tenonPlaces } from "../../project/frame-joints.ts";
import { opposite, planeOf, thicknessAxis } from "../contacts.ts";
import type { Grid } from "../grid.ts";
import { runAxis } from "../joints.ts";
import type { Direction, Fasteners, Feature, Joint, Part } from "../model.ts";

/** On the middle of the thickness, across the end of what enters; null where it holds by something else. */
export function tenonsOf(joint: Joint, entering: Part, grid: Grid): Fasteners | null {
  if (joint.tenon === null) return null;
  const across = thicknessAxis(entering);
  const along = runAxis(joint, entering);
  const [low, high] = [entering.box[0][along], entering.box[1][along]];
  const { width } = joint.tenon;
  return {
    kind: "tenon",
    along,
    across,
    at: (entering.box[0][across] + entering.box[1][across]) / 2,
    // The ends of a mortise are what is marked out.
    positions: tenonPlaces(high - low, joint.tenon).map((middle) => grid.place(low + middle - width / 2) + width / 2),
  };
}

/**
 * The first mortise as long on both sides as its tenon is wide: it puts the two members flush where that shows, a rail's at its upper edge.
 * The others are longer in the member that receives, so that they let it.
 */
export function cutTenons(
  joint: Joint,
  entering: Part,
  receiving: Part,
  grid: Grid,
): { entering: Feature[]; receiving: Feature[] } {
  const { fasteners, tenon } = joint;
  if (fasteners === null || tenon === null) return { entering: [], receiving: [] };
  const { along, across, at, positions } = fasteners;
  const tight = along === 2 ? Math.max(...positions) : Math.min(...positions);
  const depth = grid.end(tenon.depth);
  const mortise = (part: Part, face: Direction, deep: Mm, other: Part, position: Mm, slack: Mm): Feature =>
    mortiseAt(part, face, position, { along, across, at, deep, other, slack, tenon });
  const end = opposite(joint.direction);
  const rest = grid.atLeast(tenonLength(tenon, depth) + 2 * tenon.spare - depth);
  return {
    entering: positions.map((one) => mortise(entering, joint.direction, rest, receiving, one, 0)),
    receiving: positions.map((one) => mortise(receiving, end, depth, entering, one, one === tight ? 0 : tenon.slack)),
  };
}

type Mortise = {
  along: AxisIndex;
  across: AxisIndex;
  at: Mm;
  deep: Mm;
  other: Part;
  slack: Mm;
  tenon: NonNullable<Joint["tenon"]>;
};

function mortiseAt(
  part: Part,
  face: Direction,
  position: Mm,
  { along, across, at, deep, other, slack, tenon }: Mortise,
): Feature {
  const mouth = planeOf(part.box, face);
  const floor = mouth - signOf(face) * deep;
  const lo: [Mm, Mm, Mm] = [0, 0, 0];
  const hi: [Mm, Mm, Mm] = [0, 0, 0];
  [lo[axisOf(face)], hi[axisOf(face)]] = [Math.min(mouth, floor), Math.max(mouth, floor)];
  [lo[along], hi[along]] = [position - (tenon.width + slack) / 2, position + (tenon.width + slack) / 2];
  [lo[across], hi[across]] = [at - tenon.thickness / 2, at + tenon.thickness / 2];
  const box: Box = [lo, hi];
  return {
    kind: "mortise",
    face,
    along,
    box,
    ends: ["round", "round"],
    holds: other.key,
    runOuts: [],
    row: `tenons ${other.key}`,
    lipping: false,
    reason: slack > 0 ? "slotted for a loose tenon" : "for a loose tenon",
  };
}

/** Contacts: where the end or edge of one part meets the face of another. */
import { AXES, type AxisIndex, axisOf, type Box, signOf, type Vec } from "../base/geometry.ts";
import { isSame, SAME } from "../base/length.ts";
import type { Direction, Part } from "./model.ts";

export type Contact = { entering: Part; receiving: Part; direction: Direction; contact: Box };

export const opposite = (direction: Direction): Direction =>
  (direction[0] === "+" ? `-${direction[1]}` : `+${direction[1]}`) as Direction;

/** Coordinate of the plane in which a box's face towards `direction` lies. */
export const planeOf = (box: Box, direction: Direction): number =>
  signOf(direction) > 0 ? box[1][axisOf(direction)] : box[0][axisOf(direction)];

export const thicknessAxis = (part: Part): AxisIndex => axisOf(part.frame.t);

const EVERY_DIRECTION: readonly Direction[] = ["-x", "+x", "-y", "+y", "-z", "+z"];

/** Directions in which a part has an end or edge (not a face). */
export const endDirections = (part: Part): Direction[] =>
  EVERY_DIRECTION.filter((direction) => axisOf(direction) !== thicknessAxis(part));

/** Every contact among the parts of one case, in the order of the parts. */
export function findContacts(parts: readonly Part[]): Contact[] {
  return parts.flatMap((entering) =>
    endDirections(entering).flatMap((direction) =>
      parts.flatMap((receiving) => {
        if (receiving === entering || thicknessAxis(receiving) !== axisOf(direction)) return [];
        const contact = meet(entering, receiving, direction);
        return contact ? [{ entering, receiving, direction, contact }] : [];
      }),
    ),
  );
}

function meet(entering: Part, receiving: Part, direction: Direction): Box | null {
  const plane = planeOf(entering.box, direction);
  if (!isSame(plane, planeOf(receiving.box, opposite(direction)))) return null;
  const lo: [number, number, number] = [plane, plane, plane];
  const hi: [number, number, number] = [plane, plane, plane];
  for (const axis of AXES) {
    if (axis === axisOf(direction)) continue;
    lo[axis] = Math.max(entering.box[0][axis], receiving.box[0][axis]);
    hi[axis] = Math.min(entering.box[1][axis], receiving.box[1][axis]);
    if (hi[axis] - lo[axis] <= SAME) return null;
  }
  return [lo as Vec, hi as Vec];
}

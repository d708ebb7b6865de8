/** Seating: where each part's faces, ends and edges come to lie once its joints are known. */
import { axisOf, type Box, signOf } from "../base/geometry.ts";
import type { Mm } from "../base/length.ts";
import { endDirections, opposite, planeOf, thicknessAxis } from "./contacts.ts";
import type { Direction, Joint, Part } from "./model.ts";

/** How coordinates are brought to the grid of printed figures; the exact model leaves them alone. */
export type Grid = {
  /** Lower coordinate of a part across its thickness. */
  wall: (part: Part) => Mm;
  /** The low end of a part: never before this. */
  start: (coordinate: Mm) => Mm;
  /** The high end of a part: never beyond this. */
  end: (coordinate: Mm) => Mm;
  /** A length that must be at least so much. */
  atLeast: (length: Mm) => Mm;
};

export const EXACT: Grid = {
  wall: (part) => part.box[0][thicknessAxis(part)],
  start: (coordinate) => coordinate,
  end: (coordinate) => coordinate,
  atLeast: (length) => length,
};

/** Parts with their final blanks: across the thickness by the grid, ends against the floors of what they enter. */
export function seat(parts: readonly Part[], joints: readonly Joint[], grid: Grid): Part[] {
  const laid = parts.map((part) => acrossThickness(part, grid));
  const byKey = new Map(laid.map((part) => [part.key, part]));
  return laid.map((part) => {
    const lo: [Mm, Mm, Mm] = [...part.box[0]];
    const hi: [Mm, Mm, Mm] = [...part.box[1]];
    for (const direction of endDirections(part)) {
      const axis = axisOf(direction);
      const planes = joints
        .filter((joint) => joint.entering === part.key && joint.direction === direction)
        .map((joint) => seatPlane(joint, byKey));
      if (signOf(direction) > 0) hi[axis] = grid.end(Math.min(...(planes.length > 0 ? planes : [hi[axis]])));
      else lo[axis] = grid.start(Math.max(...(planes.length > 0 ? planes : [lo[axis]])));
    }
    return { ...part, box: [lo, hi] };
  });
}

function acrossThickness(part: Part, grid: Grid): Part {
  const axis = thicknessAxis(part);
  const lo: [Mm, Mm, Mm] = [...part.box[0]];
  const hi: [Mm, Mm, Mm] = [...part.box[1]];
  const thickness = hi[axis] - lo[axis];
  lo[axis] = grid.wall(part);
  hi[axis] = lo[axis] + thickness;
  const box: Box = [lo, hi];
  return { ...part, box };
}

/** The plane an entering end comes to rest in: the receiving face, deeper by the joint, short by the slip. */
function seatPlane(joint: Joint, parts: ReadonlyMap<string, Part>): Mm {
  return facePlane(joint, parts) + signOf(joint.direction) * (joint.depth - joint.slip);
}

/** The plane of the receiving face that the entering part meets. */
export function facePlane(joint: Joint, parts: ReadonlyMap<string, Part>): Mm {
  const receiving = parts.get(joint.receiving);
  if (!receiving) throw new Error(`Joint enters ${joint.receiving}, which is not among the parts`);
  return planeOf(receiving.box, opposite(joint.direction));
}

/** What is left between an entering end and its seat. */
export function seatGap(joint: Joint, parts: ReadonlyMap<string, Part>): Mm {
  const entering = parts.get(joint.entering);
  if (!entering) throw new Error(`Joint of ${joint.entering}, which is not among the parts`);
  const sign: Direction = joint.direction;
  const floor = facePlane(joint, parts) + signOf(sign) * joint.depth;
  return signOf(sign) * (floor - planeOf(entering.box, sign));
}

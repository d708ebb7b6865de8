/** Seating: where each part's faces, ends and edges come to lie once its joints are known. */
import { axisOf, type Box, signOf } from "../base/geometry.ts";
import type { Mm } from "../base/length.ts";
import { endDirections, goesOver, opposite, planeOf, thicknessAxis } from "./contacts.ts";
import { tenonsOf } from "./frames/tenons.ts";
import type { Grid } from "./grid.ts";
import { fastenersOf } from "./holes.ts";
import type { Direction, Joint, Part } from "./model.ts";

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
        .filter((joint) => joint.entering === part.key && joint.direction === direction && !joint.ledge)
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
  if (goesOver(joint)) return planeOf(parts.get(joint.receiving)!.box, joint.direction);
  return facePlane(joint, parts) + signOf(joint.direction) * (joint.depth - joint.slip);
}

/** The plane of the receiving face that the entering part meets. */
export function facePlane(joint: Joint, parts: ReadonlyMap<string, Part>): Mm {
  const receiving = parts.get(joint.receiving);
  if (!receiving) throw new Error(`Joint enters ${joint.receiving}, which is not among the parts`);
  return planeOf(receiving.box, opposite(joint.direction));
}

/** Joints of seated parts, each with what is left between its entering end and its seat, and where its screws or dowels go. */
export function settle(joints: readonly Joint[], parts: readonly Part[], grid: Grid): Joint[] {
  const byKey = new Map(parts.map((part) => [part.key, part]));
  const lapped = (joint: Joint): Joint =>
    goesOver(joint) ? { ...joint, depth: lapLength(joint, byKey.get(joint.receiving)!) } : joint;
  return joints.map(lapped).map((joint) => ({
    ...joint,
    gap: seatGap(joint, byKey),
    fasteners:
      tenonsOf(joint, byKey.get(joint.entering)!, grid) ??
      fastenersOf(joint, byKey.get(joint.entering)!, byKey.get(joint.receiving)!, grid),
  }));
}

function seatGap(joint: Joint, parts: ReadonlyMap<string, Part>): Mm {
  const entering = parts.get(joint.entering);
  const receiving = parts.get(joint.receiving);
  if (!entering || !receiving) throw new Error(`Joint of ${joint.entering} in ${joint.receiving} has a part too few`);
  const sign = signOf(joint.direction);
  const floor = surfaceOf(receiving, opposite(joint.direction), joint.ledge) + sign * joint.depth;
  return sign * (floor - surfaceOf(entering, joint.direction, joint.ledge));
}

/** The plane in which a part ends; where parts meet at a notch, the notch's own wall if it has one that looks there. */
function surfaceOf(part: Part, direction: Direction, ledge: boolean): Mm {
  const plane = planeOf(part.box, direction);
  const notch = ledge ? part.notches.find(({ end, edge }) => end === direction || edge === direction) : undefined;
  if (notch === undefined) return plane;
  return plane - signOf(direction) * (notch.end === direction ? notch.depth : notch.width);
}

/** A lap reaches to the far edge of what it lies on, and pins to the outer face of the tails. */
const lapLength = ({ direction }: Joint, receiving: Part): Mm =>
  Math.abs(planeOf(receiving.box, direction) - planeOf(receiving.box, opposite(direction)));

/** Notches: corners off a part, right through its thickness. */
import { AXES, axisOf, type Box, signOf } from "../../base/geometry.ts";
import { type Mm, SAME } from "../../base/length.ts";
import { thicknessAxis } from "../contacts.ts";
import type { Direction, Feature, Part } from "../model.ts";

/** What the design asks for itself. */
export function plainNotch(part: Part, notch: Part["notches"][number]): Feature {
  const lo: [Mm, Mm, Mm] = [...part.box[0]];
  const hi: [Mm, Mm, Mm] = [...part.box[1]];
  trim(lo, hi, notch.end, notch.depth);
  trim(lo, hi, notch.edge, notch.width);
  return notchOf(part, notch.end, [lo, hi], null, notch.reason);
}

/** A box cut down to what lies so far in from where it ends in a direction. */
export function trim(lo: [Mm, Mm, Mm], hi: [Mm, Mm, Mm], direction: Direction, size: Mm): void {
  const axis = axisOf(direction);
  if (signOf(direction) > 0) lo[axis] = hi[axis] - size;
  else hi[axis] = lo[axis] + size;
}

export function notchOf(part: Part, end: Direction, box: Box, holds: string | null, reason: string): Feature {
  const along = thicknessAxis(part);
  if (!AXES.every((axis) => box[1][axis] - box[0][axis] > SAME)) throw new Error(`Empty notch in ${part.key}`);
  return {
    kind: "notch",
    face: end,
    along,
    box,
    ends: ["through", "through"],
    holds,
    runOuts: [],
    row: null,
    lipping: false,
    reason,
  };
}

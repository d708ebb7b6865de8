/** Whether one part can go for good without meeting another: boxes drawn out along their way, exact. */

import type { Box } from "../../base/geometry.ts";
import { AXES } from "../../base/geometry.ts";
import type { Velocity } from "./ways.ts";
import { TOUCH, type Wood } from "./wood.ts";

/**
 * Times during which `a`, moving by `v` a unit of time, shares volume with `b` that stands: on each axis the time between its leading
 * face's coming and its trailing face's going, and of the three what they have in common.
 */
function meets(a: Box, b: Box, v: Velocity): boolean {
  let from = 0;
  let to = Number.POSITIVE_INFINITY;
  for (const axis of AXES) {
    const speed = v[axis];
    const ahead = b[0][axis] + TOUCH - a[1][axis];
    const behind = b[1][axis] - TOUCH - a[0][axis];
    if (speed === 0) {
      if (ahead >= 0 || behind <= 0) return false;
      continue;
    }
    from = Math.max(from, (speed > 0 ? ahead : behind) / speed);
    to = Math.min(to, (speed > 0 ? behind : ahead) / speed);
    if (from >= to) return false;
  }
  return true;
}

/** Whether `a`, leaving along `v` for good, meets `b` on its way. */
export const isInTheWay = (a: Wood, b: Wood, v: Velocity): boolean =>
  meets(a.bounds, b.bounds, v) && a.cells.some((cell) => b.cells.some((other) => meets(cell, other, v)));

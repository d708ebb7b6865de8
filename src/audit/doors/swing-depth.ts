/**
 * How deep one outline comes into another as it turns. Along the normal of any edge the depth is the farthest corner's, and every corner's changes as a
 * sine does; the depth of all is the least of these. So it can be greatest only where a sine has its crest, where two of different normals cross, or at an
 * end of the way.
 */
import type { Mm } from "../../base/length.ts";
import { depthOf, edgesOf, type Outline, type Point, type Swing, turned, within } from "../solids/turned.ts";

/** a cos + b sin + c, over the angle turned; `of`: the normal, and which of its two ways. */
type Sine = { of: number; a: number; b: number; c: Mm };

const normalsOf = (outline: Outline): Point[] =>
  edgesOf(outline).map(([from, to]) => {
    const length = Math.hypot(to[0] - from[0], to[1] - from[1]);
    return [(to[1] - from[1]) / length, (from[0] - to[0]) / length];
  });

/** Both outlines with the pivot at their origin. */
function sinesOf(moving: Outline, still: Outline): Sine[] {
  const along = ([nx, ny]: Point, outline: Outline): number[] => outline.map(([x, y]) => nx * x + ny * y);
  const across = ([nx, ny]: Point, [x, y]: Point): number => ny * x - nx * y;
  const ofStill = normalsOf(still).flatMap((n, i) => {
    const own = along(n, still);
    return moving.flatMap((corner): Sine[] => {
      const [a, b] = [along(n, [corner])[0]!, across(n, corner)];
      return [
        { of: 4 * i, a, b, c: -Math.min(...own) },
        { of: 4 * i + 1, a: -a, b: -b, c: Math.max(...own) },
      ];
    });
  });
  const ofMoving = normalsOf(moving).flatMap((n, i) => {
    const own = along(n, moving);
    return still.flatMap((corner): Sine[] => {
      const [a, b] = [along(n, [corner])[0]!, -across(n, corner)];
      return [
        { of: 4 * i + 2, a, b, c: -Math.min(...own) },
        { of: 4 * i + 3, a: -a, b: -b, c: Math.max(...own) },
      ];
    });
  });
  return [...ofStill, ...ofMoving];
}

/** The angle at which one outline lies deepest in the other, and how deep: how far it would have to move there to be clear. */
export function deepest(moving: Outline, still: Outline, swing: Swing): { angle: number; depth: Mm } {
  const { pivot, from, to } = swing;
  const about = (outline: Outline): Outline => outline.map(([x, y]) => [x - pivot[0], y - pivot[1]]);
  const sines = sinesOf(about(moving), about(still));
  const crests = sines.map(({ a, b }) => Math.atan2(b, a));
  const crossings = sines.flatMap((one, i) =>
    sines.slice(i + 1).flatMap((other) => {
      if (one.of === other.of) return [];
      const [a, b, c] = [one.a - other.a, one.b - other.b, one.c - other.c];
      const reach = Math.hypot(a, b);
      if (reach < Number.EPSILON || Math.abs(c) > reach) return [];
      const [middle, half] = [Math.atan2(b, a), Math.acos(-c / reach)];
      return [middle - half, middle + half];
    }),
  );
  let worst = { angle: from, depth: depthOf(turned(moving, pivot, from), still) };
  for (const angle of [to, ...[...crests, ...crossings].flatMap((one) => within(swing, one))]) {
    const depth = depthOf(turned(moving, pivot, angle), still);
    if (depth > worst.depth) worst = { angle, depth };
  }
  return worst;
}

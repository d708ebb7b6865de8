/** Where a run stops, and where the block stands that stops it. */
import { type Mm, SAME } from "../../base/length.ts";
import { crossingGroove, lastInLine, lippedAfter, sizeAlong, stopsAt } from "../../set/facing.ts";
import type { Face, SetSetting } from "../../set/schema.ts";
import type { Task } from "./task.ts";

type Stop = SetSetting["runs"][number]["stops"][number];

/** `ahead`: from the bit's middle to the edge of the router's base that goes first. */
export function stopsFor({ groove: { part, feature }, tool, room }: Task): Stop[] {
  const edges: readonly Face[] = [`${feature.along}0`, `${feature.along}1`];
  const [low, high] = edges.map((edge) => lippedAfter(part, edge)) as [Mm, Mm];
  const size = sizeAlong(part, feature.along);
  const lengthNow = size - low - high;
  return edges.flatMap((edge, end): Stop[] => {
    if (!stopsAt(part, feature, end as 0 | 1)) return [];
    const last = lastInLine(part, feature, end as 0 | 1);
    const leave = end === 0 ? last.from - low : size - high - last.to;
    const met = crossingGroove(part, last, end as 0 | 1);
    if (met === undefined) return [{ edge, leave, block: blockAt(leave) }];
    // It may run on into the groove that it ends in, but not out of that one again.
    return [{ edge, leave, block: blockAt(end === 0 ? met.at - low : size - high - met.at - met.width) }];
  });

  function blockAt(leave: Mm): Mm {
    // The cut ends with the bit's rim; the base's edge is ahead of that.
    if (room !== null) return leave - (room.ahead - room.bit / 2);
    if (tool !== "table saw") throw new Error(`A ${tool} without its base`);
    // The leading end is the whole length ahead of the trailing one, and the cutter breaks the surface so far short of that.
    return lengthNow - leave;
  }
}

/**
 * Length of the slope that a round cutter leaves where it stops: sqrt(d (2 r - d)), from its radius r and depth of cut d. The cutter breaks the
 * face at the stop and is at its full depth only below its axle.
 */
export const rampOf = (radius: Mm, depth: Mm): Mm => Math.sqrt(depth * (2 * radius - depth));

/** Heights or plunges, pass by pass: so deep at the most in one, the last as deep as the groove. */
export function depthsFor(depth: Mm, most: Mm): Mm[] {
  const passes = Math.max(1, Math.ceil(depth / most - SAME));
  return Array.from({ length: passes }, (_, i) => (i === passes - 1 ? depth : (i + 1) * most));
}

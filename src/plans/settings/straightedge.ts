/** Where the router's straightedge lies: half the base less half the bit from the wall that it guides. */
import { type Mm, SAME } from "../../base/length.ts";
import type { Tooling } from "../../project/tooling.ts";
import type { SetSetting } from "../../set/schema.ts";
import type { Walls } from "./groove.ts";

/** Least stretch of the part the straightedge needs under it to be clamped: common practice, no source. */
const CLAMPING: Mm = 40;

/**
 *   datum                      groove
 *     |------------- near ------#####----------------| across
 *     |          before |<-----offset-----#####            the straightedge's edge that the router rides on
 *     |                         #####------offset---->| beyond
 */
export type Room = { near: Mm; far: Mm; half: Mm; ahead: Mm; bit: Mm; before: boolean; beyond: boolean };

/** Whether the straightedge finds room on the part between datum and groove, or beyond the groove. */
export function roomOf({ near, far, across }: Walls, router: Tooling["router"], bit: Mm): Room {
  const offset = router.baseHalf - bit / 2;
  return {
    near,
    far,
    half: router.baseHalf,
    ahead: router.baseAhead,
    bit,
    before: near - offset >= CLAMPING,
    beyond: far + offset <= across - CLAMPING,
  };
}

export type Side = "before" | "beyond";

/**
 * One straightedge for all parts of a setting: before the groove where each has room for it there, beyond it otherwise. Where neither side
 * has room on every part, a board beside the part makes some; before the datum itself there is nothing to measure from.
 */
export function sideFor(rooms: readonly Room[]): Side {
  const [{ near, half, bit }] = rooms as [Room];
  const count = (side: Side): number => rooms.filter((room) => room[side]).length;
  if (near - (half - bit / 2) < 0) return "beyond";
  return count("before") >= count("beyond") ? "before" : "beyond";
}

export function straightedgeFor(
  { near, far, half, ahead, bit }: Room,
  side: Side,
): NonNullable<SetSetting["straightedge"]> {
  const twoPasses = far - near - bit > SAME;
  const by = side === "before" ? -half : half;
  return {
    base: 2 * half,
    ahead,
    bit,
    near: near + bit / 2 + by,
    far: twoPasses ? far - bit / 2 + by : null,
    spacer: twoPasses ? far - near - bit : 0,
  };
}

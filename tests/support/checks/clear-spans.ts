/** The clear stretches that parts are said to span, looked over by where everything stands in the room. */
import { longestClear } from "../../../src/plans/checks/carried-by.ts";
import type { DryfitSet, SetPart } from "../../../src/set/schema.ts";

type Span = readonly [number, number];
type Room = { x: Span; y: Span; z: Span };

const LEVEL = ["shelf", "looseShelf", "bottom", "top"];
const NEAR = 1e-6;

/** By the corner where its axes begin and how far it reaches along each of them. */
function inRoom(part: SetPart, set: DryfitSet): Room | null {
  const { place } = part;
  if (place === null) return null;
  const at = set.assemblies.find(({ name }) => name === part.assembly)!.place.at;
  const along = (axis: "x" | "y" | "z", i: number): Span => {
    const start = place.at[i]! + at[i]!;
    const [own, size] = (
      [
        [place.l, part.length],
        [place.w, part.width],
        [place.t, part.thickness],
      ] as const
    ).find(([one]) => one.endsWith(axis))!;
    return own.startsWith("+") ? [start, start + size] : [start - size, start];
  };
  return { x: along("x", 0), y: along("y", 1), z: along("z", 2) };
}

const meet = (a: Span, b: Span, reach: number): boolean => a[0] < b[1] + reach && b[0] < a[1] + reach;

/** How many stretches there are, and what is wrong with them: longer than the part and its play, borne by nothing at an end, or not clear. */
export function spanFaults(set: DryfitSet): { spans: number; faults: string[] } {
  const rooms = set.parts.map((part) => ({ part, room: inRoom(part, set) }));
  const faults: string[] = [];
  let spans = 0;
  for (const { part, room } of rooms) {
    if (room === null || !LEVEL.includes(part.role)) continue;
    const clear = longestClear(part, { ...set, step: set.job.step });
    if (clear === null) continue;
    spans += 1;
    const say = (what: string): number => faults.push(`${part.name} ${part.mark}, ${clear.join(" to ")}: ${what}`);
    const ends = set.joints.filter(({ entering }) => entering === part.mark);
    const play = ends.reduce((sum, { gap }) => sum + Math.max(0, gap[1]), 0);
    if (clear[1] - clear[0] > room.x[1] - room.x[0] + play + NEAR) say("longer than the part");
    // What touches it from beside or below, in the room: at its ends within its play, else within a step.
    const touches = (other: Room, reach: number): boolean =>
      meet(other.x, room.x, reach) && meet(other.y, room.y, 0) && meet(other.z, room.z, set.job.step);
    const around = rooms.flatMap((one) => (one.part === part || one.room === null ? [] : [one.room]));
    const reach = Math.max(play, set.job.step) + NEAR;
    if (!around.some((other) => touches(other, reach) && Math.abs(other.x[1] - clear[0]) < NEAR))
      say("nothing on the left");
    if (!around.some((other) => touches(other, reach) && Math.abs(other.x[0] - clear[1]) < NEAR))
      say("nothing on the right");
    // An upright from front to back that it stands on, of its own case or of a base, would part the stretch in two.
    const uprights = rooms.flatMap((one) =>
      one.room !== null &&
      one.part.place!.t.endsWith("x") &&
      (one.part.role === "plinth" || (["side", "divider"].includes(one.part.role) && one.part.case === part.case))
        ? [one.room]
        : [],
    );
    const inside = uprights.filter(
      (other) =>
        touches(other, 0) &&
        other.z[0] < room.z[0] - NEAR &&
        other.x[0] > clear[0] + NEAR &&
        other.x[1] < clear[1] - NEAR,
    );
    if (inside.length > 0) say("not clear");
  }
  return { spans, faults };
}

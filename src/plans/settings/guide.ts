/** Which machine cuts a groove, with which cutter, and what guides it: the table saw where it can do it safely, else the router. */
import { formatLengthWithUnit, type Mm, SAME } from "../../base/length.ts";
import type { Tooling } from "../../project/tooling.ts";
import { awayFace, isHigh, lippedAfter, opposite, sizeAlong, stopsAt } from "../../set/facing.ts";
import type { Face, SetFeature, SetSetting } from "../../set/schema.ts";
import type { Groove, Shop, Walls } from "./groove.ts";
import { type Room, roomOf } from "./straightedge.ts";

/** `radius`: the saw's cutter, which leaves a ramp where a cut stops; `room`: the router's. */
export type Guided = Pick<SetSetting, "tool" | "carrier" | "cutter" | "side"> & {
  radius: Mm | null;
  room: Room | null;
};

/** Null where no tool of the shop fits. `sawStopped`: a cut that stops may be made at the saw. */
export function guideOf(groove: Groove, datum: Face, walls: Walls, shop: Shop, sawStopped: boolean): Guided | null {
  const sawn = sawOf(groove, datum, walls, shop, sawStopped);
  // On an edge there is nothing for a router to ride on.
  if (sawn !== null || isInEdge(groove)) return sawn;
  return routerOf(groove.feature, walls, shop.tooling.router);
}

/** Into an end or edge: the part stands on it. */
export const isInEdge = ({ feature }: Pick<Groove, "feature">): boolean => !feature.face.startsWith("t");

/** More passes than this of the saw's own blade, and a ridge is left or a wall is touched twice (common practice, no source). */
export const MOST_PASSES = 3;

/** Narrower than any dado cutter: the saw's own blade, first at one wall, last at the other. Null where it takes too many passes, or the kerf is too wide. */
function bladeFor({ near, far }: Walls, { tooling, unit }: Pick<Shop, "tooling" | "unit">): string | null {
  const { kerf } = tooling.saw;
  const passes = Math.ceil((far - near) / kerf - SAME);
  if (far - near < kerf - SAME || passes > MOST_PASSES) return null;
  const show = (length: Mm): string => formatLengthWithUnit(length, unit);
  const blade = `saw blade, kerf ${show(kerf)}`;
  if (passes === 1) return `${blade}, one pass`;
  const between = passes > 2 ? ", one between" : "";
  return `${blade}, ${passes} passes: fence ${show(near)}${between}, last ${show(far - kerf)}`;
}

/** Wider than any dado cutter: pass beside pass, the walls by the stop. */
function lapCutter({ near, far }: Walls, { tooling, unit }: Pick<Shop, "tooling" | "unit">): string {
  const { most } = tooling.saw.dado;
  const show = (length: Mm): string => formatLengthWithUnit(length, unit);
  const passes = Math.ceil((far - near) / most - SAME);
  if (passes === 1) return `dado cutter set to ${show(far - near)}`;
  const rest = near < SAME ? "then towards the end" : `last with the stop at ${show(far - most)}`;
  return `dado cutter set to ${show(most)}, ${passes} passes: ${near < SAME ? "the shoulder first" : "near wall first"}, ${rest}`;
}

function sawOf(groove: Groove, datum: Face, walls: Walls, { tooling, unit }: Shop, sawStopped: boolean): Guided | null {
  const { saw } = tooling;
  const { feature } = groove;
  const stops = stopsOf(groove);
  // Stopped at both ends it would have to be dropped on to the turning cutter.
  if (stops.length > 1 || (stops.length === 1 && !sawStopped)) return null;
  const side = sideOf(groove, datum, stops);
  const carrier = carrierOf(groove);
  const inReach =
    carrier === "fence"
      ? walls.near <= (side === "right" ? saw.rip : saw.ripOther) + SAME
      : isCarried(groove, walls, saw);
  if (feature.kind === "lap") {
    if (!inReach) return null;
    return {
      tool: "table saw",
      carrier,
      cutter: lapCutter(walls, { tooling, unit }),
      side,
      radius: saw.dado.radius,
      room: null,
    };
  }
  // Beside a sacrificial fence face, a wider cutter runs into that.
  const least = feature.kind === "shoulder" ? 0 : saw.dado.least;
  if (isInEdge(groove) && feature.width < least - SAME) {
    const cutter = stops.length > 0 || !inReach ? null : bladeFor(walls, { tooling, unit });
    return cutter === null ? null : { tool: "table saw", carrier, cutter, side, radius: saw.bladeRadius, room: null };
  }
  const fitsDado = feature.width >= least - SAME && feature.width <= saw.dado.most + SAME;
  if (!inReach || !fitsDado) return null;
  const set = formatLengthWithUnit(Math.max(feature.width, least), unit);
  return {
    tool: "table saw",
    carrier,
    cutter: `dado cutter set to ${feature.kind === "shoulder" ? "at least " : ""}${set}`,
    side,
    radius: saw.dado.radius,
    room: null,
  };
}

/** The ends at which the cut stops in the wood. */
const stopsOf = ({ part, feature }: Groove): (0 | 1)[] =>
  ([0, 1] as const).filter((end) => stopsAt(part, feature, end));

/**
 * On which side of the cutter fence or stop stands, for the operator: on the right, or on the left where only so the open end of a stopped
 * cut goes first. It enters there and ends at its stop, never the other way.
 */
function sideOf({ feature }: Groove, datum: Face, stops: readonly (0 | 1)[]): "left" | "right" {
  if (stops.length === 0) return "right";
  return isHigh(awayFace(opposite(feature.face), datum)) === (stops[0] === 0) ? "right" : "left";
}

/** A part shorter along the fence than across it twists off the fence: sled or mitre gauge carries it. */
const carrierOf = ({ part, feature, cross }: Groove): "fence" | "sled" =>
  sizeAlong(part, feature.along) >= sizeAlong(part, cross) ? "fence" : "sled";

/** Within the reach of the sled, both ways, and of its stop. */
const isCarried = ({ part, feature, cross }: Groove, walls: Walls, saw: Tooling["saw"]): boolean =>
  sizeAlong(part, cross) <= saw.sled + SAME &&
  alongNow({ part, feature }) <= saw.sledDepth + SAME &&
  walls.near <= saw.stop + SAME;

/** The part's length along the cut, as it is then. */
const alongNow = ({ part, feature }: Pick<Groove, "part" | "feature">): Mm =>
  sizeAlong(part, feature.along) -
  lippedAfter(part, `${feature.along}0` as Face) -
  lippedAfter(part, `${feature.along}1` as Face);

function routerOf(feature: SetFeature, walls: Walls, router: Tooling["router"]): Guided | null {
  const bit = feature.kind === "lap" ? widestFor(feature.depth, router) : bitFor(feature.width, feature.depth, router);
  if (bit === undefined) return null;
  return {
    tool: "router",
    carrier: "straightedge",
    cutter: bit.name,
    side: null,
    radius: null,
    room: roomOf(walls, router, bit.diameter),
  };
}

/** A lap's two walls by the straightedge; what stands between them is cleared by eye. */
const widestFor = (depth: Mm, { bits }: Tooling["router"]): Tooling["router"]["bits"][number] | undefined =>
  [...bits].filter(({ reach }) => reach >= depth - SAME).sort((a, b) => b.diameter - a.diameter)[0];

/** One pass, or two that meet: a bit under half the groove's width would leave an island. */
const bitFor = (width: Mm, depth: Mm, { bits }: Tooling["router"]): Tooling["router"]["bits"][number] | undefined =>
  [...bits]
    .filter(({ diameter, reach }) => diameter <= width + SAME && 2 * diameter >= width - SAME && reach >= depth - SAME)
    .sort((a, b) => b.diameter - a.diameter)[0];

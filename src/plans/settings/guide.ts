/** Which machine cuts a groove, with which cutter, and what guides it: the table saw where it can do it safely, else the router. */
import { formatLengthWithUnit, type Mm, SAME, type Unit } from "../../base/length.ts";
import type { Tooling } from "../../project/project.ts";
import { sizeAlong, stopsAt } from "../../set/facing.ts";
import type { SetFeature, SetSetting } from "../../set/schema.ts";
import { type Room, roomOf } from "./straightedge.ts";
import type { Groove, Walls } from "./task.ts";

export type Guided = Pick<SetSetting, "tool" | "carrier" | "cutter"> & {
  room: Room | null; // the router's
};

/** Null where no tool of the shop fits. */
export function guideOf(
  groove: Groove,
  walls: Walls,
  sacrificial: boolean,
  tooling: Tooling,
  unit: Unit,
): Guided | null {
  return sawOf(groove, walls, tooling.saw, unit) ?? routerOf(groove.feature, walls, sacrificial, tooling.router);
}

function sawOf(groove: Groove, walls: Walls, saw: Tooling["saw"], unit: Unit): Guided | null {
  const { part, feature, cross } = groove;
  if (stopsAt(part, feature, 0) || stopsAt(part, feature, 1)) return null;
  const carrier = carrierOf(groove);
  const inReach = carrier === "fence" ? walls.near <= saw.rip + SAME : sizeAlong(part, cross) <= saw.sled + SAME;
  // Beside a sacrificial fence face, a wider cutter runs into that.
  const least = feature.kind === "shoulder" ? 0 : saw.dado.least;
  const fitsDado = feature.width >= least - SAME && feature.width <= saw.dado.most + SAME;
  if (!inReach || !fitsDado) return null;
  const set = formatLengthWithUnit(Math.max(feature.width, least), unit);
  return {
    tool: "table saw",
    carrier,
    cutter: `dado cutter set to ${feature.kind === "shoulder" ? "at least " : ""}${set}`,
    room: null,
  };
}

/** A part shorter along the fence than across it twists off the fence: sled or mitre gauge carries it. */
const carrierOf = ({ part, feature, cross }: Groove): "fence" | "sled" =>
  sizeAlong(part, feature.along) >= sizeAlong(part, cross) ? "fence" : "sled";

function routerOf(feature: SetFeature, walls: Walls, sacrificial: boolean, router: Tooling["router"]): Guided | null {
  const bit = bitFor(feature.width, feature.depth, router);
  if (bit === undefined) return null;
  return {
    tool: "router",
    carrier: "straightedge",
    cutter: bit.name,
    room: roomOf(walls, sacrificial, router.baseHalf, bit.diameter),
  };
}

/** One pass, or two that meet: a bit under half the groove's width would leave an island. */
const bitFor = (width: Mm, depth: Mm, { bits }: Tooling["router"]): Tooling["router"]["bits"][number] | undefined =>
  [...bits]
    .filter(({ diameter, reach }) => diameter <= width + SAME && 2 * diameter >= width - SAME && reach >= depth - SAME)
    .sort((a, b) => b.diameter - a.diameter)[0];

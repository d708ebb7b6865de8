/** What a part needs beside the guide: a push stick where it is narrow, something to lie on where it is long. */
import { formatLengthWithUnit, type Mm, type Unit } from "../../base/length.ts";
import { sizeAlong } from "../../set/facing.ts";
import { isInEdge } from "./guide.ts";
import type { Task } from "./task.ts";

/** Common practice, no source. */
const NARROW: Mm = 150; // a hand beside the fence comes too near the cutter
const LONG_PUSHED: Mm = 1200; // tips off the table behind the cutter
const LONG_CARRIED: Mm = 900; // hangs off the sled

export const BOARD_BESIDE =
  "too little room for the straightedge: clamp it to a board of the same thickness set against the part";

export type Support = "narrow" | "long" | "overhanging" | "on edge";

export function supportsFor({ carrier, groove: { part, feature, cross } }: Task): Support[] {
  const [along, across] = [sizeAlong(part, feature.along), sizeAlong(part, cross)];
  switch (carrier) {
    case "fence":
      if (isInEdge({ feature })) return ["on edge", ...(along > LONG_PUSHED ? (["long"] as const) : [])];
      return [...(across < NARROW ? (["narrow"] as const) : []), ...(along > LONG_PUSHED ? (["long"] as const) : [])];
    case "sled":
      return across > LONG_CARRIED ? ["overhanging"] : [];
    case "straightedge":
      return [];
  }
}

export function supportNote(support: Support, { groove: { part, feature, cross } }: Task, unit: Unit): string {
  const show = (length: Mm): string => formatLengthWithUnit(length, unit);
  switch (support) {
    case "narrow":
      return `${show(sizeAlong(part, cross))} wide: push stick and featherboard, no hand beside the fence`;
    case "long":
      return `${show(sizeAlong(part, feature.along))} long: a support level with the table behind the saw, or a helper`;
    case "on edge":
      return "on its edge: a high face on the fence, featherboard, push stick";
    case "overhanging":
      return `${show(sizeAlong(part, cross))} across: hold its far end up level with the table`;
  }
}

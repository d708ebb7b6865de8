/** What one groove asks of the shop when it is measured from one of its two opposite ends or edges. */
import { formatLengthWithUnit, type Mm, SAME } from "../../base/length.ts";
import { stopsAt } from "../../set/facing.ts";
import type { Face, SetFeature, SetGroup, SetSetting } from "../../set/schema.ts";
import { groupOf } from "../groups.ts";
import { type Groove, type Shop, wallsFrom } from "./groove.ts";
import { type Guided, guideOf } from "./guide.ts";

/** Enough to tell which settings are one: what stands at the machine, and what the part adds to it. */
export type Task = Guided & {
  operation: SetSetting["operation"];
  width: Mm;
  depth: Mm;
  fence: Mm;
  sacrificial: boolean; // the cutter runs into a sacrificial face: `fence` is to the inner wall
  run: Pick<SetSetting["runs"][number], "mark" | "feature" | "face" | "datum" | "from" | "to" | "stopped">;
  groove: Groove;
  group: SetGroup;
};

/** Why no tool of the shop cuts it. */
export type NoTool = { mark: string; text: string };

export function taskOf(groove: Groove, datum: Face, shop: Shop, sawStopped: boolean): Task | NoTool {
  const { part, feature, index } = groove;
  const walls = wallsFrom(groove, datum);
  // A rabbet at the datum itself would need fence 0: the cutter runs into a sacrificial fence face, set by the rabbet's inner wall.
  const sacrificial = walls.near < SAME;
  const guided = guideOf(groove, datum, walls, shop, sawStopped);
  if (guided === null) return noTool(groove, shop);
  const stopped = stopsAt(part, feature, 0) || stopsAt(part, feature, 1);
  return {
    ...guided,
    operation: operationOf(feature),
    width: feature.width,
    depth: feature.depth,
    fence: sacrificial ? walls.far : walls.near,
    sacrificial,
    groove,
    group: groupOf(part.mark, shop.groups),
    run: { mark: part.mark, feature: index, face: feature.face, datum, from: feature.from, to: feature.to, stopped },
  };
}

function operationOf({ kind }: SetFeature): SetSetting["operation"] {
  if (kind === "groove" || kind === "rabbet" || kind === "lap" || kind === "shoulder") return kind;
  throw new Error(`A ${kind} is cut by no setting`);
}

function noTool({ part, feature }: Groove, { tooling, unit }: Shop): NoTool {
  const show = (length: Mm): string => formatLengthWithUnit(length, unit);
  const { least, most } = tooling.saw.dado;
  return {
    mark: part.mark,
    text: `No tool of the shop cuts the ${feature.kind === "lap" ? "lap" : "groove"} ${show(feature.width)} wide and ${show(feature.depth)} deep in ${part.name} ${part.mark}: the dado cutter is set from ${show(least)} to ${show(most)}, and no router bit is between half as wide and as wide, and long enough. Add a bit to the tooling.`,
  };
}

/** Nanometres: lengths that are the same give the same text, whatever way they were reckoned. */
const nm = (length: Mm): number => Math.round(length * 1e6);

/** Equal for grooves that are cut at one setting: the same cutter, height, fence and side of the cutter, whether they stop or run through, made at one time. */
export const settingKey = (task: Task): string =>
  [
    task.tool,
    task.carrier,
    task.side,
    task.operation,
    task.cutter,
    task.sacrificial,
    task.group.n,
    nm(task.width),
    nm(task.depth),
    nm(task.fence),
  ].join("|");

/** What one groove asks of the shop when it is measured from one of its two opposite ends or edges. */
import { formatLengthWithUnit, type Mm, SAME, type Unit } from "../../base/length.ts";
import type { Tooling } from "../../project/project.ts";
import { axisOfFace, isHigh, type LocalAxis, lippedAfter, sizeAlong, stopsAt, thirdAxis } from "../../set/facing.ts";
import type { Face, SetFeature, SetPart, SetSetting } from "../../set/schema.ts";
import { type Guided, guideOf } from "./guide.ts";

/** Enough to tell which settings are one: what stands at the machine, and what the part adds to it. */
export type Task = Guided & {
  operation: SetSetting["operation"];
  width: Mm;
  depth: Mm;
  fence: Mm;
  sacrificial: boolean; // the cutter runs into a sacrificial face: `fence` is to the inner wall
  run: Omit<SetSetting["runs"][number], "board">;
  groove: Groove;
};

export type Shop = { tooling: Tooling; unit: Unit };

/** A groove of a part, by its index in the part's features. */
export type Groove = { part: SetPart; feature: SetFeature; index: number; cross: LocalAxis };

/** Everything that a cutter takes out along a straight run: notches are sawn by hand, holes drilled. */
export const groovesOf = (part: SetPart): Groove[] =>
  part.features.flatMap((feature, index) =>
    feature.kind === "notch" || feature.kind === "hole"
      ? []
      : [{ part, feature, index, cross: thirdAxis(feature.along, axisOfFace(feature.face)) }],
  );

/** Where the walls of a groove lie from a datum, as the part is then: without the lippings that are put on afterwards. */
export type Walls = { near: Mm; far: Mm; across: Mm };

export function wallsFrom({ part, feature, cross }: Groove, datum: Face): Walls {
  const size = sizeAlong(part, cross);
  const later = lippedAfter(part, datum);
  const near = (isHigh(datum) ? size - feature.at - feature.width : feature.at) - later;
  return {
    near,
    far: near + feature.width,
    across: size - lippedAfter(part, `${cross}0`) - lippedAfter(part, `${cross}1`),
  };
}

/** Why no tool of the shop cuts it. */
export type NoTool = { mark: string; text: string };

export function taskOf(groove: Groove, datum: Face, shop: Shop): Task | NoTool {
  const { part, feature, index } = groove;
  const walls = wallsFrom(groove, datum);
  // A rabbet at the datum itself would need fence 0: the cutter runs into a sacrificial fence face, set by the rabbet's inner wall.
  const sacrificial = walls.near < SAME;
  const guided = guideOf(groove, walls, sacrificial, shop.tooling, shop.unit);
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
    run: { mark: part.mark, feature: index, face: feature.face, datum, from: feature.from, to: feature.to, stopped },
  };
}

function operationOf({ kind }: SetFeature): SetSetting["operation"] {
  if (kind === "groove" || kind === "rabbet" || kind === "shoulder") return kind;
  throw new Error(`A ${kind} is cut by no setting`);
}

function noTool({ part, feature }: Groove, { tooling, unit }: Shop): NoTool {
  const show = (length: Mm): string => formatLengthWithUnit(length, unit);
  const { least, most } = tooling.saw.dado;
  return {
    mark: part.mark,
    text: `No tool of the shop cuts the groove ${show(feature.width)} wide and ${show(feature.depth)} deep in ${part.name} ${part.mark}: the dado cutter is set from ${show(least)} to ${show(most)}, and no router bit is between half as wide and as wide, and long enough. Add a bit to the tooling.`,
  };
}

/** Nanometres: lengths that are the same give the same text, whatever way they were reckoned. */
const nm = (length: Mm): number => Math.round(length * 1e6);

/** Equal for grooves that are cut at one setting: the same cutter, height and fence, whether they stop or run through. */
export const settingKey = (task: Task): string =>
  [
    task.tool,
    task.carrier,
    task.operation,
    task.cutter,
    task.sacrificial,
    nm(task.width),
    nm(task.depth),
    nm(task.fence),
  ].join("|");

/** A groove of a part, and where its walls lie from an end or edge beside it. */
import type { Mm, Unit } from "../../base/length.ts";
import type { Tooling } from "../../project/tooling.ts";
import { axisOfFace, isHigh, type LocalAxis, lippedAfter, sizeAlong, thirdAxis } from "../../set/facing.ts";
import type { Face, SetFeature, SetGroup, SetPart } from "../../set/schema.ts";

/** A groove of a part, by its index in the part's features. */
export type Groove = { part: SetPart; feature: SetFeature; index: number; cross: LocalAxis };

/** Everything that a cutter takes out along a straight run: notches are sawn by hand, holes, mortises and slots drilled or routed. */
export const groovesOf = (part: SetPart): Groove[] =>
  part.features.flatMap((feature, index) =>
    ["notch", "socket", "stub mortise", "hole", "mortise", "slot", "shape", "edge", "mitre"].includes(feature.kind)
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

/** What the machines can do, what is cut together, and the unit that words are in. */
export type Shop = { tooling: Tooling; groups: readonly SetGroup[]; unit: Unit };

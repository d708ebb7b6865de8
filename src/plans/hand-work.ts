/** Hand work after the grooves: notches, and the round ends a router leaves where a groove stops. */
import { formatLengthWithUnit, type Unit } from "../base/length.ts";
import type { DryfitSet, SetFeature, SetPart } from "../set/schema.ts";

export function planHandWork(parts: readonly SetPart[], unit: Unit): DryfitSet["handWork"] {
  return parts.flatMap((part) =>
    part.features.flatMap((feature, index) => {
      const text = workOn(feature, unit);
      return text === null ? [] : [{ mark: part.mark, feature: index, text }];
    }),
  );
}

function workOn(feature: SetFeature, unit: Unit): string | null {
  if (feature.kind === "notch") {
    const depth = formatLengthWithUnit(feature.depth, unit);
    const width = formatLengthWithUnit(feature.width, unit);
    const [along, across] = feature.face[0] === "l" ? [depth, width] : [width, depth];
    return `Notch the corner ${along} along the length by ${across} across the width (${feature.reason}). Saw on the waste side of the lines, pare to them.`;
  }
  if (!feature.ends.includes("square")) return null;
  return `Square the stopped end of the ${feature.kind} with a chisel (${feature.reason}).`;
}

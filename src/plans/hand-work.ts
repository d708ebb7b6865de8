/** Hand work after the grooves: notches, and the round ends a router leaves where a groove stops. */
import { formatLengthWithUnit, type Unit } from "../base/length.ts";
import { axisOfFace, faceWords, sizeAlong, thirdAxis } from "../set/facing.ts";
import type { DryfitSet, Face, SetFeature, SetPart } from "../set/schema.ts";

export function planHandWork(parts: readonly SetPart[], unit: Unit): DryfitSet["handWork"] {
  return parts.flatMap((part) =>
    part.features.flatMap((feature, index) => {
      const text = workOn(part, feature, unit);
      return text === null ? [] : [{ mark: part.mark, feature: index, text }];
    }),
  );
}

function workOn(part: SetPart, feature: SetFeature, unit: Unit): string | null {
  if (feature.kind === "notch") return notchText(part, feature, unit);
  const stopped = (["0", "1"] as const).filter((_, i) => feature.ends[i] === "square");
  if (stopped.length === 0) return null;
  const ends = stopped.map((end) => faceWords(part, `${feature.along}${end}` as Face));
  return `Square the ${feature.kind} with a chisel where it stops near the ${ends.join(" and the ")} (${feature.reason}).`;
}

function notchText(part: SetPart, feature: SetFeature, unit: Unit): string {
  const deep = axisOfFace(feature.face);
  const wide = thirdAxis(deep, feature.along);
  const side: Face = `${wide}${feature.at < sizeAlong(part, wide) / 2 ? "0" : "1"}`;
  const corner = `${faceWords(part, feature.face)}, ${faceWords(part, side)}`;
  const [depth, width] = [feature.depth, feature.width].map((length) => formatLengthWithUnit(length, unit));
  return `Notch the corner at ${corner}: ${depth} in from the ${faceWords(part, feature.face)}, ${width} in from the ${faceWords(part, side)} (${feature.reason}).`;
}

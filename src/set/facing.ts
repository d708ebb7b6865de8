/** The ends, edges and faces of a part as a maker names them, and which way a part lies on the saw. */
import { type AxisIndex, axesOf, axisOf, signOf } from "../base/geometry.ts";
import { isSame, type Mm, SAME } from "../base/length.ts";
import type { Face, SetFeature, SetPart } from "./schema.ts";

export type LocalAxis = "l" | "w" | "t";
export const LOCAL_AXES: readonly LocalAxis[] = ["l", "w", "t"];
const INDEX: Record<LocalAxis, AxisIndex> = { l: 0, w: 1, t: 2 };
const NOUNS: Record<LocalAxis, string> = { l: "end", w: "edge", t: "face" };

const TOWARDS: readonly { low: string; high: string }[] = [
  { low: "left", high: "right" },
  { low: "front", high: "back" },
  { low: "bottom", high: "top" },
];
/** A level panel has an upper face, not a "top face": the top panel is another part. */
const LEVEL_FACE = { low: "lower", high: "upper" };

export const axisOfFace = (face: Face): LocalAxis => face[0] as LocalAxis;
export const isHigh = (face: Face): boolean => face[1] === "1";
export const opposite = (face: Face): Face => `${axisOfFace(face)}${isHigh(face) ? "0" : "1"}`;
export const sizeAlong = (part: SetPart, axis: LocalAxis): Mm =>
  ({ l: part.length, w: part.width, t: part.thickness })[axis];

/** Whether a hole of this depth comes out at the other side. */
export const isDrilledThrough = (part: SetPart, face: Face, depth: Mm): boolean =>
  isSame(depth, sizeAlong(part, axisOfFace(face)));

/** "bottom end", "front edge", "inside face"; a part without a place is spoken of by its own axes: "end l0". */
export function faceWords(part: Pick<SetPart, "place" | "inside">, face: Face): string {
  const axis = axisOfFace(face);
  const noun = NOUNS[axis];
  if (axis === "t" && part.inside !== null) return face === part.inside ? "inside face" : "outside face";
  if (part.place === null) return `${noun} ${face}`;
  const signed = axesOf(part.place)[INDEX[axis]]!;
  const names = axis === "t" && axisOf(signed) === 2 ? LEVEL_FACE : TOWARDS[axisOf(signed)]!;
  const isTowardsHigh = (signOf(signed) === 1) === isHigh(face);
  return `${isTowardsHigh ? names.high : names.low} ${noun}`;
}

/** The broad face that looks to the front; null for what does not stand so. */
export function frontFace({ place }: Pick<SetPart, "place">): "t0" | "t1" | null {
  if (place === null || axisOf(place.t) !== 1) return null;
  return signOf(place.t) === 1 ? "t0" : "t1";
}

/** From a broad face to the nearer wall of what is cut into an edge. */
export const fromFace = (part: SetPart, { at, width }: SetFeature, face: "t0" | "t1"): Mm =>
  face === "t0" ? at : part.thickness - at - width;

/** Of a mitred edge: the broad face that its point is on. The outline's first corner is that point. */
export const longerFace = ({ outline, box }: Pick<SetFeature, "outline" | "box">): "t0" | "t1" =>
  isSame(outline[0]![1], box[0][2]) ? "t0" : "t1";

/** The axis that is neither of two others. */
export const thirdAxis = (a: LocalAxis, b: LocalAxis): LocalAxis =>
  LOCAL_AXES.find((axis) => axis !== a && axis !== b)!;

/**
 * The face that looks away from the operator when `out` looks up and `right` to the right: local axes are right-handed,
 * and out x right = away.
 */
export function awayFace(out: Face, right: Face): Face {
  const [i, j] = [INDEX[axisOfFace(out)], INDEX[axisOfFace(right)]];
  const axis = thirdAxis(axisOfFace(out), axisOfFace(right));
  const isCyclic = (i + 1) % 3 === j; // l x w = t, w x t = l, t x l = w
  const minus = [isCyclic, isHigh(out), isHigh(right)].filter((plus) => !plus).length % 2 === 1;
  return `${axis}${minus ? "0" : "1"}`;
}

/**
 * Whether a groove's cut really stops at this end: one that ends at the back of a lipping still to come runs through the panel's own edge, and
 * where the next groove carries it straight on, it stops where that one does.
 */
export function stopsAt(part: SetPart, feature: SetFeature, end: 0 | 1): boolean {
  const { ends, along, from, to } = lastInLine(part, feature, end);
  if (ends[end] !== "square") return ends[end] === "open";
  const short = end === 0 ? from : sizeAlong(part, along) - to;
  return Math.abs(short - lippedAfter(part, `${along}${end}`)) > SAME;
}

/** The groove that carries this one straight on, as wide and as deep, at once or across a third: two on paper, one pass of the cutter. */
function carriedOnBy(part: SetPart, feature: SetFeature, end: 0 | 1): SetFeature | undefined {
  if (feature.ends[end] !== "open") return undefined;
  const other = end === 0 ? 1 : 0;
  const stopOf = ({ from, to }: SetFeature, which: 0 | 1): Mm => (which === 0 ? from : to);
  const across = crossingGroove(part, feature, end);
  return part.features.find(
    (one) =>
      one !== feature &&
      one.kind === feature.kind &&
      one.face === feature.face &&
      one.along === feature.along &&
      isSame(one.at, feature.at) &&
      isSame(one.width, feature.width) &&
      isSame(one.depth, feature.depth) &&
      one.ends[other] === "open" &&
      (isSame(stopOf(one, other), stopOf(feature, end)) ||
        (across !== undefined && crossingGroove(part, one, other) === across)),
  );
}

/** Where a groove is carried on, the last of those that lie in one line with it that way; else itself. */
export function lastInLine(part: SetPart, feature: SetFeature, end: 0 | 1): SetFeature {
  const next = carriedOnBy(part, feature, end);
  return next === undefined ? feature : lastInLine(part, next, end);
}

/** Whether it stops there in plain wood, so that its end is set out and squared: not in another groove. */
export const endsSquare = (part: SetPart, feature: SetFeature, end: 0 | 1): boolean =>
  feature.ends[end] === "square" && stopsAt(part, feature, end);

/** What an edge still lacks when its part is grooved before it is lipped: distances are from the panel's own edge then. */
export const lippedAfter = (part: Pick<SetPart, "lippings">, face: Face): Mm =>
  part.lippings.find(({ edge, lipped }) => edge === face && lipped === "after")?.thickness ?? 0;

/** The edge a distance is measured from, as it is when the grooves are cut: "front edge before lipping". */
export const edgeThen = (part: SetPart, face: Face): string =>
  `${faceWords(part, face)}${lippedAfter(part, face) > SAME ? " before lipping" : ""}`;

/** The groove of the same face that an open end runs into; none where the end is not open, or only carried on. */
export const meetingGroove = (part: SetPart, index: number, end: 0 | 1): SetFeature | undefined =>
  crossingGroove(part, part.features[index]!, end);

export function crossingGroove(part: SetPart, feature: SetFeature, end: 0 | 1): SetFeature | undefined {
  if (feature.ends[end] !== "open") return undefined;
  const stop = end === 0 ? feature.from : feature.to;
  return part.features.find(
    (other) =>
      other.face === feature.face &&
      other.along !== feature.along &&
      (other.kind === "groove" || other.kind === "rabbet") &&
      other.at <= stop + SAME &&
      other.at + other.width >= stop - SAME &&
      other.from <= feature.at + feature.width + SAME &&
      other.to >= feature.at - SAME,
  );
}

/** Where a slot begins and ends along its run; a round hole has but its middle. */
export const slotEnds = ({ from, to, width }: SetFeature): Mm[] =>
  to - from < width + SAME ? [(from + to) / 2] : [from, to];

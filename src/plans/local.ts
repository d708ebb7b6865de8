/** From case coordinates to a part's own: place, faces and features as set.json gives them. */
import {
  AXES,
  type AxisIndex,
  axesOf,
  axisOf,
  type Box,
  boxToInner,
  type Place,
  signOf,
  type Vec,
} from "../base/geometry.ts";
import { SAME } from "../base/length.ts";
import type { Direction, Feature, FeatureEnd, Part, Tapered } from "../model/model.ts";
import type { Face, SetFeature } from "../set/schema.ts";

export const LOCAL = ["l", "w", "t"] as const;

/** The local origin is the corner of the blank from which l, w and t all run into it. */
export function placeOf(part: Part): Place {
  const at: [number, number, number] = [0, 0, 0];
  for (const axis of [part.frame.l, part.frame.w, part.frame.t]) {
    at[axisOf(axis)] = part.box[signOf(axis) > 0 ? 0 : 1][axisOf(axis)];
  }
  return { at, ...part.frame };
}

/** Length, width and thickness of the blank. */
export function sizeOf(part: Part): Vec {
  const along = (axis: Direction): number => part.box[1][axisOf(axis)] - part.box[0][axisOf(axis)];
  return [along(part.frame.l), along(part.frame.w), along(part.frame.t)];
}

export function localIndex(place: Place, axis: AxisIndex): AxisIndex {
  return axesOf(place).findIndex((one) => axisOf(one) === axis) as AxisIndex;
}

/** The part's own name for the face that looks in a direction of the case: at 1 when the local axis runs that way, else at 0. */
export function faceTowards(place: Place, direction: Direction): Face {
  const index = localIndex(place, axisOf(direction));
  return `${LOCAL[index]!}${axesOf(place)[index] === direction ? 1 : 0}`;
}

/** A groove is a prism through the face it is cut into, so that its outline shows how its ends are shaped; a notch goes through the thickness. */
export function localFeature(
  part: Part,
  feature: Feature,
  markOf: (key: string) => string,
  reason: string,
): SetFeature {
  const place = placeOf(part);
  const box = boxToInner(place, feature.box);
  const along = localIndex(place, feature.along);
  const into = localIndex(place, axisOf(feature.face));
  const across = AXES.find((axis) => axis !== along && axis !== into)!;
  const { tapered } = feature;
  const prism =
    tapered !== undefined
      ? localIndex(place, tapered.axis)
      : feature.kind === "notch" || feature.kind === "edge" || feature.kind === "mitre"
        ? along
        : feature.kind === "shape"
          ? across
          : into;
  const [p, q] = AXES.filter((axis) => axis !== prism) as [AxisIndex, AxisIndex];
  const reversed = signOf(axesOf(place)[along]!) < 0;
  const origin = place.at[feature.along];
  return {
    kind: feature.kind,
    face: faceTowards(place, feature.face),
    along: LOCAL[along]!,
    at: box[0][across],
    width: box[1][across] - box[0][across],
    depth: box[1][into] - box[0][into],
    from: box[0][along],
    to: box[1][along],
    ends: turned(feature.ends, reversed),
    axis: LOCAL[prism]!,
    outline:
      tapered !== undefined
        ? taperedIn(place, tapered)
        : feature.shorter === undefined
          ? outlineOf(feature, box, p, q, faceTowards(place, feature.face))
          : mitreIn(box, faceTowards(place, feature.face), faceTowards(place, feature.shorter)),
    box: [[...box[0]], [...box[1]]],
    holds: feature.holds === null ? null : markOf(feature.holds),
    runOuts: feature.runOuts.map(([a, b]) => (reversed ? [origin - b, origin - a] : [a - origin, b - origin])),
    row: feature.row,
    lipping: feature.lipping,
    reason,
  };
}

/** Corner by corner into the part's own axes. */
const taperedIn = (place: Place, { axis, outline }: Tapered): SetFeature["outline"] => {
  const others = AXES.filter((one) => one !== axis);
  const own = AXES.filter((one) => one !== localIndex(place, axis));
  return outline.map((corner) => {
    const point: [number, number, number] = [...place.at];
    corner.forEach((at, i) => {
      point[others[i]!] = at;
    });
    const local = boxToInner(place, [point, point])[0];
    return [local[own[0]!], local[own[1]!]];
  });
};

function outlineOf(
  { kind, form, profile }: Feature,
  box: Box,
  p: AxisIndex,
  q: AxisIndex,
  face: Face,
): SetFeature["outline"] {
  if (kind === "hole") return circleIn(box, p, q);
  if (kind === "slot" || kind === "mortise") return slotIn(box, p, q);
  if (profile !== undefined) return profileOf(profile, box, p, q, face);
  if (form === undefined) return rectangleOf(box, p, q);
  // From the edge inwards: q goes into the wood from an edge at 0, out of it towards one at 1.
  const [open, inner] = face[1] === "0" ? [box[0][q], box[1][q]] : [box[1][q], box[0][q]];
  const [from, to] = [box[0][p], box[1][p]];
  if (form.form === "arch") {
    const bulge = (2 * (box[1][q] - box[0][q])) / (to - from);
    return [
      [from, open],
      [to, open, face[1] === "0" ? bulge : -bulge],
    ];
  }
  return [
    [from, open],
    [to, open],
    [to - form.relief, inner],
    [from + form.relief, inner],
  ];
}

/** The tangent of a quarter of a right angle: an arc that turns through 90 degrees. */
const QUARTER = Math.tan(Math.PI / 8);

/**
 * What a bit takes off an edge of the upper face, seen along it; q is the thickness. Ogee: half a roundover above, half a cove below.
 *
 *      inner ______ corner
 *           |\____  |         a roundover's arc runs from the lower point back to the inner one
 *                  \| lower
 */
function profileOf(
  profile: NonNullable<Feature["profile"]>,
  box: Box,
  p: AxisIndex,
  q: AxisIndex,
  face: Face,
): SetFeature["outline"] {
  const isLow = face[1] === "0";
  const [outer, inner] = isLow ? [box[0][p], box[1][p]] : [box[1][p], box[0][p]];
  const [lower, upper] = [box[0][q], box[1][q]];
  const bulge = isLow ? -QUARTER : QUARTER;
  const corner: SetFeature["outline"] = [
    [inner, upper],
    [outer, upper],
  ];
  switch (profile) {
    case "chamfer":
      return [...corner, [outer, lower]];
    case "roundover":
      return [...corner, [outer, lower, bulge]];
    case "ogee":
      return [...corner, [outer, lower, -bulge], [(outer + inner) / 2, (lower + upper) / 2, bulge]];
  }
}

/** The corner between an edge and a broad face, w before t: half of its box. */
function mitreIn(box: Box, edge: Face, shorter: Face): SetFeature["outline"] {
  const [w, t] = [Number(edge[1]), Number(shorter[1])] as [0 | 1, 0 | 1];
  const [point, heel] = [box[w][1], box[(1 - w) as 0 | 1][1]];
  return [
    [point, box[(1 - t) as 0 | 1][2]],
    [heel, box[t][2]],
    [point, box[t][2]],
  ];
}

const turned = (ends: Feature["ends"], reversed: boolean): [FeatureEnd, FeatureEnd] =>
  reversed ? [ends[1], ends[0]] : ends;

const rectangleOf = (box: Box, p: AxisIndex, q: AxisIndex): SetFeature["outline"] => [
  [box[0][p], box[0][q]],
  [box[1][p], box[0][q]],
  [box[1][p], box[1][q]],
  [box[0][p], box[1][q]],
];

/** Two straight sides with half a circle at each end; a circle where it is as long as wide. */
function slotIn(box: Box, p: AxisIndex, q: AxisIndex): SetFeature["outline"] {
  const [lo, hi] = box;
  const [long, wide] = [hi[p] - lo[p], hi[q] - lo[q]];
  if (Math.abs(long - wide) < SAME) return circleIn(box, p, q);
  const radius = Math.min(long, wide) / 2;
  return long > wide
    ? [
        [hi[p] - radius, lo[q], 1],
        [hi[p] - radius, hi[q]],
        [lo[p] + radius, hi[q], 1],
        [lo[p] + radius, lo[q]],
      ]
    : [
        [lo[p], lo[q] + radius, 1],
        [hi[p], lo[q] + radius],
        [hi[p], hi[q] - radius, 1],
        [lo[p], hi[q] - radius],
      ];
}

/** Two half circles. */
function circleIn(box: Box, p: AxisIndex, q: AxisIndex): SetFeature["outline"] {
  const middle = (box[0][q] + box[1][q]) / 2;
  return [
    [box[0][p], middle, 1],
    [box[1][p], middle, 1],
  ];
}

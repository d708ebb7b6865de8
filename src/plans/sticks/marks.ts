/** What the features and lines of a part ask of a stick: positions across grooves, stops, holes, slots and notches, in case coordinates. */
import { type AxisIndex, axesOf, axisOf, signOf } from "../../base/geometry.ts";
import { isSame, type Mm } from "../../base/length.ts";
import { endsSquare, slotEnds } from "../../set/facing.ts";
import type { Face, SetFeature, SetLine, SetPart, SetStick } from "../../set/schema.ts";

export type Mark = SetStick["marks"][number];
export type PlacedPart = SetPart & { place: NonNullable<SetPart["place"]> };

/** Two marks that one line, or one pair of walls, stands for. */
export const isSameBand = (a: Mark, b: Mark): boolean =>
  a.kind === b.kind && isSame(a.at, b.at) && isSame(a.width, b.width);

export const LOCAL = ["l", "w", "t"] as const;
const THICKNESS = 2;
const localIndex = (axis: "l" | "w" | "t"): 0 | 1 | 2 => LOCAL.indexOf(axis) as 0 | 1 | 2;

export const toCase = (part: PlacedPart, local: 0 | 1 | 2, at: Mm): Mm => {
  const axis = axesOf(part.place)[local]!;
  return part.place.at[axisOf(axis)] + signOf(axis) * at;
};

/** The third local axis: across a groove's run, in its face. */
const acrossOf = (feature: SetFeature): 0 | 1 | 2 =>
  (3 - localIndex(feature.along) - localIndex(feature.face[0] as "l" | "w" | "t")) as 0 | 1 | 2;

export const caseAxis = (part: PlacedPart, local: 0 | 1 | 2): AxisIndex => axisOf(axesOf(part.place)[local]!);

/** A mark from one local position to another, in the part's own axes. */
type Between = (kind: Mark["kind"], local: 0 | 1 | 2, from: Mm, to: Mm) => Mark;

export function marksOf(part: PlacedPart, feature: SetFeature, axis: AxisIndex): Mark[] {
  // The corner of a lipping that ends at its shoulder follows from the groove.
  // Mortises are marked where the members lie together: the stick shows their seats.
  if (feature.lipping || ["shoulder", "socket", "mortise", "stub mortise", "edge"].includes(feature.kind)) return [];
  const holds = feature.holds === null ? [] : [feature.holds];
  const between: Between = (kind, local, from, to) => {
    const [a, b] = [toCase(part, local, from), toCase(part, local, to)];
    return { kind, at: Math.min(a, b), width: Math.abs(b - a), holds, parts: [part.mark] };
  };
  if (feature.kind === "notch") return notchLines(part, feature, axis, between);
  if (feature.kind === "hole") return holeLines(part, feature, axis);
  if (feature.kind === "slot") return slotLines(part, feature, axis, between);
  const across = acrossOf(feature);
  // Where in an edge a groove runs is set by a gauge from the face: no stick lies across a thickness.
  if (across === THICKNESS) return [];
  if (caseAxis(part, across) === axis) return [between("groove", across, feature.at, feature.at + feature.width)];
  const along = localIndex(feature.along);
  if (caseAxis(part, along) !== axis) return [];
  return ([feature.from, feature.to] as const).flatMap((stop, end) =>
    endsSquare(part, feature, end as 0 | 1) ? [between("line", along, stop, stop)] : [],
  );
}

/** A slot for a worktop's screw: its middle across it, and along it both its ends, which the screw moves between. */
function slotLines(part: PlacedPart, feature: SetFeature, axis: AxisIndex, between: Between): Mark[] {
  const [along, across] = [localIndex(feature.along), acrossOf(feature)];
  const line = (local: 0 | 1 | 2, at: Mm): Mark => between("line", local, at, at);
  if (caseAxis(part, across) === axis) return [line(across, feature.at + feature.width / 2)];
  if (caseAxis(part, along) !== axis) return [];
  return slotEnds(feature).map((at) => line(along, at));
}

/** The middle of a hole, where its row runs along the stick. */
export function holeLines(part: PlacedPart, { kind, along, from, to, holds }: SetFeature, axis: AxisIndex): Mark[] {
  const local = localIndex(along);
  if (kind !== "hole" || caseAxis(part, local) !== axis) return [];
  const at = toCase(part, local, (from + to) / 2);
  return [{ kind: "line", at, width: 0, holds: holds === null ? [] : [holds], parts: [part.mark] }];
}

/** Where a line for a slide lies across, on the stick of that way: along it, it is as long as the slide is. Of bolts, each along their line. */
export function drawnLines(
  part: PlacedPart,
  { face, along, at, holds, points, bolt }: SetLine,
  axis: AxisIndex,
): { mark: Mark; face: Face }[] {
  if (bolt !== null) {
    const run = localIndex(along);
    if (caseAxis(part, run) !== axis) return [];
    return points.map((point) => ({
      mark: { kind: "line", at: toCase(part, run, point), width: 0, holds, parts: [part.mark] },
      face,
    }));
  }
  const across = (3 - localIndex(along) - localIndex(face[0] as "l" | "w" | "t")) as 0 | 1 | 2;
  if (caseAxis(part, across) !== axis) return [];
  return [{ mark: { kind: "line", at: toCase(part, across, at), width: 0, holds, parts: [part.mark] }, face }];
}

/** A notch bigger than the part is thick (a kick's) is laid out from the stick; one that only clears a stopped groove is marked from that groove. */
function notchLines(part: PlacedPart, feature: SetFeature, axis: AxisIndex, between: Between): Mark[] {
  const local = ([0, 1] as const).find((i) => caseAxis(part, i) === axis);
  if (local === undefined) return [];
  const [from, to] = [feature.box[0][local], feature.box[1][local]];
  const other = local === 0 ? 1 : 0;
  const isSmall = Math.min(to - from, feature.box[1][other] - feature.box[0][other]) <= part.thickness;
  const size = local === 0 ? part.length : part.width;
  return isSmall ? [] : [from, to].filter((at) => at > 0 && at < size).map((at) => between("line", local, at, at));
}

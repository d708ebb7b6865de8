/**
 * From which end or edge each groove may be measured, and which grooves must be measured from the same one: those that hold one part, those
 * that face each other in a pair of sides, and those of parts that are interchangeable.
 */
import { type AxisIndex, axesOf, axisOf, signOf } from "../../base/geometry.ts";
import { isSame, SAME } from "../../base/length.ts";
import { axisOfFace, isHigh, LOCAL_AXES, type LocalAxis } from "../../set/facing.ts";
import type { DryfitSet, Face, SetFeature, SetPart } from "../../set/schema.ts";
import { type Groove, groovesOf } from "./groove.ts";

/** The low end of a case axis (left, front or bottom), or the high one. */
export type End = "low" | "high";

/** Grooves whose datums go together, and the ends they may be measured from, the preferred one first. */
export type DatumGroup = { grooves: Groove[]; ends: End[] };

type Input = Pick<DryfitSet, "parts" | "assemblies" | "drilling">;

/** The part's own end or edge at an end of the case axis across a groove. */
export function datumAt({ part, feature, cross }: Groove, end: End): Face {
  // A tongue is as long as its own end says: its shoulder is cut from there.
  if (feature.kind === "shoulder") return `${cross}${feature.at > SAME ? 1 : 0}`;
  return `${cross}${(end === "high") === runsUp(part, cross) ? 1 : 0}`;
}

/** Whether a part's own axis runs the way of the case axis that it lies along. */
const runsUp = (part: SetPart, axis: LocalAxis): boolean =>
  part.place === null || signOf(axesOf(part.place)[LOCAL_AXES.indexOf(axis)]!) === 1;

export function datumGroups(input: Input): DatumGroup[] {
  const grooves = input.parts.flatMap(groovesOf);
  const leader = grooves.map((_, i) => i);
  const leaderOf = (i: number): number => (leader[i] === i ? i : leaderOf(leader[i]!));
  const join = (i: number, j: number): void => {
    const [a, b] = [leaderOf(i), leaderOf(j)];
    leader[Math.max(a, b)] = Math.min(a, b);
  };
  const pairs = pairsOf(input);
  grooves.forEach((a, i) => {
    for (let j = 0; j < i; j++) {
      const b = grooves[j]!;
      if (holdSame(a, b) || (pairs(a.part, b.part) && faceEachOther(a, b)) || areAlike(a, b)) join(i, j);
    }
  });
  const groups = grooves.flatMap((_, i) => (leaderOf(i) === i ? [grooves.filter((_, j) => leaderOf(j) === i)] : []));
  return groups.map((members) => ({ grooves: members, ends: endsOf(members, input) }));
}

/** A shoulder is cut from its own end; where holes of the same part are measured from one end already, the grooves follow. */
function endsOf(members: readonly Groove[], { drilling, parts }: Input): End[] {
  if (members.every(({ feature }) => feature.kind === "shoulder")) return ["low"];
  const drilled = new Set(
    drilling.flatMap(({ rows }) =>
      rows.flatMap(({ mark, features, edge }): End[] => {
        const part = parts.find((one) => one.mark === mark)!;
        const held = part.features[features[0]!]!.holds;
        const across = axisOfFace(edge);
        const isHeld = members.some(
          (one) => one.feature.holds === held && caseAxis(one.part, one.cross) === caseAxis(part, across),
        );
        if (held === null || !isHeld) return [];
        return [isHigh(edge) === runsUp(part, across) ? "high" : "low"];
      }),
    ),
  );
  return drilled.size === 1 ? [...drilled] : ["low", "high"];
}

const caseAxis = (part: SetPart, axis: LocalAxis): AxisIndex | LocalAxis =>
  part.place === null ? axis : axisOf(axesOf(part.place)[LOCAL_AXES.indexOf(axis)]!);

/** Both hold one part, and both place it along the same case axis. */
const holdSame = (a: Groove, b: Groove): boolean =>
  isHolding(a.feature) &&
  isHolding(b.feature) &&
  a.feature.holds === b.feature.holds &&
  caseAxis(a.part, a.cross) === caseAxis(b.part, b.cross);

/** A shoulder makes the part that enters, and holds nothing. */
const isHolding = ({ kind }: SetFeature): boolean => kind !== "shoulder";

/** Sides that stand over against each other: of one case, or of one that enters its neighbour's. */
function pairsOf({ parts, assemblies }: Input): (a: SetPart, b: SetPart) => boolean {
  const sides = assemblies.map(
    ({ name, borrows }) =>
      new Set(
        parts
          .filter(({ role, assembly, mark }) => role === "side" && (assembly === name || borrows.includes(mark)))
          .map(({ mark }) => mark),
      ),
  );
  return (a, b) => a !== b && sides.some((marks) => marks.has(a.mark) && marks.has(b.mark));
}

/** At the same height, or the same way in from the front, in faces that look at each other. */
const faceEachOther = (a: Groove, b: Groove): boolean =>
  isHolding(a.feature) &&
  isHolding(b.feature) &&
  a.feature.face !== b.feature.face &&
  a.feature.along === b.feature.along &&
  isSame(a.feature.at, b.feature.at);

/** The same groove of two parts that are interchangeable: they have one drawing between them, and lie at the saw alike. */
const areAlike = (a: Groove, b: Groove): boolean =>
  a.part.same.includes(b.part.mark) &&
  a.feature.kind === b.feature.kind &&
  a.feature.face === b.feature.face &&
  a.feature.along === b.feature.along &&
  isSame(a.feature.at, b.feature.at);

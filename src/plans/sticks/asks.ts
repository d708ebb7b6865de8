/** Which marks of which parts go on one stick. */
import type { AxisIndex } from "../../base/geometry.ts";
import type { Mm } from "../../base/length.ts";
import type { DryfitSet, Face, SetAssembly, SetJoint, SetPart } from "../../set/schema.ts";
import { frontsOver } from "./fronts.ts";
import { caseAxis, drawnLines, holeLines, isSameBand, type Mark, marksOf, type PlacedPart, toCase } from "./marks.ts";

/** What one face of one part asks of a stick, in case coordinates; faces can part company where their grooves cross. */
export type Ask = { part: PlacedPart; marks: Mark[]; isStack?: true };

/** Walls of different grooves nearer than this cannot be told apart on one strip: the width of two knife lines and a fingernail. */
const TELL_APART: Mm = 3;

/** What is asked of the sticks of an assembly in one direction, in the groups that each share a stick. */
export const asksFor = (
  set: Pick<DryfitSet, "parts" | "joints" | "assemblies">,
  assembly: SetAssembly,
  axis: AxisIndex,
): Ask[][] => {
  const parts = set.parts.filter((part): part is PlacedPart => part.assembly === assembly.name && part.place !== null);
  return groupAsks([...asksOf(parts, axis), ...seatAsks(parts, set.joints, axis), ...frontAsks(set, assembly, axis)]);
};

/** One ask for each face that takes grooves, with the stops, holes and notches of the part; of a part without a groove this way, its holes. */
function asksOf(parts: PlacedPart[], axis: AxisIndex): Ask[] {
  return parts.flatMap((part) => {
    const marks = part.features.flatMap((feature) =>
      marksOf(part, feature, axis).map((mark) => ({ mark, face: feature.face })),
    );
    const drawn = part.lines.flatMap((line) => drawnLines(part, line, axis));
    marks.push(...drawn);
    const holes = [
      ...part.features.flatMap((feature) =>
        feature.kind === "slot" && caseAxis(part, 0) === axis
          ? marksOf(part, feature, axis)
          : holeLines(part, feature, axis),
      ),
      ...drawn.map(({ mark }) => mark),
    ];
    if (marks.every(({ mark }) => mark.kind !== "groove")) return holes.length === 0 ? [] : [{ part, marks: holes }];
    const faces = [...new Set(marks.flatMap(({ mark, face }) => (mark.kind === "groove" ? [face] : [])))];
    // Lines of a face without grooves this way stand with those of the first that has some.
    const faceOf = (face: Face): Face | undefined => (faces.includes(face) ? face : faces[0]);
    return faces.map((own) => ({
      part,
      marks: marks.flatMap(({ mark, face }) => (faceOf(face) === own ? [mark] : [])),
    }));
  });
}

const isMortised = ({ features }: SetPart): boolean => features.some(({ kind }) => kind === "stub mortise");

/** Where the ends of a part's neighbours lie on its edges: one ask for each member that some end or edge butts against. */
function seatAsks(parts: PlacedPart[], joints: readonly SetJoint[], axis: AxisIndex): Ask[] {
  return parts.flatMap((part) => {
    const ends = joints.filter(
      ({ receiving, kind, receivingFace, enteringEnd }) =>
        receiving === part.mark &&
        (kind === "butt" || (kind === "tongue" && (isMortised(part) || part.role === "doorStile"))) &&
        receivingFace[0] === "w" &&
        enteringEnd[0] === "l",
    );
    if (ends.length === 0 || caseAxis(part, 0) !== axis) return [];
    const marks = ends.flatMap(({ entering }): Mark[] => {
      const member = parts.find(({ mark }) => mark === entering);
      if (member === undefined || caseAxis(member, 1) !== axis) return [];
      const [a, b] = [toCase(member, 1, 0), toCase(member, 1, member.width)];
      return [{ kind: "seat", at: Math.min(a, b), width: Math.abs(b - a), holds: [entering], parts: [part.mark] }];
    });
    return marks.length === 0 ? [] : [{ part, marks }];
  });
}

/** Lower and upper edges of doors and drawers that stand over each other, before the outer uprights. */
function frontAsks(set: Pick<DryfitSet, "parts" | "assemblies">, assembly: SetAssembly, axis: AxisIndex): Ask[] {
  if (axis !== 2) return [];
  return frontsOver(set, assembly).flatMap(({ uprights, fronts }) =>
    uprights.map((part) => ({
      part,
      marks: fronts.flatMap(({ mark, from, to }) =>
        [from, to].map((at): Mark => ({ kind: "line", at, width: 0, holds: [mark], parts: [part.mark] })),
      ),
      isStack: true,
    })),
  );
}

const isBand = ({ kind }: Mark): boolean => kind === "groove" || kind === "seat";
const bandsIn = (asks: Ask[]): Mark[] => asks.flatMap((ask) => ask.marks.filter(isBand));

const isBandShared = (a: Ask[], b: Ask[]): boolean => bandsIn(a).some((x) => bandsIn(b).some((y) => isSameBand(x, y)));

/** Two different grooves that would run into each other on the strip. */
const areCrossed = (a: Ask[], b: Ask[]): boolean =>
  bandsIn(a).some((x) =>
    bandsIn(b).some(
      (y) => !isSameBand(x, y) && x.at < y.at + y.width + TELL_APART && y.at < x.at + x.width + TELL_APART,
    ),
  );

/**
 * Joins asks that share a band, as long as none of their grooves cross; the first that can be joined are, until none can. Holes alone
 * make no stick of their own: they are laid out from one that shows each of them. Slides and bolts do.
 */
function groupAsks(asks: Ask[]): Ask[][] {
  const groups = asks.filter((ask) => bandsIn([ask]).length > 0).map((ask) => [ask]);
  for (let i = 0; i < groups.length; i++) {
    for (let j = i + 1; j < groups.length; j++) {
      const [a, b] = [groups[i]!, groups[j]!];
      if (!isBandShared(a, b) || areCrossed(a, b)) continue;
      groups.splice(j, 1);
      a.push(...b);
      j = i; // what joined may now share a band with a group passed over
    }
  }
  for (const ask of asks.filter((one) => bandsIn([one]).length === 0)) {
    const lines = (group: Ask[]): Mark[] => group.flatMap(({ marks }) => marks.filter(({ kind }) => kind === "line"));
    const group =
      groups.find((each) => ask.marks.every((hole) => lines(each).some((line) => isSameBand(line, hole)))) ??
      (isBolted(ask) ? groups.find((each) => each.some(({ part }) => part === ask.part)) : undefined);
    if (group !== undefined) group.push(ask);
    else if (ask.part.lines.length > 0 || ask.isStack || isHeldTo(ask)) groups.push([ask]);
  }
  return groups;
}

/** A track's bolts stand on the stick that shows the seats of others on the same rail. */
const isBolted = ({ part }: Ask): boolean => part.lines.some(({ bolt }) => bolt !== null);

/** The positions of a worktop's screws along what it is screwed to. */
const isHeldTo = ({ part, marks }: Ask): boolean =>
  ["top", "stretcher"].includes(part.role) && part.features.some(({ kind }) => kind === "slot") && marks.length > 1;

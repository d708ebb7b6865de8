/** Story sticks: for each assembly and direction, the grooves, seats, stops, holes and ends of the parts that share marks, as positions on one strip. */
import { type AxisIndex, axesOf, axisOf, signOf } from "../base/geometry.ts";
import { isSame, type Mm } from "../base/length.ts";
import { endsSquare, lippedAfter, slotEnds } from "../set/facing.ts";
import type {
  DryfitSet,
  Face,
  SetAssembly,
  SetFeature,
  SetJoint,
  SetLine,
  SetPart,
  SetReprint,
  SetStick,
} from "../set/schema.ts";
import { frontsOver } from "./stick-fronts.ts";
import { layTiles } from "./stick-tiles.ts";

type Mark = SetStick["marks"][number];
type StickPart = SetStick["parts"][number];
type PlacedPart = SetPart & { place: NonNullable<SetPart["place"]> };

/** What one face of one part asks of a stick, in case coordinates; faces can part company where their grooves cross. */
type Ask = { part: PlacedPart; marks: Mark[]; isStack?: true };

/** A stick before it is tiled, still in case coordinates. */
type Draft = { axis: AxisIndex; case: string; asks: Ask[] };

const AXIS_NAMES = ["x", "y", "z"] as const;
const DIRECTION_WORDS = ["width", "depth", "height"] as const;

/** Walls of different grooves nearer than this cannot be told apart on one strip: the width of two knife lines and a fingernail. */
const TELL_APART: Mm = 3;

type StickSet = Pick<DryfitSet, "parts" | "joints" | "assemblies" | "paper" | "job">;

/** Every stick of the set on its pages; `reprint`: the others have no tiles. Throws ProblemsFound where pages cannot be joined. */
export const planSticks = (set: StickSet, reprint: SetReprint | null = null): SetStick[] =>
  layTiles(markSticks(set), set, reprint);

/** The sticks before they are cut into tiles. */
export function markSticks(set: Pick<StickSet, "parts" | "joints" | "assemblies">): SetStick[] {
  const drafts = set.assemblies.flatMap((assembly) => {
    const parts = set.parts.filter(
      (part): part is PlacedPart => part.assembly === assembly.name && part.place !== null,
    );
    return ([2, 0, 1] as const).flatMap((axis) =>
      groupAsks([...asksOf(parts, axis), ...seatAsks(parts, set.joints, axis), ...frontAsks(set, assembly, axis)]).map(
        (asks): Draft => ({ axis, case: assembly.name, asks }),
      ),
    );
  });
  const shared = shareInstances(drafts);
  return shared.map((drafts) => stickOf(drafts, nameOf(drafts, shared)));
}

const LOCAL = ["l", "w", "t"] as const;
const THICKNESS = 2;
const localIndex = (axis: "l" | "w" | "t"): 0 | 1 | 2 => LOCAL.indexOf(axis) as 0 | 1 | 2;

const toCase = (part: PlacedPart, local: 0 | 1 | 2, at: Mm): Mm => {
  const axis = axesOf(part.place)[local]!;
  return part.place.at[axisOf(axis)] + signOf(axis) * at;
};

/** The third local axis: across a groove's run, in its face. */
const acrossOf = (feature: SetFeature): 0 | 1 | 2 =>
  (3 - localIndex(feature.along) - localIndex(feature.face[0] as "l" | "w" | "t")) as 0 | 1 | 2;

const caseAxis = (part: PlacedPart, local: 0 | 1 | 2): AxisIndex => axisOf(axesOf(part.place)[local]!);

/** A mark from one local position to another, in the part's own axes. */
type Between = (kind: Mark["kind"], local: 0 | 1 | 2, from: Mm, to: Mm) => Mark;

function marksOf(part: PlacedPart, feature: SetFeature, axis: AxisIndex): Mark[] {
  // The corner of a lipping that ends at its shoulder follows from the groove.
  // Mortises are marked where the members lie together: the stick shows their seats.
  if (feature.lipping || ["shoulder", "mortise", "stub mortise", "edge"].includes(feature.kind)) return [];
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
function holeLines(part: PlacedPart, { kind, along, from, to, holds }: SetFeature, axis: AxisIndex): Mark[] {
  const local = localIndex(along);
  if (kind !== "hole" || caseAxis(part, local) !== axis) return [];
  const at = toCase(part, local, (from + to) / 2);
  return [{ kind: "line", at, width: 0, holds: holds === null ? [] : [holds], parts: [part.mark] }];
}

/** Where a line for a slide lies across, on the stick of that way; along it, it is as long as the slide is. */
function drawnLines(
  part: PlacedPart,
  { face, along, at, holds }: SetLine,
  axis: AxisIndex,
): { mark: Mark; face: Face }[] {
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
function frontAsks(set: Pick<StickSet, "parts" | "assemblies">, assembly: SetAssembly, axis: AxisIndex): Ask[] {
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

const isSameBand = (a: Mark, b: Mark): boolean => a.kind === b.kind && isSame(a.at, b.at) && isSame(a.width, b.width);

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
 * make no stick of their own: they are laid out from one that shows each of them. Slides do.
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
    const group = groups.find((each) => ask.marks.every((hole) => lines(each).some((line) => isSameBand(line, hole))));
    if (group !== undefined) group.push(ask);
    else if (ask.part.lines.length > 0 || ask.isStack || isHeldTo(ask)) groups.push([ask]);
  }
  return groups;
}

/** The positions of a worktop's screws along what it is screwed to. */
const isHeldTo = ({ part, marks }: Ask): boolean =>
  ["top", "stretcher"].includes(part.role) && part.features.some(({ kind }) => kind === "slot") && marks.length > 1;

/** From end to end of the panel as it is when the stick is laid on it: lippings put on after the grooves are not there yet. */
const runOf = (part: PlacedPart, axis: AxisIndex): { datum: Face; low: Mm; length: Mm } => {
  const local = caseAxis(part, 0) === axis ? 0 : 1;
  const letter = LOCAL[local];
  const [from, to] = [
    lippedAfter(part, `${letter}0` as Face),
    (local === 0 ? part.length : part.width) - lippedAfter(part, `${letter}1` as Face),
  ];
  const isForward = signOf(axesOf(part.place)[local]!) > 0;
  return {
    datum: `${letter}${isForward ? 0 : 1}` as Face,
    low: toCase(part, local, isForward ? from : to),
    length: to - from,
  };
};

const partsOf = (asks: Ask[]): PlacedPart[] => [...new Set(asks.map((ask) => ask.part))];

const zeroOf = ({ asks, axis }: Draft): Mm => Math.min(...partsOf(asks).map((part) => runOf(part, axis).low));

/** Position, rid of the noise that adding and taking away leaves far below a printed step. */
const clean = (at: Mm): Mm => Math.round(at * 1e9) / 1e9;

const stickParts = (draft: Draft): StickPart[] => {
  const zero = zeroOf(draft);
  return partsOf(draft.asks).map((part) => {
    const { datum, low, length } = runOf(part, draft.axis);
    return { mark: part.mark, datum, offset: clean(low - zero), length };
  });
};

const stickMarks = (draft: Draft): Mark[] => {
  const zero = zeroOf(draft);
  const ends = stickParts(draft).flatMap(({ mark, offset, length }): Mark[] =>
    [offset, offset + length].map((at) => ({ kind: "end", at, width: 0, holds: [], parts: [mark] })),
  );
  const asked = draft.asks.flatMap((ask) => ask.marks.map((mark) => ({ ...mark, at: mark.at - zero })));
  return gather([...ends, ...asked]);
};

const KINDS: Mark["kind"][] = ["end", "groove", "seat", "line"];

/** The same mark asked for by several parts is drawn once and names them all. */
function gather(marks: Mark[]): Mark[] {
  const gathered: Mark[] = [];
  for (const mark of marks) {
    const same = gathered.find((other) => isSameBand(other, mark));
    if (same === undefined) gathered.push({ ...mark, at: clean(mark.at), width: clean(mark.width) });
    else {
      same.holds = union(same.holds, mark.holds);
      same.parts = union(same.parts, mark.parts);
    }
  }
  return gathered.sort((a, b) => a.at - b.at || KINDS.indexOf(a.kind) - KINDS.indexOf(b.kind) || a.width - b.width);
}

const byNumber = (a: string, b: string): number => a.localeCompare(b, "en", { numeric: true });
const union = (a: string[], b: string[]): string[] => [...new Set([...a, ...b])].sort(byNumber);

/** What must be equal before two cases may be marked from one stick. */
function signature(draft: Draft): string {
  const pattern = new Map(partsOf(draft.asks).map((part) => [part.mark, part.pattern]));
  const round = (at: Mm): number => Math.round(at * 1e6);
  const patterns = (marks: string[]): string[] => marks.map((mark) => pattern.get(mark) ?? "").sort();
  return JSON.stringify([
    draft.axis,
    stickParts(draft)
      .map(({ mark, datum, offset, length }) => [pattern.get(mark), datum, round(offset), round(length)].join(" "))
      .sort(),
    stickMarks(draft).map(({ kind, at, width, parts }) => [kind, round(at), round(width), patterns(parts)]),
  ]);
}

/** Cases built alike share one stick: it is laid on every part that matches. */
function shareInstances(drafts: Draft[]): Draft[][] {
  const shared = new Map<string, Draft[]>();
  for (const draft of drafts) {
    const key = signature(draft);
    shared.set(key, [...(shared.get(key) ?? []), draft]);
  }
  return [...shared.values()];
}

function stickOf(drafts: Draft[], name: string): SetStick {
  const first = drafts[0]!;
  const parts = drafts.flatMap(stickParts);
  return {
    name,
    axis: AXIS_NAMES[first.axis],
    length: Math.max(...parts.map(({ offset, length }) => offset + length)),
    parts,
    marks: gather(drafts.flatMap(stickMarks)),
    print: { x: 1, y: 1 },
    tiles: [],
    long: [],
  };
}

const isStack = ({ asks }: Draft): boolean => asks.every((ask) => ask.isStack === true);

/** "console height"; "console fronts" of doors and drawers over each other; "locker 1, 2 height" for cases built alike; "console height 2" where grooves that cross need a second strip. */
function nameOf(drafts: Draft[], shared: Draft[][]): string {
  const first = drafts[0]!;
  const what = (draft: Draft): string => (isStack(draft) ? "fronts" : DIRECTION_WORDS[draft.axis]);
  const plain = `${casesInWords(drafts.map((draft) => draft.case))} ${what(first)}`;
  const alike = shared.filter(([other]) => other!.case === first.case && what(other!) === what(first));
  return alike.length === 1 ? plain : `${plain} ${alike.indexOf(drafts) + 1}`;
}

function casesInWords(names: string[]): string {
  const numbered = names.map((name) => /^(.*) (\d+)$/.exec(name));
  const base = numbered[0]?.[1];
  const isRow = names.length > 1 && base !== undefined && numbered.every((found) => found?.[1] === base);
  return isRow ? `${base} ${numbered.map((found) => found?.[2]).join(", ")}` : names.join(", ");
}

/**
 * What is screwed, dowelled or glued flat to a part's face: where it lies on the face, and where the screws and dowels go. A
 * joint whose screws the shop spaces itself gives the line that they stand on.
 */
import { type Box, boxToInner, boxToOuter, type Place } from "../base/geometry.ts";
import { isSame, type Mm, SAME } from "../base/length.ts";
import type { DryfitSet, Face, SetJoint, SetPart } from "./schema.ts";
import { partOf } from "./words.ts";

type BroadFace = "t0" | "t1";

export type Fastening = {
  entering: string;
  face: BroadFace;
  /** glue: what lies flat on the face and nothing else holds. */
  kind: "screw" | "dowel" | "glue";
  fixings: string;
  /** The face's own axis that screws or dowels follow, and where they stand across it. */
  along: "l" | "w";
  at: Mm;
  /** Along it; null: spaced by the shop. */
  positions: readonly Mm[] | null;
  /** From face to face: as many as such a row has are told in words, where the dimensions of the view have no room for them. */
  isFlat: boolean;
  /** What the other part covers of the face, as a box through the part's thickness. */
  covers: Box;
  /** Across what screws follow, from the face's low edge to the nearer face of the other part, or to its far one where the nearer is beyond that edge. */
  reach: Mm;
  isFar: boolean;
  /** The other part stands out beyond the face's high edge. */
  isBeyond: boolean;
};

/** The blank of a part where it stands in the room. */
export function boxOfPart(set: DryfitSet, part: SetPart): Box {
  const { place } = set.assemblies.find(({ name }) => name === part.assembly)!;
  return boxToOuter(
    place as Place,
    boxToOuter(part.place as Place, [
      [0, 0, 0],
      [part.length, part.width, part.thickness],
    ]),
  );
}

/** Another part in a part's own axes. */
function besideIt(set: DryfitSet, part: SetPart, entering: SetPart): Box {
  const { place } = set.assemblies.find(({ name }) => name === part.assembly)!;
  return boxToInner(part.place as Place, boxToInner(place as Place, boxOfPart(set, entering)));
}

/** Of that, what lies on the part's blank. */
function coveredBy(part: SetPart, [lo, hi]: Box): Box {
  return [
    [Math.max(0, lo[0]), Math.max(0, lo[1]), 0],
    [Math.min(part.length, hi[0]), Math.min(part.width, hi[1]), part.thickness],
  ];
}

/** Screws and dowels go through or into the face of the part that offers it: the other only has its end or edge there. */
const isFastened = ({ kind, fixings, receivingFace }: SetJoint): boolean =>
  (/screws|dowels/.test(fixings) || (kind === "face" && fixings === "glue")) && receivingFace[0] === "t";

export function fasteningsOf(set: DryfitSet, part: SetPart): Fastening[] {
  return set.joints
    .filter((joint) => joint.receiving === part.mark && isFastened(joint) && part.place !== null)
    .map((joint): Fastening => {
      const beside = besideIt(set, part, partOf(set, joint.entering));
      const covers = coveredBy(part, beside);
      const [lo, hi] = covers;
      const [length, width] = [hi[0] - lo[0], hi[1] - lo[1]];
      const along = joint.fasteners?.along === "l" || (joint.fasteners === null && length > width) ? "l" : "w";
      const across = along === "l" ? 1 : 0;
      const size = across === 0 ? part.length : part.width;
      const isFar = beside[0][across] < -SAME && beside[1][across] < size + SAME;
      return {
        entering: joint.entering,
        face: joint.receivingFace as BroadFace,
        kind: joint.fixings === "glue" ? "glue" : joint.fasteners?.kind === "dowel" ? "dowel" : "screw",
        fixings: joint.fixings,
        along,
        at: joint.fasteners?.at ?? (along === "l" ? (lo[1] + hi[1]) / 2 : (lo[0] + hi[0]) / 2),
        positions: joint.fasteners?.positions ?? null,
        isFlat: joint.enteringEnd[0] === "t",
        covers,
        reach: isFar ? hi[across] : lo[across],
        isFar,
        isBeyond: beside[1][across] > size + SAME && beside[0][across] > SAME,
      };
    });
}

/** Marks of the parts through whose faces this one is held by its ends or edges, with how. */
export const heldThrough = (set: DryfitSet, part: SetPart): { mark: string; fixings: string }[] =>
  set.joints
    .filter((joint) => joint.entering === part.mark && isFastened(joint))
    .map(({ receiving, fixings }) => ({ mark: receiving, fixings }));

/** Half turns about a part's own axes, and none: which of l, w and t change sign. */
const TURNS: readonly (readonly [boolean, boolean, boolean])[] = [
  [false, false, false],
  [true, true, false],
  [true, false, true],
  [false, true, true],
];

type Turn = (typeof TURNS)[number];

const turned = (at: Mm, size: Mm, isTurned: boolean): Mm => (isTurned ? size - at : at);

const asText = (figures: readonly Mm[]): string =>
  figures.map((figure) => (Math.abs(figure) < 5e-5 ? 0 : figure).toFixed(4)).join(" ");

/** Everything cut into or fastened to a part, its marks left out, as it lies after a half turn. */
function workOf(set: DryfitSet, part: SetPart, turn: Turn): string {
  const sizes = [part.length, part.width, part.thickness];
  const cut = part.features.map(({ kind, box: [lo, hi] }) => {
    const [a, b] = [lo, hi].map((corner) => corner.map((at, i) => turned(at, sizes[i]!, turn[i]!)));
    return `${kind} ${asText(a!.map((at, i) => Math.min(at, b![i]!)))} ${asText(a!.map((at, i) => Math.max(at, b![i]!)))}`;
  });
  const fastened = fasteningsOf(set, part).map(({ face, kind, along, at, positions }) => {
    const [run, across] = along === "l" ? ([0, 1] as const) : ([1, 0] as const);
    const places = (positions ?? []).map((place) => turned(place, sizes[run]!, turn[run]!)).sort((a, b) => a - b);
    const side = (face === "t1") !== turn[2] ? "t1" : "t0";
    return `${kind} ${side} ${along} ${asText([turned(at, sizes[across]!, turn[across]!), ...places])}`;
  });
  return [...cut, ...fastened].sort().join("\n");
}

/** The half turns, or none, after which all work on the second part lies as it does on the first; the first as far as names go is none. */
function turnsBetween(set: DryfitSet, a: SetPart, b: SetPart): Turn[] {
  if (![a.length - b.length, a.width - b.width, a.thickness - b.thickness].every((gap) => isSame(gap, 0))) return [];
  const work = workOf(set, a, TURNS[0]!);
  return TURNS.filter((turn) => workOf(set, b, turn) === work);
}

/** Whether one drawing serves both of two parts of a pattern: what is fastened to them is, too, however they are turned. */
export const isMadeAlike = (set: DryfitSet, a: SetPart, b: SetPart): boolean => turnsBetween(set, a, b).length > 0;

const AXES = ["l", "w", "t"] as const;

const turnedFace = (face: Face, turn: Turn): Face =>
  turn[AXES.indexOf(face[0] as "l")] ? (`${face[0]}${face[1] === "1" ? 0 : 1}` as Face) : face;

/** How what is told of one part reads for another that is made alike: its faces, and the parts that it holds or that are fastened to it, by theirs. */
export type Alike = { faces: (face: Face) => Face; marks: ReadonlyMap<string, readonly string[]> };

/** Null where the two are not made alike. */
export function alikeTo(set: DryfitSet, a: SetPart, b: SetPart): Alike | null {
  const turns = turnsBetween(set, a, b);
  const isShown = (turn: Turn): boolean =>
    a.show.length === b.show.length && a.show.every((face) => b.show.includes(turnedFace(face, turn)));
  const turn = turns.find(isShown) ?? turns[0];
  if (turn === undefined) return null;
  const sizes = [a.length, a.width, a.thickness];
  const middle = ({ box: [lo, hi] }: SetPart["features"][number], way: Turn): number[] =>
    lo.map((low, i) => turned((low + hi[i]!) / 2, sizes[i]!, way[i]!));
  const near = (one: readonly Mm[], other: readonly Mm[]): boolean => one.every((at, i) => isSame(at, other[i]!));
  const marks = new Map<string, string[]>();
  const tell = (own: string, other: string): void => {
    const known = marks.get(own) ?? [];
    if (!known.includes(other)) marks.set(own, [...known, other]);
  };
  for (const feature of a.features) {
    if (feature.holds === null) continue;
    const at = middle(feature, TURNS[0]!);
    const same = b.features.filter((one) => one.kind === feature.kind && near(middle(one, turn), at));
    for (const { holds } of same) if (holds !== null) tell(feature.holds, holds);
  }
  const others = fasteningsOf(set, b);
  const placeOf = ({ along, at, covers: [lo, hi] }: Fastening, way: Turn): number[] => [
    ...[0, 1].map((i) => turned((lo[i]! + hi[i]!) / 2, sizes[i]!, way[i]!)),
    turned(at, sizes[along === "l" ? 1 : 0]!, way[along === "l" ? 1 : 0]!),
  ];
  for (const own of fasteningsOf(set, a)) {
    const place = placeOf(own, TURNS[0]!);
    const same = others.filter(
      (one) => one.along === own.along && turnedFace(own.face, turn) === one.face && near(placeOf(one, turn), place),
    );
    for (const { entering } of same) tell(own.entering, entering);
  }
  a.lines.forEach(({ holds }, i) => {
    holds.forEach((own, n) => {
      const other = b.lines[i]?.holds[n];
      if (other !== undefined) tell(own, other);
    });
  });
  return { faces: (face) => turnedFace(face, turn), marks };
}

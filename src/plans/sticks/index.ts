/** Story sticks: for each assembly and direction, the grooves, seats, stops, holes and ends of the parts that share marks, as positions on one strip. */
import { type AxisIndex, axesOf, signOf } from "../../base/geometry.ts";
import type { Mm } from "../../base/length.ts";
import { lippedAfter } from "../../set/facing.ts";
import type { DryfitSet, Face, SetReprint, SetStick } from "../../set/schema.ts";
import { type Ask, asksFor } from "./asks.ts";
import { caseAxis, isSameBand, LOCAL, type Mark, type PlacedPart, toCase } from "./marks.ts";
import { layTiles } from "./tiles.ts";

type StickPart = SetStick["parts"][number];

/** A stick before it is tiled, still in case coordinates. */
type Draft = { axis: AxisIndex; case: string; asks: Ask[] };

const AXIS_NAMES = ["x", "y", "z"] as const;
const DIRECTION_WORDS = ["width", "depth", "height"] as const;

type StickSet = Pick<DryfitSet, "parts" | "joints" | "assemblies" | "paper" | "job">;

/** Every stick of the set on its pages; `reprint`: the others have no tiles. Throws ProblemsFound where pages cannot be joined. */
export const planSticks = (set: StickSet, reprint: SetReprint | null = null): SetStick[] =>
  layTiles(markSticks(set), set, reprint);

/** The sticks before they are cut into tiles. */
export function markSticks(set: Pick<StickSet, "parts" | "joints" | "assemblies">): SetStick[] {
  const drafts = set.assemblies.flatMap((assembly) =>
    ([2, 0, 1] as const).flatMap((axis) =>
      asksFor(set, assembly, axis).map((asks): Draft => ({ axis, case: assembly.name, asks })),
    ),
  );
  const shared = shareInstances(drafts);
  return shared.map((drafts) => stickOf(drafts, nameOf(drafts, shared)));
}

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

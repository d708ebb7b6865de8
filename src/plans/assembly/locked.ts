/** Why parts cannot be brought together, and what would free them: only what taking the changed assembly apart confirms is said. */
import { signOf } from "../../base/geometry.ts";
import type { Mm } from "../../base/length.ts";
import { listInWords } from "../../base/words.ts";
import type { SetAssembly, SetFeature, SetJoint, SetOrder, SetPart } from "../../set/schema.ts";
import { bit, has, indicesOf, type Parts } from "./bits.ts";
import { type Blocking, blockingOf } from "./blocking.ts";
import { lockedIn } from "./taking-apart.ts";
import { WAYS } from "./ways.ts";
import { axisIn, cutOut, type Wood } from "./wood.ts";

type Locked = NonNullable<SetOrder["locked"]>;
type Input = {
  wood: readonly Wood[];
  joints: readonly SetJoint[];
  step: Mm;
  finished: readonly Parts[];
  group: Parts; // all that is to be taken apart: the assembly, or a glue-up
};

/** A groove that ends short of its part's edge, and where that edge looks. */
type Stop = { owner: number; feature: number; high: boolean; way: number };

export function explainLock(assembly: SetAssembly, input: Input, stuck: readonly Parts[]): Locked {
  const blocking = blockingOf(input.wood, input.joints, input.step, input.finished);
  const parts = stuck.flatMap(indicesOf).sort((a, b) => a - b);
  const found = stuck.map((core) => explainCore(assembly, input, blocking, core));
  return {
    parts: parts.map((i) => input.wood[i]!.part.mark),
    text: found.map(({ text }) => text).join(" "),
    change: found.map(({ change }) => change).join(" "),
  };
}

function explainCore(
  assembly: SetAssembly,
  input: Input,
  blocking: Blocking,
  core: Parts,
): Pick<Locked, "text" | "change"> {
  const { wood } = input;
  const name = (i: number): string => nameOf(wood[i]!.part);
  const names = (indices: readonly number[]): string => listInWords(indices.map(name));
  const members = indicesOf(core);
  const finished = members.filter((i) => input.finished.some((group) => has(group, i)));
  const others = members.filter((i) => !finished.includes(i));
  const caught = others.length > 0 ? others : members;
  const stops = caught.flatMap((i) => stopsHolding(input, i, members));
  const rest = members.filter((i) => !caught.includes(i));
  const into =
    rest.length === 0
      ? `${names(caught)} of ${assembly.name} cannot be brought together one after another, nor up to four of them at once`
      : `${names(caught)} cannot be brought into ${names(rest)} of ${assembly.name}, declared one finished glue-up`;
  const why = [...stopWords(stops, wood), ...caught.flatMap((i) => captureWords(blocking, i, members, stops, wood))];
  const ways = waysOut(input, core, caught, finished, stops);
  const change =
    ways.length > 0
      ? `${ways.join("; or ")}.`
      : "No single change frees them: opening the stopped ends, leaving one part off or out of a glue-up was tried. Draw the joints anew.";
  return { text: `${into}${why.length > 0 ? `: ${why.join("; ")}` : ""}.`, change: upperFirst(change) };
}

/** Stopped ends of grooves that hold a part, in the parts around it. */
function stopsHolding({ wood }: Input, part: number, members: readonly number[]): Stop[] {
  const { mark } = wood[part]!.part;
  return members.flatMap((owner) =>
    wood[owner]!.part.features.flatMap((feature, f): Stop[] =>
      feature.holds === mark && feature.kind === "groove" ? stopsOf(wood[owner]!, owner, feature, f) : [],
    ),
  );
}

function stopsOf({ part, place }: Wood, owner: number, feature: SetFeature, f: number): Stop[] {
  const size = { l: part.length, w: part.width, t: part.thickness }[feature.along];
  const toward = signOf(place[feature.along]);
  const axis = axisIn(place, feature.along);
  const at = (high: boolean): Stop => ({ owner, feature: f, high, way: axis * 2 + (toward > 0 === high ? 0 : 1) });
  return [...(feature.from > 0 ? [at(false)] : []), ...(feature.to < size ? [at(true)] : [])];
}

/** By the way out: right, left, back, front, up, down. */
const END_WORDS = ["right", "left", "rear", "front", "upper", "lower"] as const;
const IN_WORDS = ["from the right", "from the left", "from behind", "from the front", "from above", "from below"];

function stopWords(stops: readonly Stop[], wood: readonly Wood[]): string[] {
  const bySubject = groupBy(stops, ({ owner, feature }) => wood[owner]!.part.features[feature]!.holds!);
  return bySubject.map(([mark, own]) => {
    const part = wood.find((one) => one.part.mark === mark)!.part;
    const ends = [...new Set(own.map(({ way }) => END_WORDS[way]!))];
    const owners = [...new Set(own.map(({ owner }) => nameOf(wood[owner]!.part)))];
    return `the grooves for ${nameOf(part)} in ${listInWords(owners)} stop short of the ${listInWords(ends)} edge`;
  });
}

/** What stands in the way of a part on every side that no stopped end explains. */
function captureWords(
  { inTheWay }: Blocking,
  part: number,
  members: readonly number[],
  stops: readonly Stop[],
  wood: readonly Wood[],
): string[] {
  const stopped = stops
    .filter(({ owner, feature }) => wood[owner]!.part.features[feature]!.holds === wood[part]!.part.mark)
    .map(({ way }) => way);
  const walls = [...WAYS.keys()]
    .filter((way) => !stopped.includes(way))
    .flatMap((way) => {
      const blockers = members.filter((i) => i !== part && has(inTheWay[way]![part]!, i));
      return blockers.length === 0
        ? []
        : [`${IN_WORDS[way]} by ${listInWords(blockers.map((i) => nameOf(wood[i]!.part)))}`];
    });
  return walls.length === 0 ? [] : [`${nameOf(wood[part]!.part)} is shut in ${listInWords(walls)}`];
}

/** Changes that were tried and do free the parts. */
function waysOut(
  input: Input,
  core: Parts,
  caught: readonly number[],
  finished: readonly number[],
  stops: readonly Stop[],
): string[] {
  const { wood } = input;
  const name = (i: number): string => nameOf(wood[i]!.part);
  const opened = groupBy(
    stops,
    ({ way, owner, feature }) => `${way} ${wood[owner]!.part.features[feature]!.holds}`,
  ).flatMap(([, ends]): string[] => {
    if (lockedAfter({ ...input, wood: withOpenEnds(wood, ends) }, core)) return [];
    const [{ way }] = ends as [Stop];
    const owners = [...new Set(ends.map(({ owner }) => name(owner)))];
    const mark = wood[ends[0]!.owner]!.part.features[ends[0]!.feature]!.holds!;
    const part = wood.find((one) => one.part.mark === mark)!.part;
    return [
      `let the grooves for ${nameOf(part)} in ${listInWords(owners)} run out at the ${END_WORDS[way]} edge, and it slides in ${IN_WORDS[way]}`,
    ];
  });
  const leftOut = finished.flatMap((i): string[] => {
    const groups = input.finished.map((group) => group & ~bit(i));
    return lockedAfter({ ...input, finished: groups }, core) ? [] : [`leave ${name(i)} out of the finished glue-up`];
  });
  const leftOff = (finished.length > 0 ? caught : indicesOf(core)).flatMap((i): string[] =>
    lockedAfter(input, core & ~bit(i)) ? [] : [`leave ${name(i)} off`],
  );
  const tried = [...opened, ...leftOut];
  return tried.length > 0 ? tried : leftOff;
}

const lockedAfter = ({ wood, joints, step, finished }: Input, core: Parts): boolean =>
  lockedIn(blockingOf(wood, joints, step, finished), core).length > 0;

/** The parts with some grooves run out through the edge where they stopped. */
function withOpenEnds(wood: readonly Wood[], ends: readonly Stop[]): Wood[] {
  return wood.map((one, i) => {
    const own = ends.filter(({ owner }) => owner === i);
    if (own.length === 0) return one;
    const features = one.part.features.map((feature, f): SetFeature => {
      const index = { l: 0, w: 1, t: 2 }[feature.along];
      const size = [one.part.length, one.part.width, one.part.thickness][index]!;
      const box: SetFeature["box"] = [[...feature.box[0]], [...feature.box[1]]];
      for (const { high } of own.filter((end) => end.feature === f)) {
        if (high) box[1][index] = size;
        else box[0][index] = 0;
      }
      return { ...feature, box };
    });
    return cutOut({ ...one.part, features }, one.place, one.borrowed);
  });
}

const nameOf = ({ name, mark }: SetPart): string => `${name} ${mark}`;
const upperFirst = (text: string): string => `${text.charAt(0).toUpperCase()}${text.slice(1)}`;

function groupBy<T>(items: readonly T[], keyOf: (item: T) => string): [string, T[]][] {
  const groups = new Map<string, T[]>();
  for (const item of items) groups.set(keyOf(item), [...(groups.get(keyOf(item)) ?? []), item]);
  return [...groups];
}

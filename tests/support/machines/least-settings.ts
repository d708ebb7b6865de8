/**
 * The least number of settings by two other routes: every choice of datums tried, and choices taken out one after another, each leaving a
 * table of what the rest may come to (elimination of variables). Both begin with what the grooves ask for, reckoned here afresh from the
 * parts' boxes in the case, with the words of the rules and not the plan's.
 */
import type { Mm } from "../../../src/base/length.ts";
import type { Tooling } from "../../../src/project/tooling.ts";
import type { DryfitSet, SetFeature, SetPart } from "../../../src/set/schema.ts";
import { isInRows, passOf } from "./cut-back.ts";

type Job = Pick<DryfitSet, "parts" | "assemblies" | "drilling">;
type Axis = "l" | "w" | "t";

/** What a group of grooves that go together asks for, measured from the low end and from the high one. */
export type Group = { low: string[]; high: string[] | null };

const sizeOf = (part: SetPart, axis: Axis): Mm => ({ l: part.length, w: part.width, t: part.thickness })[axis];
const LETTERS: readonly Axis[] = ["l", "w", "t"];
const acrossOf = ({ along, face }: SetFeature): Axis => LETTERS.find((axis) => axis !== along && axis !== face[0])!;
const micro = (length: Mm): string => (Math.round(length * 1e5 + 0.137) / 1e5).toFixed(5);

type Cut = { part: SetPart; feature: SetFeature; across: Axis; words: string[] };

/** Grooves that share one of these words go together. */
function cutsOf({ parts, assemblies }: Job): Cut[] {
  return parts.flatMap((part) =>
    part.features.flatMap((feature): Cut[] => {
      if (!isInRows(feature)) return [];
      const across = acrossOf(feature);
      const way = part.place?.[across].slice(1) ?? across;
      const at = micro(feature.at);
      const words = [`self ${part.mark} ${feature.face} ${feature.along} ${at} ${micro(feature.from)}`];
      if (feature.kind !== "shoulder") {
        words.push(`holds ${feature.holds} ${way}`);
        if (part.role === "side") {
          // One word for both faces of the room between two sides: the room is named for the assembly it belongs to.
          for (const { name, borrows } of assemblies) {
            const sides = parts.filter(
              (one) => one.role === "side" && (one.assembly === name || borrows.includes(one.mark)),
            );
            if (!sides.includes(part)) continue;
            for (const other of sides) {
              const seen = other.features.find(
                (one) =>
                  other !== part &&
                  one.kind !== "shoulder" &&
                  one.along === feature.along &&
                  one.face !== feature.face &&
                  micro(one.at) === at,
              );
              if (seen)
                words.push(
                  `faces ${[`${part.mark}${feature.face}`, `${other.mark}${seen.face}`].sort().join(" ")} ${feature.along} ${at}`,
                );
            }
          }
        }
      }
      const family = [part.mark, ...part.same].sort().join(",");
      words.push(`alike ${family} ${feature.kind} ${feature.face} ${feature.along} ${at}`);
      return [{ part, feature, across, words }];
    }),
  );
}

export function groupsOf(set: Job, tooling: Tooling): Group[] {
  const cuts = cutsOf(set);
  const groups: Cut[][] = [];
  for (const cut of cuts) {
    const met = groups.filter((group) => group.some(({ words }) => words.some((word) => cut.words.includes(word))));
    for (const group of met) groups.splice(groups.indexOf(group), 1);
    groups.push([...met.flat(), cut]);
  }
  return groups.map((group): Group => {
    const low = group.map((cut) => asked(cut, false, tooling));
    const high = group.map((cut) => asked(cut, true, tooling));
    const missing = (list: (string | null)[]): number => list.filter((one) => one === null).length;
    const only = (list: (string | null)[]): string[] => list.filter((one) => one !== null);
    const fixed =
      fixedEnd(group, set) ?? (missing(low) === missing(high) ? null : missing(low) < missing(high) ? "low" : "high");
    if (fixed !== null) return { low: only(fixed === "low" ? low : high), high: null };
    return { low: only(low), high: only(high) };
  });
}

/** Where dowels hold the same part, the edge that these are measured from. */
function fixedEnd(group: readonly Cut[], { parts, drilling }: Job): "low" | "high" | null {
  const ends = new Set<"low" | "high">();
  for (const { rows } of drilling) {
    for (const { mark, features, edge } of rows) {
      const part = parts.find((one) => one.mark === mark)!;
      const signed = part.place![edge[0] as Axis];
      const held = part.features[features[0]!]!.holds;
      const meets = group.some(
        (cut) =>
          held !== null &&
          cut.feature.kind !== "shoulder" &&
          cut.feature.holds === held &&
          cut.part.place![cut.across][1] === signed[1],
      );
      if (meets) ends.add((edge[1] === "1") === (signed[0] === "+") ? "high" : "low");
    }
  }
  return ends.size === 1 ? [...ends][0]! : null;
}

/** Machine, cutter, height and fence, in one line; null where no tool of the shop fits. */
function asked({ part, feature, across }: Cut, fromHigh: boolean, { saw, router }: Tooling): string | null {
  const size = sizeOf(part, across);
  const later = (end: "0" | "1"): Mm =>
    part.lippings
      .filter(({ edge, lipped }) => edge === `${across}${end}` && lipped === "after")
      .reduce((sum, { thickness }) => sum + thickness, 0);
  const isHigh =
    feature.kind === "shoulder"
      ? feature.at > 1e-5
      : fromHigh === (part.place === null || part.place[across][0] === "+");
  const near = isHigh ? size - (feature.at + feature.width) - later("1") : feature.at - later("0");
  const opens = Math.abs(near) < 1e-5;
  const fence = opens ? near + feature.width : near;
  const run = sizeOf(part, feature.along);
  const missing = (end: "0" | "1"): Mm =>
    part.lippings.find(({ edge, lipped }) => edge === `${feature.along}${end}` && lipped === "after")?.thickness ?? 0;
  const pass = passOf(part, feature);
  const stops = pass.ends.some((end, i) => {
    if (end === "through") return false;
    const lipping = part.lippings.find(({ edge, lipped }) => edge === `${feature.along}${i}` && lipped === "after");
    const short = i === 0 ? pass.from : run - pass.to;
    return end === "open" || lipping === undefined || Math.abs(short - lipping.thickness) > 1e-5;
  });
  const carrier = run >= size ? "fence" : "sled";
  const depth = run - missing("0") - missing("1");
  const carried =
    carrier === "fence"
      ? near <= saw.rip + 1e-5
      : size <= saw.sled + 1e-5 && depth <= saw.sledDepth + 1e-5 && near <= saw.stop + 1e-5;
  const least = feature.kind === "shoulder" ? 0 : saw.dado.least;
  // A lap is cut pass beside pass, however wide it is.
  const isLap = feature.kind === "lap";
  const sawn = !stops && carried && (isLap || (feature.width >= least - 1e-5 && feature.width <= saw.dado.most + 1e-5));
  const figures = [feature.kind, opens, micro(feature.width), micro(feature.depth), micro(fence)].join(" ");
  if (sawn) return `saw ${carrier} ${figures}`;
  const fits = router.bits.some(
    ({ diameter, reach }) =>
      reach >= feature.depth - 1e-5 &&
      (isLap || (diameter <= feature.width + 1e-5 && 2 * diameter >= feature.width - 1e-5)),
  );
  return fits ? `router ${figures}` : null;
}

export const countOf = (groups: readonly Group[], isHigh: (i: number) => boolean): number =>
  new Set(groups.flatMap(({ low, high }, i) => (high !== null && isHigh(i) ? high : low))).size;

/** Every choice of datums, one after the other. */
export function leastByTrying(groups: readonly Group[]): number {
  const free = groups.flatMap(({ high }, i) => (high === null ? [] : [i]));
  if (free.length > 16) throw new Error(`${free.length} groups are too many to try every choice`);
  let least = Number.POSITIVE_INFINITY;
  for (let choice = 0; choice < 2 ** free.length; choice++) {
    least = Math.min(
      least,
      countOf(groups, (i) => free.includes(i) && Math.floor(choice / 2 ** free.indexOf(i)) % 2 === 1),
    );
  }
  return least;
}

/** A table over some groups: the cost of each choice of theirs, as text of 0 (low) and 1 (high), in the order of `scope`. */
type Table = { scope: number[]; cost: Map<string, number> };

const choicesOf = (groups: readonly Group[], scope: readonly number[]): string[] =>
  scope.reduce<string[]>(
    (texts, i) => texts.flatMap((text) => (groups[i]!.high === null ? [`${text}0`] : [`${text}0`, `${text}1`])),
    [""],
  );

/** One table for each setting that anybody asks for: 1 where one of them does, 0 where none. Null where a table would span more than `widest`. */
export function leastByElimination(groups: readonly Group[], widest = 20): number | null {
  const names = [...new Set(groups.flatMap(({ low, high }) => [...low, ...(high ?? [])]))];
  const asking = (name: string): number =>
    groups.filter(({ low, high }) => high !== null && (low.includes(name) || high.includes(name))).length;
  if (names.some((name) => asking(name) > widest)) return null;
  let tables = names.map((name): Table => {
    const scope = groups.flatMap(({ low, high }, i) => (low.includes(name) || high?.includes(name) ? [i] : []));
    const asks = (text: string): boolean =>
      scope.some((i, at) => (text[at] === "1" ? groups[i]!.high! : groups[i]!.low).includes(name));
    return { scope, cost: new Map(choicesOf(groups, scope).map((text) => [text, asks(text) ? 1 : 0])) };
  });
  const left = new Set(groups.map((_, i) => i));
  while (left.size > 0) {
    // The one that meets fewest others goes next.
    const metBy = (i: number): Set<number> =>
      new Set(tables.filter(({ scope }) => scope.includes(i)).flatMap(({ scope }) => scope));
    const next = [...left].reduce((best, i) => (metBy(i).size < metBy(best).size ? i : best));
    left.delete(next);
    const scope = [...metBy(next)].filter((i) => i !== next).sort((a, b) => a - b);
    if (scope.filter((i) => groups[i]!.high !== null).length > widest) return null;
    const own = tables.filter((table) => table.scope.includes(next));
    const cost = new Map(
      choicesOf(groups, scope).map((text) => {
        const sums = choicesOf(groups, [next]).map((mine) => {
          const choice = new Map([[next, mine], ...scope.map((i, at): [number, string] => [i, text[at]!])]);
          return own.reduce((sum, table) => sum + table.cost.get(table.scope.map((i) => choice.get(i)!).join(""))!, 0);
        });
        return [text, Math.min(...sums)] as const;
      }),
    );
    tables = [...tables.filter((table) => !own.includes(table)), { scope, cost }];
  }
  return tables.reduce((sum, { cost }) => sum + cost.get("")!, 0);
}

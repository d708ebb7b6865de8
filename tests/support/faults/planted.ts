/** Every fault planted in a set, one after another, and whether the dry fit names the part; the table that is told of it. */
import { dryFit } from "../../../src/audit/dryfit.ts";
import { checkSettings } from "../../../src/audit/plans/settings.ts";
import type { DryfitSet, SetCheck } from "../../../src/set/schema.ts";
import { IS_WHOLE } from "../runs.ts";
import { plantDrillingFaults } from "./drilling-faults.ts";
import { plantFastenerFaults } from "./fastener-faults.ts";
import { bare, type Excluded, type Fault, plantFaults } from "./faults.ts";
import { plantOrderFaults } from "./order-faults.ts";
import { plantSettingFaults } from "./setting-faults.ts";

/** Checks that know nothing but where the wood is. */
const BY_THE_WOOD: readonly string[] = [
  "overlap",
  "groove-empty",
  "groove-fill",
  "run-out",
  "groove-crossed",
  "wall",
  "groove-width",
  "seat",
  "slip",
  "reach",
  "free-end",
  "notch",
  "lap",
  "dovetail",
  "envelope",
  "flush",
  "shoulder",
  "dowel",
  "tenon",
  "pins",
  "lipping",
  "open-end",
  "door",
  "door-gap",
  "door-hinges",
  "track",
  "track-lap",
  "track-meet",
  "track-way",
  "slider",
  "slider-groove",
  "slider-sum",
  "slider-travel",
  "slider-lift",
  "slider-pull",
  "drawer-box",
  "return",
  "frame",
  "frame-cover",
  "feet",
  "skirting",
  "worktop",
  "worktop-slot",
  "worktop-screw",
];

/** Faults of figures: wood of another thickness, or none, may well stand free of everything. */
const BY_FIGURES: readonly string[] = [
  "length between two steps",
  "missing, its piece still on the list",
  "of the wrong stock",
  "place left-handed",
  "too thick",
  "too thin",
  "hole too deep",
  "hole too shallow",
];

export type Result = { kind: string; mark: string; found: boolean };
/** What was tried and found; how many faults there are in all; what was left out, and why. */
export type Judged = { results: Result[]; planted: number; excluded: Excluded[] };

/** By `npm test` one fault in so many of a kind is tried, on parts spread over the set; by `npm run prove` each. */
const ONE_IN = 10;

/** Of each kind its first fault, and every so many after it. */
function tried(faults: readonly Fault[]): Fault[] {
  if (IS_WHOLE) return [...faults];
  const seen = new Map<string, number>();
  return faults.filter(({ kind }) => {
    const before = seen.get(kind) ?? 0;
    seen.set(kind, before + 1);
    return before % ONE_IN === 0;
  });
}

const failuresIn = (set: DryfitSet): SetCheck[] => dryFit(set).filter(({ level }) => level === "failure");

/** What the dry fit finds in a set that nobody touched: nothing, with its joints and without. */
export const foundUntouched = (set: DryfitSet): string[] =>
  [...failuresIn(set), ...failuresIn(bare(set))].map(({ text }) => text);

const names = (checks: readonly SetCheck[], blame: readonly string[]): boolean =>
  checks.some(({ parts }) => parts.some((mark) => blame.includes(mark)));

function isFoundInWood({ kind, blame, set, joined }: Fault): boolean {
  const wood = failuresIn(set).filter(({ id }) => BY_FIGURES.includes(kind) || BY_THE_WOOD.includes(id));
  return names(wood, blame) || (joined !== undefined && names(failuresIn(joined), blame));
}

const judge = (faults: readonly Fault[], excluded: Excluded[], isFound: (fault: Fault) => boolean): Judged => ({
  results: tried(faults).map((fault) => ({ kind: fault.kind, mark: fault.mark, found: isFound(fault) })),
  planted: faults.length,
  excluded,
});

/** Faults of size, place, feature and hand, of what is missing or too many, and of rounding. */
export function judgeParts(set: DryfitSet): Judged {
  const { faults, excluded } = plantFaults(set);
  return judge(faults, excluded, isFoundInWood);
}

/** Faults of orders, of drilling, and of screws and dowels: the wood is right, and what is told of it is not. */
export function judgePlans(set: DryfitSet): Judged {
  const planted = [plantOrderFaults(set), plantDrillingFaults(set), plantFastenerFaults(set)];
  return judge(
    planted.flatMap(({ faults }) => faults),
    planted.flatMap(({ excluded }) => excluded),
    ({ blame, set: spoiled }) => names(failuresIn(spoiled), blame),
  );
}

/** Faults of settings: each part of one is to be named. */
export function judgeSettings(set: DryfitSet): Judged {
  const { faults, excluded } = plantSettingFaults(set);
  const isFound = ({ blame, set: spoiled }: Fault): boolean => {
    const named = checkSettings(spoiled).flatMap(({ parts }) => parts);
    return blame.every((mark) => named.includes(mark));
  };
  return judge(faults, excluded, isFound);
}

export const missedIn = ({ results }: Judged): string[] =>
  results.filter(({ found }) => !found).map(({ kind, mark }) => `${kind}: ${mark}`);

/** Why a fault may be left out. A reason that is not here is an excuse. */
const REASONS: readonly RegExp[] = [
  /^a filler strip's inner edge is free$/,
  /^the upper edge of a return's strip is free$/,
  /^a loose shelf is free before and behind$/,
  /^a rabbet's open side stays at the edge: planted as wider and narrower$/,
  /^a screw may stand anywhere (along|in sound wood)$/,
  /^a strip over a divider may stand a little beside it$/,
  /^another groove takes away the wood there$/,
  /^it goes right through$/,
  /^it has no hand$/,
  /^it is cut out of a free edge: nothing stands in it$/,
  /^a bit takes it off a free edge: nothing stands in it$/,
  /^it is the only lipping by its name, and nothing stops for it$/,
  /^it lies in the middle$/,
  /^it lies or stands free before others: another thickness fits as well$/,
  /^it only butts, and may come either way$/,
  /^it only butts: no groove waits for it$/,
  /^its mirror image is the same part$/,
  /^it slides, and may do so either way$/,
  /^one hole has no pitch$/,
  /^one part comes by itself$/,
  /^one part needs no order$/,
  /^one pass clears it$/,
  /^several bodies come at once$/,
  /^the job has no stock of another thickness$/,
  /^the same as \d+: interchangeable$/,
  /^the saw needs none$/,
  /^turned, it is the same part$/,
  /^turned, its notches or mortises differ by no more than one step$/,
  /^two steps are (its whole depth|its whole width|all of it): planted as missing$/,
  /^two steps more go through the part$/,
  /^without it the panel is as large, and nothing stops for it$/,
  /^would leave the part$/,
];

export const withoutReason = (excluded: readonly Excluded[]): Excluded[] =>
  excluded.filter(({ reason }) => !REASONS.some((known) => known.test(reason)));

export const kindsOf = (results: readonly Result[]): string[] => [...new Set(results.map(({ kind }) => kind))].sort();

/** How many of each kind were planted and found; what was not planted, and why. */
export function tableOf(results: readonly Result[], excluded: readonly Excluded[]): string {
  const line = (kind: string): string => {
    const all = results.filter((each) => each.kind === kind);
    return `${kind.padEnd(52)}${String(all.filter(({ found }) => found).length).padStart(7)} of ${all.length}`;
  };
  const why = [...new Set(excluded.map(({ kind, reason }) => `${kind}: ${reason.replace(/\d+/, "n")}`))].sort();
  return `Planted faults found\n${kindsOf(results).map(line).join("\n")}\nNot planted\n${why.join("\n")}`;
}

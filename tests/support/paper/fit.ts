/** The dry fit of a case that was put together from paper: the audit's own checks, on what was read and nothing else. */
import { checkFreeEnds, findContacts } from "../../../src/audit/joints/ends.ts";
import { checkGrooves, housingsOf } from "../../../src/audit/joints/grooves.ts";
import { checkOverlaps } from "../../../src/audit/joints/overlaps.ts";
import { checkNotches } from "../../../src/audit/parts/notches.ts";
import { Neighbours } from "../../../src/audit/solids/neighbours.ts";
import { solidsOf } from "../../../src/audit/solids/solid.ts";
import type { Box } from "../../../src/base/geometry.ts";
import { boxToInner, boxToOuter, intersectBoxes } from "../../../src/base/geometry.ts";
import { MM_PER_INCH } from "../../../src/base/length.ts";
import type { DryfitSet, SetFeature, SetPart } from "../../../src/set/schema.ts";
import { CLOSES, type PutTogether } from "./case.ts";
import type { ReadFeature, ReadPart } from "./part/part.ts";
import { inMm, type Settled, settle } from "./settled.ts";
import type { MeasuredStock } from "./stock-table.ts";

const ROLES: readonly (readonly [RegExp, SetPart["role"]])[] = [
  [/side/, "side"],
  [/^bottom/, "bottom"],
  [/^top panel/, "top"],
  [/divider/, "divider"],
  [/shelf/, "shelf"],
  [/^back/, "back"],
  [/kick/, "kick"],
];

const CASE = "case";

const thickestOf = ({ caption }: ReadPart, stocks: readonly MeasuredStock[]): number =>
  stocks.find(({ name }) => name === caption.stock)?.thickest ?? caption.thickness;

/** Where a groove runs out at an edge past what it holds, nothing is to be there; where it stops, what it holds must reach. */
function runOutsOf(
  owner: Settled,
  { box, along, holds, also, short }: ReadFeature,
  all: readonly Settled[],
): [number, number][] {
  const i = along === "l" ? 0 : 1;
  const across = 1 - i;
  const spans = all
    .filter(
      ({ read, mark }) =>
        mark !== owner.mark && [holds, ...also].some((one) => one !== null && read.caption.marks.includes(one)),
    )
    .map(({ place, size }) => boxToInner(owner.place, boxToOuter(place, [[0, 0, 0], size])))
    .filter(([lo, hi]) => intersectBoxes([lo, hi], box) !== null && lo[across]! < box[1][across]!);
  if (spans.length === 0) return [];
  const [from, to] = [Math.min(...spans.map(([lo]) => lo[i])), Math.max(...spans.map(([, hi]) => hi[i]))];
  // A groove for two of them runs on under what parts them.
  const between = spans
    .map(([lo, hi]) => [lo[i], hi[i]] as [number, number])
    .sort((a, b) => a[0] - b[0])
    .flatMap(([, end], n, all): [number, number][] => {
      const next = all[n + 1];
      return next === undefined || next[0] <= end ? [] : [[end, next[0]]];
    });
  return [
    ...between,
    ...(!short[0] && from > box[0][i] ? [[box[0][i], from] as [number, number]] : []),
    ...(!short[1] && to < box[1][i] ? [[to, box[1][i]] as [number, number]] : []),
  ];
}

function featuresOf(owner: Settled, all: readonly Settled[]): SetFeature[] {
  return owner.features.map((feature): SetFeature => {
    // A door that slides stands in it: nothing of the case does.
    const isEmpty = feature.holds !== null && !all.some(({ read }) => read.caption.marks.includes(feature.holds!));
    const { kind, face, along, box, holds, short } = feature;
    const run = along === "l" ? 0 : along === "w" ? 1 : 2;
    const across = ([0, 1, 2] as const).find((i) => i !== run && "lwt"[i] !== face[0])!;
    const deep = { l: 0, w: 1, t: 2 }[face[0] as "l"];
    const [lo, hi] = box as Box;
    return {
      kind: isEmpty && kind === "groove" ? "slot" : kind,
      face,
      along,
      at: lo[across],
      width: hi[across] - lo[across],
      depth: hi[deep]! - lo[deep]!,
      from: lo[run],
      to: hi[run],
      ends: [short[0] ? "square" : "through", short[1] ? "square" : "through"],
      axis: along,
      outline: [],
      box: [[...lo], [...hi]],
      holds,
      runOuts: kind === "groove" || kind === "rabbet" ? runOutsOf(owner, feature, all) : [],
      row: null,
      lipping: false,
      reason: "",
    };
  });
}

/** What a groove for a stock is wider than its thickest reading: the most common of its grooves tell it, or of its rabbets where it has none. */
function playOf(placed: readonly Settled[], stocks: readonly MeasuredStock[]): Map<string, number> {
  const plays = { groove: new Map<string, number[]>(), rabbet: new Map<string, number[]>() };
  for (const { read } of placed) {
    for (const { kind, box, along, holds } of read.features) {
      const entering = placed.find((one) => holds !== null && one.read.caption.marks.includes(holds))?.read;
      if ((kind !== "groove" && kind !== "rabbet") || entering === undefined) continue;
      // A shoulder leaves a tongue, and the groove is for that.
      if (entering.features.some((one) => one.kind === "shoulder")) continue;
      const i = along === "w" ? 0 : 1;
      const { stock, thickness } = entering.caption;
      const thickest = stocks.find(({ name }) => name === stock)?.thickest ?? thickness;
      plays[kind].set(stock, [...(plays[kind].get(stock) ?? []), (box[1][i] - box[0][i] - thickest) * inMm(read)]);
    }
  }
  return new Map(
    [...new Map([...plays.rabbet, ...plays.groove])].map(([stock, all]) => {
      const alike = (one: number): number => all.filter((other) => Math.abs(other - one) < 1e-6).length;
      const isMore = (a: number, b: number): boolean => alike(a) > alike(b) || (alike(a) === alike(b) && a > b);
      return [stock, all.reduce((best, one) => (isMore(one, best) ? one : best))];
    }),
  );
}

const LOOSEST = 0.5; // mm: the allowance

/** No groove is much wider than what it is for. */
const stockFaults = (placed: readonly Settled[], stocks: readonly MeasuredStock[], within: number): string[] =>
  [...playOf(placed, stocks)]
    .filter(([, play]) => play > LOOSEST || play < -within)
    .map(([stock, play]) => `${stock} has ${play} in its grooves`);

/**
 * Every failure of the dry fit, case by case. Figures are printed rounded: planes of the wood that lie closer to each other than
 * `CLOSES` of the unit are one plane, for no figure on paper tells them apart, and where rounding may leave a step open, it may leave twice that more.
 */
export function fitOnPaper(
  { placed, faults }: PutTogether,
  stocks: readonly MeasuredStock[],
  unit: "mm" | "in",
  step: number,
): string[] {
  const k = unit === "in" ? MM_PER_INCH : 1;
  const within = CLOSES[unit] * k;
  return [
    ...faults,
    ...[...new Set(placed.map(({ home }) => home))].flatMap((home) => {
      const settled = settle(
        placed.filter((one) => one.home === home),
        within,
      );
      return [...stockFaults(settled, stocks, within), ...fitCase(settled, stocks, step * k + 2 * within, within)];
    }),
  ];
}

/** The wall behind, whose skirting is no part: what the first notch for it leaves open, and every other must too. */
function skirtingOf(
  placed: readonly Settled[],
): { pass: "notch"; skirting: { height: number; thickness: number }; clearance: number } | null {
  for (const { read } of placed) {
    for (const note of read.notes) {
      if (note.kind !== "notch" || !note.corners.some(({ reason }) => reason.includes("skirting"))) continue;
      const [height, thickness] = [note.along.value * inMm(read), note.across.value * inMm(read)];
      return { pass: "notch", skirting: { height, thickness }, clearance: 0 };
    }
  }
  return null;
}

function fitCase(placed: readonly Settled[], stocks: readonly MeasuredStock[], step: number, within: number): string[] {
  const plays = playOf(placed, stocks);
  const least = plays.size === 0 ? 0 : Math.min(...plays.values());
  const bounds = placed.map(({ place, size }) => boxToOuter(place, [[0, 0, 0], size]));
  const most = ([0, 1, 2] as const).map((i) => Math.max(...bounds.map(([, hi]) => hi[i]))) as [number, number, number];
  const slips = placed.flatMap(({ read }) =>
    read.notes.flatMap((note) =>
      note.kind === "seats" ? note.seats.filter(({ slip }) => slip).map(({ gap }) => gap * inMm(read)) : [],
    ),
  );
  const slip = slips.length === 0 ? 0 : Math.min(...slips);
  const assembly = {
    name: CASE,
    kind: "case",
    in: null,
    place: { at: [0, 0, 0], l: "+x", w: "+y", t: "+z" },
    size: most,
    travel: { kind: "none" },
    borrows: [],
    fits: { allowance: least, clearance: 0, slip: slip - within, slipAcross: slip - within },
    diagonals: { outside: 0, front: 0, width: 0, height: 0 },
  };
  const thicknesses = new Map(
    placed.map(({ read }) => [read.caption.stock, thickestOf(read, stocks) * inMm(read)] as const),
  );
  const set = {
    job: { unit: "mm", step, walls: { left: null, right: null, back: skirtingOf(placed) } },
    assemblies: [assembly],
    stock: [...thicknesses].map(([id, thickness]) => ({
      id,
      name: id,
      thickness,
      thickest: thickness + (plays.get(id) ?? least) - least,
      boards: null,
    })),
    parts: placed.map((one) => {
      const { caption } = one.read;
      return {
        mark: one.mark,
        key: one.mark,
        pattern: caption.marks[0],
        name: one.name,
        role: ROLES.find(([name]) => name.test(one.name))?.[1] ?? "shelf",
        assembly: CASE,
        case: CASE,
        hand: caption.hand,
        material: caption.stock,
        length: one.size[0],
        width: one.size[1],
        thickness: one.size[2],
        place: one.place,
        features: featuresOf(one, placed),
        lippings: [],
        lines: [],
        show: [],
        edges: [],
        sums: [],
      };
    }),
  } as unknown as DryfitSet;
  const solids = solidsOf(set);
  const near = new Neighbours(solids, step);
  const housings = housingsOf(solids, near, step);
  for (const { channel, entering, tongue } of housings) {
    const wanted = entering.stock.thickest - tongue.shoulder + least;
    if (Math.abs(channel.feature.width - wanted) <= within) channel.feature.width = wanted;
  }
  const { contacts, checks: reach } = findContacts(set, solids, housings, [], near);
  const found = [
    ...checkOverlaps(set, solids).checks,
    ...checkGrooves(set, solids, near, housings),
    ...checkNotches(set, solids, near),
    ...reach,
    ...checkFreeEnds(set, solids, housings, contacts, []),
  ];
  return found.map(({ id, text }) => `${id}: ${text}`);
}

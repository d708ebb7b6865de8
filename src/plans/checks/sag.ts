/** Sag of what carries: shelves, bottoms and top panels as beams between whatever stands under or beside them. */
import { type Mm, SAME, type Unit } from "../../base/length.ts";
import type { SetCheck, SetPart, SetStock } from "../../set/schema.ts";
import { type Edging, edgingOf, heldEdges, longestClear } from "./carried-by.ts";
import {
  type CheckInput,
  capital,
  checkOf,
  computed,
  localAlong,
  nameAlike,
  shown,
  sizeAlong,
  stockOfPart,
  tapeDown,
} from "./input.ts";

/** Both ends simply supported, uniform load: Wood Handbook (FPL-GTR-190, 2010), table 9-1. A clamped end would give a fifth of it. */
const KB = 5 / 384;
const GRAVITY = 9.81; // m/s2

/** First sag is hardly to be seen up to so much: 0.02 in per foot (trade articles). */
export const FIRST_LIMIT = 600;
/** What the industry allows a loaded shelf: Architectural Woodwork Standards 2009, clause 1.2.21. */
export const INDUSTRY_LIMIT = 144;
/** Under a lasting load first sag grows by half again (trade articles; a European information site of the panel industry). */
export const CREEP = 1.5;

/** A rectangle `width` wide and `thickness` high, mm4. */
export const inertiaOf = (width: Mm, thickness: Mm): number => (width * thickness ** 3) / 12;

export type Beam = {
  load: number; // N per mm of span
  modulus: number; // N/mm2
  inertia: number; // mm4
};

/**
 * Deflection in the middle, bending alone: kb W L3 / (E I), W the whole load (Wood Handbook 2010, equation 9-2). Shear adds less than a
 * hundredth to panels this slender and is left out.
 */
export const sagOf = ({ load, modulus, inertia }: Beam, span: Mm): Mm =>
  (KB * load * span * span ** 3) / (modulus * inertia);

/** The span that sags by just one part in `ratio` of itself. */
export const spanAt = ({ load, modulus, inertia }: Beam, ratio: number): Mm =>
  Math.cbrt((modulus * inertia) / (KB * load * ratio));

const newtonsPerMm = (kgPerMetre: number): number => (kgPerMetre * GRAVITY) / 1000;

/** What one part carries over its longest clear span. */
type Carried = {
  part: SetPart;
  span: Mm;
  width: Mm;
  modulus: number;
  source: string;
  density: number;
  load: number; // kg per metre, its own weight left out
  heldEdge: string | null; // what holds one of its long edges up
  edging: (Edging & { modulus: number }) | null; // what bends with it, glued to its front edge
};

export function checkSag(input: CheckInput): SetCheck[] {
  const carried = input.parts.flatMap((part) => carriedBy(part, input) ?? []);
  const groups = new Map<string, Carried[]>();
  for (const one of carried) {
    const key = [
      one.part.pattern,
      one.part.name,
      one.span.toFixed(3),
      one.load,
      one.heldEdge,
      one.edging?.rail.mark,
    ].join("|");
    groups.set(key, [...(groups.get(key) ?? []), one]);
  }
  const results = [...groups.values()].map((group) => ({ group, ...reckon(group[0]!) }));
  const beyond = results.filter(({ first, limit }) => first > limit + SAME);
  const sound = results.filter(({ first, limit }) => first <= limit + SAME);
  return [...beyond.map((result) => warningOf(result, input.unit)), ...soundOf(sound, input.unit)];
}

type Reckoned = { first: Mm; limit: Mm; longest: Mm; thickest: Mm };

const ownWeight = ({ width, part, density }: Carried, thickness = part.thickness): number =>
  (width * thickness * density) / 1e6;

const beamOf = (one: Carried, thickness = one.part.thickness): Beam => ({
  load: newtonsPerMm(one.load + ownWeight(one, thickness)),
  modulus: one.modulus,
  inertia: inertiaOf(one.width, thickness) + edgingInertia(one),
});

/** Beside the panel, each about its own middle, as if it were of the panel's modulus. */
const edgingInertia = ({ edging, modulus }: Carried): number =>
  edging === null ? 0 : (inertiaOf(edging.rail.thickness, edging.height) * edging.modulus) / modulus;

function reckon(one: Carried): Reckoned {
  const beam = beamOf(one);
  return {
    first: sagOf(beam, one.span),
    limit: one.span / FIRST_LIMIT,
    longest: spanAt(beam, FIRST_LIMIT),
    thickest: thicknessFor(one),
  };
}

/** The thickness that would carry the span: by halving, since a thicker panel weighs more itself. */
function thicknessFor(one: Carried): Mm {
  let [low, high] = [one.part.thickness / 4, one.span];
  for (let i = 0; i < 60; i++) {
    const middle = (low + high) / 2;
    if (sagOf(beamOf(one, middle), one.span) > one.span / FIRST_LIMIT) low = middle;
    else high = middle;
  }
  return high;
}

const KG_PER_METRE_IN_POUNDS_PER_FOOT = 0.3048 / 0.45359237;

export function loadText(kgPerMetre: number, unit: Unit): string {
  const metric = `${kgPerMetre.toFixed(1)} kg/m`;
  const inches = `${(kgPerMetre * KG_PER_METRE_IN_POUNDS_PER_FOOT).toFixed(1)} lb/ft`;
  return unit === "mm" ? `${metric} (${inches})` : `${inches} (${metric})`;
}

const ownText = (kgPerMetre: number, unit: Unit): string => loadText(kgPerMetre, unit).replace(/ \(.*/, "");

const ratioOf = (span: Mm, sag: Mm): string => `L/${Math.floor(span / sag)}`;

function sagWords(one: Carried, { first, limit }: Reckoned, unit: Unit): string {
  const { span } = one;
  const creep = CREEP * first;
  const own = ownWeight(one);
  const edged = one.edging === null ? "" : `, the rail ${one.edging.rail.mark} glued to its front edge counted in`;
  return `${shown(span, unit)} clear${edged}, under ${loadText(one.load, unit)} and its own ${ownText(own, unit)}, first sags ${computed(first, unit)} (${ratioOf(span, first)}), in time ${computed(creep, unit)} (${ratioOf(span, creep)}); 0.02 in per foot (L/${FIRST_LIMIT}) is ${computed(limit, unit)}, L/${INDUSTRY_LIMIT} is ${computed(span / INDUSTRY_LIMIT, unit)}`;
}

const ruleOf = ({ modulus, source, edging }: Carried): string =>
  `0.02 in per foot at first (trade articles); L/${INDUSTRY_LIMIT} of the industry (Architectural Woodwork Standards 2009). Even load on two simple supports (Wood Handbook 2010, table 9-1), edging counted as panel, ${edging === null ? "" : "a rail as a beam beside it where it is lowest, "}grooves left out; half as much again in time (trade articles). E ${Math.round(modulus)} N/mm2: ${source}`;

function warningOf({ group, ...result }: Reckoned & { group: Carried[] }, unit: Unit): SetCheck {
  const one = group[0]!;
  const parts = group.map(({ part }) => part);
  const beyondBoth = result.first > one.span / INDUSTRY_LIMIT;
  const edge = one.heldEdge === null ? "" : ` ${one.heldEdge} holds one long edge: the other sags so.`;
  return checkOf(
    "shelf-sag",
    "warning",
    parts.map(({ mark }) => mark),
    {
      text: `${capital(nameAlike(parts))}: ${sagWords(one, result, unit)}.${beyondBoth ? " It is beyond both." : ""}${edge}`,
      rule: ruleOf(one),
      change: `${one.part.role === "bottom" ? "a base with ribs, or a foot, under its middle" : "a divider under it"}: it may span ${shown(tapeDown(result.longest, unit), unit)} clear; or stock ${computed(result.thickest, unit)} thick; or less "shelfLoad", if less will stand on it`,
    },
  );
}

function soundOf(results: (Reckoned & { group: Carried[] })[], unit: Unit): SetCheck[] {
  if (results.length === 0) return [];
  const worst = results.reduce((most, one) => (one.first / one.limit > most.first / most.limit ? one : most));
  const parts = results.flatMap(({ group }) => group.map(({ part }) => part));
  const one = worst.group[0]!;
  return [
    checkOf(
      "shelf-sag",
      "ok",
      parts.map(({ mark }) => mark),
      {
        text: `${capital(nameAlike(worst.group.map(({ part }) => part)))}${parts.length === 1 ? "" : `, the most of ${parts.length} that carry`}: ${sagWords(one, worst, unit)}.`,
        rule: ruleOf(one),
      },
    ),
  ];
}

const CARRIERS: readonly SetPart["role"][] = ["shelf", "looseShelf", "bottom", "top"];

/** Null for what carries nothing, lies on the floor, or is held along both long edges. */
function carriedBy(part: SetPart, input: CheckInput): Carried | null {
  const { parts, stock, printed } = input;
  if (part.place === null || !CARRIERS.includes(part.role)) return null;
  // A worktop rests on the strips over sides and dividers, and the top panel under it carries nothing.
  const isUnderStrips =
    part.role === "top" && parts.some(({ role, assembly: a }) => role === "filler" && a === part.assembly);
  if (isUnderStrips) return null;
  const clear = longestClear(part, input);
  const edges = heldEdges(part, input);
  if (clear === null || edges.length === 2) return null;
  const edging = edgingOf(part, clear, input);
  const across = localAlong(part.place, 1);
  const own = stockOfPart(part, stock);
  const load = printed.assemblies.find(({ name }) => name === part.assembly)!.design.shelfLoad;
  return {
    part,
    span: clear[1] - clear[0],
    width: sizeAlong(part, across),
    ...stiffnessOf(part, own, localAlong(part.place, 0)),
    density: own.density,
    load,
    heldEdge: edges[0] ?? null,
    edging: edging && { ...edging, modulus: stockOfPart(edging.rail, stock).stiffness.along },
  };
}

/** Along the grain where the part lies with its grain along the span; a stock without grain may lie either way on the sheet. */
function stiffnessOf(
  part: SetPart,
  { stiffness, grain }: SetStock,
  along: string,
): Pick<Carried, "modulus" | "source"> {
  const { source } = stiffness;
  if (!grain || part.grain === "none") return { modulus: Math.min(stiffness.along, stiffness.across), source };
  return { modulus: along === "l" ? stiffness.along : stiffness.across, source };
}

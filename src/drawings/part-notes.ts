/** What stands beside a part's views: its name and sizes over them, and each kind of groove and notch in words under them. */

import { isSame, type Mm } from "../base/length.ts";
import { listInWords } from "../base/words.ts";
import { endsSquare, faceWords } from "../set/facing.ts";
import type { DryfitSet, SetFeature, SetPart } from "../set/schema.ts";
import { byMark, partOf, stockOf } from "../set/words.ts";
import { isAlone } from "./case-group.ts";
import { type Atom, figure, glue, type Block as Lettering, setLines, stackBlocks, TEXT, word, words } from "./cell.ts";
import { datumOf } from "./datum.ts";
import { holeRows } from "./hole-rows.ts";
import { facesToDraw, isChannel } from "./part-axes.ts";

const NAME: Mm = 5;
const NOTE_GAP: Mm = 1.6;

/** A part with everything that shares its drawing. */
export type Pattern = { part: SetPart; marks: string[] };

export const patternsOf = (set: DryfitSet): Pattern[] => {
  const patterns = new Map<string, Pattern>();
  for (const part of [...set.parts].sort((a, b) => byMark(a.mark, b.mark))) {
    const known = patterns.get(part.pattern);
    if (known === undefined) patterns.set(part.pattern, { part, marks: [part.mark] });
    else known.marks.push(part.mark);
  }
  return [...patterns.values()];
};

const handWords = (part: SetPart): string =>
  part.hand === null ? "has no hand" : part.hand === "left" ? "left hand, L" : "right hand, R";

/** The cases a pattern's parts are in. */
const casesOf = (set: DryfitSet, marks: readonly string[]): string =>
  listInWords([...new Set(marks.map((mark) => partOf(set, mark).case))]);

/** "outside", "upper and lower". */
export const goodFaces = (part: SetPart): string =>
  part.show.map((face) => faceWords(part, face).replace(/ face$/, "")).join(" and ");

/** The part's mark, name and hand; how many; its finished sizes and its stock. */
export function captionOf(set: DryfitSet, { part, marks }: Pattern, width: Mm): Lettering {
  const { unit } = set.job;
  const size = (length: Mm): Atom => figure(length, unit, 3.5, "bold");
  const heading: Atom[] = [
    word(marks.join(", "), NAME, "bold"),
    ...words(part.name, NAME, "bold"),
    ...words(isAlone(set) ? "" : `${casesOf(set, marks)} \u00b7`),
    ...words(`make ${marks.length}, ${handWords(part)}`),
  ];
  const sizes: Atom[] = [
    glue([size(part.length), word("\u00d7", 3.5), size(part.width)]),
    ...words(`${unit}, thick`),
    size(part.thickness),
    ...words(`\u00b7 ${stockOf(set, part.material).name} \u00b7`),
    ...words(part.grain === "length" ? "grain lengthwise" : "no grain"),
    ...(part.show.length === 0 ? [] : words(`\u00b7 good face: ${goodFaces(part)}`, TEXT, "bold")),
  ];
  return stackBlocks([setLines(heading, width), setLines(sizes, width)], NOTE_GAP);
}

/** Features cut alike, whatever they hold and wherever they lie. */
type Kind = { feature: SetFeature; holds: string[]; stops: { end: string; by: Mm }[] };

function stopsOf(part: SetPart, feature: SetFeature): Kind["stops"] {
  const run = feature.along === "l" ? "l" : "w";
  const size = run === "l" ? part.length : part.width;
  return [
    ...(!endsSquare(part, feature, 0) ? [] : [{ end: faceWords(part, `${run}0`), by: feature.from }]),
    ...(!endsSquare(part, feature, 1) ? [] : [{ end: faceWords(part, `${run}1`), by: size - feature.to }]),
  ];
}

const isAlike = (a: Kind, b: Kind): boolean =>
  a.feature.kind === b.feature.kind &&
  a.feature.face === b.feature.face &&
  a.feature.along === b.feature.along &&
  isSame(a.feature.width, b.feature.width) &&
  isSame(a.feature.depth, b.feature.depth) &&
  a.stops.length === b.stops.length &&
  a.stops.every((stop, i) => stop.end === b.stops[i]!.end && isSame(stop.by, b.stops[i]!.by));

function kindsOf(part: SetPart): Kind[] {
  const kinds: Kind[] = [];
  // Across the length first: they are the most, and cut first.
  const ordered = [...part.features].sort((a, b) => (a.along === "l" ? 1 : 0) - (b.along === "l" ? 1 : 0));
  for (const feature of ordered) {
    if (!isChannel(feature)) continue;
    const one: Kind = { feature, holds: feature.holds === null ? [] : [feature.holds], stops: stopsOf(part, feature) };
    const same = kinds.find((kind) => isAlike(kind, one));
    if (same === undefined) kinds.push(one);
    else same.holds.push(...one.holds);
  }
  return kinds;
}

/** "3, 5 and 8: groove 17.9 wide, 9 deep, stopped 12 from the front edge". */
function kindAtoms(set: DryfitSet, part: SetPart, { feature, holds, stops }: Kind): Atom[] {
  const { unit } = set.job;
  const where = facesToDraw(part).length > 1 ? ` in the ${faceWords(part, feature.face)}` : "";
  return [
    ...(holds.length === 0 ? [] : words(`${listInWords([...holds].sort(byMark))}:`, TEXT, "bold")),
    ...words(`${feature.kind}${feature.along === "l" ? " along the length" : ""}${where},`),
    figure(feature.width, unit),
    ...words("wide,"),
    figure(feature.depth, unit),
    ...(feature.kind === "shoulder"
      ? [...words("deep, leaving a tongue"), figure(part.thickness - feature.depth, unit), ...words("thick,")]
      : words("deep,")),
    ...words(stops.length === 0 ? "through" : "stopped"),
    ...stops.flatMap(({ end, by }, i) => [
      ...(i === 0 ? [] : words("and")),
      figure(by, unit),
      ...words(`from the ${end}`),
    ]),
  ];
}

/** Notches of one size and reason are one line, whatever corners they are at. */
function notchAtoms(set: DryfitSet, part: SetPart): Atom[][] {
  const { unit } = set.job;
  const kinds = new Map<string, { length: Mm; width: Mm; corners: string[] }>();
  for (const { kind, box, reason, lipping } of part.features) {
    if (kind !== "notch" || lipping) continue;
    const [lo, hi] = box;
    const [length, width] = [hi[0] - lo[0], hi[1] - lo[1]];
    const end = faceWords(part, lo[0] <= part.length - hi[0] ? "l0" : "l1");
    const edge = faceWords(part, lo[1] <= part.width - hi[1] ? "w0" : "w1");
    const key = `${length.toFixed(3)} ${width.toFixed(3)}`;
    const known = kinds.get(key) ?? { length, width, corners: [] };
    known.corners.push(`${end} at the ${edge} (${reason})`);
    kinds.set(key, known);
  }
  return [...kinds.values()].map(({ length, width, corners }) => [
    ...words("Notch", TEXT, "bold"),
    figure(length, unit),
    ...words("along,"),
    figure(width, unit),
    ...words(`across: ${corners.join("; ")}`),
  ]);
}

/** "32 holes for shelf pins, 5 across, 9 deep: first 34.5 from the bottom end, then every 32; 37 from the front edge". */
function holeAtoms(set: DryfitSet, part: SetPart): Atom[][] {
  const { unit } = set.job;
  return holeRows(set, part).map((row) => [
    ...words(`${row.count} ${row.count === 1 ? "hole" : "holes"}`, TEXT, "bold"),
    ...words(`for ${row.holds} in the ${faceWords(part, row.face)},`),
    figure(row.diameter, unit),
    ...words("across,"),
    figure(row.depth, unit),
    ...words("deep: first"),
    figure(row.first, unit),
    ...words(`from the ${faceWords(part, row.datum)},`),
    ...(row.pitch === 0 ? [] : [...words("then every"), figure(row.pitch, unit), ...words("to the next;")]),
    figure(row.distance, unit),
    ...words(`from the ${faceWords(part, row.edge)}`),
  ]);
}

/** Each lipping, and what the panel itself is cut to. */
function lippingAtoms(set: DryfitSet, part: SetPart): Atom[][] {
  if (part.lippings.length === 0) return [];
  const { unit } = set.job;
  return [
    ...part.lippings.map((lipping) => [
      ...words(`Lipping, ${lipping.name},`, TEXT, "bold"),
      figure(lipping.thickness, unit),
      ...words("thick,"),
      figure(lipping.to - lipping.from, unit),
      ...words(`long, on the ${faceWords(part, lipping.edge)}: put on ${lipping.lipped} the grooves are cut`),
    ]),
    [
      ...words("Panel cut to", TEXT, "bold"),
      glue([figure(part.cut.length, unit), word("\u00d7", TEXT), figure(part.cut.width, unit)]),
    ],
  ];
}

/** What the running figures are measured from. */
function datumWords(set: DryfitSet, part: SetPart): Atom[] {
  const datums = new Set(part.features.flatMap((feature, i) => (!isChannel(feature) ? [] : [datumOf(set, part, i)])));
  if (datums.size === 0) return [];
  const ends = listInWords([...datums].map((datum) => `the ${faceWords(part, datum)}`));
  return words(`Measured from ${ends}.`);
}

export function notesOf(set: DryfitSet, { part }: Pattern, width: Mm): Lettering {
  const lines = [
    ...kindsOf(part).map((kind) => kindAtoms(set, part, kind)),
    ...notchAtoms(set, part),
    ...holeAtoms(set, part),
    ...lippingAtoms(set, part),
    datumWords(set, part),
  ].filter((atoms) => atoms.length > 0);
  return stackBlocks(
    lines.map((atoms) => setLines(atoms, width)),
    NOTE_GAP,
  );
}

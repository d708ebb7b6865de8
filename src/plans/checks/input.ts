/** What the checks look at, and the words they share. */
import { axisOf, type Box, boxToOuter, type Place, type Vec } from "../../base/geometry.ts";
import { formatDecimal, formatLengthWithUnit, MM_PER_INCH, type Mm, SAME, type Unit } from "../../base/length.ts";
import { listInWords } from "../../base/words.ts";
import type { Model } from "../../model/model.ts";
import type { Project } from "../../project/project.ts";
import type { Tooling } from "../../project/tooling.ts";
import type { DryfitSet, Face, SetCheck, SetPart, SetStock } from "../../set/schema.ts";
import type { Marks } from "../parts.ts";

export type CheckInput = Pick<
  DryfitSet,
  "parts" | "joints" | "assemblies" | "stock" | "settings" | "mass" | "doors" | "sliders" | "tracks" | "drawers"
> & {
  unit: Unit;
  step: Mm;
  exact: Model;
  printed: Model;
  marks: Marks;
  tooling: Tooling;
  doorway: Project["doorway"];
  moisture: Project["moisture"];
  finishes: Project["finishes"];
  floorOut: Project["floorOut"];
};

/** Figures that nobody publishes but every shop uses. */
export const PRACTICE = "common practice, no source";

type Words = { text: string; rule: string; change?: string | null };

export const checkOf = (
  id: string,
  level: SetCheck["level"],
  parts: readonly string[],
  { text, rule, change = null }: Words,
): SetCheck => ({ id, level, parts: [...parts], text, rule: asSentence(rule), change: change && asSentence(change) });

/** With a capital and a full stop. */
const asSentence = (text: string): string => `${capital(text)}${text.endsWith(".") ? "" : "."}`;

export const capital = (text: string): string => `${text.charAt(0).toUpperCase()}${text.slice(1)}`;

export const nameOf = ({ name, mark }: SetPart): string => `${name} ${mark}`;

/** "shelf 5, 6 and 7": parts of one name are named once. */
export function nameAlike(parts: readonly SetPart[]): string {
  const names = [...new Set(parts.map(({ name }) => name))];
  return listInWords(
    names.map((name) => `${name} ${listInWords(parts.filter((part) => part.name === name).map(({ mark }) => mark))}`),
  );
}

export const stockOfPart = (part: SetPart, stock: readonly SetStock[]): SetStock => {
  const found = stock.find(({ id }) => id === part.material);
  if (found === undefined) throw new Error(`Internal error: no stock ${part.material} in the set`);
  return found;
};

/** A part's blank, in its assembly. Null for a spare, which stands nowhere. */
export const blankOf = ({ place, length, width, thickness }: SetPart): Box | null =>
  place === null
    ? null
    : boxToOuter(place, [
        [0, 0, 0],
        [length, width, thickness],
      ]);

export const moved = (box: Box, by: Vec): Box => [
  [box[0][0] + by[0], box[0][1] + by[1], box[0][2] + by[2]],
  [box[1][0] + by[0], box[1][1] + by[1], box[1][2] + by[2]],
];

const LOCAL = ["l", "w", "t"] as const;
export type LocalAxis = (typeof LOCAL)[number];

/** The case axis that a part's own face looks along. */
export const axisOfFace = (place: Place, face: Face): 0 | 1 | 2 => axisOf(place[face[0] as LocalAxis]);

/** The part's own axis that lies along an axis of the case. */
export const localAlong = (place: Place, axis: 0 | 1 | 2): LocalAxis =>
  LOCAL.find((one) => axisOf(place[one]) === axis)!;

export const sizeAlong = (part: SetPart, axis: LocalAxis): Mm =>
  axis === "l" ? part.length : axis === "w" ? part.width : part.thickness;

/** A length computed rather than made, such as a sag: to a hundredth of a millimetre or a thousandth of an inch, as decimals. */
export const computed = (length: Mm, unit: Unit): string => `${formatDecimal(length, unit)} ${unit}`;

/** A room, a span or a thickness to buy is measured with a tape or rule: to a whole millimetre, or an eighth of an inch. */
const TAPE: Record<Unit, Mm> = { mm: 1, in: MM_PER_INCH / 8 };
export const tapeUp = (length: Mm, unit: Unit): Mm => Math.ceil((length - SAME) / TAPE[unit]) * TAPE[unit];
export const tapeDown = (length: Mm, unit: Unit): Mm => Math.floor((length + SAME) / TAPE[unit]) * TAPE[unit];

export const shown = (length: Mm, unit: Unit): string => formatLengthWithUnit(length, unit);

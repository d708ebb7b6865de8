/** How the audit speaks: parts by name and mark, places from the case's front-left-bottom outer corner, lengths in the job's unit. */
import type { Box } from "../base/geometry.ts";
import { formatLength, MM_PER_INCH, type Mm } from "../base/length.ts";
import type { DryfitSet, Face, SetCheck, SetFeature, SetPart } from "../set/schema.ts";
import { RULES } from "./rules.ts";
import type { Channel, Solid, Standing } from "./solids/solid.ts";

export type Job = DryfitSet["job"];

export const nameOf = (part: SetPart): string => `${part.name} ${part.mark}`;
export const nameAll = (parts: readonly SetPart[]): string => parts.map(nameOf).join(", ");

/** An amount, however small: what the paper would round away must still be told apart from nothing. */
export function amount(length: Mm, job: Job): string {
  const size = Math.abs(length);
  if (size >= 0.05 || size < 1e-9) return `${formatLength(size < 1e-9 ? 0 : length, job.unit)} ${job.unit}`;
  const inUnit = job.unit === "in" ? length / MM_PER_INCH : length;
  return `${inUnit.toPrecision(2)} ${job.unit}`;
}

const stretch = (from: Mm, to: Mm, job: Job): string =>
  `${formatLength(from, job.unit)} to ${formatLength(to, job.unit)}`;

/** "in Console, from the left 1 to 2, from the front 0 to 12, from the floor 3 to 4 in" */
export function where(box: Box, { name, origin }: Pick<Standing, "name" | "origin">, job: Job): string {
  const along = (axis: 0 | 1 | 2): string => stretch(box[0][axis] - origin[axis], box[1][axis] - origin[axis], job);
  return `in ${name}, from the left ${along(0)}, from the front ${along(1)}, from the bottom ${along(2)} ${job.unit}`;
}

/** A volume as its three sides, for it is a size that a maker can look for. */
export const extent = (box: Box, job: Job): string =>
  `${[0, 1, 2].map((i) => amountOnly((box[1][i as 0 | 1 | 2] ?? 0) - (box[0][i as 0 | 1 | 2] ?? 0), job)).join(" x ")} ${job.unit}`;

const amountOnly = (length: Mm, job: Job): string => amount(length, job).slice(0, -job.unit.length - 1);

/** So much wood, given in cubic mm, in the job's unit cubed. */
export function cubic(volume: number, job: Job): string {
  return job.unit === "in" ? `${(volume / MM_PER_INCH ** 3).toFixed(3)} cubic in` : `${volume.toFixed(1)} cubic mm`;
}

const END_WORDS: Record<Face, string> = {
  l0: "first end (l0)",
  l1: "far end (l1)",
  w0: "first edge (w0)",
  w1: "far edge (w1)",
  t0: "face t0",
  t1: "face t1",
};
export const endOf = (face: Face): string => END_WORDS[face];

/** "the groove at 15 1/4 in on face t0 of left side 1" */
export const featureName = (part: SetPart, feature: SetFeature, job: Job): string =>
  `the ${feature.kind} at ${amount(feature.at, job)} on face ${feature.face} of ${nameOf(part)}`;
export const channelName = (channel: Channel, job: Job): string =>
  featureName(channel.owner.part, channel.feature, job);

const capital = (text: string): string => `${text.charAt(0).toUpperCase()}${text.slice(1)}`;

/** A failure in two sentences, "what, where, how much. Change: what to change.", told apart; with the rule it breaks. */
export const failureOf = (id: string, marks: readonly string[], text: string): SetCheck => {
  const [what = "", change] = text.split(" Change: ");
  return {
    id,
    level: "failure",
    parts: [...new Set(marks)],
    text: capital(what),
    rule: RULES[id] ?? null,
    change: change === undefined ? null : capital(change),
  };
};

export const failure = (id: string, parts: readonly SetPart[], text: string): SetCheck =>
  failureOf(
    id,
    parts.map(({ mark }) => mark),
    text,
  );

export const partsOf = (solids: readonly Solid[]): SetPart[] => solids.map((solid) => solid.part);

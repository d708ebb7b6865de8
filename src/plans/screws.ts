/** Screws and panel pins: how long, and how many, by what they go through and into. */
import { axesOf, axisOf, type Place } from "../base/geometry.ts";
import { MM_PER_INCH, type Mm, type Unit } from "../base/length.ts";
import type { Face, SetJoint, SetPart } from "../set/schema.ts";
import { type ScrewRow, screwRow } from "./screw-rows.ts";

/** One screw about every 150 mm, 6 in, and two at least, so that the joint cannot turn: common practice, no source. */
export const SCREW_SPACING: Record<Unit, Mm> = { mm: 150, in: 6 * MM_PER_INCH };
const FEWEST = 2;
/** What a screw should hold in the edge of plywood, 25 mm or 1 in: common practice, no source. */
const HOLD: Record<Unit, Mm> = { mm: 25, in: MM_PER_INCH };
/** From face to face its point stays so far under the far one: common practice, no source. */
const COVER: Mm = 3;
/** And it holds at least so much in the second part, or glue does it alone. */
const LEAST_HOLD: Mm = 6;
/** Screws and pins are sold in steps of 5 mm or 1/4 in. */
const SOLD: Record<Unit, Mm> = { mm: 5, in: MM_PER_INCH / 4 };

/** Through a panel into the edge or end of another. */
export const screwInEdge = (through: SetPart, unit: Unit): Mm =>
  Math.ceil((through.thickness + HOLD[unit]) / SOLD[unit] - 1e-6) * SOLD[unit];

/** Through one panel into another that lies flat on it: as long as the two allow; null where that holds nothing. */
export function screwThroughFaces(through: SetPart, into: SetPart, unit: Unit): Mm | null {
  const length = Math.floor((through.thickness + into.thickness - COVER) / SOLD[unit] + 1e-6) * SOLD[unit];
  return length - through.thickness < LEAST_HOLD ? null : length;
}

/** What a screwed joint takes: through the part that offers its face, into the edge or end of the other; or from face to face. */
export type Screwed = {
  through: SetPart;
  into: SetPart;
  flat: boolean;
  length: Mm;
  count: number;
  placed: boolean; // by the joint itself, so that the drawing of the part has them, or by `row`
  row: ScrewRow | null; // where the joint does not say itself where they go
};

/** Null where a joint takes no screws. */
export function screwsOf(joint: SetJoint, byMark: ReadonlyMap<string, SetPart>, unit: Unit): Screwed | null {
  if (!joint.fixings.includes("screws")) return null;
  const entering = byMark.get(joint.entering)!;
  const receiving = byMark.get(joint.receiving)!;
  const isThroughReceiving = joint.receivingFace.startsWith("t");
  const [through, into] = isThroughReceiving ? [receiving, entering] : [entering, receiving];
  const end = isThroughReceiving ? joint.enteringEnd : joint.receivingFace;
  const flat = end.startsWith("t");
  const length = flat ? screwThroughFaces(through, into, unit) : screwInEdge(through, unit);
  if (length === null) return null;
  const about = [...byMark.values()].filter(({ assembly }) => assembly === through.assembly);
  const row = joint.fasteners === null ? screwRow(joint, { through, into, length }, about, unit) : null;
  // Nowhere is there wood for one.
  if (row?.positions.length === 0) return null;
  const count =
    (joint.fasteners ?? row)?.positions.length ??
    Math.max(FEWEST, Math.floor((flat ? into.length : runOf(into, end, through)) / SCREW_SPACING[unit]) + 1);
  return { through, into, flat, length, count, placed: joint.fasteners !== null || row !== null, row };
}

/** How long an end or edge meets another part: an end runs across its part, an edge along it, both no further than the other reaches. */
export function runOf(part: SetPart, end: Face, other: SetPart): Mm {
  const [own, axis] = end.startsWith("l") ? [part.width, "w" as const] : [part.length, "l" as const];
  if (part.place === null || other.place === null) return own;
  const along = axisOf(part.place[axis]);
  const index = axesOf(other.place as Place).findIndex((one) => axisOf(one) === along);
  return Math.min(own, [other.length, other.width, other.thickness][index]!);
}

/** A thin back in a rabbet is pinned, about every 100 mm, 4 in, by pins three times as long as it is thick: common practice, no source. */
const PIN_SPACING: Record<Unit, Mm> = { mm: 100, in: 4 * MM_PER_INCH };
const PIN_LENGTH = 3;

export type Pinned = { part: SetPart; into: SetPart; length: Mm; count: number };

/** Backs that lie in rabbets, with each part that has one for them. */
export function pinnedBacks(joints: readonly SetJoint[], byMark: ReadonlyMap<string, SetPart>, unit: Unit): Pinned[] {
  return joints.flatMap((joint): Pinned[] => {
    const part = byMark.get(joint.entering)!;
    const into = byMark.get(joint.receiving)!;
    if (part.role !== "back" || !into.features.some(({ kind, holds }) => kind === "rabbet" && holds === part.mark)) {
      return [];
    }
    const run = runOf(part, joint.enteringEnd, into);
    const count = Math.floor(run / PIN_SPACING[unit]) + 1;
    const length = Math.ceil((part.thickness * PIN_LENGTH) / SOLD[unit] - 1e-6) * SOLD[unit];
    return [{ part, into, length, count }];
  });
}

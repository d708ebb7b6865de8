/** Joints of a face frame by the section of its members, where the job does not say: what the reader and the model both go by. */
import { MM_PER_INCH, type Mm, SAME, type Unit } from "../base/length.ts";
import type { FrameTenon } from "./face-frame.ts";

const inches = (length: number): Mm => length * MM_PER_INCH;
type ByUnit = Record<Unit, Mm>;

/** Bits that a mortise is cut with. */
const BITS: Record<Unit, readonly Mm[]> = {
  in: [3 / 16, 1 / 4, 5 / 16, 3 / 8, 1 / 2].map(inches),
  mm: [4, 5, 6, 8, 10, 12],
};

/** A tenon is about a third as thick as its member, and as thick as some bit (trade magazines: WOOD, Popular Woodworking). */
export const tenonThickness = (member: Mm, unit: Unit): Mm =>
  BITS[unit].reduce((best, bit) => (Math.abs(bit - member / 3) < Math.abs(best - member / 3) - SAME ? bit : best));

/** Depths from half to two thirds of the mortised member, and 1/16 in free beyond the tenon (WOOD magazine); the rest is common practice, no source. */
const LOOSE = {
  wide: 3, // times its thickness
  deep: 4, // times its thickness, into either member
  bears: 2 / 3, // of what it goes into, at most
  edge: 10 as Mm, // from a member's edge to a mortise; of a narrow member a quarter
  between: 10 as Mm, // two mortises, at least
  apart: 150 as Mm, // their middles, at most
  spare: { in: inches(1 / 16), mm: 1 } satisfies ByUnit, // beyond either end of the tenon, for glue
  slack: { in: inches(1 / 4), mm: 6 } satisfies ByUnit, // a slotted mortise is longer by so much than its tenon is wide
  lot: { in: inches(1 / 16), mm: 1 } satisfies ByUnit, // what widths and lengths of tenons are made in
};

/** What a loose tenon goes between: thickness of the members, width of the one that ends there, how far the other reaches behind the joint. */
export type Section = { thickness: Mm; width: Mm; behind: Mm };

export type LooseTenon = {
  thickness: Mm;
  width: Mm;
  length: Mm | null; // as the job gives it; null: by how deep its mortises are
  depth: Mm; // of its mortise in the receiving member
  spare: Mm;
  slack: Mm;
  edge: Mm;
  lot: Mm;
};

const inLots = (length: Mm, lot: Mm): Mm => Math.floor((length + SAME) / lot) * lot;

export function looseTenon({ thickness, width, behind }: Section, given: FrameTenon, unit: Unit): LooseTenon {
  const thick = given.thickness ?? tenonThickness(thickness, unit);
  const [spare, lot] = [LOOSE.spare[unit], LOOSE.lot[unit]];
  const edge = Math.min(LOOSE.edge, width / 4);
  const depth = given.length === null ? LOOSE.deep * thick : given.length / 2 + spare;
  return {
    thickness: thick,
    width: given.width ?? inLots(Math.min(LOOSE.wide * thick, width - 2 * edge), lot),
    length: given.length,
    depth: Math.min(depth, LOOSE.bears * behind),
    spare,
    slack: LOOSE.slack[unit],
    edge,
    lot,
  };
}

/** As long as two mortises so deep allow. */
export const tenonLength = ({ length, spare, lot }: LooseTenon, depth: Mm): Mm =>
  length ?? inLots(2 * (depth - spare), lot);

/** A stub tenon is as wide as its rail; so long from its shoulder (trade magazines: 3/8 in in cope and stick). */
const STUB_LENGTH: ByUnit = { in: inches(3 / 8), mm: 10 };

export const stubTenon = (member: Mm, given: FrameTenon, unit: Unit): { thickness: Mm; length: Mm } => ({
  thickness: given.thickness ?? tenonThickness(member, unit),
  length: given.length ?? STUB_LENGTH[unit],
});

/** The longest whose half goes no deeper than a member so wide bears. */
export const deepestTenon = (behind: Mm, unit: Unit): Mm => 2 * (LOOSE.bears * behind - LOOSE.spare[unit]);

/** Where tenons stand across a member, from its low edge: one, or as many as keep from edges and each other; their middles. */
export function tenonPlaces(member: Mm, { width, edge }: Pick<LooseTenon, "width" | "edge">): Mm[] {
  if (member - 2 * edge < 2 * width + LOOSE.between - SAME) return [member / 2];
  const [from, to] = [edge + width / 2, member - edge - width / 2];
  const spaces = Math.max(1, Math.ceil((to - from) / LOOSE.apart - SAME));
  return Array.from({ length: spaces + 1 }, (_, i) => from + (i * (to - from)) / spaces);
}

/** What parts are cut from, as the shop has it. */
import type { Mm } from "../base/length.ts";

export type Stock = {
  id: string;
  name: string;
  nominal: Mm;
  /** Measured: mean of the readings (lengths follow it) and thickest (grooves follow it). */
  thickness: Mm;
  thickest: Mm;
  readings: Mm[];
  sheet: { length: Mm; width: Mm } | null; // a full sheet, grain along the length; null: it comes in boards
  boards: Boards | null; // null: it comes in sheets
  trim: Mm; // taken off each edge of a sheet, its cut included
  grain: boolean; // false: no visible grain, parts may be turned
  goodFaces: 1 | 2;
  density: number; // kg/m3
  stiffness: { along: number; across: number; source: string }; // modulus of elasticity in bending, N/mm2
  solid: boolean; // edge-glued solid wood: it moves across its grain, as no plywood does
  species: { name: string; tangential: number; radial: number; source: string } | null; // how it moves across its grain: fraction of its width for each point of moisture
  limits: { least: Mm; most: Mm; source: string } | null; // thickness that its standard allows
  price: number | null; // one sheet, in the shop's own money
  count: number | null; // sheets to be had; null: always enough
  sizes: { length: Mm; width: Mm; price: number | null; count: number | null }[]; // further ones of its sheets
  offcuts: Offcut[]; // in the rack, cut true
};

/** `defects`: along its length, from its labelled end; none is cut into a part. */
export type Offcut = { label: string; length: Mm; width: Mm; defects: { from: Mm; to: Mm }[] };

/** Boards of solid wood, as they are sold. */
export type Boards = {
  rough: Mm; // thickness before it is planed
  length: Mm; // longest to be had
  width: Mm; // widest to be had
  spare: number; // bought beyond what the parts take, as a share of it: knots, splits, what is left over
  dressed: boolean; // bought planed: only cut to length, and ripped where it is wider than the part
};

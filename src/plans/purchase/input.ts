/** What the buying list is made from. */
import type { Unit } from "../../base/length.ts";
import type { GlueTime } from "../../project/project.ts";
import type { DryfitSet } from "../../set/schema.ts";

export type PurchaseInput = Pick<
  DryfitSet,
  | "stock"
  | "sheets"
  | "boards"
  | "parts"
  | "joints"
  | "hardware"
  | "pieces"
  | "drilling"
  | "assemblies"
  | "orders"
  | "finishes"
  | "worktops"
> & {
  unit: Unit;
  glue: GlueTime | null;
};

/** Bought so much longer than the pieces together, for the cuts and for what splits (common practice, no source). */
export const OVER = 1.1;

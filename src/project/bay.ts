/** Bays: how the inside of a case is divided. */
import type { Mm } from "../base/length.ts";
import type { DoorHand } from "./doors.ts";
import type { DrawerSize } from "./drawers.ts";

/** A bay: a clear space, whole or divided. Columns run left to right with a divider between, rows bottom to top with a shelf between. */
export type Bay = { path: string; name: string | null; size: BaySize; door: DoorHand | null } & (
  | { kind: "open"; loose: number; drawers: DrawerSize[] } // loose shelves in it; drawers, from the bottom up
  | { kind: "columns"; bays: Bay[] }
  | { kind: "rows"; bays: Bay[] }
);

/** Clear size along the parent's run, or a share of what is left. */
export type BaySize = { clear: Mm } | { share: number };

/** What a layout method is given and what it returns, whatever the method: a stronger one can take its place behind this. */
import type { Axis, Tree } from "./tree.ts";
import type { Nm } from "./units.ts";

/** Parts of one size. Sizes are folded: the part plus one kerf. */
export type LayoutItem = {
  length: Nm; // along the grain
  width: Nm;
  copies: number;
  turn: boolean; // the length may lie across the sheet's length
};

/** What is left of a sheet after trimming, plus one kerf. */
export type LayoutSheet = { length: Nm; width: Nm };

export type LayoutOptions = {
  /** What is done before the search stops, in hundredths of a microsecond of one machine: a count, never a clock, so that every machine finds the same layout. */
  trials: number;
  seed: number;
  /** Levels of cutting (rips, crosscuts, rips ...) that a layout passes only where that saves a whole sheet. */
  depth: number;
  /** Levels that no layout passes. */
  most: number;
  /** The cuts that each sheet is to begin with: "y" rips, "x" crosscuts; either where it is left out. */
  first?: Axis | undefined;
  /** Asked at the end of each round: true keeps what there is. A clock may stand behind it, as a safety net alone. */
  isLate?: () => boolean;
  /** No layout can have fewer sheets than this: reaching it ends the search for fewer. */
  least: number;
};

/** One tree for each sheet, holding every copy of every item once. Each item must fit the sheet by itself. */
export type LayoutEngine = (items: readonly LayoutItem[], sheet: LayoutSheet, options: LayoutOptions) => Tree[];

/** The ways an item may lie: [turned, length along x, width along y]. */
export const posesOf = (item: LayoutItem): [turned: boolean, length: Nm, width: Nm][] => {
  const straight: [boolean, Nm, Nm] = [false, item.length, item.width];
  return item.turn && item.length !== item.width ? [straight, [true, item.width, item.length]] : [straight];
};

export const fits = (item: LayoutItem, sheet: LayoutSheet): boolean =>
  posesOf(item).some(([, length, width]) => length <= sheet.length && width <= sheet.width);

/**
 * The fewest sheets that any layout could need, sawable or not.
 *
 * A dual feasible function f never lets lengths that fit side by side in L add up to more than f(L). So with one such
 * function for the lengths and one for the widths, the parts of one sheet never add up to more than f(L) g(W), and all
 * parts together need at least (sum of f(l) g(w)) / (f(L) g(W)) sheets (S. Fekete, J. Schepers, Mathematical Programming 91,
 * 2001; f2: J. Carlier, F. Clautiaux, A. Moukrim, Computers & Operations Research 34, 2007). The plain area is the case
 * where both are the size itself.
 */
import type { LayoutItem, LayoutSheet } from "./engine.ts";
import { type Nm, toMm } from "./units.ts";

/** A function for sizes in a whole of this extent, and what it gives for the whole. */
type Dual = { name: string; of: (size: Nm) => number; whole: number };

/** `sum`: what the parts come to by the two functions named, in sheets; the least number is that rounded up. */
export type Bound = { least: number; sum: number; lengths: string; widths: string };

const MOST_SHARES = 60; // u(k) beyond this proved nothing more on the reference jobs

/** Far above the rounding of the sums, far below a part: a bound that is only just over a whole number is not trusted. */
const SURE = 1e-9;

const itself = (whole: Nm): Dual => ({ name: "the size", of: (size) => size, whole });

/** u(k): sizes over whole numbers of (k+1)ths count as full shares. */
const shares = (whole: Nm, k: number): Dual => ({
  name: `u(${k})`,
  of: (size) => {
    const parts = size * (k + 1);
    return parts % whole === 0 ? size * k : Math.floor(parts / whole) * whole;
  },
  whole: whole * k,
});

/** f0: what leaves less than `small` beside it counts as the whole, what is smaller than that as nothing. */
const rounded = (whole: Nm, small: Nm): Dual => ({
  name: `f0(${toMm(small)} mm)`,
  of: (size) => (size > whole - small ? whole : size < small ? 0 : size),
  whole,
});

/** f2: sizes counted in whole steps, those over the half by the steps that they deny to the rest. */
const stepped = (whole: Nm, step: Nm): Dual => {
  const steps = Math.floor(whole / step);
  return {
    name: `f2(${toMm(step)} mm)`,
    of: (size) => {
      if (2 * size > whole) return 2 * (steps - Math.floor((whole - size) / step));
      return 2 * size === whole ? steps : 2 * Math.floor(size / step);
    },
    whole: 2 * steps,
  };
};

function duals(whole: Nm, sizes: readonly Nm[]): Dual[] {
  const list = [itself(whole)];
  for (let k = 1; k <= MOST_SHARES; k++) list.push(shares(whole, k));
  for (const size of [...new Set(sizes)].sort((a, b) => a - b)) {
    if (2 * size > whole) continue;
    list.push(rounded(whole, size), stepped(whole, size));
  }
  return list;
}

export const leastSheets = (items: readonly LayoutItem[], sheet: LayoutSheet): number => boundOf(items, sheet).least;

/** The first of the pairs of functions that give the highest bound: a reader can add it up. */
export function boundOf(items: readonly LayoutItem[], sheet: LayoutSheet): Bound {
  const best: Bound = { least: 0, sum: 0, lengths: "the size", widths: "the size" };
  if (items.length === 0) return best;
  const turned = items.filter((item) => item.turn);
  const fs = duals(sheet.length, [...items.map((i) => i.length), ...turned.map((i) => i.width)]);
  const gs = duals(sheet.width, [...items.map((i) => i.width), ...turned.map((i) => i.length)]);
  const table = (list: Dual[], size: (item: LayoutItem) => Nm): Float64Array[] =>
    list.map((dual) => Float64Array.from(items, (item) => dual.of(size(item)) / dual.whole));
  const fLength = table(fs, (item) => item.length);
  const fWidth = table(fs, (item) => item.width);
  const gLength = table(gs, (item) => item.length);
  const gWidth = table(gs, (item) => item.width);
  // A part that can be turned counts as it lies cheaper, unless only one way fits at all.
  const free = items.map((item) => item.turn && fitsAs(item.width, item.length, sheet));
  const forced = items.map((item) => item.turn && !fitsAs(item.length, item.width, sheet));
  // On a square sheet a layout and its mirror image hold every part both ways: the mean of both counts.
  const square = sheet.length === sheet.width;
  for (let f = 0; f < fs.length; f++) {
    for (let g = 0; g < gs.length; g++) {
      let cheaper = 0;
      let mean = 0;
      for (let i = 0; i < items.length; i++) {
        const straight = fLength[f]![i]! * gWidth[g]![i]!;
        const copies = items[i]!.copies;
        if (!free[i] && !square) {
          cheaper += copies * straight;
          continue;
        }
        const crosswise = fWidth[f]![i]! * gLength[g]![i]!;
        cheaper += copies * (forced[i] ? crosswise : free[i] ? Math.min(straight, crosswise) : straight);
        mean += (copies * (straight + crosswise)) / 2;
      }
      const sum = Math.max(cheaper, square ? mean : 0);
      const least = Math.max(1, Math.ceil(sum - SURE * Math.max(1, sum)));
      if (least > best.least) Object.assign(best, { least, sum, lengths: fs[f]!.name, widths: gs[g]!.name });
    }
  }
  return best;
}

const fitsAs = (length: Nm, width: Nm, sheet: LayoutSheet): boolean => length <= sheet.length && width <= sheet.width;

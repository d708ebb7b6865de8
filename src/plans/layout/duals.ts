/**
 * Dual feasible functions: what each size counts as, such that sizes that fit side by side in a whole never count more than it
 * (S. Fekete, J. Schepers, Mathematical Programming 91, 2001; f2: J. Carlier, F. Clautiaux, A. Moukrim, Computers & Operations
 * Research 34, 2007).
 */
import { type Nm, toMm } from "./units.ts";

/** A function for sizes in a whole of this extent, and what it gives for the whole. Sums of sizes never count less than the sizes do. */
export type Dual = { name: string; of: (size: Nm) => number; whole: number };

const MOST_SHARES = 60; // u(k) beyond this proved nothing more on the reference jobs

export const itself = (whole: Nm): Dual => ({ name: "the size", of: (size) => size, whole });

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

export function duals(whole: Nm, sizes: readonly Nm[]): Dual[] {
  const list = [itself(whole)];
  for (let k = 1; k <= MOST_SHARES; k++) list.push(shares(whole, k));
  for (const size of [...new Set(sizes)].sort((a, b) => a - b)) {
    if (2 * size > whole) continue;
    list.push(rounded(whole, size), stepped(whole, size));
  }
  return list;
}

/** Sets of parts as the bits of one number: part i is bit i. */

export type Parts = bigint;

export const NONE: Parts = 0n;
export const bit = (i: number): Parts => 1n << BigInt(i);
export const has = (set: Parts, i: number): boolean => ((set >> BigInt(i)) & 1n) === 1n;
export const setOf = (indices: readonly number[]): Parts => indices.reduce((set, i) => set | bit(i), NONE);

/** Indices of the parts in a set, the lowest first. */
export function indicesOf(set: Parts): number[] {
  const found: number[] = [];
  for (let i = 0, rest = set; rest !== NONE; i++, rest >>= 1n) if ((rest & 1n) === 1n) found.push(i);
  return found;
}

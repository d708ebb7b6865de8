/** Two ways of telling what is cut out of one blank, held against each other cell by cell, between all the planes of either. */
import type { Box, Vec } from "../../../src/base/geometry.ts";

const AXES = [0, 1, 2] as const;

type Middles = [l: number[], w: number[], t: number[]];

const holds = ([lo, hi]: Box, v: readonly number[]): boolean => AXES.every((i) => lo[i] < v[i]! && v[i]! < hi[i]);

/** The middles of cells that are cut away by one alone, of those that `isWanted`. Planes that lie closer than `within` are one. */
export function woodDiffers(
  a: readonly Box[],
  b: readonly Box[],
  size: Vec,
  within: number,
  isWanted: (v: Vec) => boolean = () => true,
): { at: Vec; cutBy: "first" | "second" }[] {
  const planes = AXES.map((i) => {
    const all = [0, size[i], ...[...a, ...b].flatMap(([lo, hi]) => [lo[i], hi[i]])].sort((p, q) => p - q);
    return all.filter((one, n) => n === 0 || one - all[n - 1]! > within);
  });
  const [ls, ws, ts] = planes.map((list) => list.slice(1).map((one, n) => (one + list[n]!) / 2)) as Middles;
  const found: { at: Vec; cutBy: "first" | "second" }[] = [];
  for (const l of ls) {
    for (const w of ws) {
      for (const t of ts) {
        const at: Vec = [l, w, t];
        const [one, other] = [a.some((box) => holds(box, at)), b.some((box) => holds(box, at))];
        if (one !== other && isWanted(at)) found.push({ at, cutBy: one ? "first" : "second" });
      }
    }
  }
  return found;
}

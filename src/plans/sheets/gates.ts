/** Cuts group after group: a piece of a sheet that gives nothing but a later group's parts stays whole until that one begins. */
import type { SetGroup, SetSheet } from "../../set/schema.ts";
import { groupOf } from "../groups.ts";

/** By the number of a cut the first group that a part of the piece it divides belongs to: followed from the last cut back. */
export function groupsOfCuts(
  { cuts, parts }: Pick<SetSheet, "cuts" | "parts">,
  groups: readonly SetGroup[],
): ReadonlyMap<number, number> {
  const last = Math.max(...groups.map(({ n }) => n));
  const firstIn = new Map(parts.map(({ id, mark }) => [id, groupOf(mark, groups).n]));
  const found = new Map<number, number>();
  for (const { n, piece, makes } of [...cuts].sort((a, b) => b.n - a.n)) {
    const group = Math.min(last, ...makes.flatMap((id) => firstIn.get(id) ?? []));
    firstIn.set(piece, group);
    found.set(n, group);
  }
  return found;
}

/** Numbered in the order of the work. What a cut divides is never made by a later group's, so of each piece the order stays. */
export function numberedByGroup(sheet: SetSheet, groups: readonly SetGroup[]): SetSheet {
  const found = groupsOfCuts(sheet, groups);
  const cuts = sheet.cuts.toSorted((a, b) => found.get(a.n)! - found.get(b.n)! || a.n - b.n);
  return { ...sheet, cuts: cuts.map((cut, i) => ({ ...cut, n: i + 1 })) };
}

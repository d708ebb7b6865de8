/** In which order the sheets of a stock are cut. */
import { shapeOf } from "../layout/cuts.ts";
import type { Taken } from "../layout/mix.ts";
import { areaOf, nodesOf } from "../layout/tree.ts";

/** `early`: of each item, how many copies are wanted from the first sheets, and how large they are. */
export type Early = ReadonlyMap<number, { count: number; area: number }>;

/**
 * Offcuts of the rack first; then sheets with parts that are wanted early, the one with most of them first; sheets cut alike one after
 * another, full ones first: the one with the large offcut comes last.
 */
export function inOrder(taken: readonly Taken[], early: Early): Taken[] {
  const keyed = taken.map((one) => {
    let largest = 0;
    for (const node of nodesOf(one.tree)) if (node.kind === "waste") largest = Math.max(largest, areaOf(node));
    return { one, largest, shape: shapeOf(one.tree) };
  });
  keyed.sort((a, b) => {
    const offcutsFirst = Number(a.one.of === "size") - Number(b.one.of === "size");
    const inList = a.one.of === "offcut" ? a.one.index - b.one.index : 0;
    return offcutsFirst || inList || a.largest - b.largest || (a.shape < b.shape ? -1 : a.shape > b.shape ? 1 : 0);
  });
  const rest = keyed.map(({ one }) => one);
  const first = givingEarly(rest, early);
  return [
    ...rest.filter(({ of }) => of === "offcut"),
    ...first,
    ...rest.filter((one) => isBought(one) && !first.includes(one)),
  ];
}

const isBought = ({ of }: Taken): boolean => of === "size";

/** The sheets, beside the offcuts, that give all that is wanted early: each time the one that gives most of what is still wanting. */
export function givingEarly(taken: readonly Taken[], early: Early): Taken[] {
  const wanted = new Map([...early].map(([item, one]) => [item, { ...one }]));
  for (const one of taken) if (!isBought(one)) take(one, wanted);
  const first: Taken[] = [];
  const sheets = taken.filter(isBought);
  for (;;) {
    const amounts = sheets.map((one) => (first.includes(one) ? 0 : amountOn(one, wanted)));
    const most = Math.max(0, ...amounts);
    if (most === 0) return first;
    const next = sheets[amounts.indexOf(most)]!;
    take(next, wanted);
    first.push(next);
  }
}

const countsOn = ({ tree }: Taken): Map<number, number> => {
  const counts = new Map<number, number>();
  for (const node of nodesOf(tree)) if (node.kind === "part") counts.set(node.item, (counts.get(node.item) ?? 0) + 1);
  return counts;
};

function amountOn(one: Taken, wanted: Early): number {
  let area = 0;
  for (const [item, n] of countsOn(one)) {
    const early = wanted.get(item);
    if (early !== undefined) area += Math.min(n, early.count) * early.area;
  }
  return area;
}

function take(one: Taken, wanted: Map<number, { count: number; area: number }>): void {
  for (const [item, n] of countsOn(one)) {
    const early = wanted.get(item);
    if (early !== undefined) early.count = Math.max(0, early.count - n);
  }
}

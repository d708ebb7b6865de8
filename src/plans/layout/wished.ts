/**
 * Wishes of a layout, after its cost and before all else: as many are kept as the least cost found allows. First with every wish; only where
 * that is not sure to be the cheapest, without any, and then one wish after another is added again as long as the cost stays.
 */
import type { Mix, Size } from "./mix.ts";

/** `keeps`: whether a layout keeps a wish, be it by chance. */
export type Wished<W> = {
  wishes: readonly W[];
  /** Lays everything with these wishes, by so much of the budget; null where some part finds no place. */
  lay: (kept: readonly W[], share: number) => Mix | null;
  keeps: (mix: Mix, wish: W, asked: readonly W[]) => boolean;
  sizes: readonly Size[];
};

const WITHOUT = 0.6; // of the budget, for the cost that the wishes are held against
const ADDED = 0.15; // for each wish that is added again
const MOST_ADDED = 12; // tries; more wishes than that are broken together

/** The layout with the proof of the problem without wishes, which holds for every layout; null where nothing finds a place. */
export function layWished<W>({ wishes, lay, keeps, sizes }: Wished<W>): { mix: Mix; kept: ReadonlySet<W> } | null {
  const all = lay(wishes, 1);
  if (wishes.length === 0) return all && { mix: all, kept: new Set() };
  const proof = lay([], 0)?.proof ?? null;
  const isSure = all !== null && proof !== null && all.cost <= leastCost(all, proof.least, sizes) * (1 + SAME);
  if (isSure) return { mix: { ...all, proof }, kept: new Set(wishes) };
  const loose = lay([], WITHOUT);
  if (all !== null && (loose === null || all.cost <= loose.cost * (1 + SAME)))
    return { mix: { ...all, proof }, kept: new Set(wishes) };
  if (loose === null) return null;
  let best = loose;
  let kept = wishes.filter((wish) => keeps(loose, wish, []));
  let tries = 0;
  for (const wish of wishes) {
    if (kept.includes(wish)) continue;
    if (tries++ >= MOST_ADDED) break;
    const asked = wishes.filter((one) => one === wish || kept.includes(one));
    const tried = lay(asked, ADDED);
    if (tried === null || tried.cost > loose.cost * (1 + SAME)) continue;
    best = tried;
    kept = wishes.filter((one) => asked.includes(one) || keeps(tried, one, asked));
  }
  // The best so far had little time for its offcut and its settings.
  const whole = lay(kept, 1);
  const mix = whole !== null && whole.cost <= best.cost * (1 + SAME) ? whole : best;
  return { mix: { ...mix, proof }, kept: new Set(wishes.filter((wish) => keeps(mix, wish, kept))) };
}

const SAME = 1e-9;

/** Of so many sheets of the size that the layout takes: those of one size alone have a proof. */
function leastCost({ taken }: Mix, least: number, sizes: readonly Size[]): number {
  const size = taken.find(({ of }) => of === "size");
  return size === undefined ? 0 : least * sizes[size.index]!.cost;
}

/**
 * Which pieces of stock are taken: offcuts that are there already before anything is bought, and of several sizes of sheet the ones
 * that cost least. Of two sizes one is taken in a fixed number, as offcuts are, and the fewest of the other are looked for; so every
 * number of the one is tried that could be cheaper.
 */
import { type Bound, boundOf } from "./bound.ts";
import { fits, type LayoutEngine, type LayoutItem, type LayoutOptions, type LayoutSheet } from "./engine.ts";
import { beginning } from "./fewest.ts";
import type { Job } from "./found.ts";
import { bedOf, findLayouts, type SearchOptions } from "./search.ts";
import type { Tree } from "./tree.ts";

/** `cost`: of one; `count`: so many are to be had. */
export type Size = LayoutSheet & { cost: number; count: number };

/** A piece of stock that is cut up: an offcut or a sheet of one of the sizes, by its place in the list. */
export type Taken = { of: "offcut" | "size"; index: number; tree: Tree };

/** `proof`: for the size that was taken beside the offcuts; null where several sizes were to be had. */
export type Mix = { taken: Taken[]; cost: number; proof: Bound | null };

export type Rack = { items: readonly LayoutItem[]; sizes: readonly Size[]; offcuts: readonly LayoutSheet[] };

const PROBE = 0.04; // of the budget, for each way to mix sizes; the best is then laid out with the whole of it
const MOST_PROBES = 20;
const AREA_SURE = 1e-9;

/** One size, and so many of others that count as there already. */
type Way = { size: number; others: number[] };

type MixOptions = Omit<LayoutOptions, "least"> & SearchOptions;

/** Null where some part finds no place: it fits an offcut alone, and that is taken. */
export function layMix(rack: Rack, options: MixOptions, engine: LayoutEngine): Mix | null {
  const { sizes, offcuts } = rack;
  if (sizes.length === 1) return layOut(rack, { size: 0, others: [] }, options, offcuts.length === 0 ? engine : null);
  const probe = { ...options, trials: Math.round(options.trials * PROBE) };
  let best: { way: Way; mix: Mix } | null = null;
  let probes = 0;
  for (const way of waysOf(rack)) {
    const floor = floorOf(rack, way);
    if (
      probes >= MOST_PROBES ||
      floor > mostOf(sizes, way) ||
      (best !== null && costOf(sizes, way, floor) >= best.mix.cost)
    )
      continue;
    probes += 1;
    const mix = layOut(rack, way, probe, null);
    if (mix !== null && isToBeHad(mix, sizes) && (best === null || mix.cost < best.mix.cost)) best = { way, mix };
  }
  if (best === null) return layOut(rack, { size: 0, others: [] }, options, null);
  const whole = layOut(rack, best.way, options, null);
  return {
    ...(whole !== null && whole.cost <= best.mix.cost && isToBeHad(whole, sizes) ? whole : best.mix),
    proof: null,
  };
}

/** Each size alone, then beside more and more of one other. */
function* waysOf({ sizes }: Rack): Generator<Way> {
  for (const size of sizes.keys()) yield { size, others: [] };
  const most = 200;
  for (let n = 1; n <= most; n++) {
    for (const size of sizes.keys()) {
      for (const [other, { count }] of sizes.entries()) {
        if (other !== size && n <= count) yield { size, others: Array.from({ length: n }, () => other) };
      }
    }
  }
}

const areaOf = ({ length, width }: LayoutSheet): number => length * width;
const mostOf = (sizes: readonly Size[], { size }: Way): number => sizes[size]!.count;
const costOf = (sizes: readonly Size[], { size, others }: Way, sheets: number): number =>
  others.reduce((sum, other) => sum + sizes[other]!.cost, 0) + sheets * sizes[size]!.cost;

/** The fewest of its size by area; beyond all count where other sheets alone hold more than there is. */
function floorOf({ items, sizes, offcuts }: Rack, { size, others }: Way): number {
  const parts = items.reduce((sum, item) => sum + areaOf(item) * item.copies, 0);
  const there = [...offcuts, ...others.map((other) => sizes[other]!)].reduce((sum, one) => sum + areaOf(one), 0);
  return Math.max(0, Math.ceil((parts - there) / areaOf(sizes[size]!) - AREA_SURE));
}

const isToBeHad = ({ taken }: Mix, sizes: readonly Size[]): boolean =>
  sizes.every(({ count }, s) => taken.filter(({ of, index }) => of === "size" && index === s).length <= count);

function layOut(rack: Rack, way: Way, options: MixOptions, engine: LayoutEngine | null): Mix | null {
  const { items, sizes, offcuts } = rack;
  const sheet = sizes[way.size]!;
  const there = [...offcuts, ...way.others.map((other) => sizes[other]!)];
  const useful = there.flatMap((one, i) => (items.some((item) => fits(item, one)) ? [i] : []));
  const free = useful.map((i) => bedOf(there[i]!));
  const job: Job = {
    items,
    bed: { ...bedOf(sheet), first: options.first },
    free,
    options: { ...options, least: free.length > 0 ? 0 : 1 },
  };
  const first = beginning(job, { left: 0 });
  if (first === null) return null;
  const proof = boundOf(items, sheet, first.length - free.length, free);
  job.options.least = proof.least;
  const trees = engine === null ? findLayouts(job, options) : engine(items, sheet, { ...options, least: proof.least });
  const taken = trees.flatMap((tree, s): Taken[] => {
    if (s >= free.length) return [{ of: "size", index: way.size, tree }];
    if (tree.kind === "waste") return [];
    const index = useful[s]!;
    return index < offcuts.length
      ? [{ of: "offcut", index, tree }]
      : [{ of: "size", index: way.others[index - offcuts.length]!, tree }];
  });
  const cost = taken.reduce((sum, { of, index }) => sum + (of === "size" ? sizes[index]!.cost : 0), 0);
  return { taken, cost, proof };
}

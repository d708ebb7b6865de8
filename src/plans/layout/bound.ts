/**
 * The fewest sheets that any layout could need, sawable or not.
 *
 * A dual feasible function f never lets lengths that fit side by side in L add up to more than f(L). So with one such
 * function for the lengths and one for the widths, the parts of one sheet never add up to more than f(L) g(W), and all
 * parts together need at least (sum of f(l) g(w)) / (f(L) g(W)) sheets (S. Fekete, J. Schepers, Mathematical Programming 91,
 * 2001). The plain area is the case where both are the size itself; where known functions do not prove a layout the least, one of
 * the job's own is looked for, the best that there is beside the other.
 */
import { type Dual, duals, itself } from "./duals.ts";
import type { LayoutItem, LayoutSheet } from "./engine.ts";
import { type PriceJob, pricesOf, type Share } from "./prices.ts";
import { type Nm, toMm } from "./units.ts";

/** `sum`: what the parts come to by the two functions named, in sheets; the least number is that rounded up. */
export type Bound = { least: number; sum: number; lengths: string; widths: string };

/** Far above the rounding of the sums, far below a part: a bound that is only just over a whole number is not trusted. */
const SURE = 1e-9;

export const leastSheets = (items: readonly LayoutItem[], sheet: LayoutSheet, known?: number): number =>
  boundOf(items, sheet, known).least;

const ceiling = (sum: number): number => Math.ceil(sum - SURE * Math.max(1, sum));

/** Functions of the other direction that the job's own prices are tried beside. */
const MOST_BESIDE = 4;

/**
 * `known`: sheets of a layout that is there already; where they are proved the least, nothing more is looked for. `beside`: other pieces
 * of stock that may be filled as well; the sum is then what is left for sheets when each is full by the same two functions, which
 * hold for smaller pieces too.
 */
export function boundOf(
  items: readonly LayoutItem[],
  sheet: LayoutSheet,
  known = 0,
  beside: readonly LayoutSheet[] = [],
): Bound {
  const best: Bound = { least: 0, sum: 0, lengths: "the size", widths: "the size" };
  if (items.length === 0) return best;
  const table = tableOf(items, sheet, beside);
  const { fs, gs } = table;
  const byLengths = fs.map(() => 0);
  const byWidths = gs.map(() => 0);
  const leastOf = (sum: number): number => Math.max(beside.length > 0 ? 0 : 1, ceiling(sum));
  for (let f = 0; f < fs.length; f++) {
    for (let g = 0; g < gs.length; g++) {
      const sum = sumOf(table, f, g);
      byLengths[f] = Math.max(byLengths[f]!, sum);
      byWidths[g] = Math.max(byWidths[g]!, sum);
      const least = leastOf(sum);
      if (least > best.least) Object.assign(best, { least, sum, lengths: fs[f]!.name, widths: gs[g]!.name });
    }
  }
  // The job's own prices say nothing of smaller pieces of stock.
  if (beside.length > 0) return best;
  for (const axis of ["length", "width"] as const) {
    const others = axis === "length" ? byWidths : byLengths;
    for (const other of promising(others)) {
      if (best.least >= known) return best;
      const priced = pricesOf(priceJob(items, sheet, table, axis, other));
      if (priced === null) continue;
      const least = leastOf(priced.sum);
      if (least <= best.least) continue;
      const own = ownName(priced.sizes, priced.prices, priced.whole);
      Object.assign(best, { least, sum: priced.sum });
      Object.assign(
        best,
        axis === "length" ? { lengths: own, widths: gs[other]!.name } : { lengths: fs[other]!.name, widths: own },
      );
    }
  }
  return best;
}

/** The size itself, and the functions that proved most with a known one. */
const promising = (sums: readonly number[]): number[] => {
  const order = sums.map((_, i) => i).sort((a, b) => sums[b]! - sums[a]! || a - b);
  return [...new Set([0, ...order])].slice(0, MOST_BESIDE);
};

const ownName = (sizes: readonly Nm[], prices: readonly number[], whole: number): string =>
  `shares of ${whole} (${sizes
    .map((size, i) => [size, prices[i]!] as const)
    .filter(([, price]) => price > 0)
    .map(([size, price]) => `${toMm(size)} mm: ${price}`)
    .join(", ")})`;

/** What each item counts by each function, laid straight and crosswise; `square`: the sheet is, so that a layout can be mirrored. */
type Table = {
  items: readonly LayoutItem[];
  fs: Dual[];
  gs: Dual[];
  fLength: Float64Array[];
  fWidth: Float64Array[];
  gLength: Float64Array[];
  gWidth: Float64Array[];
  free: boolean[]; // it counts as it lies cheaper
  forced: boolean[]; // it fits turned only
  square: boolean;
  beside: readonly LayoutSheet[];
};

function tableOf(items: readonly LayoutItem[], sheet: LayoutSheet, beside: readonly LayoutSheet[]): Table {
  const turned = items.filter((item) => item.turn);
  // Of pieces of stock that are larger than a sheet only the area is sure.
  const isLarger = beside.some(({ length, width }) => length > sheet.length || width > sheet.width);
  const known = (whole: Nm, sizes: Nm[]): Dual[] => (isLarger ? [itself(whole)] : duals(whole, sizes));
  const fs = known(sheet.length, [...items.map((i) => i.length), ...turned.map((i) => i.width)]);
  const gs = known(sheet.width, [...items.map((i) => i.width), ...turned.map((i) => i.length)]);
  const counted = (list: Dual[], size: (item: LayoutItem) => Nm): Float64Array[] =>
    list.map((dual) => Float64Array.from(items, (item) => dual.of(size(item)) / dual.whole));
  return {
    items,
    fs,
    gs,
    fLength: counted(fs, (item) => item.length),
    fWidth: counted(fs, (item) => item.width),
    gLength: counted(gs, (item) => item.length),
    gWidth: counted(gs, (item) => item.width),
    free: items.map(
      (item) => item.turn && fitsAs(item.width, item.length, sheet) && fitsAs(item.length, item.width, sheet),
    ),
    forced: items.map((item) => item.turn && !fitsAs(item.length, item.width, sheet)),
    // On a square sheet a layout and its mirror image hold every part both ways: the mean of both counts.
    square: sheet.length === sheet.width,
    beside,
  };
}

/** What all parts come to by two functions, in sheets. */
function sumOf(table: Table, f: number, g: number): number {
  const { items, fLength, fWidth, gLength, gWidth, free, forced, square, beside } = table;
  const there = (length: Nm, width: Nm): number =>
    (table.fs[f]!.of(length) / table.fs[f]!.whole) * (table.gs[g]!.of(width) / table.gs[g]!.whole);
  let cheaper = -beside.reduce((sum, { length, width }) => sum + there(length, width), 0);
  let mean = square ? beside.reduce((sum, { length, width }) => sum - there(width, length) / 2, cheaper / 2) : 0;
  for (let i = 0; i < items.length; i++) {
    const straight = fLength[f]![i]! * gWidth[g]![i]!;
    const copies = items[i]!.copies;
    if (!free[i] && !forced[i] && !square) {
      cheaper += copies * straight;
      continue;
    }
    const crosswise = fWidth[f]![i]! * gLength[g]![i]!;
    cheaper += copies * (forced[i] ? crosswise : free[i] ? Math.min(straight, crosswise) : straight);
    mean += (copies * (straight + crosswise)) / 2;
  }
  return Math.max(cheaper, square ? mean : 0);
}

/** Own prices for one direction, beside a known function of the other. */
function priceJob(
  items: readonly LayoutItem[],
  sheet: LayoutSheet,
  table: Table,
  axis: "length" | "width",
  other: number,
): PriceJob {
  const across = axis === "length" ? "width" : "length";
  // What a part counts across, laid straight and crosswise.
  const [straight, crosswise] =
    axis === "length" ? [table.gWidth[other]!, table.gLength[other]!] : [table.fLength[other]!, table.fWidth[other]!];
  const sizes: Nm[] = [];
  const most: number[] = [];
  const share = (size: Nm, copies: number, amount: number): Share => {
    const known = sizes.indexOf(size);
    const at = known < 0 ? sizes.push(size) - 1 : known;
    most[at] = (most[at] ?? 0) + copies;
    return { size: at, amount: copies * amount };
  };
  const fixed: Share[] = [];
  const either: [Share, Share][] = [];
  const mirrored = table.square && items.some(({ turn }) => turn);
  items.forEach((item, i) => {
    const asIs = (): Share => share(item[axis], item.copies, straight[i]!);
    const turned = (): Share => share(item[across], item.copies, crosswise[i]!);
    if (mirrored) {
      const both = [asIs(), turned()];
      fixed.push(...both.map(({ size, amount }) => ({ size, amount: amount / 2 })));
    } else if (table.free[i]) either.push([asIs(), turned()]);
    else fixed.push(table.forced[i] ? turned() : asIs());
  });
  return { room: sheet[axis], sizes, most, fixed, either };
}

const fitsAs = (length: Nm, width: Nm, sheet: LayoutSheet): boolean => length <= sheet.length && width <= sheet.width;

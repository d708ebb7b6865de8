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

/**
 * Functions of the other direction that the job's own prices are sought beside: the size itself, u(1), u(2) (see `duals`). They are
 * the same for every job: were they chosen by the parts, one part more could lead to others that prove less.
 */
const BESIDE = [0, 1, 2];

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
  const leastOf = (sum: number): number => Math.max(beside.length > 0 ? 0 : 1, ceiling(sum));
  for (let f = 0; f < fs.length; f++) {
    for (let g = 0; g < gs.length; g++) {
      const sum = sumOf(table, f, g);
      const least = leastOf(sum);
      if (least > best.least) Object.assign(best, { least, sum, lengths: fs[f]!.name, widths: gs[g]!.name });
    }
  }
  // The job's own prices say nothing of smaller pieces of stock.
  if (beside.length > 0) return best;
  for (const axis of ["length", "width"] as const) {
    for (const other of BESIDE) {
      for (const mirrored of waysOf(table)) {
        if (best.least >= known) return best;
        const { job, names } = priceJob(table, sheet, axis, other, mirrored);
        const priced = pricesOf(job);
        if (priced === null) continue;
        const least = leastOf(priced.sum);
        if (least <= best.least) continue;
        const own = ownName(names, priced.prices, priced.whole);
        Object.assign(best, { least, sum: priced.sum });
        Object.assign(
          best,
          axis === "length" ? { lengths: own, widths: gs[other]!.name } : { lengths: fs[other]!.name, widths: own },
        );
      }
    }
  }
  return best;
}

/** Whether layouts are taken together with their mirror images; both ways where parts that turn lie beside others. */
function waysOf({ items, square }: Table): boolean[] {
  if (!square || !items.some(({ turn }) => turn)) return [false];
  return items.every(({ turn }) => turn) ? [true] : [true, false];
}

const ownName = (names: readonly string[], prices: readonly number[], whole: number): string =>
  `shares of ${whole} (${names
    .map((name, i) => [name, prices[i]!] as const)
    .filter(([, price]) => price > 0)
    .map(([name, price]) => `${name}: ${price}`)
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

/**
 * Own prices for one direction, beside a known function of the other. A part that may not turn has a price of its own and a row never
 * holds more of it than there are; where parts turn, a size has a price and as many as fit may lie in a row. So a part more only adds to
 * the programme, and its cost never falls.
 */
function priceJob(
  table: Table,
  sheet: LayoutSheet,
  axis: "length" | "width",
  other: number,
  mirrored: boolean,
): { job: PriceJob; names: string[] } {
  const across = axis === "length" ? "width" : "length";
  // What a part counts across, laid straight and crosswise.
  const [straight, crosswise] =
    axis === "length" ? [table.gWidth[other]!, table.gLength[other]!] : [table.fLength[other]!, table.fWidth[other]!];
  const sizes: Nm[] = [];
  const most: number[] = [];
  const names: string[] = [];
  const add = (name: string, size: Nm, copies: number): number => {
    names.push(name);
    most.push(copies);
    return sizes.push(size) - 1;
  };
  const share = (size: Nm, copies: number, amount: number): Share => {
    const known = sizes.findIndex((one, s) => one === size && most[s] === Number.POSITIVE_INFINITY);
    const at = known < 0 ? add(`${toMm(size)} mm`, size, Number.POSITIVE_INFINITY) : known;
    return { size: at, amount: copies * amount };
  };
  const fixed: Share[] = [];
  const either: [Share, Share][] = [];
  table.items.forEach((item, i) => {
    const { length, width, copies, turn } = item;
    const asIs = (): Share => share(item[axis], copies, straight[i]!);
    const turned = (): Share => share(item[across], copies, crosswise[i]!);
    if (mirrored) {
      const both = [asIs(), turned()];
      fixed.push(...both.map(({ size, amount }) => ({ size, amount: amount / 2 })));
    } else if (!turn) {
      const size = add(`${toMm(length)} x ${toMm(width)} mm`, item[axis], copies);
      fixed.push({ size, amount: copies * straight[i]! });
    } else if (table.free[i]) either.push([asIs(), turned()]);
    else fixed.push(table.forced[i] ? turned() : asIs());
  });
  return { job: { room: sheet[axis], sizes, most, fixed, either }, names };
}

const fitsAs = (length: Nm, width: Nm, sheet: LayoutSheet): boolean => length <= sheet.length && width <= sheet.width;

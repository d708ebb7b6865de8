/**
 * The best function of all for the sizes of a job along one direction: each size has a price, such that no row of parts that fits the
 * sheet side by side comes to more than 1, and all parts together come to as much as possible. It is the price list of a linear
 * programme: cut every part into bars along the direction, and lay the bars in as few rows as can be (bar relaxation: G. Scheithauer,
 * European Journal of Operational Research 112, 1999; columns as needed: P. Gilmore, R. Gomory, Operations Research 9, 1961). Prices
 * are made whole numbers and the dearest row is sought again among them, so the bound holds exactly, however early the programme
 * was left (A. Farley, Operations Research 38, 1990).
 */
import { type Column, Simplex } from "./simplex.ts";
import type { Nm } from "./units.ts";

/** What has to be laid: `amount` of the size of that number, in sheets' worth of rows. */
export type Share = { size: number; amount: number };

export type PriceJob = {
  room: Nm;
  sizes: readonly Nm[];
  /** Most of each in one row; may be endless. */
  most: readonly number[];
  fixed: readonly Share[];
  /** Each laid one way or the other, or partly so. */
  either: readonly (readonly [Share, Share])[];
};

/** `whole`: what the dearest row comes to. `sum`: what all parts come to, over that. */
export type Prices = { sizes: readonly Nm[]; prices: number[]; whole: number; sum: number };

const ENTER = 1e-7;
const MOST_COLUMNS = 3000;
const MOST_TRIED = 60_000; // rows tried for one column; the last and exact search may try many more
const MOST_TRIED_LAST = 4_000_000;
const WHOLES = [60, 840, 5040, 1_000_000]; // prices are shares of these: the first that proves as much is the shortest to read

/** Null where the dearest row cannot be told for sure. */
export function pricesOf(job: PriceJob): Prices | null {
  const { sizes, most, room, fixed, either } = job;
  const rows = sizes.length + either.length;
  const column = (cost: number, ...entries: readonly (readonly [row: number, amount: number])[]): Column => {
    const own = new Float64Array(rows);
    for (const [row, amount] of entries) own[row]! += amount;
    return { cost, rows: own };
  };
  // Rows for the parts that may turn come first: what they take of a size is a row below.
  const rowOf = (size: number): number => either.length + size;
  const way = (i: number, { size, amount }: Share): Column => column(0, [i, 1], [rowOf(size), -amount]);
  const wanted = new Float64Array(rows);
  either.forEach((_, i) => {
    wanted[i] = 1;
  });
  for (const { size, amount } of fixed) wanted[rowOf(size)]! += amount;
  const start = [
    ...either.map(([straight], i) => way(i, straight)),
    ...sizes.map((size, s) => column(1, [rowOf(s), Math.min(most[s]!, Math.floor(room / size))])),
  ];
  const programme = new Simplex(wanted, start);
  for (let n = 0; n < MOST_COLUMNS; n++) {
    const prices = programme.prices();
    const next = cheap(prices) ?? dear(prices);
    if (next === null || !programme.enter(next)) break;
  }
  return asShares(job, programme.prices().slice(either.length));

  /** A column without cost that would lower it: a part laid the other way, more of a row than is wanted. */
  function cheap(prices: Float64Array): Column | null {
    for (let row = 0; row < rows; row++) if (prices[row]! < -ENTER) return column(0, [row, -1]);
    for (const [i, ways] of either.entries()) {
      for (const share of ways)
        if (share.amount * prices[rowOf(share.size)]! < prices[i]! - ENTER) return way(i, share);
    }
    return null;
  }

  function dear(prices: Float64Array): Column | null {
    const row = dearestRow(job, [...prices.subarray(either.length)], MOST_TRIED);
    if (row.value <= 1 + ENTER) return null;
    return column(1, ...row.counts.map((count, s) => [rowOf(s), count] as const));
  }
}

function asShares(job: PriceJob, prices: Float64Array): Prices | null {
  let best: Prices | null = null;
  for (const whole of WHOLES.toReversed()) {
    const shares = Array.from(prices, (price) => Math.max(0, Math.floor(price * whole + 1e-6)));
    const row = dearestRow(job, shares, MOST_TRIED_LAST);
    if (!row.isSure || row.value === 0) return best;
    const paid = ({ size, amount }: Share): number => amount * shares[size]!;
    const fixed = job.fixed.reduce((sum, share) => sum + paid(share), 0);
    const either = job.either.reduce((sum, [a, b]) => sum + Math.min(paid(a), paid(b)), 0);
    const found = { sizes: job.sizes, prices: shares, whole: row.value, sum: (fixed + either) / row.value };
    if (best === null || Math.ceil(found.sum - 1e-9) >= Math.ceil(best.sum - 1e-9)) best = found;
  }
  return best;
}

type Row = { value: number; counts: number[]; isSure: boolean };

/** The dearest parts that fit in one row, by branch and bound; `isSure` unless it was left early. */
function dearestRow({ room, sizes, most }: PriceJob, prices: readonly number[], mostTried: number): Row {
  const order = sizes
    .map((_, s) => s)
    .filter((s) => prices[s]! > 0)
    .sort((a, b) => prices[b]! / sizes[b]! - prices[a]! / sizes[a]! || a - b);
  // Of those of one size the dearer are taken first: another choice comes to no more.
  const kind = sizes.map((size) => sizes.indexOf(size));
  const closed = new Uint8Array(sizes.length);
  const counts = sizes.map(() => 0);
  const best: Row = { value: 0, counts: [...counts], isSure: true };
  let tried = 0;
  const visit = (k: number, free: Nm, value: number): void => {
    if (value > best.value) {
      best.value = value;
      best.counts = [...counts];
    }
    const s = order[k];
    if (s === undefined) return;
    // Even if all that is free were filled at the best rate left.
    if (value + (free * prices[s]!) / sizes[s]! <= best.value * (1 + 1e-12)) return;
    if (++tried > mostTried) {
      best.isSure = false;
      return;
    }
    const own = kind[s]!;
    const wasClosed = closed[own]!;
    const all = wasClosed === 1 ? 0 : Math.min(most[s]!, Math.floor(free / sizes[s]!));
    for (let count = all; count >= 0; count--) {
      counts[s] = count;
      if (count < all) closed[own] = 1;
      visit(k + 1, free - count * sizes[s]!, value + count * prices[s]!);
    }
    closed[own] = wasClosed;
  };
  visit(0, room, 0);
  return best;
}

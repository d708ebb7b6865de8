/**
 * Parts that cannot lie beside each other across their stock, as pieces of one board, lie one after another in rows: then only their
 * lengths count. A row is filled from a few parts at a time with the sum that leaves least of it (minimum bin slack: J. Gupta, J. Ho,
 * Production Planning & Control 10, 1999; K. Fleszar, K. Hindi, Computers & Operations Research 29, 2002), rows are emptied and
 * filled again with cooling.
 */

import type { Bed } from "./blocks.ts";
import type { LayoutItem } from "./engine.ts";
import { posesOf } from "./engine.ts";
import type { Counter } from "./place.ts";
import type { Random } from "./random.ts";
import { type Axis, cutOf, nodesOf, type Placed, placed, type Tree, waste } from "./tree.ts";
import type { Nm } from "./units.ts";

/** The parts of a job whose sums are the whole of it; sizes along the row. */
export type Rows = { axis: Axis; room: Nm; sizes: Nm[]; parts: Placed[] };

/** Rows as numbers of parts. */
export type Filled = number[][];

/** Null where two parts find room beside each other, across either axis. */
export function rowsOf(items: readonly LayoutItem[], bed: Bed): Rows | null {
  return inRows(items, bed, "x") ?? inRows(items, bed, "y");
}

function inRows(items: readonly LayoutItem[], bed: Bed, axis: Axis): Rows | null {
  const across = axis === "x" ? bed.width : bed.length;
  const parts: Placed[] = [];
  for (const [item, one] of items.entries()) {
    const poses = posesOf(one).filter(([, length, width]) => length <= bed.length && width <= bed.width);
    const [pose] = poses;
    if (pose === undefined || poses.length > 1) return null;
    const [turned, length, width] = pose;
    if (2 * (axis === "x" ? width : length) <= across) return null;
    for (let i = 0; i < one.copies; i++) parts.push({ kind: "part", item, turned, length, width });
  }
  const sizeOf = (part: Placed): Nm => (axis === "x" ? part.length : part.width);
  parts.sort((a, b) => sizeOf(b) - sizeOf(a) || a.item - b.item);
  return { axis, room: axis === "x" ? bed.length : bed.width, sizes: parts.map(sizeOf), parts };
}

/** The rows of a layout that is there already. */
export function rowsIn({ parts }: Rows, trees: readonly Tree[]): Filled {
  const unused = parts.map((_, part) => part);
  return trees.map((tree) =>
    [...nodesOf(tree)].flatMap((node) => {
      if (node.kind !== "part") return [];
      const at = unused.findIndex((part) => parts[part]!.item === node.item);
      return unused.splice(at, 1);
    }),
  );
}

/** Large before small, each in the fullest row that still takes it. */
export function bestFit({ room, sizes }: Rows): Filled {
  const rows: Filled = [];
  const free: Nm[] = [];
  sizes.forEach((size, part) => {
    let best = -1;
    for (let r = 0; r < rows.length; r++) if (free[r]! >= size && (best < 0 || free[r]! < free[best]!)) best = r;
    if (best < 0) {
      best = rows.push([]) - 1;
      free.push(room);
    }
    rows[best]!.push(part);
    free[best]! -= size;
  });
  return rows;
}

const GATHER = 0.3; // weight of room left in one row against what is left over, both in rows
const HOT = 0.02;
const COLD = 0.0005;
const FIRST_CYCLE = 1_000_000; // each further cycle is longer
const LONGER = 1.6;
const LEVELS = 64; // of heat in one cycle
const MOST_TRIED = 400; // sums tried for one row
const STEP = 300; // what a step takes apart from trying sums, in the counter's units (measured)
const TRYING = 4; // one sum (measured)

/** One row less, from rows that hold everything; null when the budget is spent. */
export function oneRowLess(job: Rows, from: Filled, random: Random, counter: Counter): Filled | null {
  const { room, sizes } = job;
  const sumOf = (row: readonly number[]): Nm => row.reduce((sum, part) => sum + sizes[part]!, 0);
  const rows = from.toSorted((a, b) => sumOf(b) - sumOf(a)).map((row) => [...row]);
  let left = rows.pop()!;
  const count = rows.length;
  if (count === 0) return null;
  const waste2 = (row: readonly number[]): number => ((room - sumOf(row)) / room) ** 2;
  const ratio = (COLD / HOT) ** (1 / LEVELS);
  for (let cycle = FIRST_CYCLE; counter.left > 0; cycle *= LONGER) {
    let heat = HOT;
    const end = counter.left - cycle;
    let cooler = counter.left - cycle / LEVELS;
    while (counter.left > end) {
      if (left.length === 0) return rows;
      if (counter.left <= 0) return null;
      for (; counter.left < cooler; cooler -= cycle / LEVELS) heat *= ratio;
      const chosen = new Set([random.below(count), random.below(count)]);
      if (random.once(2)) chosen.add(random.below(count));
      const old = [...chosen].map((r) => rows[r]!);
      const pool = shuffled([...old.flat(), ...left], random);
      const fresh = refilled(job, pool, old.length, random, counter);
      counter.left -= STEP;
      const cost = (list: Filled, over: readonly number[]): number =>
        sumOf(over) / room - GATHER * list.reduce((sum, row) => sum + waste2(row), 0);
      if (cost(fresh.rows, fresh.left) - cost(old, left) >= heat * random.wait()) continue;
      [...chosen].forEach((r, i) => {
        rows[r] = fresh.rows[i]!;
      });
      left = fresh.left;
    }
  }
  return null;
}

/** Fills rows from a pool, one after another, each as full as can be found; half the time from the largest part left. */
function refilled(
  { room, sizes }: Rows,
  pool: number[],
  count: number,
  random: Random,
  counter: Counter,
): { rows: Filled; left: number[] } {
  let left = pool;
  const rows: Filled = [];
  for (let r = 0; r < count; r++) {
    if (random.once(2)) {
      // Parts are numbered by size: the lowest is the largest.
      const largest = left.reduce((best, part) => Math.min(best, part), Number.POSITIVE_INFINITY);
      if (largest < Number.POSITIVE_INFINITY) left = [largest, ...left.filter((part) => part !== largest)];
      const rest = left.slice(1);
      const row = left.length === 0 ? [] : [largest, ...fullest(rest, sizes, room - sizes[largest]!, counter)];
      rows.push(row);
      left = left.filter((part) => !row.includes(part));
      continue;
    }
    const row = fullest(left, sizes, room, counter);
    rows.push(row);
    left = left.filter((part) => !row.includes(part));
  }
  return { rows, left };
}

/** The parts of the pool that fill a room best, by trying sums in the order given. */
function fullest(pool: readonly number[], sizes: readonly Nm[], room: Nm, counter: Counter): number[] {
  const after = new Float64Array(pool.length + 1);
  for (let i = pool.length - 1; i >= 0; i--) after[i] = after[i + 1]! + sizes[pool[i]!]!;
  let tried = 0;
  let best = -1;
  let bestSet: number[] = [];
  const taken: number[] = [];
  const visit = (from: number, sum: Nm): void => {
    if (sum > best) {
      best = sum;
      bestSet = [...taken];
    }
    for (let i = from; i < pool.length; i++) {
      if (best === room || tried > MOST_TRIED || sum + after[i]! <= best) return;
      tried += 1;
      const part = pool[i]!;
      if (sum + sizes[part]! > room) continue;
      taken.push(part);
      visit(i + 1, sum + sizes[part]!);
      taken.pop();
    }
  };
  visit(0, 0);
  counter.left -= TRYING * tried;
  return bestSet;
}

function shuffled(list: number[], random: Random): number[] {
  for (let i = list.length - 1; i > 0; i--) {
    const j = random.below(i + 1);
    [list[i], list[j]] = [list[j]!, list[i]!];
  }
  return list;
}

/** A sheet or board for each row: crosscut from the low end, what is wide too long beside each part cut off. */
export function treesOfRows({ axis, parts }: Rows, rows: Filled, bed: Bed): Tree[] {
  return rows.map((row) => {
    const strips = row.map((part): Tree => {
      const one = parts[part]!;
      return axis === "x" ? placed(one, one.length, bed.width, "y") : placed(one, bed.length, one.width, "x");
    });
    const used = row.reduce((sum, part) => sum + (axis === "x" ? parts[part]!.length : parts[part]!.width), 0);
    const rest = axis === "x" ? waste(bed.length - used, bed.width) : waste(bed.length, bed.width - used);
    const whole = (axis === "x" ? bed.length : bed.width) - used === 0;
    return cutOf(axis, bed.length, bed.width, whole ? strips : [...strips, rest]);
  });
}

/** One large offcut: a piece of the emptiest sheet is kept free, larger and larger, as long as every part still finds a place beside it. */
import { anneal } from "./anneal.ts";
import type { Bed } from "./blocks.ts";
import type { LayoutSheet } from "./engine.ts";
import { treesOf } from "./forest-trees.ts";
import {
  bedsOf,
  type Found,
  foundOf,
  type Job,
  levelsOf,
  offcutOf,
  onWhole,
  planted,
  sheetsOf,
  usedArea,
} from "./found.ts";
import { largestPiece } from "./offcut.ts";
import type { Counter } from "./place.ts";
import type { Random } from "./random.ts";
import { isBetter } from "./score.ts";
import { type Axis, changed, cutDown, extent, placed, type Tree, waste } from "./tree.ts";

/** `budget`: of all; `step`: of what an offcut could grow by at most. */
export type FirstTry = { budget: number; step: number };

/** A try takes longer when no way led to the least that is asked for. */
const LONGER = 1.4;
/** The least that a try is worth. */
const LEAST_TRY = 400_000;
/** Drawn for an offcut in a corner before none is taken to fit. */
const SHAPES = 20;
const MAKING = 10_000; // the forest of a try, in the counter's units

/** Where the offcut lies: right along the sheet, right across it, or in a corner with parts on two sides of it. */
type Way = Axis | "corner";

/** An offcut that is cut off first of all lies along the first cuts. */
const waysOn = ({ first }: Bed): Way[] => (first === undefined ? ["y", "x", "corner"] : [first, "corner"]);

/**
 * Asks for a little more than there is, in each way in turn: for twice as much more each time that a layout is found, for half as much where
 * none is, down to one percent of a sheet; for that again with more time, until the budget is spent.
 */
export function largerOffcut(
  start: Found,
  job: Job,
  random: Random,
  counter: Counter,
  { budget, step }: FirstTry,
): Found {
  const { items, bed, free } = job;
  const areas = [...free, ...sheetsOf(start, job)].reduce((sum, one) => sum + one.length * one.width, 0);
  const used = items.reduce((sum, item) => sum + item.length * item.width * item.copies, 0);
  const most = Math.min(1, (areas - used) / (bed.length * bed.width));
  let best = start;
  if (sheetsOf(start, job).length === 0) return start;
  const asked = step * (most - offcutOf(start, job));
  const steps = { y: asked, x: asked, corner: asked };
  let each = Math.max(LEAST_TRY, Math.round(counter.left * budget));
  let failed = 0;
  const ways = waysOn(bed);
  for (let n = 0; counter.left > 0; ) {
    const way = ways[n % ways.length]!;
    const now = offcutOf(best, job);
    const least = (Math.floor(100 * now) + 1) / 100;
    if (least >= most) break;
    const wanted = Math.max(Math.min(now + steps[way], (now + most) / 2), least);
    const own = { left: Math.min(each, counter.left) };
    counter.left -= own.left + MAKING;
    const found = withOffcut(best, way, wanted, job, random, own);
    counter.left += Math.max(0, own.left);
    if (found !== null && isBetter(found.score, best.score)) {
      best = found;
      steps[way] = 2 * (wanted - now);
      failed = 0;
      continue;
    }
    failed = wanted === least ? failed + 1 : 0;
    steps[way] = (wanted - now) / 2;
    if (failed >= ways.length) {
      each = Math.round(each * LONGER);
      failed = 0;
    }
    n += 1;
  }
  return best;
}

/** Every part, an offcut of that share of a sheet kept free on the emptiest; null where none is found. */
function withOffcut(start: Found, way: Way, share: number, job: Job, random: Random, counter: Counter): Found | null {
  const sheets = sheetsOf(start, job).toSorted((a, b) => usedArea(a) - usedArea(b));
  const sorted = { ...start, trees: [...start.trees.slice(0, job.free.length), ...sheets] };
  return way === "corner"
    ? inCorner(sorted, share, job, random, counter)
    : beyond(sorted, way, share, job, random, counter);
}

/** The first sheet is shortened or narrowed. */
function beyond(start: Found, axis: Axis, share: number, job: Job, random: Random, counter: Counter): Found | null {
  const n = job.free.length;
  const beds = bedsOf(start.trees, job);
  const short = shortBed(beds[n]!, axis, share);
  beds[n] = short;
  const rest = cutDown(start.trees[n]!, axis, axis === "x" ? short.length : short.width);
  const forest = planted(job, beds, start.trees.with(n, rest));
  if (!anneal(forest, levelsOf(start, job), random, counter)) return null;
  return foundOf(
    treesOf(forest).map((tree, s) => onWhole(tree, beds[s]!)),
    job,
  );
}

const shortBed = (bed: Bed, axis: Axis, share: number): Bed => {
  const whole = axis === "y" ? bed.width : bed.length;
  const rest = Math.ceil(whole * share);
  return { ...bed, [axis === "y" ? "width" : "length"]: whole - rest, within: axis, beyond: rest };
};

/** The offcut is one more part, alone on the first sheet to begin with. */
function inCorner(start: Found, share: number, job: Job, random: Random, counter: Counter): Found | null {
  const { bed, free, items } = job;
  const corner = cornerOf(largestPiece(sheetsOf(start, job)), share, job, random);
  if (corner === null) return null;
  const { length, width } = corner;
  const item = items.length;
  const own = { ...job, items: [...items, { length, width, copies: 1, turn: false }] };
  const alone = placed({ kind: "part", item, turned: false, length, width }, bed.length, bed.width, bed.first ?? "x");
  const forest = planted(own, bedsOf(start.trees, job), start.trees.with(free.length, alone));
  if (!anneal(forest, levelsOf(start, job), random, counter)) return null;
  const without = (leaf: Tree): Tree =>
    leaf.kind === "part" && leaf.item === item ? waste(leaf.length, leaf.width) : leaf;
  return foundOf(
    treesOf(forest).map((tree) => changed(tree, without)),
    job,
  );
}

/** A piece of that area: as long or as wide as the offcut that lies in a corner already, or as leaves room for a part beside it. */
function cornerOf(now: Tree | null, share: number, { bed, items }: Job, random: Random): LayoutSheet | null {
  const isCorner = now !== null && now.length < bed.length && now.width < bed.width;
  for (let n = 0; n < SHAPES; n++) {
    const axis: Axis = random.once(2) ? "x" : "y";
    const whole = axis === "x" ? bed.length : bed.width;
    const item = items[random.below(items.length)]!;
    const beside = random.once(2) ? item.length : item.width;
    const own = isCorner && random.once(2) ? extent(now, axis) : whole - beside;
    const other = own > 0 ? Math.ceil((share * bed.length * bed.width) / own) : Number.POSITIVE_INFINITY;
    if (other <= (axis === "x" ? bed.width : bed.length))
      return axis === "x" ? { length: own, width: other } : { length: other, width: own };
  }
  return null;
}

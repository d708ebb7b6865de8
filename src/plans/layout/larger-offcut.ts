/** One large offcut: the emptiest sheet is shortened or narrowed as far as every part still finds a place. */
import { anneal } from "./anneal.ts";
import type { Bed } from "./blocks.ts";
import { treesOf } from "./forest-trees.ts";
import {
  bedsFor,
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
import type { Counter } from "./place.ts";
import type { Random } from "./random.ts";
import { isBetter } from "./score.ts";
import type { Axis, Tree } from "./tree.ts";

/** Of what is left of the budget, the share of each try: the later ones ask for more. */
const TRIES = [0.04, 0.06, 0.08, 0.1, 0.15, 0.2, 0.3, 0.5, 1];

/** Asks for half as much again between the offcut that there is and all that is left over, by rips, then by crosscuts. */
export function largerOffcut(start: Found, job: Job, random: Random, counter: Counter): Found {
  const { items, bed, free } = job;
  const areas = [...free, ...sheetsOf(start, job)].reduce((sum, one) => sum + one.length * one.width, 0);
  const used = items.reduce((sum, item) => sum + item.length * item.width * item.copies, 0);
  let most = Math.min(1, (areas - used) / (bed.length * bed.width));
  let best = start;
  if (sheetsOf(start, job).length === 0) return start;
  for (const share of TRIES) {
    const now = offcutOf(best, job);
    const wanted = Math.max((now + most) / 2, (Math.floor(100 * now) + 1) / 100);
    if (wanted >= most) break;
    const own = { left: Math.round(counter.left * share) };
    counter.left -= own.left;
    const first = { left: Math.round(own.left / 2) };
    own.left -= first.left;
    let found = withOffcut(best, "y", wanted, job, random, first);
    own.left += Math.max(0, first.left);
    found ??= withOffcut(best, "x", wanted, job, random, own);
    counter.left += Math.max(0, own.left);
    if (found === null) most = wanted;
    else best = isBetter(found.score, best.score) ? found : best;
  }
  return best;
}

/** Every part, an offcut of that share of a sheet kept free on the emptiest; null where none is found. */
function withOffcut(start: Found, axis: Axis, share: number, job: Job, random: Random, counter: Counter): Found | null {
  const { bed, free } = job;
  const sheets = sheetsOf(start, job).toSorted((a, b) => usedArea(a) - usedArea(b));
  const beds = bedsFor(job, sheets.length);
  beds[free.length] = shortBed(bed, axis, share);
  const trees: (Tree | null)[] = [...start.trees.slice(0, free.length), ...sheets];
  trees[free.length] = null;
  const forest = planted(job, beds, trees);
  if (!anneal(forest, levelsOf(start, job), random, counter)) return null;
  return foundOf(
    treesOf(forest).map((tree, s) => onWhole(tree, beds[s]!)),
    job,
  );
}

const shortBed = (bed: Bed, axis: Axis, share: number): Bed => {
  const whole = axis === "y" ? bed.width : bed.length;
  const beyond = Math.ceil(whole * share);
  return { ...bed, [axis === "y" ? "width" : "length"]: whole - beyond, within: axis, beyond };
};

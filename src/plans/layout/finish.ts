/** Parts laid anew on as many sheets, for a larger offcut, fewer fence settings and fewer cuts. */
import { anneal, type Heats } from "./anneal.ts";
import type { Bed } from "./blocks.ts";
import { bedsOf, betterOf, type Found, foundOf, type Job, levelsOf, offcutOf, onWhole, planted } from "./found.ts";
import type { Counter } from "./place.ts";
import type { Random } from "./random.ts";
import { areaOf, extent, type Tree } from "./tree.ts";
import { Wishes } from "./wishes.ts";

/** Of a search that stays near layouts that hold everything: first further from what there is, then nearer. */
export const HOT: Heats = { hot: 0.01, cold: 0.0003 };
export const WARM: Heats = { hot: 0.004, cold: 0.0003 };

export const laidAnew = (start: Found, job: Job, random: Random, counter: Counter): Found =>
  finished(start, job, bedsOf(start.trees, job), HOT, random, counter);

/** What was gained is kept: the largest offcut is not filled again. */
export function laidBeside(start: Found, job: Job, random: Random, counter: Counter, heats: Heats): Found {
  const largest = offcutOf(start, job);
  const { free } = job;
  const beds = bedsOf(start.trees, job).map((bed, s) =>
    s < free.length ? bed : bedBeside(start.trees[s]!, bed, largest),
  );
  return finished(start, job, beds, heats, random, counter);
}

function finished(start: Found, job: Job, beds: readonly Bed[], heats: Heats, random: Random, counter: Counter): Found {
  const forest = planted(job, beds, start.trees);
  const wishes = new Wishes(forest, job.free.length, counter);
  anneal(forest, levelsOf(start, job), random, counter, wishes, heats);
  if (wishes.best === null) return start;
  return betterOf(
    start,
    foundOf(
      wishes.best.trees.map((tree, s) => onWhole(tree, beds[s]!)),
      job,
    ),
  );
}

/** The part of a sheet beside its offcut, where the offcut is as long or as wide as the sheet and the largest of all. */
function bedBeside(tree: Tree, bed: Bed, largest: number): Bed {
  if (tree.kind !== "cut") return bed;
  const last = tree.children.at(-1)!;
  const { across } = tree;
  if (last.kind !== "waste" || areaOf(last) < largest * areaOf(tree) * (1 - 1e-9)) return bed;
  const beyond = extent(last, across);
  const size = extent(tree, across) - beyond;
  return { ...bed, [across === "x" ? "length" : "width"]: size, within: across, beyond };
}

/**
 * The layout method in use: a quick first layout; then, as long as fewer sheets are not ruled out, a search for one sheet less,
 * with few levels of cutting before many; then one for a larger offcut on the last sheet; then one for fewer fence settings.
 */
import { anneal } from "./anneal.ts";
import type { LayoutEngine, LayoutItem, LayoutOptions } from "./engine.ts";
import { fewestSheets } from "./fewest.ts";
import { Finish } from "./finish.ts";
import { type Bed, Forest } from "./forest.ts";
import { treesOf } from "./forest-trees.ts";
import { drawnTogether, gathered } from "./offcut.ts";
import type { Counter } from "./place.ts";
import { type Random, randomFrom } from "./random.ts";
import { isBetter, type Score, scoreOf } from "./score.ts";
import type { Axis, Tree } from "./tree.ts";
import { areaOf, depthOf, nodesOf, resized, tightExtent } from "./tree.ts";

/** Of what the search for fewer sheets leaves of the budget, the share of the offcut's rounds; the rest is for the fence. */
const FOR_OFFCUT = 0.5;
const FOR_SHEETS = 0.6; // what is not needed is left to the others
const ROUNDS = 5; // in which the range of the shortened sheet is narrowed, by a third or more each

type Found = { trees: Tree[]; score: Score };
type Job = { items: readonly LayoutItem[]; bed: Bed; options: LayoutOptions; random: Random; counter: Counter };

export const findLayout: LayoutEngine = (items, sheet, options) => {
  const bed: Bed = { length: sheet.length, width: sheet.width, within: null };
  const job: Job = { items, bed, options, random: randomFrom(options.seed), counter: { left: options.trials } };
  const forSheets = { left: Math.round(job.counter.left * FOR_SHEETS) };
  job.counter.left -= forSheets.left;
  const fewest = found(fewestSheets(items, bed, options, job.random, forSheets), options.depth);
  job.counter.left += Math.max(0, forSheets.left);
  return finished(largerOffcut(fewest, job), job).trees;
};

const found = (trees: readonly Tree[], depth: number): Found => {
  const tidy = trees.filter((tree) => tree.kind !== "waste").map((tree) => gathered(tree, depth));
  return { trees: tidy, score: scoreOf(tidy, depth) };
};

/** Spends at most a share of what is left. */
function within<T>(job: Job, share: number, spend: (counter: Counter) => T): T {
  const own = { left: Math.round(job.counter.left * share) };
  job.counter.left -= own.left;
  const result = spend(own);
  job.counter.left += Math.max(0, own.left);
  return result;
}

const usedArea = (tree: Tree): number => {
  let used = 0;
  for (const node of nodesOf(tree)) if (node.kind === "part") used += areaOf(node);
  return used;
};

/** Shortens or narrows the emptiest sheet as far as everything still fits, by rips and by crosscuts. */
function largerOffcut(start: Found, job: Job): Found {
  const { items, bed, options, random } = job;
  let best = start;
  const depth = Math.max(options.depth, ...start.trees.map(depthOf));
  const area = items.reduce((sum, item) => sum + item.length * item.width * item.copies, 0);
  const spill = area - (start.trees.length - 1) * bed.length * bed.width; // the least that must lie on the last sheet
  return within(job, FOR_OFFCUT, (all) => {
    const share = Math.round(all.left / (2 * ROUNDS));
    for (const axis of ["y", "x"] as const satisfies Axis[]) {
      let least = Math.max(0, spill / (axis === "y" ? bed.length : bed.width));
      let most = Math.min(...best.trees.map((tree) => tightExtent(tree, axis)));
      for (let n = 0; n < ROUNDS && least < most; n++) {
        const size = Math.floor((least + 2 * most) / 3);
        const own = { left: share };
        const short: Bed = axis === "y" ? { ...bed, width: size, within: "y" } : { ...bed, length: size, within: "x" };
        const trees = best.trees.toSorted((a, b) => usedArea(a) - usedArea(b));
        const forest = new Forest(items, [short, ...trees.slice(1).map(() => bed)]);
        forest.begin();
        trees.forEach((tree, s) => void (s > 0 && forest.plant(s, tree)));
        const isDone = anneal(forest, depth, random, own);
        all.left -= share - Math.max(0, own.left);
        if (!isDone) {
          least = size;
          continue;
        }
        const [last, ...full] = treesOf(forest);
        const whole = restored(last!, bed, axis);
        most = Math.min(size, tightExtent(whole, axis));
        const tried = found([...full, whole], options.depth);
        if (isBetter(tried.score, best.score)) best = tried;
      }
    }
    return best;
  });
}

/** The tree of a shortened sheet on the whole one. */
const restored = (tree: Tree, bed: Bed, axis: Axis): Tree =>
  drawnTogether(resized(tree, axis, axis === "x" ? bed.length : bed.width), axis);

/** Lays the parts anew on as many sheets: a larger offcut, then fewer fence settings, then fewer cuts. */
function finished(start: Found, job: Job): Found {
  const { items, bed, options, random, counter } = job;
  const depth = Math.max(options.depth, ...start.trees.map(depthOf));
  const forest = new Forest(
    items,
    start.trees.map(() => bed),
  );
  forest.begin();
  start.trees.forEach((tree, s) => void forest.plant(s, tree));
  const finish = new Finish(forest, counter);
  anneal(forest, depth, random, counter, finish);
  if (finish.best === null) return start;
  const tried = found(finish.best.trees, options.depth);
  return isBetter(tried.score, start.score) ? tried : start;
}

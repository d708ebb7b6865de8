/**
 * How few sheets and boards the layout method needs, how well it proves them, and how handy it leaves them, on instances whose best
 * layouts are known: `npm run bench:layouts -- [ROW...] [folder=...] [every=N] [seeds=1,2,3] [seconds=N] [store=FILE]`. Every row
 * without ROW; the median over the seeds. `seconds` are units of the search's counter, UNITS_A_SECOND each, so that a busy machine measures the same.
 * `folder`: where the instances lie; those of the repository are a sample. `store`: a file that keeps each result, so that
 * a run that was stopped goes on. No test depends on it.
 */
import { appendFileSync, existsSync, readFileSync } from "node:fs";
import { join } from "node:path";
import { leastSheets } from "../../../src/plans/layout/bound.ts";
import { beginning, fewestSheets } from "../../../src/plans/layout/fewest.ts";
import type { Job } from "../../../src/plans/layout/found.ts";
import { randomFrom } from "../../../src/plans/layout/random.ts";
import { scoreOf } from "../../../src/plans/layout/score.ts";
import { findLayout } from "../../../src/plans/layout/search.ts";
import { areaOf, nodesOf, type Tree } from "../../../src/plans/layout/tree.ts";
import { usualLevels } from "../../../src/plans/sheets/index.ts";
import { boards, casework, classic, frames, fresh, type Instance, threeStage } from "./bench-instances.ts";
import { checkTrees } from "./tree-checker.ts";

/** By the weights of what the counter counts (place.ts); the rows print how many a second of processor time really was. */
const UNITS_A_SECOND = 100e6;

type Row = { name: string; of: (folder: string) => Instance[]; seconds: number; depth?: number; whole?: true };

const ROWS: Row[] = [
  { name: "forbidden-1s", of: (folder) => classic(folder, false), seconds: 1 },
  { name: "forbidden-10s", of: (folder) => classic(folder, false), seconds: 10 },
  { name: "allowed-1s", of: (folder) => classic(folder, true), seconds: 1 },
  { name: "allowed-10s", of: (folder) => classic(folder, true), seconds: 10 },
  { name: "casework-10s", of: casework, seconds: 10 },
  { name: "casework-depth4-3s", of: casework, seconds: 3, depth: 4 },
  { name: "casework-50ms", of: casework, seconds: 0.05 },
  { name: "casework-whole-10s", of: casework, seconds: 10, whole: true },
  { name: "fresh-10s", of: fresh, seconds: 10 },
  { name: "three-stage-3s", of: threeStage, seconds: 3 },
  { name: "scholl-2s", of: (folder) => boards(folder, "scholl"), seconds: 2 },
  { name: "u250-2s", of: (folder) => boards(folder, "u250"), seconds: 2 },
  { name: "frames-50ms", of: frames, seconds: 0.05 },
];

/** `offcut`: the largest, as a share of all waste. `units` and `seconds`: what it took, seconds of processor time. */
type Result = {
  row: string;
  id: string;
  seed: number;
  budget: number;
  bound: number;
  sheets: number;
  depth: number;
  cuts: number;
  fences: number;
  offcut: number;
  units: number;
  seconds: number;
};

/** Levels without a limit. */
const ANY = Number.POSITIVE_INFINITY;
/** The whole method begins at the levels that are usual in the plans, and stops here. */
const DEEP = 4;

function measured(row: Row, instance: Instance, seed: number, budget: number): Result {
  const { id, length, width, items } = instance;
  const bed = { length, width, within: null };
  const start = process.cpuUsage();
  const counter = { left: budget };
  const depth = row.depth ?? ANY;
  const job: Job = { items, bed, free: [], options: { depth, most: depth, least: 1 } };
  job.options.least = leastSheets(items, bed, beginning(job, { left: budget })!.length);
  const { least } = job.options;
  const usual = usualLevels(items.reduce((all, { copies }) => all + copies, 0));
  const trees = row.whole
    ? findLayout(items, bed, { trials: budget, seed, depth: usual, most: DEEP, least })
    : fewestSheets(job, randomFrom(seed), counter);
  const used = process.cpuUsage(start);
  const wrong = checkTrees(trees, items, bed);
  if (wrong.length > 0) throw new Error(`${id}: ${wrong.join("; ")}`);
  const [, , , fences, cuts] = scoreOf(trees, [], usual);
  return {
    row: row.name,
    id,
    seed,
    budget,
    bound: least,
    sheets: trees.length,
    depth: Math.max(...trees.map((tree) => depthOfTree(tree))),
    cuts: cuts!,
    fences: fences!,
    offcut: largestShare(trees),
    units: row.whole ? budget : budget - Math.max(0, counter.left),
    seconds: (used.user + used.system) / 1e6,
  };
}

const depthOfTree = (tree: Tree): number => (tree.kind === "cut" ? 1 + Math.max(...tree.children.map(depthOfTree)) : 0);

function largestShare(trees: readonly Tree[]): number {
  const wastes = trees.flatMap((tree) => [...nodesOf(tree)].filter(({ kind }) => kind === "waste").map(areaOf));
  const all = wastes.reduce((sum, area) => sum + area, 0);
  return all === 0 ? 1 : Math.max(...wastes) / all;
}

const words = process.argv.slice(2);
const option = (name: string): string | null =>
  words.find((word) => word.startsWith(`${name}=`))?.slice(name.length + 1) ?? null;
const wanted = words.filter((word) => !word.includes("="));
const folder = option("folder") ?? join(import.meta.dirname, "../../reference/bench");
const every = Number(option("every") ?? 1);
const seeds = (option("seeds") ?? "1").split(",").map(Number);
const store = option("store");
for (const name of wanted) {
  if (!ROWS.some((row) => row.name === name))
    throw new Error(`no row ${name}; there are ${ROWS.map((row) => row.name).join(", ")}`);
}

const done = new Map<string, Result>();
const keyOf = ({ row, id, seed, budget }: Pick<Result, "row" | "id" | "seed" | "budget">): string =>
  `${row} ${id} ${seed} ${budget}`;
if (store !== null && existsSync(store)) {
  for (const text of readFileSync(store, "utf8").split("\n").filter(Boolean)) {
    const result = JSON.parse(text) as Result;
    done.set(keyOf(result), result);
  }
}

/** Null where the folder holds other instances only. */
function instancesOf(row: Row): Instance[] | null {
  try {
    return row.of(folder);
  } catch (error) {
    if ((error as NodeJS.ErrnoException).code === "ENOENT") return null;
    throw error;
  }
}

const sum = <T>(list: readonly T[], of: (one: T) => number): number => list.reduce((all, one) => all + of(one), 0);

for (const row of ROWS.filter(({ name }) => wanted.length === 0 || wanted.includes(name))) {
  const budget = Math.round(Number(option("seconds") ?? row.seconds) * UNITS_A_SECOND);
  const all = instancesOf(row);
  if (all === null) {
    console.log(`${row.name}: its instances do not lie in ${folder}`);
    continue;
  }
  const instances = all.filter((_, i) => i % every === 0);
  const bySeed = seeds.map((seed) =>
    instances.map((instance) => {
      const key = keyOf({ row: row.name, id: instance.id, seed, budget });
      const stored = done.get(key);
      if (stored !== undefined) return stored;
      const result = measured(row, instance, seed, budget);
      if (store !== null) appendFileSync(store, `${JSON.stringify(result)}\n`);
      return result;
    }),
  );
  const ranked = bySeed.toSorted((a, b) => sum(a, ({ sheets }) => sheets) - sum(b, ({ sheets }) => sheets));
  const median = ranked[Math.floor((ranked.length - 1) / 2)]!;
  const units = sum(median, (one) => one.units) / 1e6;
  const seconds = sum(median, (one) => one.seconds);
  const known = sum(instances, (one) => one.known ?? 0);
  const totals = bySeed.map((results) => sum(results, ({ sheets }) => sheets));
  const off = median.flatMap((one, i) => {
    const best = instances[i]!.known;
    return best === null || one.sheets === best
      ? []
      : [`${one.id} ${one.sheets > best ? "+" : ""}${one.sheets - best}`];
  });
  console.log(
    `${row.name}: ${instances.length} instances, bound ${sum(median, (one) => one.bound)}, best known ${known}, ours ${totals.join(" ")} (median ${sum(median, (one) => one.sheets)}), ` +
      `proved ${median.filter((one) => one.sheets === one.bound).length}; cuts ${sum(median, (one) => one.cuts)}, fence settings ${sum(median, (one) => one.fences)}, ` +
      `largest offcut over waste ${((100 * sum(median, (one) => one.offcut)) / median.length).toFixed(1)} %, deepest ${Math.max(...median.map((one) => one.depth))}; ` +
      `${units.toFixed(0)} million units in ${seconds.toFixed(1)} s of processor time (${(units / seconds).toFixed(0)} million a second), slowest ${Math.max(...median.map((one) => one.seconds)).toFixed(2)} s`,
  );
  if (off.length > 0) console.log(`  ${off.join(", ")}`);
}

/**
 * How few sheets and boards the layout method finds on the reference jobs, and how well it proves them: run by `npm run
 * bench:layouts -- SET LEAVES [FOLDER] [every=N] [seed=N] [most=N]`; no test depends on it. SET: fixed, turn, three-stage, casework,
 * boards or frames. LEAVES: the budget of each instance. FOLDER: where the instances lie; those of the repository are a sample.
 */
import { readFileSync } from "node:fs";
import { join } from "node:path";
import { leastSheets } from "../../src/plans/layout/bound.ts";
import type { LayoutItem } from "../../src/plans/layout/engine.ts";
import { fewestSheets } from "../../src/plans/layout/fewest.ts";
import { randomFrom } from "../../src/plans/layout/random.ts";
import { checkTrees } from "./tree-checker.ts";

type Instance = { id: string; length: number; width: number; items: LayoutItem[] };

const [set = "fixed", leaves = "100000000", ...rest] = process.argv.slice(2);
const folder = rest.find((word) => !word.includes("=")) ?? join(import.meta.dirname, "../reference/bench");
const numberOf = (name: string, usual: number): number =>
  Number(rest.find((word) => word.startsWith(`${name}=`))?.slice(name.length + 1) ?? usual);

const json = (file: string): { instances: Record<string, unknown>[] } => {
  const read: unknown = JSON.parse(readFileSync(join(folder, file), "utf8"));
  return (Array.isArray(read) ? { instances: read } : read) as { instances: Record<string, unknown>[] };
};

function figures(file: string, column: string): Map<string, number> {
  const [head = "", ...rows] = readFileSync(join(folder, file), "utf8").trim().split(/\r?\n/);
  const columns = head.split(",");
  const [id, at] = [columns.indexOf("id"), columns.indexOf(column)];
  return new Map(rows.map((row) => row.split(",")).map((cells) => [cells[id]!, Number(cells[at])]));
}

/** Items of one size are copies of one; where all may turn, the longer side is the length. */
function grouped(
  sizes: readonly (readonly [length: number, width: number, copies: number, turn: boolean])[],
): LayoutItem[] {
  const groups = new Map<string, LayoutItem>();
  for (const [l, w, copies, turn] of sizes) {
    const [length, width] = turn ? [Math.max(l, w), Math.min(l, w)] : [l, w];
    const key = `${length} ${width} ${turn}`;
    const group = groups.get(key) ?? { length, width, copies: 0, turn };
    group.copies += copies;
    groups.set(key, group);
  }
  return [...groups.values()];
}

const READERS: Record<string, () => { instances: Instance[]; known: Map<string, number> }> = {
  fixed: () => ({ instances: classic(false), known: figures("2bp-known.csv", "ub_guillotine_fixed") }),
  turn: () => ({ instances: classic(true), known: figures("2bp-known.csv", "ub_guillotine_turn") }),
  "three-stage": () => ({
    instances: json("guillotine-3stage.json").instances.map(({ id, w, h, items }) => ({
      id: String(id),
      length: Number(w),
      width: Number(h),
      items: grouped((items as number[][]).map(([l, b, n]) => [l!, b!, n!, false])),
    })),
    known: figures("guillotine-3stage-known.csv", "best_3stage_published"),
  }),
  casework: () => ({
    instances: json("casework-sheets.json").instances.map(({ id, sheet, kerf, trim, parts }) => {
      const [length, width] = (sheet as number[]).map((size) => size - 2 * Number(trim) + Number(kerf));
      const folded = (parts as number[][]).map(
        ([l, w, n, grain]) => [l! + Number(kerf), w! + Number(kerf), n!, grain === 0] as const,
      );
      return { id: String(id), length: length!, width: width!, items: grouped(folded) };
    }),
    known: figures("casework-known.csv", "ub_guillotine"),
  }),
  boards: () => ({
    instances: json("boards-1d.json")
      .instances.filter(({ set: name }) => String(name).startsWith("scholl") || String(name) === "falkenauer")
      .map(({ id, cap, pieces }) => ({
        id: String(id),
        length: Number(cap),
        width: 1,
        items: grouped((pieces as number[][]).map(([l, n]) => [l!, 1, n!, false])),
      })),
    known: figures("boards-known.csv", "ub"),
  }),
  frames: () => ({
    instances: json("frame-boards.json").instances.map(({ id, board, kerf, trim, pieces }) => ({
      id: String(id),
      length: Number(board) - 2 * Number(trim) + Number(kerf),
      width: 1,
      items: grouped((pieces as number[][]).map(([l, n]) => [l! + Number(kerf), 1, n!, false])),
    })),
    known: figures("boards-known.csv", "ub"),
  }),
};

const classic = (turn: boolean): Instance[] =>
  json("2bp.json").instances.map(({ id, w, h, items }) => ({
    id: String(id),
    length: Number(w),
    width: Number(h),
    items: grouped((items as number[][]).map(([l, b]) => [l!, b!, 1, turn])),
  }));

const reader = READERS[set];
if (reader === undefined) throw new Error(`no such set: ${set}; there are ${Object.keys(READERS).join(", ")}`);
const { instances, known } = reader();
const every = numberOf("every", 1);
const sums = { instances: 0, bound: 0, known: 0, ours: 0, proved: 0, leaves: 0, seconds: 0, slowest: 0 };
const off: string[] = [];
for (const { id, length, width, items } of instances.filter((_, i) => i % every === 0)) {
  const bed = { length, width, within: null };
  const start = process.cpuUsage();
  const least = leastSheets(items, bed);
  const counter = { left: Number(leaves) };
  const most = numberOf("most", 99);
  const options = { depth: most, most, least };
  const trees = fewestSheets(items, bed, options, randomFrom(numberOf("seed", 1)), counter);
  const used = process.cpuUsage(start);
  const wrong = checkTrees(trees, items, bed);
  if (wrong.length > 0) throw new Error(`${id}: ${wrong.join("; ")}`);
  const best = known.get(id)!;
  const seconds = (used.user + used.system) / 1e6;
  sums.instances += 1;
  sums.bound += least;
  sums.known += best;
  sums.ours += trees.length;
  sums.proved += Number(trees.length === least);
  sums.leaves += Number(leaves) - Math.max(0, counter.left);
  sums.seconds += seconds;
  sums.slowest = Math.max(sums.slowest, seconds);
  if (trees.length !== best) off.push(`${id} ${trees.length > best ? "+" : ""}${trees.length - best}`);
}
const rate = sums.leaves / sums.seconds / 1e6;
console.log(
  `${set}: ${sums.instances} instances, bound ${sums.bound}, best known ${sums.known}, ours ${sums.ours}, proved ${sums.proved}; ` +
    `${(sums.leaves / 1e6).toFixed(0)} million leaves in ${sums.seconds.toFixed(1)} s of processor time (${rate.toFixed(0)} million a second), slowest ${sums.slowest.toFixed(2)} s`,
);
console.log(off.join(", "));

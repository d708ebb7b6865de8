/** Marks, names and masses as the tables letter them. */

import type { Unit } from "../base/length.ts";
import { listInWords, pluralOf } from "../base/words.ts";
import type { DryfitSet, SetPart, SetStep, SetStock } from "./schema.ts";

/** 2 before 10; letters after their number. */
export const byMark = (a: string, b: string): number => a.localeCompare(b, "en", { numeric: true });

export function partOf(set: DryfitSet, mark: string): SetPart {
  const part = set.parts.find((one) => one.mark === mark);
  if (part === undefined) throw new Error(`Internal error: no part ${mark} in the set`);
  return part;
}

export function stockOf(set: DryfitSet, id: string): SetStock {
  const stock = set.stock.find((one) => one.id === id);
  if (stock === undefined) throw new Error(`Internal error: no stock ${id} in the set`);
  return stock;
}

/** Each name once, what they end in said once: "front, rear of the plinth". */
export function namesTogether(all: readonly string[]): string {
  const names = [...new Set(all)].map((name) => name.split(" "));
  const shortest = Math.min(...names.map(({ length }) => length));
  let shared = 0;
  const endIn = (n: number): string[] => names.map((name) => name.at(-n)!);
  while (names.length > 1 && shared < shortest - 1 && new Set(endIn(shared + 1)).size === 1) shared += 1;
  const firsts = names.map((name) => name.slice(0, name.length - shared).join(" "));
  return [firsts.join(", "), ...names[0]!.slice(names[0]!.length - shared)].join(" ");
}

/** The names of parts of one case, with the case where the job has several and it is called otherwise. */
export function namesInSet(set: DryfitSet, parts: readonly SetPart[]): string {
  const names = namesTogether(parts.map(({ name }) => name));
  const home = parts[0]!.case;
  return set.assemblies.length > 1 && home !== names ? `${names}, ${home}` : names;
}

export const nameInSet = (set: DryfitSet, part: SetPart): string => namesInSet(set, [part]);

/** "3 pairs of side-mounted slides", "2 knobs", "18 screws for the slides, into the case". */
export function countedInWords({ what, count, unit }: SetStep["hardware"][number]): string {
  const name = what.toLowerCase();
  if (unit === "pairs") return `${count} ${count === 1 ? "pair" : "pairs"} of ${name}`;
  const isPlural = name.split(/[ ,]/).includes(unit);
  return `${count} ${count === 1 || isPlural ? name : pluralOf(name)}`;
}

const KG_PER_POUND = 0.45359237; // exact, by definition of the pound

export function formatMass(mass: number, unit: Unit): string {
  const kilograms = `${mass.toFixed(1)} kg`;
  return unit === "mm" ? kilograms : `${(mass / KG_PER_POUND).toFixed(1)} lb (${kilograms})`;
}

/** What guides a piece that is cut to size. */
export const SIZING_GUIDES: Readonly<Record<DryfitSet["sizing"][number]["guide"], string>> = {
  fence: "fence",
  stop: "sled, stop",
  line: "sled, line",
  straightedge: "straightedge",
};

/** "3, 4 and 6 to 8": numbers in their order, three and more in a row as one range. */
export function numbersInWords(numbers: readonly number[]): string {
  const runs: [number, number][] = [];
  for (const n of [...numbers].sort((a, b) => a - b)) {
    const run = runs.at(-1);
    if (run && n === run[1] + 1) run[1] = n;
    else runs.push([n, n]);
  }
  return listInWords(
    runs.flatMap(([from, to]) =>
      to - from > 1 ? [`${from} to ${to}`] : from === to ? [`${from}`] : [`${from}`, `${to}`],
    ),
  );
}

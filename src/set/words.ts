/** Marks, names and masses as the tables letter them. */
import type { Unit } from "../base/length.ts";
import type { DryfitSet, SetPart, SetStock } from "./schema.ts";

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

/** The name, with the case where the job has several. */
export const nameInSet = (set: DryfitSet, part: SetPart): string =>
  set.assemblies.length > 1 ? `${part.name}, ${part.case}` : part.name;

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

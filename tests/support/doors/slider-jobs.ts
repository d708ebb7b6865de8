/** Jobs with doors that slide in grooves, to be changed and looked at. */
import { readFileSync } from "node:fs";
import { parse } from "jsonc-parser";
import { dryFit } from "../../../src/audit/dryfit.ts";
import { readProjectText } from "../../../src/project/read.ts";
import type { DryfitSet, SetAssembly, SetCheck, SetSliders } from "../../../src/set/schema.ts";
import { testFile } from "../jobs/examples.ts";
import { joinerySet } from "../jobs/outcome.ts";

export type Change = { doors?: object; one?: object; job?: object };

/** A small project with something of its doors, its case or its job changed. */
export function textOf(name: string, { doors, one, job }: Change): string {
  const file = parse(readFileSync(testFile(name), "utf8"));
  const [first] = file.cases;
  return JSON.stringify({ ...file, ...job, cases: [{ ...first, ...one, doors: { ...first.doors, ...doors } }] });
}
export const made = (text: string): DryfitSet => joinerySet(readProjectText(text, "sliders.json").project);
export const built = (change: Change, name = "doors-sliding"): DryfitSet => made(textOf(name, change));
export const failed = (set: DryfitSet): SetCheck[] =>
  [...set.checks, ...dryFit(set)].filter(({ level, id }) => level === "failure" && id !== "no-tool");

export const assemblyOf = (set: DryfitSet, { assembly }: SetSliders["doors"][number]): SetAssembly =>
  set.assemblies.find(({ name }) => name === assembly)!;
export const heightOf = (set: DryfitSet): number => assemblyOf(set, set.sliders[0]!.doors[0]!).size[2];
export const widthOf = (set: DryfitSet): number => assemblyOf(set, set.sliders[0]!.doors[0]!).size[0];

/** One bay, so wide and high between members exactly 18 mm or 3/4 in thick. */
export function opening(width: number, height: number, doors: object = {}, job: object = {}): DryfitSet {
  const isInch = (job as { unit?: string }).unit === "in";
  const thick = isInch ? 0.75 : 18;
  const sheet = isInch ? { length: 96, width: 48 } : { length: 2440, width: 1220 };
  const ply = { name: "ply", nominal: thick, measured: thick, sheet, goodFaces: 2 };
  return made(
    JSON.stringify({
      job: { number: "T", title: "Opening", date: "2026-11-20", revision: "A" },
      unit: "mm",
      ...job,
      stock: { ply },
      cases: [
        {
          name: "case",
          width: width + 2 * thick,
          height: height + 2 * thick,
          depth: isInch ? 12 : 300,
          stock: "ply",
          back: { fit: "none" },
          bays: { door: "sliding" },
          doors: { kind: "slab", stock: "ply", fit: "sliding", ...doors },
        },
      ],
    }),
  );
}

/** Jobs with doors on hinges, to be changed and looked at. */
import { readFileSync } from "node:fs";
import { parse } from "jsonc-parser";
import { MM_PER_INCH } from "../../../src/base/length.ts";
import { readProjectText } from "../../../src/project/read.ts";
import type { DryfitSet, SetDoor, SetPart } from "../../../src/set/schema.ts";
import { testFile } from "../jobs/examples.ts";
import { proved } from "../jobs/outcome.ts";

export const inch = (inches: number): number => inches * MM_PER_INCH;

export type Change = { doors?: object; one?: object; job?: object };

/** A small project with something of its doors, its case or its job changed. */
export function textOf(name: string, { doors, one, job }: Change): string {
  const file = parse(readFileSync(testFile(name), "utf8"));
  const [first] = file.cases;
  return JSON.stringify({ ...file, ...job, cases: [{ ...first, ...one, doors: { ...first.doors, ...doors } }] });
}
export const made = (text: string): DryfitSet => proved(readProjectText(text, "doors.json").project);
export const built = (name: string, change: Change): DryfitSet => made(textOf(name, change));

export const part = (set: DryfitSet, id: string): SetPart => set.parts.find(({ key }) => key.endsWith(`/${id}`))!;
export const sizeOf = (set: DryfitSet, door: SetDoor): readonly number[] =>
  set.assemblies.find(({ name }) => name === door.assembly)!.size;

/** One bay, so wide and high between members exactly 3/4 in thick: what a formula of the trade calls the opening. */
export function opening(width: number, height: number, step: string, doors: object, door = "left"): DryfitSet {
  const ply = { name: "ply", nominal: "3/4", measured: "3/4", sheet: { length: 96, width: 48 }, goodFaces: 2 };
  return made(
    JSON.stringify({
      job: { number: "T", title: "Opening", date: "2026-11-20", revision: "A" },
      unit: "in",
      step,
      stock: { ply, thin: { ...ply, name: "thin", nominal: "1/4", measured: "1/4" } },
      cases: [
        {
          name: "case",
          width: width + 1.5,
          height: height + 1.5,
          depth: 12,
          stock: { all: "ply", back: "thin" },
          bays: { door },
          doors: {
            kind: "frame and panel",
            stock: "ply",
            stile: "2 1/4",
            panel: { stock: "thin" },
            hinges: { kind: "butt" },
            ...doors,
          },
        },
      ],
    }),
  );
}

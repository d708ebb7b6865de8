/** Jobs with doors on a track, to be changed and looked at. */
import { readFileSync } from "node:fs";
import { parse } from "jsonc-parser";
import { MM_PER_INCH } from "../../../src/base/length.ts";
import { readProjectText } from "../../../src/project/read.ts";
import type { DryfitSet } from "../../../src/set/schema.ts";
import { byId } from "../jobs/check-input.ts";
import { testFile } from "../jobs/examples.ts";
import { proved } from "../jobs/outcome.ts";

export const inch = (inches: number): number => inches * MM_PER_INCH;

/** Without its paper, which nothing here looks at. */
export const made = (text: string): DryfitSet => proved(readProjectText(text, "track.json").project);

export type Change = { track?: object; one?: object; job?: object };

/** A small project with something of its track, its case or its job changed. */
export function textOf(name: string, { track, one, job }: Change): string {
  const file = parse(readFileSync(testFile(name), "utf8"));
  const [first] = file.cases;
  return JSON.stringify({ ...file, ...job, cases: [{ ...first, ...one, track: { ...first.track, ...track } }] });
}
export const built = (name: string, change: Change): DryfitSet => made(textOf(name, change));

export const widthOf = (set: DryfitSet, assembly: string): number =>
  set.assemblies.find(({ name }) => name === assembly)!.size[0];

/** Before one opening exactly so wide in a face frame; slabs, all in inches. */
export function frontOf(opening: number, track: object, more: Change = {}): DryfitSet {
  const ply = { name: "ply", nominal: "3/4", measured: "3/4", sheet: { length: 192, width: 96 }, goodFaces: 2 };
  const oak = { name: "oak", nominal: "3/4", boards: { rough: 1, length: 192, width: 8 } };
  return made(
    JSON.stringify({
      job: { number: "T", title: "Track", date: "2026-11-20", revision: "A" },
      unit: "in",
      step: "1/32",
      stock: { ply, oak },
      ...more.job,
      cases: [
        {
          name: "case",
          // The frame's stiles are 2 in wide and stand 1/8 in beyond the case.
          width: opening + 4 - 1 / 4,
          height: 30,
          depth: 12,
          stock: "ply",
          back: { fit: "none" },
          bottom: { up: 3 },
          frame: { stock: "oak", stile: 2, topRail: 4 },
          track: { kind: "slab", stock: "ply", hangers: { rating: "200 lb" }, ...track },
          ...more.one,
        },
      ],
    }),
  );
}
export const told = (set: DryfitSet, id: string): string[] =>
  byId(set.checks, id)
    .filter(({ level }) => level === "failure" || level === "warning")
    .map(({ text, change }) => `${text} ${change ?? ""}`.trim());

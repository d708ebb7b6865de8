/** Jobs with a worktop, to be changed and looked at. */
import { readFileSync } from "node:fs";
import { parse } from "jsonc-parser";
import { dryFit } from "../../../src/audit/dryfit.ts";
import { MM_PER_INCH } from "../../../src/base/length.ts";
import { makeSet } from "../../../src/build.ts";
import { readProjectText } from "../../../src/project/read.ts";
import type { DryfitSet, SetFeature, SetPart, SetWorktop } from "../../../src/set/schema.ts";
import { testFile } from "../jobs/examples.ts";
import { joinerySet } from "../jobs/outcome.ts";
import { printed, problemsIn } from "../jobs/project-file.ts";

export const inch = (inches: number): number => inches * MM_PER_INCH;
type File = {
  stock: Record<string, object>;
  cases: Record<string, unknown>[];
  worktops: Record<string, unknown>[];
} & Record<string, unknown>;
export const file = (name: string): File => parse(readFileSync(testFile(name), "utf8"));

/** The small project with something of its worktop, its case or the job changed. */
export function textOf(name: string, top: object = {}, one: object = {}, job: object = {}): string {
  const all = file(name);
  return JSON.stringify({
    ...all,
    ...job,
    cases: [{ ...all.cases[0], ...one }, ...all.cases.slice(1)],
    worktops: [{ ...all.worktops[0], ...top }],
  });
}

/** Without its paper: only what is bought asks for the whole set. */
export const built = (...args: Parameters<typeof textOf>): DryfitSet =>
  joinerySet(readProjectText(textOf(...args), "worktop.json").project);
export const whole = (...args: Parameters<typeof textOf>): DryfitSet =>
  makeSet(readProjectText(textOf(...args), "worktop.json").project, { draft: false, olderSet: null });

export const topOf = (set: DryfitSet): SetWorktop => set.worktops[0]!;
export const partOf = (set: DryfitSet, mark: string): SetPart => set.parts.find((part) => part.mark === mark)!;
export const slotsOf = (set: DryfitSet, mark: string): SetFeature[] =>
  partOf(set, mark).features.filter(({ kind }) => kind === "slot");
export const failures = (set: DryfitSet): string[] =>
  dryFit(set)
    .filter(({ level }) => level === "failure")
    .map(({ id }) => id);

/** What is wrong with a file, each at its key. */
export const said = (...args: Parameters<typeof textOf>): string => printed(problemsIn(textOf(...args)));

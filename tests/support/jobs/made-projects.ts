/** Projects of random files that can be made: the reader takes them, and no check of theirs fails. */
import fc from "fast-check";
import type { Project } from "../../../src/project/project.ts";
import type { DryfitSet } from "../../../src/set/schema.ts";
import { outcomeOf } from "./outcome.ts";
import { type RandomFile, randomFile } from "./random-file.ts";

/** `set`: without its paper. */
export type Made = { file: RandomFile; project: Project; set: DryfitSet };

/** Those that can be made of so many random files, the same for a seed every time. */
export const madeProjects = (files: number, seed: number): Made[] =>
  fc.sample(randomFile, { numRuns: files, seed }).flatMap((file) => {
    const outcome = outcomeOf(file.text);
    const isMade = outcome.kind === "made" && outcome.failures.length === 0;
    return isMade ? [{ file, project: outcome.project, set: outcome.set }] : [];
  });

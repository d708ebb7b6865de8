/** Pages of random jobs, looked over. */
import fc from "fast-check";
import { ProblemsFound } from "../../../src/base/problem.ts";
import { makeSet } from "../../../src/build.ts";
import { readProjectText } from "../../../src/project/read.ts";
import type { DryfitSet } from "../../../src/set/schema.ts";
import { outcomeOf } from "../jobs/outcome.ts";
import { randomFile } from "../jobs/random-file.ts";
import { IS_WHOLE, SEED, tell } from "../runs.ts";
import { onPaper, type PaperName } from "./papers.ts";
import { faultsOfDrawings } from "./set-pages.ts";

const JOBS = IS_WHOLE ? 100 : 2;

export type PagesJob = { text: string; set: DryfitSet };

/** Jobs that can be made and fit, whole: with their layouts, steps and labels; a few of them in a part of the tests. */
export function pagesJobs(): PagesJob[] {
  const made: PagesJob[] = [];
  for (const { text } of fc.sample(randomFile, { numRuns: 3 * JOBS, seed: SEED + 8 })) {
    if (made.length === JOBS) return made;
    const outcome = outcomeOf(text);
    if (outcome.kind !== "made" || outcome.failures.length > 0) continue;
    const { project } = readProjectText(text, "random.json");
    made.push({ text, set: makeSet(project, { draft: false, olderSet: null, effort: "quick" }) });
  }
  throw new Error(`only ${made.length} of ${JOBS} jobs can be made`);
}

/** Null where a part or a table asks for larger paper: a refusal with its remedy is no page. */
function faultsOrNone(set: DryfitSet): string[] | null {
  try {
    return faultsOfDrawings(set);
  } catch (error) {
    if (error instanceof ProblemsFound && error.message.includes("choose larger paper")) return null;
    throw error;
  }
}

/** Every page of every job on all these papers, or each job on one of them in a part of the tests; what is wrong, with the job. */
export function faultsOnPapers(jobs: readonly PagesJob[], papers: readonly PaperName[]): string[] {
  const counts = papers.map((paper) => ({ paper, jobs: 0, refused: 0, bad: 0 }));
  const bad: string[] = [];
  jobs.forEach(({ text, set }, i) => {
    counts.forEach((count, n) => {
      if (!IS_WHOLE && n !== i % papers.length) return;
      count.jobs += 1;
      const faults = faultsOrNone(onPaper(set, count.paper));
      if (faults === null) {
        count.refused += 1;
        return;
      }
      count.bad += faults.length;
      if (faults.length > 0) bad.push(`${count.paper}: ${faults.join("; ")}\n${text}`);
    });
  });
  if (IS_WHOLE) {
    tell("Pages of random jobs: jobs, those that ask for larger paper, and faults found", [
      ["paper", "jobs", "refused", "faults"],
      ...counts.map((count) => [count.paper, count.jobs, count.refused, count.bad]),
    ]);
  }
  return bad;
}

/** Every page of random jobs on four papers, lying and upright, looked over as in pages.test.ts; a few of them in a part of the tests. */
import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { ProblemsFound } from "../../src/base/problem.ts";
import { makeSet } from "../../src/build.ts";
import { readProjectText } from "../../src/project/read.ts";
import type { DryfitSet } from "../../src/set/schema.ts";
import { outcomeOf } from "../support/jobs/outcome.ts";
import { randomFile } from "../support/jobs/random-file.ts";
import { onPaper, PAPER_NAMES } from "../support/pages/papers.ts";
import { faultsOfDrawings, faultsOfSticks } from "../support/pages/set-pages.ts";
import { IS_WHOLE, SEED, tell } from "../support/runs.ts";

const JOBS = IS_WHOLE ? 100 : 3;

/** Jobs that can be made and fit, whole: with their layouts, steps and labels. */
function jobs(): { text: string; set: DryfitSet }[] {
  const made: { text: string; set: DryfitSet }[] = [];
  for (const { text } of fc.sample(randomFile, { numRuns: 3 * JOBS, seed: SEED + 8 })) {
    if (made.length === JOBS) break;
    const outcome = outcomeOf(text);
    if (outcome.kind !== "made" || outcome.failures.length > 0) continue;
    const { project } = readProjectText(text, "random.json");
    made.push({ text, set: makeSet(project, { draft: false, olderSet: null, effort: "quick" }) });
  }
  return made;
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

describe("the pages of random jobs", () => {
  it("have nothing over another, nothing outside, nothing too small, and none is mostly blank", () => {
    const counts = PAPER_NAMES.map((paper) => ({ paper, jobs: 0, refused: 0, bad: 0 }));
    const bad: string[] = [];
    const all = jobs();
    expect(all).toHaveLength(JOBS);
    all.forEach(({ text, set }, i) => {
      const onSticks = faultsOfSticks(set); // whatever paper the drawings are on
      if (onSticks.length > 0) bad.push(`${onSticks.join("; ")}\n${text}`);
      counts.forEach((count, n) => {
        if (!IS_WHOLE && n !== i % PAPER_NAMES.length) return;
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
    expect(bad).toEqual([]);
  });
});

/** Faults of two rounding steps in random jobs: each is found by mark, and nothing in the jobs as they were. */
import fc from "fast-check";
import { expect, it } from "vitest";
import {
  foundUntouched,
  type Judged,
  judgeParts,
  judgePlans,
  judgeSettings,
  kindsOf,
  missedIn,
  tableOf,
  withoutReason,
} from "../support/faults/planted.ts";
import { outcomeOf } from "../support/jobs/outcome.ts";
import { randomFile } from "../support/jobs/random-file.ts";
import { runs, SEED } from "../support/runs.ts";

const JOBS = 50;

it("faults planted in random jobs are all found by mark", { timeout: 3_600_000 }, () => {
  const sets = fc.sample(randomFile, { numRuns: 2 * JOBS, seed: SEED }).flatMap(({ text }) => {
    const outcome = outcomeOf(text);
    return outcome.kind === "made" && outcome.failures.length === 0 ? [outcome.set] : [];
  });
  // All of them, or every tenth.
  const jobs = sets.slice(0, JOBS).filter((_, i) => i % Math.round(JOBS / runs(JOBS)) === 0);
  expect(jobs).toHaveLength(runs(JOBS));
  const all: Judged = { results: [], planted: 0, excluded: [] };
  jobs.forEach((set, i) => {
    expect(foundUntouched(set)).toEqual([]);
    for (const judged of [judgeParts(set), judgePlans(set), judgeSettings(set)]) {
      expect(missedIn(judged).map((missed) => `job ${i}, ${missed}`)).toEqual([]);
      all.results.push(...judged.results);
      all.planted += judged.planted;
      all.excluded.push(...judged.excluded);
    }
  });
  console.log(tableOf(all.results, all.excluded));
  expect(kindsOf(all.results).length).toBeGreaterThanOrEqual(80);
  expect(withoutReason(all.excluded)).toEqual([]);
});

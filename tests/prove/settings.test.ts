/** Over random jobs: the settings' rows make exactly the grooves, they are as few as can be, and none asks for an unsafe cut. */
import fc from "fast-check";
import { beforeAll, describe, expect, it } from "vitest";
import { dryFit } from "../../src/audit/dryfit.ts";
import { makeSet } from "../../src/build.ts";
import type { Project } from "../../src/project/project.ts";
import type { DryfitSet } from "../../src/set/schema.ts";
import { eightyBays } from "../support/jobs/eighty-bays.ts";
import { outcomeOf } from "../support/jobs/outcome.ts";
import { randomFile } from "../support/jobs/random-file.ts";
import { expectRowsToMakeTheGrooves } from "../support/machines/cut-back.ts";
import { countOf, groupsOf, leastByElimination, leastByTrying } from "../support/machines/least-settings.ts";
import { expectNoUnsafeCut } from "../support/machines/unsafe-cuts.ts";
import { IS_WHOLE, runs, SEED, tell } from "../support/runs.ts";

const JOBS = 500;
/** Of these, so many whole, with their layouts. */
const LAID_OUT = 80;
/** Most random files can be made; of so many one will do. */
const FILES_A_JOB = 3;
/** Beyond so many groups of grooves that may be measured from either end, every choice of datums is too many to try. */
const TRIED = 10;
/** Jobs in which so many grooves could share one setting that tables over them grow too large. */
const WIDEST = 14;

type Job = { text: string; project: Project; set: DryfitSet };

/** Random files that can be made, until there are so many. */
function jobsOf(count: number): Job[] {
  const jobs: Job[] = [];
  for (const { text } of fc.sample(randomFile, { numRuns: FILES_A_JOB * count, seed: SEED })) {
    if (jobs.length === count) break;
    const outcome = outcomeOf(text);
    if (outcome.kind === "made" && outcome.failures.length === 0) jobs.push({ text, ...outcome });
  }
  return jobs;
}

describe("the settings of random jobs", () => {
  let jobs: Job[];

  beforeAll(() => {
    jobs = jobsOf(runs(JOBS));
  }, 3_600_000);

  it("are there to be looked at", () => {
    expect(jobs).toHaveLength(runs(JOBS));
  });

  it("make exactly the grooves, each once, and the dry fit says so", () => {
    for (const { set } of jobs) {
      expectRowsToMakeTheGrooves(set);
      expect(dryFit(set).filter(({ level }) => level === "failure")).toEqual([]);
    }
  });

  it("never ask for an unsafe cut", () => {
    for (const { set, project } of jobs) expectNoUnsafeCut(set, project.tooling);
  });

  it("never ask for one where sheets and boards are cut up", () => {
    let cuts = 0;
    for (const { project } of jobs.slice(0, runs(LAID_OUT))) {
      const set = makeSet(project, { draft: false, olderSet: null, effort: "quick" });
      expectNoUnsafeCut(set, project.tooling);
      cuts += set.sizing.reduce((sum, row) => sum + row.cuts.reduce((all, one) => all + one.cuts.length, 0), 0);
    }
    expect(cuts).toBeGreaterThan(10 * runs(LAID_OUT));
    if (IS_WHOLE)
      tell("Sheets and boards cut up", [
        ["jobs", runs(LAID_OUT)],
        ["cuts", cuts],
      ]);
  }, 3_600_000);

  it("are as few as two other methods find, or give the bound they keep", () => {
    const heap = { jobs: 0, tried: 0, eliminated: 0, "neither, too many": 0, proved: 0, fewer: 0, saved: 0 };
    for (const { set, project, text } of jobs) {
      const { count, least, proved, fromLowEnds } = set.settingsCount;
      const groups = groupsOf(set, project.tooling);
      const free = groups.filter(({ high }) => high !== null).length;
      expect(
        countOf(groups, () => false),
        text,
      ).toBe(fromLowEnds);
      const found = free <= TRIED ? leastByTrying(groups) : leastByElimination(groups, WIDEST);
      heap.jobs += 1;
      if (free <= TRIED) heap.tried += 1;
      else if (found === null) heap["neither, too many"] += 1;
      else heap.eliminated += 1;
      if (proved) heap.proved += 1;
      if (count < fromLowEnds) heap.fewer += 1;
      heap.saved += fromLowEnds - count;
      expect(count).toBe(set.settings.length);
      expect(proved).toBe(least === count);
      if (found === null) continue;
      expect(least, text).toBeLessThanOrEqual(found);
      expect(proved ? count : found, text).toBe(found);
      expect(count).toBeGreaterThanOrEqual(found);
    }
    tell("Settings", Object.entries(heap));
    expect(heap.proved).toBe(heap.jobs);
    expect(heap.fewer).toBeGreaterThan(0);
    expect(heap["neither, too many"]).toBeLessThan(jobs.length / 10);
  });
});

/** Many shelves at figures that others share: where a choice of datums counts for most, and a search could take longest. */
describe.runIf(IS_WHOLE)("the settings of cases of eighty bays", () => {
  it.each([1, 2, 3, 4, 5])(
    "are proved to be the fewest: case %i",
    (seed) => {
      const outcome = outcomeOf(eightyBays(seed));
      if (outcome.kind !== "made") throw new Error(`Case ${seed} cannot be made`);
      const { set, project } = outcome;
      expect(set.openings).toHaveLength(80);
      const { count, least, proved, fromLowEnds } = set.settingsCount;
      tell(`Eighty bays, case ${seed}`, [["settings", count, "from low ends", fromLowEnds, "least", least]]);
      expect(proved).toBe(true);
      expect(count).toBeLessThan(fromLowEnds);
      expectRowsToMakeTheGrooves(set);
      expectNoUnsafeCut(set, project.tooling);
      const found = leastByElimination(groupsOf(set, project.tooling), WIDEST);
      if (found !== null) expect(count).toBe(found);
    },
    120_000,
  );
});

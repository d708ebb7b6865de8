/** Every page of random jobs on four papers that lie, looked over as in pages.test.ts, and their sticks. */
import { describe, expect, it } from "vitest";
import { faultsOnPapers, pagesJobs } from "../support/pages/jobs-on-papers.ts";
import { LYING } from "../support/pages/papers.ts";
import { faultsOfSticks } from "../support/pages/set-pages.ts";
import { untoldOnDrawings } from "../support/paper/shared-drawings.ts";

describe("the pages of random jobs", () => {
  const jobs = pagesJobs();

  it("have nothing over another, nothing outside, nothing too small, and none is mostly blank", () => {
    expect(faultsOnPapers(jobs, LYING)).toEqual([]);
  });

  it("tell of every part what it holds, and its mating marks, also where several share a drawing", () => {
    expect(jobs.flatMap(({ set }) => untoldOnDrawings(set))).toEqual([]);
  });

  it("have sticks without such faults, whatever paper the drawings are on", () => {
    expect(jobs.map(({ set }) => faultsOfSticks(set))).toEqual(jobs.map(() => []));
  });
});

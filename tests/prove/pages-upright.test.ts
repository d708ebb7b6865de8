/** Every page of random jobs on four papers that stand upright, looked over as in pages.test.ts. */
import { describe, expect, it } from "vitest";
import { faultsOnPapers, pagesJobs } from "../support/pages/jobs-on-papers.ts";
import { UPRIGHT } from "../support/pages/papers.ts";

describe("the upright pages of random jobs", () => {
  it("have nothing over another, nothing outside, nothing too small, and none is mostly blank", () => {
    expect(faultsOnPapers(pagesJobs(), UPRIGHT)).toEqual([]);
  });
});

/** The same layouts whether one thread or two look for them, ready or not. */
import { afterAll, describe, expect, it, vi } from "vitest";
import { openThread } from "../../src/plans/layout/thread.ts";
import { planSheets } from "../../src/plans/sheets/index.ts";
import { freshJobs } from "../support/jobs/fresh-casework.ts";

// A busy machine may take its time; what is found does not depend on it.
vi.setConfig({ testTimeout: 120_000, hookTimeout: 120_000 });

const threads: ReturnType<typeof openThread>[] = [];
const opened = () => {
  const thread = openThread();
  threads.push(thread);
  return thread;
};
afterAll(() => {
  for (const thread of threads) thread.close();
});

describe("layouts by two threads", () => {
  const jobs = freshJobs().filter(({ pieces }) => pieces.length >= 20 && pieces.length <= 60);
  const byOne = jobs.map((job) => planSheets({ ...job, stock: [job.stock], unit: "mm", effort: "quick" }));

  it("are to the byte those by one", () => {
    const thread = opened();
    expect(thread.isReady(100_000)).toBe(true);
    let carried = 0;
    const carry: typeof thread.carry = (errand) => {
      carried += 1;
      return thread.carry(errand);
    };
    jobs.forEach((job, i) => {
      const plan = planSheets({ ...job, stock: [job.stock], unit: "mm", effort: "quick", carry });
      expect(JSON.stringify(plan)).toBe(JSON.stringify(byOne[i]));
    });
    expect(carried).toBeGreaterThanOrEqual(3 * jobs.length);
    expect(thread.answers()).toBe(carried);
  });

  it("are the same while the second is not there yet", () => {
    const [job] = jobs;
    const early = opened();
    const plan = planSheets({ ...job!, stock: [job!.stock], unit: "mm", effort: "quick", carry: early.carry });
    expect(JSON.stringify(plan)).toBe(JSON.stringify(byOne[0]));
  });
});

import fc from "fast-check";
import { describe, expect, it, vi } from "vitest";
import { boundOf, leastSheets } from "../../src/plans/layout/bound.ts";
import type { LayoutEngine, LayoutItem } from "../../src/plans/layout/engine.ts";
import { findLayout } from "../../src/plans/layout/search.ts";
import type { Tree } from "../../src/plans/layout/tree.ts";
import { depthOf, nodesOf } from "../../src/plans/layout/tree.ts";
import { planSheets } from "../../src/plans/sheets/index.ts";
import { caseworkJobs, classicJobs, known, type ReferenceJob } from "../support/jobs/reference-jobs.ts";
import { checkLayout } from "../support/layouts/layout-checker.ts";
import { IS_WHOLE } from "../support/runs.ts";

// A busy machine may take its time; what is proved does not depend on it.
vi.setConfig({ testTimeout: 120_000 });

const copiesIn = (trees: readonly Tree[], items: readonly LayoutItem[]): number[] => {
  const counts = items.map(() => 0);
  for (const tree of trees) for (const node of nodesOf(tree)) if (node.kind === "part") counts[node.item]! += 1;
  return counts;
};

describe("the reference jobs of casework", () => {
  const figures = known("casework-known.csv");
  // The usual effort is for the whole proof.
  const planned = (job: ReferenceJob, engine?: LayoutEngine) =>
    planSheets({ ...job, stock: [job.stock], unit: "mm", effort: IS_WHOLE ? "normal" : "quick" }, engine);
  const plans = caseworkJobs().map((job) => ({ job, plan: planned(job) }));

  it.each(plans)("$job.id can be sawn from its cut list", ({ job, plan }) => {
    expect(plan.problems).toEqual([]);
    const wanted = job.pieces.map((piece) => ({ ...piece, mayTurn: piece.turn }));
    expect(checkLayout(plan.sheets, wanted)).toEqual([]);
  });

  it("are proved the least in at least 17 of the 22, of little effort in 15, by bounds that come to 130", () => {
    expect(plans.filter(({ plan }) => plan.sheets.length === plan.sheets[0]!.bound).length).toBeGreaterThanOrEqual(
      IS_WHOLE ? 17 : 15,
    );
    expect(plans.reduce((sum, { plan }) => sum + plan.sheets[0]!.bound, 0)).toBe(130);
  });

  it("take at most 135 sheets in all, of little effort 137, where a plain greedy method takes 141", () => {
    const total = plans.reduce((sum, { plan }) => sum + plan.sheets.length, 0);
    expect(total).toBeLessThanOrEqual(IS_WHOLE ? 135 : 137);
  });

  it.each(plans)("$job.id: the bound lies between the area's and the fewest sheets known", ({ job, plan }) => {
    const { lb_area, ub_guillotine } = figures.get(job.id)!;
    expect(plan.sheets[0]!.bound).toBeGreaterThanOrEqual(lb_area!);
    expect(plan.sheets[0]!.bound).toBeLessThanOrEqual(ub_guillotine!);
    expect(plan.sheets.length).toBeGreaterThanOrEqual(plan.sheets[0]!.bound);
  });

  it("come out the same a second time, byte for byte", () => {
    for (const { job, plan } of plans.slice(0, 6)) expect(JSON.stringify(planned(job))).toBe(JSON.stringify(plan));
  });

  it("stay at the usual levels of cutting unless a deeper layout saves a sheet", () => {
    for (const { job, plan } of plans.filter((_, i) => i % 3 === 0)) {
      const counted = { deepest: 0, shallow: 0 };
      let levels = 0;
      const spy: LayoutEngine = (items, sheet, options) => {
        const trees = findLayout(items, sheet, options);
        levels = options.depth;
        counted.deepest = Math.max(...trees.map(depthOf));
        const first = findLayout(items, sheet, { ...options, trials: 200_000, most: levels });
        expect(Math.max(...first.map(depthOf))).toBeLessThanOrEqual(levels);
        counted.shallow = first.length;
        return trees;
      };
      planned(job, spy);
      if (plan.sheets.length === counted.shallow) expect(counted.deepest).toBeLessThanOrEqual(levels);
    }
  });
});

describe("the classic jobs, no kerf", () => {
  const figures = known("2bp-known.csv");
  it.each(classicJobs())("$id: bounds never above the best known, layouts never below", ({ id, sheet, items }) => {
    const row = figures.get(id)!;
    const [length, width] = sheet;
    for (const turn of [false, true]) {
      const list = items.map(([l, w]): LayoutItem => ({ length: l, width: w, copies: 1, turn }));
      const least = leastSheets(list, { length, width });
      const way = turn ? "turn" : "fixed";
      expect(least).toBeLessThanOrEqual(Math.min(row[`best_free_${way}`]!, row[`ub_guillotine_${way}`]!));
      expect(least).toBeGreaterThanOrEqual(row.lb_area!);
      const trees = findLayout(list, { length, width }, { trials: 3_000_000, seed: 1, depth: 3, most: 99, least });
      expect(copiesIn(trees, list)).toEqual(list.map(() => 1));
      expect(trees.length).toBeGreaterThanOrEqual(row[`lb_${way}`]!);
      // A small budget: within a tenth of the best known.
      expect(trees.length).toBeLessThanOrEqual(Math.ceil(1.1 * row[`ub_guillotine_${way}`]!));
    }
  });
});

const sizes = fc.record({
  length: fc.integer({ min: 1, max: 95 }),
  width: fc.integer({ min: 1, max: 47 }),
  turn: fc.boolean(),
});
const settings = { seed: 20261125, numRuns: 60 };

describe("bounds", () => {
  it("never fall when a part is added", () => {
    const jobs = fc.array(sizes, { minLength: 1, maxLength: 25 });
    fc.assert(
      fc.property(jobs, sizes, (parts, more) => {
        const of = (list: typeof parts): number =>
          leastSheets(
            list.map((part) => ({ ...part, copies: 1 })),
            { length: 96, width: 48 },
          );
        expect(of([...parts, more])).toBeGreaterThanOrEqual(of(parts));
      }),
      settings,
    );
  });

  it("say how they are added up", () => {
    // Three of 40 x 48 by area: 3 * 40 / 96. Seven of 50 x 30, each over the half both ways: u(1) counts every one as a whole sheet.
    const sheet = { length: 96, width: 48 };
    expect(boundOf([{ length: 40, width: 48, copies: 3, turn: false }], sheet)).toEqual({
      least: 2,
      sum: 1.25,
      lengths: "the size",
      widths: "the size",
    });
    expect(boundOf([{ length: 50, width: 30, copies: 7, turn: false }], sheet)).toEqual({
      least: 7,
      sum: 7,
      lengths: "u(1)",
      widths: "u(1)",
    });
  });

  it("count copies as so many parts", () => {
    const sheet = { length: 96, width: 48 };
    const one: LayoutItem = { length: 50, width: 30, copies: 7, turn: false };
    expect(leastSheets([one], sheet)).toBe(7); // two do not fit beside each other in either direction
    expect(
      leastSheets(
        Array.from({ length: 7 }, () => ({ ...one, copies: 1 })),
        sheet,
      ),
    ).toBe(7);
  });

  it("see what area alone does not", () => {
    // Four 50 x 30 on 96 x 48 by area need 2 sheets; three of 40 in a length of 96 is one too many.
    expect(leastSheets([{ length: 40, width: 48, copies: 3, turn: false }], { length: 96, width: 48 })).toBe(2);
    expect(leastSheets([{ length: 48, width: 24, copies: 4, turn: false }], { length: 96, width: 48 })).toBe(1);
    expect(leastSheets([{ length: 49, width: 25, copies: 4, turn: true }], { length: 96, width: 48 })).toBe(4);
  });

  it("are the same for a sheet and parts turned together", () => {
    fc.assert(
      fc.property(fc.array(sizes, { minLength: 1, maxLength: 15 }), (parts) => {
        const straight = parts.map((part) => ({ ...part, turn: false, copies: 1 }));
        const turned = straight.map((part) => ({ ...part, length: part.width, width: part.length }));
        expect(leastSheets(turned, { length: 48, width: 96 })).toBe(leastSheets(straight, { length: 96, width: 48 }));
      }),
      settings,
    );
  });
});

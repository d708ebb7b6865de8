/** What holds of layouts whatever the job: by other jobs of the same kind, by turning all of it, without a kerf, read back from the cuts. */
import fc from "fast-check";
import { describe, expect, it, vi } from "vitest";
import { boundOf } from "../../src/plans/layout/bound.ts";
import { fits, type LayoutItem } from "../../src/plans/layout/engine.ts";
import { findLayout } from "../../src/plans/layout/search.ts";
import { planSheets } from "../../src/plans/sheets/index.ts";
import type { SetSheet } from "../../src/set/schema.ts";
import { freshJobs } from "../support/jobs/fresh-casework.ts";
import { stockOf } from "../support/jobs/reference-jobs.ts";
import { checkLayout } from "../support/layouts/layout-checker.ts";
import { IS_WHOLE, runs } from "../support/runs.ts";

// A busy machine may take its time; what is proved does not depend on it.
vi.setConfig({ testTimeout: 120_000 });

describe("fresh jobs of casework", () => {
  const jobs = freshJobs().filter((_, i) => IS_WHOLE || i % 4 === 0);
  const plans = jobs.map((job) => ({
    job,
    plan: planSheets({ ...job, stock: [job.stock], unit: "mm" }),
  }));

  it.each(plans)("$job.id can be sawn from its cut list", ({ job, plan }) => {
    expect(plan.problems).toEqual([]);
    expect(
      checkLayout(
        plan.sheets,
        job.pieces.map((piece) => ({ ...piece, mayTurn: piece.turn })),
      ),
    ).toEqual([]);
  });

  it("take at most three sheets more in all than their bounds", () => {
    const over = plans.reduce((sum, { plan }) => sum + plan.sheets.length - plan.sheets[0]!.bound, 0);
    expect(over).toBeLessThanOrEqual(3);
  });
});

const size = fc.record({ length: fc.integer({ min: 5, max: 95 }), width: fc.integer({ min: 5, max: 47 }) });
const sizes = fc.array(size, { minLength: 1, maxLength: 14 });
const settings = { seed: 20261130, numRuns: runs(200) };
const sheet = { length: 96, width: 48 };
const itemsOf = (parts: readonly { length: number; width: number }[]): LayoutItem[] =>
  parts.map((part) => ({ ...part, copies: 1, turn: false }));
const options = { trials: 120_000, seed: 1, depth: 3, most: 99 };
const LONG = 20_000_000;

describe("any job", () => {
  it("needs no fewer sheets with a part more, be it of a size that is there already", () => {
    const turning = fc.array(fc.tuple(size, fc.boolean()), { minLength: 1, maxLength: 12 });
    const itemsFrom = (parts: readonly (readonly [{ length: number; width: number }, boolean])[]): LayoutItem[] =>
      parts.map(([part, turn]) => ({ ...part, copies: 1, turn: turn && part.length <= sheet.width }));
    fc.assert(
      fc.property(
        turning,
        size,
        fc.boolean(),
        fc.nat(),
        fc.constantFrom(sheet.length, sheet.width),
        (parts, one, turn, nth, across) => {
          const room = { length: sheet.length, width: across };
          const items = itemsFrom(parts).filter((item) => fits(item, room));
          if (items.length === 0) return;
          const { least } = boundOf(items, room, 99);
          const again = items.map((item, i) => (i === nth % items.length ? { ...item, copies: 2 } : item));
          expect(boundOf(again, room, 99).least).toBeGreaterThanOrEqual(least);
          const another = [...items, ...itemsFrom([[one, turn]])];
          expect(boundOf(another, room, 99).least).toBeGreaterThanOrEqual(least);
        },
      ),
      settings,
    );
  });

  it("turned with its sheet and its grain keeps its bound, and its sheets where they are proved the least", () => {
    fc.assert(
      fc.property(sizes, (parts) => {
        const items = itemsOf(parts);
        const turned = items.map((item) => ({ ...item, length: item.width, width: item.length }));
        const across = { length: sheet.width, width: sheet.length };
        const { least } = boundOf(items, sheet, 99);
        expect(boundOf(turned, across, 99).least).toBe(least);
        const found = findLayout(items, sheet, { ...options, least });
        if (found.length > least) return;
        const other = findLayout(turned, across, { ...options, least });
        // A search of so few steps may miss what it found the other way round; a longer one may not.
        if (other.length > least)
          expect(findLayout(turned, across, { ...options, trials: LONG, least })).toHaveLength(least);
      }),
      settings,
    );
  });

  it("without kerf and trim is the classic problem: as many sheets, the same bound", () => {
    fc.assert(
      fc.property(sizes, (parts) => {
        const pieces = parts.map((part, i) => ({ id: `${i}`, mark: `${i}`, stock: "ply", ...part }));
        const stock = stockOf(sheet.length, sheet.width, 0, true);
        const { sheets } = planSheets({ pieces, stock: [stock], kerf: 0, unit: "mm" });
        const items = itemsOf(parts);
        const { least } = boundOf(items, sheet, sheets.length);
        expect(sheets[0]!.bound).toBe(least);
        const classic = findLayout(items, sheet, { ...options, trials: 150_000 * parts.length, least });
        if (classic.length === least) expect(sheets).toHaveLength(least);
        expect(Math.abs(sheets.length - classic.length)).toBeLessThanOrEqual(1);
      }),
      { ...settings, numRuns: runs(60) },
    );
  });

  it("begins with the cuts that are asked for, or says that it does not; in no more sheets than it needs without", () => {
    fc.assert(
      fc.property(sizes, fc.constantFrom("x" as const, "y" as const), (parts, first) => {
        const pieces = parts.map((part, i) => ({ id: `${i}`, mark: `${i}`, stock: "ply", ...part }));
        const input = {
          pieces,
          stock: [stockOf(99, 51, 1, true)],
          kerf: 1,
          unit: "mm" as const,
          effort: "quick" as const,
        };
        const { sheets, wishes } = planSheets({ ...input, first });
        expect(sheets.length).toBeLessThanOrEqual(planSheets(input).sheets.length);
        const begun = sheets.map(({ cuts }) => {
          const own = cuts.slice(4); // trimmed at its four edges
          return own.length === 0 || own[0]!.across === first || own.every(({ across }) => across !== first);
        });
        expect(wishes).toEqual([
          { kind: "first", pieces: pieces.map(({ id }) => id), run: null, kept: !begun.includes(false) },
        ]);
        expect(
          checkLayout(
            sheets,
            pieces.map((piece) => ({ ...piece, mayTurn: false })),
          ),
        ).toEqual([]);
      }),
      { ...settings, numRuns: runs(100) },
    );
  });

  it("is read back from its cuts alone: every part comes out in its size", () => {
    fc.assert(
      fc.property(sizes, fc.constantFrom(0, 1, 3), (parts, kerf) => {
        const pieces = parts.map((part, i) => ({ id: `${i}`, mark: `${i}`, stock: "ply", ...part }));
        const { sheets } = planSheets({ pieces, stock: [stockOf(99, 51, 1, true)], kerf, unit: "mm", effort: "quick" });
        const cut = new Map(sheets.flatMap((one) => [...sawn(one)]));
        for (const { id, length, width } of pieces) expect(cut.get(id)).toEqual({ length, width });
      }),
      { ...settings, numRuns: runs(100) },
    );
  });
});

/** The sizes of all pieces that the numbered cuts leave, by nothing but piece, fence and reference edge. */
function sawn({ n, length, width, kerf, cuts, parts }: SetSheet): Map<string, { length: number; width: number }> {
  const bench = new Map([[`S${n}`, { length, width }]]);
  for (const { piece, across, fence, reference, makes } of cuts) {
    const whole = bench.get(piece)!;
    bench.delete(piece);
    const side = across === "x" ? "length" : "width";
    const near = { ...whole, [side]: fence };
    const far = { ...whole, [side]: whole[side] - fence - kerf };
    const [low, high] = reference.endsWith("0") ? [near, far] : [far, near];
    const made = makes.length === 2 ? [low, high] : [near[side] > far[side] ? near : far];
    makes.forEach((name, i) => void bench.set(name, made[i]!));
  }
  // A part as large as its sheet needs no cut.
  const [only] = parts;
  if (cuts.length === 0 && only) bench.set(only.id, { length, width });
  return bench;
}

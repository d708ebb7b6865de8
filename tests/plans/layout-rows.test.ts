/** Parts one after another, and the prices that prove how few rows they need: against every way of sharing a few parts out. */
import fc from "fast-check";
import { describe, expect, it } from "vitest";
import type { LayoutItem } from "../../src/plans/layout/engine.ts";
import { pricesOf } from "../../src/plans/layout/prices.ts";
import { randomFrom } from "../../src/plans/layout/random.ts";
import { bestFit, oneRowLess, rowsOf, treesOfRows } from "../../src/plans/layout/rows.ts";
import { checkTrees } from "../support/layouts/tree-checker.ts";
import { runs } from "../support/runs.ts";

const settings = { seed: 20261130, numRuns: runs(300) };
const lengths = fc.array(fc.integer({ min: 12, max: 90 }), { minLength: 1, maxLength: 9 });
const ROOM = 100;

/** The fewest rows, by every set of parts: the fewest for a set is one more than for what is left when one full row is taken out. */
function fewestRows(sizes: readonly number[]): number {
  const all = 2 ** sizes.length;
  const sums = Array.from({ length: all }, (_, set) =>
    sizes.reduce((sum, size, i) => sum + (set & (1 << i) ? size : 0), 0),
  );
  const fewest = new Array<number>(all).fill(Number.POSITIVE_INFINITY);
  fewest[0] = 0;
  for (let set = 1; set < all; set++) {
    for (let row = set; row > 0; row = (row - 1) & set) {
      if (sums[row]! <= ROOM) fewest[set] = Math.min(fewest[set]!, fewest[set ^ row]! + 1);
    }
  }
  return fewest[all - 1]!;
}

const itemsOf = (sizes: readonly number[]): LayoutItem[] =>
  [...new Set(sizes)].map((length) => ({
    length,
    width: 7,
    copies: sizes.filter((one) => one === length).length,
    turn: false,
  }));

describe("parts one after another", () => {
  it("are laid in as few rows as any way of sharing them out needs", () => {
    fc.assert(
      fc.property(lengths, (sizes) => {
        const bed = { length: ROOM, width: 10, within: null };
        const items = itemsOf(sizes);
        const job = rowsOf(items, bed)!;
        let rows = bestFit(job);
        const fewest = fewestRows(sizes);
        while (rows.length > fewest) rows = oneRowLess(job, rows, randomFrom(1), { left: 4_000_000 })!;
        expect(checkTrees(treesOfRows(job, rows, bed), items, bed)).toEqual([]);
        // One row less there is not: the search does not find what cannot be.
        if (fewest > 1) expect(oneRowLess(job, rows, randomFrom(1), { left: 30_000 })).toBeNull();
      }),
      settings,
    );
  });

  it("are told from parts that find room beside each other", () => {
    const bed = { length: ROOM, width: 10, within: null };
    expect(rowsOf([{ length: 30, width: 5, copies: 2, turn: false }], bed)).toBeNull();
    expect(rowsOf([{ length: 30, width: 6, copies: 2, turn: false }], bed)?.axis).toBe("x");
    expect(rowsOf([{ length: 60, width: 3, copies: 2, turn: false }], bed)?.axis).toBe("y");
    expect(rowsOf([{ length: 9, width: 6, copies: 2, turn: true }], bed)).toBeNull();
  });
});

describe("prices of lengths", () => {
  it("bound the rows from below, and no row of parts comes to more than its whole", () => {
    fc.assert(
      fc.property(lengths, (sizes) => {
        const kinds = [...new Set(sizes)];
        const most = kinds.map((kind) => sizes.filter((size) => size === kind).length);
        const fixed = kinds.map((_, size) => ({ size, amount: most[size]! }));
        const { prices, whole, sum } = pricesOf({ room: ROOM, sizes: kinds, most, fixed, either: [] })!;
        expect(Math.ceil(sum - 1e-9)).toBeLessThanOrEqual(fewestRows(sizes));
        expect(sum).toBeCloseTo(
          sizes.reduce((all, size) => all + prices[kinds.indexOf(size)]! / whole, 0),
          9,
        );
        for (let set = 0; set < 2 ** sizes.length; set++) {
          const row = sizes.filter((_, i) => set & (1 << i));
          if (row.reduce((all, size) => all + size, 0) > ROOM) continue;
          expect(row.reduce((all, size) => all + prices[kinds.indexOf(size)]!, 0)).toBeLessThanOrEqual(whole);
        }
      }),
      settings,
    );
  });
});

/** The search for the fewest settings, on made-up choices: held against every choice tried, and its bound where the search is given up. */
import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { type Choice, fewestSettings } from "../../src/plans/settings/fewest.ts";
import { runs, SEED } from "../support/runs.ts";

const option = fc
  .tuple(fc.uniqueArray(fc.constantFrom(..."abcdefghij"), { maxLength: 4 }), fc.nat(3), fc.nat(2))
  .map(([settings, high, router]) => ({ settings, penalty: [high, router] as [number, number] }));
const choices: fc.Arbitrary<Choice[]> = fc.array(
  fc.array(option, { minLength: 1, maxLength: 2 }).map((options) => ({ options })),
  { minLength: 0, maxLength: 9 },
);

type Cost = [number, number, number];

const costOf = (list: readonly Choice[], chosen: readonly number[]): Cost => {
  const taken = list.map(({ options }, i) => options[chosen[i]!]!);
  const sum = (at: 0 | 1): number =>
    taken.reduce((all, { penalty }, i) => all + (list[i]!.options.length > 1 ? penalty[at] : 0), 0);
  return [new Set(taken.flatMap(({ settings }) => settings)).size, sum(0), sum(1)];
};

const every = (list: readonly Choice[]): number[][] =>
  list.reduce<number[][]>((all, { options }) => all.flatMap((one) => options.map((_, i) => [...one, i])), [[]]);

const compare = (a: Cost, b: Cost): number => a[0] - b[0] || a[1] - b[1] || a[2] - b[2];

const check = (test: (list: Choice[]) => void): void =>
  fc.assert(fc.property(choices, test), { numRuns: runs(3000), seed: SEED });

describe("the fewest settings", () => {
  it("are no more than any choice makes, and of equally many the ones with the smallest penalties", () => {
    check((list) => {
      const found = fewestSettings(list);
      const best = every(list)
        .map((chosen) => costOf(list, chosen))
        .sort(compare)[0]!;
      expect(costOf(list, found.chosen)).toEqual(best);
      expect([found.count, found.least]).toEqual([best[0], best[0]]);
    });
  });

  it("keep an answer and a true bound where the search is given up", () => {
    let short = 0;
    check((list) => {
      const best = Math.min(...every(list).map((chosen) => costOf(list, chosen)[0]));
      for (const budget of [0, 1, 5, 20]) {
        const { chosen, count, least } = fewestSettings(list, budget);
        expect(costOf(list, chosen)[0]).toBe(count);
        expect(least).toBeLessThanOrEqual(best);
        expect(count).toBeGreaterThanOrEqual(best);
        if (least < count) short += 1;
      }
    });
    expect(short).toBeGreaterThan(0);
  });

  it("of alike ones takes the first", () => {
    const either = { options: [0, 1].map(() => ({ settings: ["a"], penalty: [0, 0] as [number, number] })) };
    expect(fewestSettings([either, either]).chosen).toEqual([0, 0]);
  });
});

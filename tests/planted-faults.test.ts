/** Faults of two rounding steps, planted in every part of every set: the dry fit finds each by mark, and nothing in the set as it was. */
import { afterAll, describe, expect, it } from "vitest";
import { dryFit } from "../src/audit/dryfit.ts";
import type { DryfitSet } from "../src/set/schema.ts";
import { workedA } from "./fixtures/audit/worked-a.ts";
import { EXAMPLES, exampleFile, setOf, testFile } from "./support/examples.ts";
import { bare, type Excluded, plantFaults, tableOf } from "./support/faults.ts";

/** Small projects that together hold every joint, base, back, top and stop. */
const SMALL = [
  "applied-back",
  "kick",
  "no-back",
  "rabbeted-back",
  "readings",
  "shelves-opposite",
  "stopped-shelves",
  "two-stocks",
] as const;

const SETS: [string, () => DryfitSet][] = [
  ["worked example A, typed by hand", workedA],
  ...EXAMPLES.map((name): [string, () => DryfitSet] => [name, () => setOf(exampleFile(name))]),
  ...SMALL.map((name): [string, () => DryfitSet] => [name, () => setOf(testFile(name))]),
];

const failuresOf = (set: DryfitSet): string[] =>
  dryFit(set)
    .filter((check) => check.level === "failure")
    .map((check) => check.text);

const results: { kind: string; found: boolean }[] = [];
const reasons: Excluded[] = [];

describe.each(SETS)("%s", (_, make) => {
  const set = make();

  it("fits untouched, with its joints and without", () => {
    expect(failuresOf(set)).toEqual([]);
    expect(failuresOf(bare(set))).toEqual([]);
  });

  it("has every planted fault found by mark", { timeout: 300_000 }, () => {
    const { faults, excluded } = plantFaults(set);
    reasons.push(...excluded);
    const missed = faults.filter(({ kind, blame, set: spoiled }) => {
      const found = dryFit(spoiled).some(
        ({ level, parts }) => level === "failure" && parts.some((mark) => blame.includes(mark)),
      );
      results.push({ kind, found });
      return !found;
    });
    expect(missed.map(({ kind, mark }) => `${kind}: ${mark}`)).toEqual([]);
    expect(faults.length).toBeGreaterThan(20 * set.parts.length);
  });
});

/** Why a fault may be left out. A reason that is not here is an excuse. */
const REASONS: readonly RegExp[] = [
  /^a rabbet's open side stays at the edge: planted as wider and narrower$/,
  /^it has no hand$/,
  /^it only butts: no groove waits for it$/,
  /^the job has no stock of another thickness$/,
  /^the same as \d+: interchangeable$/,
  /^turned, it is the same part$/,
  /^turned, its notches differ by no more than one step$/,
  /^two steps are (its whole depth|its whole width|all of it): planted as missing$/,
  /^two steps more go through the part$/,
  /^would leave the part$/,
];

afterAll(() => {
  const why = [...new Set(reasons.map(({ kind, reason }) => `${kind}: ${reason.replace(/\d+/, "n")}`))].sort();
  console.log(`Planted faults found\n${tableOf(results).join("\n")}\nNot planted\n${why.join("\n")}`);
});

it("plants at least thirty kinds, and leaves none out without a known reason", () => {
  expect(new Set(results.map(({ kind }) => kind)).size).toBeGreaterThanOrEqual(30);
  expect(reasons.filter(({ reason }) => !REASONS.some((known) => known.test(reason)))).toEqual([]);
});

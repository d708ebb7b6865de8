/** Faults of two rounding steps, planted in every part and setting of every set: the dry fit finds each by mark, and nothing in the set as it was. */
import { afterAll, describe, expect, it } from "vitest";
import { dryFit } from "../src/audit/dryfit.ts";
import { checkSettings } from "../src/audit/settings.ts";
import type { DryfitSet } from "../src/set/schema.ts";
import { workedA } from "./fixtures/audit/worked-a.ts";
import { EXAMPLES, exampleFile, setOf, testFile } from "./support/examples.ts";
import { bare, type Excluded, plantFaults, tableOf } from "./support/faults.ts";
import { plantSettingFaults } from "./support/setting-faults.ts";

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

/** Checks that know nothing but where the wood is. */
const BY_THE_WOOD: readonly string[] = [
  "overlap",
  "groove-empty",
  "groove-fill",
  "run-out",
  "groove-crossed",
  "wall",
  "groove-width",
  "seat",
  "slip",
  "reach",
  "free-end",
  "notch",
  "envelope",
  "flush",
];

/** Faults of figures: wood of another thickness, or none, may well stand free of everything. */
const BY_FIGURES: readonly string[] = [
  "length between two steps",
  "missing, its piece still on the list",
  "of the wrong stock",
  "place left-handed",
  "too thick",
  "too thin",
];

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
        ({ id, level, parts }) =>
          level === "failure" &&
          parts.some((mark) => blame.includes(mark)) &&
          (BY_FIGURES.includes(kind) || BY_THE_WOOD.includes(id)),
      );
      results.push({ kind, found });
      return !found;
    });
    expect(missed.map(({ kind, mark }) => `${kind}: ${mark}`)).toEqual([]);
    expect(faults.length).toBeGreaterThan(20 * set.parts.length);
  });

  it("has every planted fault of a setting found, every part of it by mark", () => {
    const { faults, excluded } = plantSettingFaults(set);
    reasons.push(...excluded);
    const missed = faults.filter(({ kind, blame, set: spoiled }) => {
      const named = checkSettings(spoiled).flatMap(({ parts }) => parts);
      const found = blame.every((mark) => named.includes(mark));
      results.push({ kind, found });
      return !found;
    });
    expect(missed.map(({ kind, mark }) => `${kind}: ${mark}`)).toEqual([]);
    expect(faults.length).toBeGreaterThan(10 * set.settings.length);
  });

  it("has every groove missed by the dry fit where there are no settings", () => {
    const grooves = set.parts.flatMap(({ features }) => features.filter(({ kind }) => kind !== "notch"));
    const missed = dryFit({ ...set, settings: [] }).filter(({ id, level }) => id === "run" && level === "failure");
    expect(missed).toHaveLength(grooves.length);
  });
});

/** Why a fault may be left out. A reason that is not here is an excuse. */
const REASONS: readonly RegExp[] = [
  /^another groove takes away the wood there$/,
  /^a rabbet's open side stays at the edge: planted as wider and narrower$/,
  /^it has no hand$/,
  /^it lies in the middle$/,
  /^it only butts: no groove waits for it$/,
  /^one pass clears it$/,
  /^the job has no stock of another thickness$/,
  /^the same as \d+: interchangeable$/,
  /^the saw needs none$/,
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

it("plants at least sixty kinds, and leaves none out without a known reason", () => {
  expect(new Set(results.map(({ kind }) => kind)).size).toBeGreaterThanOrEqual(60);
  expect(reasons.filter(({ reason }) => !REASONS.some((known) => known.test(reason)))).toEqual([]);
});

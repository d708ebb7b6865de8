/** Faults of two rounding steps, planted in every part, setting, order and row of every set: the dry fit finds each by mark, and nothing in the set as it was. */
import { afterAll, describe, expect, it } from "vitest";
import { dryFit } from "../../src/audit/dryfit.ts";
import type { DryfitSet } from "../../src/set/schema.ts";
import { workedA } from "../fixtures/audit/worked-a.ts";
import {
  foundUntouched,
  type Judged,
  judgeParts,
  judgePlans,
  judgeSettings,
  kindsOf,
  missedIn,
  tableOf,
  withoutReason,
} from "../support/faults/planted.ts";
import { EXAMPLES, exampleFile, setOf, testFile } from "../support/jobs/examples.ts";
import { isInRows } from "../support/machines/cut-back.ts";
import { IS_WHOLE } from "../support/runs.ts";

/** Small projects that together hold every joint, base, back, top and stop. */
const SMALL = [
  "applied-back",
  "back-sections-captured",
  "butt-dowels",
  "doors-by-passing",
  "doors-overlay",
  "doors-sliding",
  "doors-solid",
  "drawers-runners",
  "face-frame",
  "feet",
  "fillers",
  "frame-half-laps",
  "frame-loose-tenons",
  "frame-stub-tenons",
  "housing-back-columns-rows",
  "kick",
  "kick-applied",
  "lipping-band-before",
  "lipping-strip",
  "loose-shelves",
  "no-back",
  "plinth",
  "rabbeted-back",
  "readings",
  "shared-side",
  "shelves-opposite",
  "skirting",
  "stopped-shelves",
  "stretchers",
  "tongue",
  "two-stocks",
  "worktop-panel",
] as const;

/** Larger ones, whose every fault is told by the whole proof alone. */
const LARGER = IS_WHOLE
  ? [
      "base-of-lumber",
      "doors-inset",
      "doors-mid-rails",
      "doors-track",
      "drawers-face-frame",
      "drawers-side-mounted",
      "drawers-undermount",
      "frame-on-feet",
      "worktop-solid",
    ]
  : [];

const SETS: [string, () => DryfitSet][] = [
  ["worked example A, typed by hand", workedA],
  ...EXAMPLES.map((name): [string, () => DryfitSet] => [name, () => setOf(exampleFile(name))]),
  ...[...SMALL, ...LARGER].map((name): [string, () => DryfitSet] => [name, () => setOf(testFile(name))]),
];

const all: Judged = { results: [], planted: 0, excluded: [] };

/** Kept for the table. */
function kept(judged: Judged): Judged {
  all.results.push(...judged.results);
  all.planted += judged.planted;
  all.excluded.push(...judged.excluded);
  return judged;
}

describe.each(SETS)("%s", (_, make) => {
  const set = make();

  it("fits untouched, with its joints and without", () => {
    expect(foundUntouched(set)).toEqual([]);
  });

  it("has every planted fault of a part found by mark", { timeout: 300_000 }, () => {
    const judged = kept(judgeParts(set));
    expect(missedIn(judged)).toEqual([]);
    expect(judged.planted).toBeGreaterThan(20 * set.parts.length);
  });

  it("has every planted fault of an order, a row of holes and a fastener found by mark", { timeout: 300_000 }, () => {
    expect(missedIn(kept(judgePlans(set)))).toEqual([]);
  });

  it("has every planted fault of a setting found, every part of it by mark", () => {
    const judged = kept(judgeSettings(set));
    expect(missedIn(judged)).toEqual([]);
    expect(judged.planted).toBeGreaterThan(10 * set.settings.length);
  });

  it("has every groove missed by the dry fit where there are no settings", () => {
    const grooves = set.parts.flatMap(({ features }) => features.filter(isInRows));
    const missed = dryFit({ ...set, settings: [] }).filter(({ id, level }) => id === "run" && level === "failure");
    expect(missed).toHaveLength(grooves.length);
  });
});

afterAll(() => {
  console.log(tableOf(all.results, all.excluded));
});

it("plants at least a hundred kinds, and leaves none out without a known reason", () => {
  expect(kindsOf(all.results).length).toBeGreaterThanOrEqual(100);
  expect(withoutReason(all.excluded)).toEqual([]);
});

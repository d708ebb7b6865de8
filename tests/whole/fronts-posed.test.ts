/** Every example as it stands, and its fronts closed, open, at both ends of their travel and on the way: no wood is in two parts, and what goes too far is found. */
import { describe, expect, it } from "vitest";
import type { DryfitSet } from "../../src/set/schema.ts";
import { spanFaults } from "../support/checks/clear-spans.ts";
import { likenessFaults } from "../support/checks/told-apart.ts";
import { meetsIn, posesOf } from "../support/doors/posed.ts";
import { swungByEye } from "../support/doors/swings-by-eye.ts";
import { everyExample, exampleFile, projectOf } from "../support/jobs/examples.ts";
import { joinerySet } from "../support/jobs/outcome.ts";
import { runs } from "../support/runs.ts";

const KINDS: Record<string, string[]> = {
  "glaze-console": ["slide"],
  "score-cabinet": ["slide", "swing"],
  "tile-sideboard": ["pull", "swing"],
  "ware-bookcase": [],
  "wedging-pair": ["pull", "swing"],
};

/** So far from closed that wood must be in the way on one side, in degrees or mm. */
const FARTHER: Record<string, number> = { pull: 150, slide: 400, swing: 25 };

// Nothing of their paper is looked at.
const sets: [string, DryfitSet][] = everyExample().map((name) => [name, joinerySet(projectOf(exampleFile(name)))]);

describe.each(sets)("%s", (name, set) => {
  const kinds = [...new Set(set.assemblies.map(({ travel }) => travel.kind))].filter((kind) => kind !== "none").sort();

  it("is told apart by labels and checks as it is, and spans what is clear", () => {
    expect(likenessFaults(set).faults).toEqual([]);
    expect(spanFaults(set).faults).toEqual([]);
  });

  it("fits closed, all open, and wherever its fronts stand between the ends of their travel", () => {
    expect(kinds).toEqual(KINDS[name]);
    for (const [words, pose] of posesOf(set, runs(20))) expect(meetsIn(set, pose), words).toEqual([]);
    expect(swungByEye(set).met).toEqual([]);
  });
});

it.each(sets.filter(([name]) => KINDS[name]!.length > 0))(
  "of %s one alone that goes on comes into its neighbour, its case or the back",
  (name, set) => {
    for (const kind of KINDS[name]!) {
      const first = set.assemblies.find(({ travel }) => travel.kind === kind);
      const found = [-1, 1].flatMap((way) => meetsIn(set, (one) => (one === first ? way * FARTHER[kind]! : 0)));
      expect(found, kind).not.toEqual([]);
    }
  },
);

/** Doors that cannot be hung, told at their place; doors spoiled in one thing after another, and found. */
import { readFileSync } from "node:fs";
import { parse } from "jsonc-parser";
import { describe, expect, it } from "vitest";
import type { DryfitSet } from "../../src/set/schema.ts";
import { built, type Change, textOf } from "../support/doors/door-jobs.ts";
import { foundBy } from "../support/faults/found-by.ts";
import { testFile } from "../support/jobs/examples.ts";
import { problemsIn } from "../support/jobs/project-file.ts";

describe("what cannot be hung is said at its place", () => {
  const said = (name: string, change: Change): string[] =>
    problemsIn(textOf(name, change)).map(({ where, found }) => `${where?.path}: ${found}`);

  it.each<[string, string, Change, string]>([
    [
      "no way to make it",
      "doors-overlay",
      { doors: { stile: 50 } },
      'cases[0].doors.stile: "stile" with doors of kind "slab"',
    ],
    [
      "no stiles",
      "doors-solid",
      { doors: { stile: undefined } },
      'cases[0].doors: doors of frame and panel without "stile"',
    ],
    [
      "an overlap of what is set in",
      "doors-solid",
      { doors: { overlap: 10 } },
      'cases[0].doors.overlap: "overlap" with "fit": "inset"',
    ],
    [
      "no bay",
      "doors-solid",
      { one: { bays: {} } },
      'cases[0].doors: how the doors of "box" are made, and no bay has one',
    ],
    [
      "a door behind a door",
      "doors-overlay",
      { one: { bays: { door: "pair", columns: [{ door: "left" }, {}] } } },
      "cases[0].bays.columns[0].door: a door before a bay, behind another door",
    ],
    [
      "shelves in the way",
      "doors-solid",
      { one: { bays: { door: "left", rows: [{}, {}] } } },
      'cases[0].bays.door: an inset door 20 mm thick before a bay of "box", whose shelves come to the front',
    ],
    [
      "no depth left for the pins of loose shelves",
      "doors-solid",
      { one: { depth: 130, bays: { door: "left", loose: 1 } } },
      'cases[0].pins.fromFront: two rows of pins in "box", 130 mm deep inside: 37 mm from the doors, which take 20 mm of it, and 37 mm from the back',
    ],
    [
      "no frame round it",
      "doors-inset",
      { one: { bays: { columns: [{ rows: [{ door: "left" }, {}] }, {}] } } },
      'cases[0].bays.columns[0].rows[0].door: a door before a bay of "case", where the face frame leaves no opening of its own',
    ],
    [
      "a panel as thick as its frame",
      "doors-inset",
      { doors: { panel: { stock: "ply" } } },
      'cases[0].doors.panel.stock: a panel 0.705 in thick in door members 3/4 in thick, in "case": 0.023 in beside its groove',
    ],
    [
      "stiles all groove",
      "doors-solid",
      { doors: { stile: 20 } },
      'cases[0].doors.stile: a door member 20 mm wide, grooved 12 mm deep, in "box"',
    ],
  ])("%s", (_, name, change, words) => {
    expect(said(name, change)).toContain(words);
  });

  it("members that leave no panel, and hinges in each other's way", () => {
    expect(() => built("doors-solid", { one: { width: 158 } })).toThrow(
      /whose stiles and rails leave [89]\.\d mm for its panel/,
    );
    expect(() => built("doors-solid", { doors: { hinges: { kind: "butt", fromEnds: 260 } } })).toThrow(
      /with 2 hinges of 50 mm whose middles are [\d.]+ mm apart/,
    );
  });

  it("a door without doors in its case", () => {
    const file = parse(readFileSync(testFile("doors-solid"), "utf8"));
    const { doors: _doors, ...one } = file.cases[0];
    const [problem] = problemsIn(JSON.stringify({ ...file, cases: [one] }));
    expect(problem?.found).toBe('a door in "box", which does not say how its doors are made');
  });

  it("overlays that meet, with how much less they may lap", () => {
    const failed = built("doors-overlay", { doors: { overlap: 12 } }).checks.filter(({ id }) => id === "door-gap");
    expect(failed.map(({ text, change }) => `${text} ${change}`)).toEqual([
      expect.stringMatching(
        /^Cabinet door 1 and cabinet door 2 meet, 6\.\d+ mm over each other; 3 mm is the least between them\. Less "overlap", by 4\.\d+ mm or more\.$/,
      ),
    ]);
  });
});
describe("spoiled, and found", () => {
  const assemblyOf = (set: DryfitSet): DryfitSet["assemblies"][number] =>
    set.assemblies.find(({ name }) => name === set.doors[0]!.assembly)!;

  it.each<[string, string, string, (set: DryfitSet) => void]>([
    [
      "hung a step to the left",
      "doors-solid",
      "door-gap",
      (set) => {
        assemblyOf(set).place.at[0] -= 2 * set.job.step;
      },
    ],
    [
      "hung too low",
      "doors-inset",
      "door-gap",
      (set) => {
        assemblyOf(set).place.at[2] -= 2 * set.job.step;
      },
    ],
    [
      "not flush",
      "doors-solid",
      "door",
      (set) => {
        assemblyOf(set).place.at[1] += 0.2;
      },
    ],
    [
      "lying off the case",
      "doors-overlay",
      "door",
      (set) => {
        assemblyOf(set).place.at[1] -= 0.2;
      },
    ],
    [
      "told another gap",
      "doors-solid",
      "door-gap",
      (set) => {
        set.doors[0]!.edges.left += 0.2;
      },
    ],
    [
      "asked for another gap",
      "doors-inset",
      "door-gap",
      (set) => {
        set.doors[0]!.least += 2;
      },
    ],
    [
      "told another opening",
      "doors-solid",
      "door-gap",
      (set) => {
        set.doors[0]!.opening.width += 1;
      },
    ],
    [
      "with an opening and a place that agree, in the wood",
      "doors-inset",
      "door-gap",
      (set) => {
        assemblyOf(set).place.at[0] += 0.5;
        for (const door of set.doors.slice(0, 2)) door.opening.at[0] += 0.5;
        set.assemblies.find(({ name }) => name === set.doors[1]!.assembly)!.place.at[0] += 0.5;
      },
    ],
    [
      "without its cups",
      "doors-overlay",
      "door-hinges",
      (set) => {
        set.doors[0]!.hinges.middles[0]! += 1;
      },
    ],
    [
      "with cups on the other side",
      "doors-overlay",
      "door-hinges",
      (set) => {
        set.doors[0]!.hinges.side = "right";
      },
    ],
    [
      "hinges off the door",
      "doors-solid",
      "door-hinges",
      (set) => {
        set.doors[0]!.hinges.middles[1] = 590;
      },
    ],
    [
      "without a swing",
      "doors-solid",
      "door-hinges",
      (set) => {
        assemblyOf(set).travel = { kind: "none" };
      },
    ],
    [
      "turning about a line inside the wood",
      "doors-solid",
      "door-swing",
      (set) => {
        const one = assemblyOf(set);
        if (one.travel.kind === "swing") one.travel.pivot = [one.size[0] - 15, 10, 0];
      },
    ],
    [
      "told nothing of",
      "doors-solid",
      "door",
      (set) => {
        set.doors = [];
      },
    ],
    [
      "a door that is not there",
      "doors-solid",
      "door",
      (set) => {
        set.doors[0]!.assembly = "no door";
      },
    ],
    [
      "a groove less deep than the others",
      "doors-solid",
      "door",
      (set) => {
        set.doors[0]!.stick! += 0.1;
      },
    ],
  ])("%s", (_, name, id, spoil) => {
    expect(foundBy(name, () => {})).toEqual(new Set());
    expect(foundBy(name, spoil)).toContain(id);
  });
});

/** Doors in grooves that cannot slide, told at their place; spoiled in one thing after another, and found. */
import { readFileSync } from "node:fs";
import { parse } from "jsonc-parser";
import { describe, expect, it } from "vitest";
import { planSet } from "../../src/plans/set.ts";
import { readProjectText } from "../../src/project/read.ts";
import type { DryfitSet, SetFeature, SetSliders } from "../../src/set/schema.ts";
import { assemblyOf, built, type Change, failed, textOf } from "../support/doors/slider-jobs.ts";
import { foundBy } from "../support/faults/found-by.ts";
import { testFile } from "../support/jobs/examples.ts";
import { problemsIn } from "../support/jobs/project-file.ts";

describe("what cannot slide is said at its place", () => {
  const said = (change: Change): string[] =>
    problemsIn(textOf("doors-sliding", change)).map(({ where, found }) => `${where?.path}: ${found}`);

  it.each<[string, Change, string]>([
    ["hinges", { doors: { hinges: { kind: "butt" } } }, 'cases[0].doors.hinges: "hinges" with "fit": "sliding"'],
    ["a gap", { doors: { gap: 2 } }, 'cases[0].doors.gap: "gap" with "fit": "sliding"'],
    [
      "grooves of a door that hangs",
      {
        doors: { fit: "inset", hinges: { kind: "butt" }, grooves: {}, pull: undefined },
        one: { bays: { door: "left" } },
      },
      'cases[0].doors.grooves: "grooves" with "fit": "inset"',
    ],
    [
      "no hinges",
      { doors: { fit: "inset", pull: undefined }, one: { bays: { door: "left" } } },
      'cases[0].doors: doors with "fit": "inset" and without "hinges"',
    ],
    [
      "no bay",
      { one: { bays: {} } },
      'cases[0].doors: how the sliding doors of "cabinet" are made, and no bay has one',
    ],
    [
      "a hinged word",
      { one: { bays: { columns: [{ door: "sliding" }, { door: "left" }] } } },
      'cases[0].bays.columns[1].door: a door on hinges in "cabinet", whose doors slide',
    ],
    [
      "shelves in the way",
      { one: { bays: { door: "sliding", rows: [{}, {}] } } },
      'cases[0].bays.door: doors that slide in a bay of "cabinet", whose shelves come to the front',
    ],
    [
      "no depth left for the pins of loose shelves",
      { one: { depth: 160, bays: { door: "sliding", loose: 1 } } },
      'cases[0].pins.fromFront: two rows of pins in "cabinet", 142.2 mm deep inside: 37 mm from the doors, which take 43.6 mm of it, and 37 mm from the back',
    ],
    [
      "held by too little",
      { doors: { grooves: { upper: 7 } } },
      'cases[0].doors.grooves: sliding doors in "cabinet" that their upper grooves hold by 3 mm: 7 mm deep, less 3 mm below and 1 mm to spare',
    ],
    [
      "too deep a groove",
      { doors: { grooves: { upper: 10 } } },
      'cases[0].doors.grooves: grooves for sliding doors 10 mm deep in "cabinet", in stock of 18 mm',
    ],
    [
      "too near each other",
      { doors: { grooves: { apart: 5 } } },
      'cases[0].doors.grooves: grooves for sliding doors 5 mm apart in "cabinet"',
    ],
    [
      "no depth for two",
      { one: { depth: 60 } },
      'cases[0].doors: sliding doors whose two grooves take 43.6 mm of the depth of "cabinet", which is 42.2 mm inside',
    ],
    [
      "a recess through the door",
      { doors: { pull: { height: 300, depth: 7 } } },
      'cases[0].doors.pull.depth: a recess 7 mm deep in doors of 12 mm, in "cabinet"',
    ],
  ])("%s", (_, change, words) => {
    expect(said(change)).toContain(words);
  });

  it("sliding doors in a case whose doors hang, or that has none", () => {
    const file = parse(readFileSync(testFile("doors-overlay"), "utf8"));
    const [one] = file.cases;
    const bays = { columns: [{ door: "sliding" }, { door: "left" }] };
    const [hung] = problemsIn(JSON.stringify({ ...file, cases: [{ ...one, bays }] }));
    expect(hung?.found).toBe('a sliding door in "cabinet", whose doors hang on hinges');
    const { doors: _doors, ...bare } = one;
    const [none] = problemsIn(JSON.stringify({ ...file, cases: [{ ...bare, bays: { door: "sliding" } }] }));
    expect(none?.found).toBe('a sliding door in "cabinet", which does not say how its doors are made');
  });

  it("doors that cover all of each other, and a knob in the next one's way", () => {
    expect(() => built({ doors: { overlap: 800 } })).toThrow(
      /"cabinet sliding door 1", 782\.35 mm wide, and the next one 800 mm over it/,
    );
    const knobs = failed(built({ doors: { knob: { height: 300 }, pull: undefined } }));
    expect(knobs.map(({ text, change }) => `${text} ${change}`)).toEqual([
      "Cabinet sliding door 1 cannot slide by: slab 8 meets the knob of cabinet sliding door 2, 11.8 mm into each other. A recess instead of a knob, or one that stands out less.",
    ]);
  });
});
describe("spoiled, and found", () => {
  const foundBySliders = (spoil: (set: DryfitSet, told: SetSliders) => void, name = "doors-sliding"): Set<string> =>
    foundBy(name, (set) => spoil(set, set.sliders[0]!));
  const move = (set: DryfitSet, told: SetSliders, door: number, axis: number): void => {
    assemblyOf(set, told.doors[door]!).place.at[axis]! += 0.2;
  };
  const grooveOf = (set: DryfitSet, mark: string, at: number): SetFeature =>
    set.parts.find((part) => part.mark === mark)!.features.find((one) => one.along === "l" && one.at === at)!;

  it.each<[string, string, (set: DryfitSet, told: SetSliders) => void]>([
    ["standing too high", "slider", (set, told) => move(set, told, 0, 2)],
    ["standing too far back", "slider", (set, told) => move(set, told, 1, 1)],
    ["standing to the right", "slider-sum", (set, told) => move(set, told, 0, 0)],
    [
      "told to be held by more",
      "slider",
      (_, told) => {
        told.held += 0.2;
      },
    ],
    [
      "told to have more play",
      "slider",
      (_, told) => {
        told.play += 0.2;
      },
    ],
    [
      "told to be farther apart",
      "slider-groove",
      (_, told) => {
        told.apart += 0.2;
      },
    ],
    [
      "a groove out of line with the other",
      "slider-groove",
      (set, told) => {
        const groove = grooveOf(set, told.below.mark, 10);
        groove.at += 0.4;
        groove.box = [
          [groove.box[0][0], groove.box[0][1] + 0.4, groove.box[0][2]],
          [groove.box[1][0], groove.box[1][1] + 0.4, groove.box[1][2]],
        ];
      },
    ],
    [
      "a groove that ends too soon",
      "slider-travel",
      (set, told) => {
        const groove = grooveOf(set, told.above.mark, 29.8);
        groove.to -= 5;
        groove.box = [groove.box[0], [groove.box[1][0] - 5, groove.box[1][1], groove.box[1][2]]];
      },
    ],
    [
      "a groove that goes on beyond the bay",
      "slider-groove",
      (set, told) => {
        const groove = grooveOf(set, told.below.mark, 10);
        groove.to += 100;
        groove.box = [groove.box[0], [groove.box[1][0] + 100, groove.box[1][1], groove.box[1][2]]];
      },
    ],
    [
      "travel beyond the side",
      "slider-travel",
      (set, told) => {
        const { travel } = assemblyOf(set, told.doors[0]!);
        if (travel.kind === "slide") travel.range = [0, travel.range[1] + 0.5];
      },
    ],
    [
      "travel short of the side",
      "slider-travel",
      (set, told) => {
        const { travel } = assemblyOf(set, told.doors[1]!);
        if (travel.kind === "slide") travel.range = [travel.range[0] + 0.5, 0];
      },
    ],
    [
      "leaned out too little to pass the edge",
      "slider-lift",
      (_, told) => {
        told.doors[1]!.lean.degrees -= 1;
      },
    ],
    [
      "lifted too far",
      "slider-lift",
      (_, told) => {
        told.doors[0]!.lean.up += 0.2;
      },
    ],
    [
      "leaned before it is at the rear wall",
      "slider-lift",
      (_, told) => {
        told.doors[1]!.lean.back = -0.5;
      },
    ],
    [
      "a door that nothing tells of",
      "slider-groove",
      (_, told) => {
        told.doors.pop();
      },
    ],
    [
      "no list of them at all",
      "door",
      (set) => {
        set.sliders = [];
      },
    ],
  ])("%s", (_, id, spoil) => {
    expect(foundBySliders(spoil)).toContain(id);
  });

  it("put in behind a stile", () => {
    const found = foundBySliders((_, told) => {
      told.doors[0]!.lean.along = 0;
    }, "doors-sliding-framed");
    expect(found).toContain("slider-lift");
  });

  it("nothing in what was not touched", () => {
    expect(foundBySliders(() => {})).toEqual(new Set());
    expect(foundBySliders(() => {}, "doors-sliding-framed")).toEqual(new Set());
  });

  it("whole sets are planned from either", () => {
    const { project } = readProjectText(readFileSync(testFile("doors-sliding"), "utf8"), "sliders.json");
    expect(planSet(project, { draft: false, olderSet: null }).finishes[0]?.parts).toEqual(["8", "9"]);
  });
});

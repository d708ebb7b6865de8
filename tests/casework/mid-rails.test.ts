/** Mid rails of framed doors: where the job has them, or between panels of one height; sized by the trade's formulas, and refused where they cannot be. */
import { readFileSync } from "node:fs";
import { parse } from "jsonc-parser";
import { describe, expect, it } from "vitest";
import { dryFit } from "../../src/audit/dryfit.ts";
import { drawDoors } from "../../src/drawings/doors/doors.ts";
import { readProjectText } from "../../src/project/read.ts";
import type { DryfitSet, SetPart } from "../../src/set/schema.ts";
import { setOf, testFile } from "../support/jobs/examples.ts";
import { joinerySet } from "../support/jobs/outcome.ts";
import { problemsIn } from "../support/jobs/project-file.ts";
import { textBoxes } from "../support/pages/text-boxes.ts";

const file = parse(readFileSync(testFile("doors-mid-rails"), "utf8"));
const [first] = file.cases;
const textOf = (doors: object): string =>
  JSON.stringify({ ...file, cases: [{ ...first, doors: { ...first.doors, ...doors } }] });
const built = (doors: object): DryfitSet => joinerySet(readProjectText(textOf(doors), "mid-rails.json").project);
const own = (set: DryfitSet, role: SetPart["role"]): SetPart[] =>
  set.parts.filter((part) => part.role === role && part.assembly === "cabinet door 1");
const named = (set: DryfitSet, id: string): SetPart => set.parts.find(({ key }) => key === `cabinet door 1/${id}`)!;
/** Lower and upper edge from the door's lower end; a rail's own width runs downwards. */
const edgesOf = ({ place, width }: SetPart): [number, number] => [place!.at[2] - width, place!.at[2]];

describe("mid rails", () => {
  const set = setOf(testFile("doors-mid-rails"));

  it("fit, and stand with their middles where the job has them", () => {
    expect([...set.checks, ...dryFit(set)].filter(({ level }) => level === "failure")).toEqual([]);
    expect(edgesOf(named(set, "rail-1"))).toEqual([370, 430]);
    expect(edgesOf(named(set, "rail-2"))).toEqual([675, 725]);
  });

  it("are as long as the others, with a panel above and below each: formulas of cope and stick", () => {
    const height = set.assemblies.find(({ name }) => name === "cabinet door 1")!.size[2];
    // Rail = door - 2 x stile + 2 x depth; panel = opening + 2 x depth - clearance, here 3 mm in all (worked by hand).
    const rails = own(set, "doorRail");
    expect(new Set(rails.map(({ length }) => length))).toEqual(new Set([369.6 - 120 + 20]));
    const panels = ["panel-1", "panel-2", "panel-3"].map((id) => named(set, id));
    const openings = [370 - 80, 675 - 430, height - 60 - 725];
    panels.forEach(({ length, width }, i) => {
      expect(length).toBeCloseTo(openings[i]! + 20 - 3, 6);
      expect(width).toBeCloseTo(369.6 - 120 + 20 - 3, 6);
    });
  });

  it("are grooved on both edges, at the stile's own settings", () => {
    const grooves = named(set, "rail-1").features.filter(({ kind }) => kind === "groove");
    expect(grooves.map(({ face, depth, width }) => [face, depth, width])).toEqual(
      ["w1", "w0"].map((face) => [face, 10, grooves[0]!.width]),
    );
    const runs = set.settings.filter((one) => one.runs.some(({ mark }) => mark === named(set, "rail-1").mark));
    const shared = runs.filter((one) => one.runs.some(({ mark }) => mark === named(set, "stile-left").mark));
    expect(shared.length).toBeGreaterThan(0);
  });

  it("leave panels of one height where none says how far up it is", () => {
    const even = built({ midRails: [{}, {}] });
    const lengths = own(even, "doorPanel").map(({ length }) => length);
    expect(lengths).toHaveLength(3);
    expect(Math.max(...lengths) - Math.min(...lengths)).toBeLessThan(0.1 + 1e-6);
    expect(dryFit(even).filter(({ level }) => level === "failure")).toEqual([]);
  });

  it("are on the drawing, each in the chain of its door", () => {
    const draft = drawDoors(set).find(({ name }) => name.startsWith("Door, cabinet door 1"))!;
    const words = textBoxes(draft.shapes).map(({ text }) => text);
    for (const figure of ["80", "290", "60", "245", "50"]) expect(words).toContain(figure);
    expect(words.join(" ")).toContain("are finished first and stay loose");
  });
});

describe("what cannot be a mid rail is said at its place", () => {
  const said = (doors: object): string[] =>
    problemsIn(textOf(doors)).map(({ where, found }) => `${where?.path}: ${found}`);

  it.each<[string, object, string]>([
    [
      "too narrow for two grooves",
      { midRails: [{ up: 400, width: 25 }] },
      'cases[0].doors.midRails: a door member 25 mm wide, grooved 10 mm deep on both edges, in "cabinet"',
    ],
    [
      "one with a height and one without",
      { midRails: [{ up: 400 }, {}] },
      "cases[0].doors.midRails: mid rails of which 1 of 2 say how far up they are",
    ],
  ])("%s", (_, doors, words) => {
    expect(said(doors)).toContain(words);
  });

  it("one over another", () => {
    expect(() => built({ midRails: [{ up: 400 }, { up: 420 }] })).toThrow(
      /"cabinet door 1", .* whose stiles and rails leave 0 mm for its panel/,
    );
  });
});

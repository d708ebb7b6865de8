/** The skirting of the wall behind: notches over it, what stands in its way, and cases that stand off it. */
import { describe, expect, it } from "vitest";
import { dryFit } from "../../src/audit/dryfit.ts";
import { checkWall } from "../../src/plans/checks/wall.ts";
import type { DryfitSet, SetFeature, SetPart } from "../../src/set/schema.ts";
import { caseJob, checkInputOf } from "../support/jobs/check-input.ts";
import { setOf, testFile } from "../support/jobs/examples.ts";
import { problemsIn, readText } from "../support/jobs/project-file.ts";

const set = setOf(testFile("skirting"));
const sides = set.parts.filter(({ role }) => role === "side");
const overSkirting = ({ features, width }: SetPart): SetFeature =>
  features.find(({ kind, box }) => kind === "notch" && box[1][1] > width - 1)!;
const idsOf = (of: DryfitSet): string[] =>
  dryFit(of)
    .filter(({ level }) => level === "failure")
    .map(({ id }) => id);

/** The set with the notch of its first side changed, and those of features after it where they were. */
const withNotch = (change: (notch: SetFeature) => SetFeature[]): DryfitSet => ({
  ...set,
  parts: set.parts.map((part) =>
    part === sides[0]
      ? {
          ...part,
          features: part.features.flatMap((one) => (one === overSkirting(part) ? change(one) : [one])),
        }
      : part,
  ),
});

describe("sides over a skirting of 70 x 15 mm", () => {
  it("are notched by it and the clearance, at the rear of their lower ends", () => {
    expect(sides).toHaveLength(2);
    for (const side of sides) {
      const [lo, hi] = overSkirting(side).box;
      expect([lo[0], hi[0]]).toEqual([0, 73]);
      expect(hi[1] - lo[1]).toBeCloseTo(18, 6);
      expect(overSkirting(side).reason).toBe("skirting of the wall");
    }
    expect(idsOf(set)).toEqual([]);
  });

  it("say so on the hand-work list and among the checks", () => {
    for (const { mark } of sides) {
      expect(set.handWork.filter((one) => one.mark === mark).map(({ text }) => text)).toContainEqual(
        expect.stringContaining("73 mm in from the end, 18 mm in from the edge, for the skirting of the wall"),
      );
    }
    const [note] = set.checks.filter(({ id }) => id === "skirting");
    expect(note).toMatchObject({ level: "note", parts: sides.map(({ mark }) => mark) });
    expect(note!.text).toMatch(/70 mm high and 15 mm thick.*notched over it with 3 mm to spare/);
  });

  it("keep the front diagonal of the toe space alone", () => {
    const { diagonals, size } = set.assemblies[0]!;
    expect(diagonals.front).toBeCloseTo(Math.hypot(size[0], size[2] - 90), 6);
  });

  it.each([
    ["missing", (): SetFeature[] => [], "skirting"],
    ["two steps too high", (one: SetFeature): SetFeature[] => [grown(one, 0, 1, 0.2)], "notch"],
    ["two steps too low", (one: SetFeature): SetFeature[] => [grown(one, 0, 1, -0.2)], "notch"],
    ["two steps too deep", (one: SetFeature): SetFeature[] => [grown(one, 1, 0, -0.2)], "notch"],
    ["two steps too shallow", (one: SetFeature): SetFeature[] => [grown(one, 1, 0, 0.2)], "notch"],
  ])("a notch %s is found", (_, change, id) => {
    const found = dryFit(withNotch(change)).filter((check) => check.level === "failure" && check.id === id);
    expect(found.map(({ parts }) => parts)).toEqual([[sides[0]!.mark]]);
  });
});

/** Its box moved along one local axis at one end. */
function grown(notch: SetFeature, axis: 0 | 1, end: 0 | 1, by: number): SetFeature {
  const box = structuredClone(notch.box) as [[number, number, number], [number, number, number]];
  box[end][axis] += by;
  return { ...notch, box };
}

const WALL = { skirting: { height: 70, thickness: 15 } };

describe("what does not pass the skirting is said where it is asked for", () => {
  const said = (more: Record<string, unknown>, back: Record<string, unknown> = WALL): string[] =>
    problemsIn(caseJob([600, 800, 300], more, { walls: { back } })).map(
      ({ where, found }) => `${where?.path}: ${found}`,
    );

  it("a bottom that lies too low", () => {
    expect(said({})).toEqual([
      expect.stringMatching(/^cases\[0\]\.bottom: the bottom of "case" 0 mm up, with notches 73 mm/),
    ]);
    expect(said({ bottom: { up: 75 } })).toEqual([]);
    expect(said({ bottom: { up: 74 } })).toHaveLength(1);
    expect(said({ bottom: { fit: "under" } })).toEqual([expect.stringContaining("under its sides")]);
  });

  it("a plinth too near the wall; one high enough and set in needs no notch", () => {
    const plinth = (height: number, inset: number): Record<string, unknown> => ({ plinth: { height, inset } });
    expect(said(plinth(90, 0))).toEqual([expect.stringContaining("a plinth 0 mm before the rear")]);
    expect(said(plinth(90, 18))).toEqual([]);
    expect(said(plinth(60, 18))).toEqual([expect.stringContaining("the bottom of")]);
    const { project } = readText(caseJob([600, 800, 300], plinth(90, 18), { walls: { back: WALL } }));
    expect(project.cases[0]!.skirting).toBeNull();
  });

  it("sides that would stand on too little", () => {
    const more = { bottom: { up: 90 }, depth: 120, kick: { setBack: 50 } };
    expect(said(more)).toEqual([]);
    expect(said({ ...more, depth: 115 })).toEqual([expect.stringContaining("sides then stand on 47 mm")]);
  });

  it("nothing of a case before the rearmost, or of cases that stand off", () => {
    expect(said({}, { ...WALL, pass: "stand off" })).toEqual([]);
  });
});

describe("cases that stand off the wall", () => {
  const input = checkInputOf(caseJob([600, 800, 300], {}, { walls: { back: { ...WALL, pass: "stand off" } } }));

  it("say by how much, and have no notch", () => {
    const { project } = readText(caseJob([600, 800, 300], {}, { walls: { back: { ...WALL, pass: "stand off" } } }));
    const checks = checkWall({ ...input, worktops: [], walls: project.walls });
    expect(checks.map(({ text }) => text)).toEqual([
      "The skirting of the wall behind is 70 mm high and 15 mm thick. All stands 15 mm off the wall, by the thickness of its skirting: pack behind each wall fixing by as much.",
    ]);
    expect(input.parts.flatMap(({ features }) => features.filter(({ reason }) => reason.includes("skirting")))).toEqual(
      [],
    );
  });
});

/** Measured on the piece: what is cut keeps its size, what is made after it follows, and the difference is told. */
import { readFileSync } from "node:fs";
import fc from "fast-check";
import { parse } from "jsonc-parser";
import { describe, expect, it } from "vitest";
import { dryFit } from "../../src/audit/dryfit.ts";
import { MM_PER_INCH } from "../../src/base/length.ts";
import { ProblemsFound } from "../../src/base/problem.ts";
import { hasFailed, makeSet } from "../../src/build.ts";
import { readProjectText } from "../../src/project/read.ts";
import type { DryfitSet, SetAssembly, SetOpening, SetPart } from "../../src/set/schema.ts";
import { testFile } from "../support/jobs/examples.ts";
import { joinerySet } from "../support/jobs/outcome.ts";
import { problemsIn } from "../support/jobs/project-file.ts";
import { runs, SEED } from "../support/runs.ts";

type Measures = Record<string, { width?: number | string; height?: number | string }>;

const textOf = (asBuilt: Measures): string =>
  JSON.stringify({ ...parse(readFileSync(testFile("face-frame"), "utf8")), asBuilt });
const built = (asBuilt: Measures): DryfitSet =>
  makeSet(readProjectText(textOf(asBuilt), "measured.json").project, { draft: false, olderSet: null });

const inch = (inches: number): number => inches * MM_PER_INCH;
const assembly = (set: DryfitSet, name: string): SetAssembly => set.assemblies.find((one) => one.name === name)!;
const opening = (set: DryfitSet, name: string): SetOpening => set.openings.find((one) => one.name === name)!;
const casePartsOf = (set: DryfitSet): SetPart[] => set.parts.filter((part) => part.assembly === "case");
const member = (set: DryfitSet, id: string): SetPart => set.parts.find(({ key }) => key === `case frame/${id}`)!;

describe("a case that was measured", () => {
  const printed = built({});

  it("keeps its parts, and its frame follows in width and height", () => {
    const set = built({ case: { width: "41 7/8", height: "34 1/16" } });
    expect(casePartsOf(set)).toEqual(casePartsOf(printed));
    expect(hasFailed(set)).toBe(false);
    expect(assembly(set, "case frame").size[0]).toBeCloseTo(inch(41.875 + 0.25), 6);
    expect(assembly(set, "case frame").size[2]).toBeCloseTo(inch(30.0625), 6);
    for (const id of ["rail-top", "rail-bottom"])
      expect(member(printed, id).length - member(set, id).length).toBeCloseTo(inch(1 / 8), 6);
    expect(member(set, "stile-left").length - member(printed, "stile-left").length).toBeCloseTo(inch(1 / 16), 6);
  });

  it("has its mid stile where the divider came to stand", () => {
    const bay = opening(printed, "bay 2").width;
    const set = built({ "case/bay 2": { width: `${bay + inch(1 / 8)} mm` } });
    // The right column is wider, so the side moved: the frame is as much wider, its mid stile where it was.
    expect(assembly(set, "case frame").size[0] - assembly(printed, "case frame").size[0]).toBeCloseTo(inch(1 / 8), 6);
    expect(opening(set, "opening 2").width - opening(printed, "opening 2").width).toBeCloseTo(inch(1 / 8), 6);
    expect(opening(set, "opening 1.1").width).toBeCloseTo(opening(printed, "opening 1.1").width, 6);
  });

  it("is told with what it differs by, and warned of beyond a tape's reading", () => {
    const told = (asBuilt: Measures): string[] =>
      built(asBuilt)
        .checks.filter(({ id }) => id === "as-built")
        .map(({ level, text }) => `${level}: ${text}`);
    expect(told({ case: { width: "42 1/16" } })).toEqual([
      "note: case measures 42 1/16 in across, 1/16 in more than printed (42 in). What is made after it follows.",
    ]);
    expect(told({ "case/bay 2": { height: "27 1/2" } })[0]).toMatch(
      /^warning: bay 2 of case measures 27 1\/2 in in height, 0\.\d+ in less than printed/,
    );
    expect(told({})).toEqual([]);
  });

  it("is followed whatever was measured", () => {
    fc.assert(
      fc.property(
        fc.double({ min: -6, max: 6, noNaN: true }),
        fc.double({ min: -6, max: 6, noNaN: true }),
        (wider, higher) => {
          const set = built({ case: { width: `${inch(42) + wider} mm`, height: `${inch(34) + higher} mm` } });
          expect(set.checks.filter(({ level }) => level === "failure")).toEqual([]);
          expect(casePartsOf(set)).toEqual(casePartsOf(printed));
          const { step } = set.job;
          const [before, after] = [assembly(printed, "case frame").size, assembly(set, "case frame").size];
          expect(Math.abs(after[0] - before[0] - wider)).toBeLessThanOrEqual(step / 2 + 1e-6);
          expect(Math.abs(after[2] - before[2] - higher)).toBeLessThanOrEqual(step / 2 + 1e-6);
        },
      ),
      { seed: SEED, numRuns: runs(60) },
    );
  });
});

describe("the dry fit", () => {
  it("finds a frame that does not stand before its case as measured", () => {
    const set = structuredClone(built({ case: { width: "41 7/8" } }));
    const frame = assembly(set, "case frame");
    frame.place.at[0] -= 2 * set.job.step;
    const { id, text } = dryFit(set).find((check) => check.id === "frame")!;
    expect([id, text]).toEqual([
      "frame",
      "Case frame stands out beyond case by 3/16 in at the left and 1/16 in at the right.",
    ]);
  });
});

describe("doors and drawers", () => {
  const job = (asBuilt: Measures, name: string): DryfitSet => {
    const text = JSON.stringify({ ...parse(readFileSync(testFile(name), "utf8")), asBuilt });
    return joinerySet(readProjectText(text, "measured.json").project);
  };
  const failures = (set: DryfitSet): string[] =>
    [...dryFit(set), ...set.checks].flatMap(({ level, text }) => (level === "failure" ? [text] : []));
  const frameOf = (set: DryfitSet): string => set.assemblies.find(({ kind }) => kind === "frame")!.name;

  it("are made to the frame's openings as measured, with the gaps that were asked for", () => {
    fc.assert(
      fc.property(
        fc.constantFrom("doors-inset", "drawers-face-frame"),
        fc.double({ min: -3, max: 3, noNaN: true }),
        fc.double({ min: -3, max: 3, noNaN: true }),
        (name, wider, higher) => {
          const whole = job({}, name);
          const frame = frameOf(whole);
          const [first] = whole.openings.filter((one) => one.case === frame);
          const set = job(
            {
              [`${frame}/${first!.name}`]: {
                width: `${first!.width + wider} mm`,
                height: `${first!.height + higher} mm`,
              },
            },
            name,
          );
          expect(failures(set)).toEqual([]);
          const members = (one: DryfitSet): SetPart[] =>
            one.parts.filter(({ assembly }) => one.assemblies.find((each) => each.name === assembly)!.kind === "frame");
          expect(members(set)).toEqual(members(whole));
        },
      ),
      { seed: SEED, numRuns: runs(20) },
    );
  });

  it("that do not follow the measure are found", () => {
    const whole = job({}, "doors-inset");
    const frame = frameOf(whole);
    const [first] = whole.openings.filter((one) => one.case === frame);
    const measured = job({ [`${frame}/${first!.name}`]: { width: `${first!.width - 3} mm` } }, "doors-inset");
    // The doors of the printed opening, in the one that was measured narrower.
    const planted = { ...structuredClone(whole), asBuilt: structuredClone(measured.asBuilt) };
    expect(dryFit(planted).filter(({ level }) => level === "failure").length).toBeGreaterThan(0);
  });
});

describe("messages", () => {
  const said = (asBuilt: Measures): string[] => {
    try {
      built(asBuilt);
      return [];
    } catch (error) {
      if (!(error instanceof ProblemsFound)) throw error;
      return error.problems.map(({ where, found, expected, remedy }) =>
        [where?.path, found, expected, remedy].join("; "),
      );
    }
  };

  it("name what nothing is called", () => {
    expect(said({ "case/bay 9": { width: 20 } })).toEqual([
      'asBuilt.case/bay 9; "case/bay 9", which nothing in this job is called; one of "case", "case/bay 1.1", "case/bay 1.2", "case/bay 2", "case frame", "case frame/opening 1.1", "case frame/opening 1.2" and "case frame/opening 2"; take a name from the list',
    ]);
  });

  it("tell measures that contradict each other", () => {
    expect(said({ case: { width: 42 }, "case/bay 2": { width: 16.215 }, "case/bay 1.1": { width: 23.92 } })).toEqual([
      "asBuilt.case/bay 2; a measured width that is 1/4 in more than the other measures leave here; measures that agree within 1/16 in; measure again, openings and the whole from the same end",
    ]);
  });

  it("ask for a width or a height", () => {
    expect(problemsIn(textOf({ case: {} })).map(({ found, expected }) => [found, expected])).toEqual([
      ["found an object { }", "a width, a height, or both"],
    ]);
  });
});

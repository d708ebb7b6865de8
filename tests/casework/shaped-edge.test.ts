/** A shaped edge: its outline against the circle and the trapezium, what it takes off, its template at full size, what cannot be made. */
import { readFileSync } from "node:fs";
import fc from "fast-check";
import { parse } from "jsonc-parser";
import { describe, expect, it } from "vitest";
import { dryFit } from "../../src/audit/dryfit.ts";
import { MM_PER_INCH } from "../../src/base/length.ts";
import { areaOf, chordsOf } from "../../src/base/outline.ts";
import { hasFailed, makeSet } from "../../src/build.ts";
import { drawSticks } from "../../src/drawings/sticks/sticks.ts";
import { readProjectText } from "../../src/project/read.ts";
import type { DryfitSet, SetFeature, SetPart } from "../../src/set/schema.ts";
import { testFile } from "../support/jobs/examples.ts";
import { problemsIn } from "../support/jobs/project-file.ts";
import { textBoxes } from "../support/pages/text-boxes.ts";
import { runs, SEED } from "../support/runs.ts";

type Lower = Record<string, number | string>;

const textOf = (lower: Lower | undefined, more: Record<string, unknown> = {}): string => {
  const job = parse(readFileSync(testFile("frame-on-feet"), "utf8"));
  const [one] = job.cases;
  return JSON.stringify({ ...job, cases: [{ ...one, ...more, frame: { ...one.frame, lower } }] });
};
const built = (lower: Lower | undefined): DryfitSet =>
  makeSet(readProjectText(textOf(lower), "feet.json").project, { draft: false, olderSet: null });

const rail = (set: DryfitSet): SetPart => set.parts.find(({ key }) => key.endsWith("/rail-bottom"))!;
const shape = (set: DryfitSet): SetFeature => rail(set).features.find(({ kind }) => kind === "shape")!;
const inch = (inches: number): number => inches * MM_PER_INCH;

describe("an outline", () => {
  it("of an arch lies on the circle through its ends and its crown", () => {
    fc.assert(
      fc.property(
        fc.double({ min: 100, max: 2000, noNaN: true }),
        fc.double({ min: 5, max: 49, noNaN: true }),
        (chord, rise) => {
          const outline = [
            [0, 0],
            [chord, 0, (2 * rise) / chord],
          ] as const;
          const radius = chord ** 2 / (8 * rise) + rise / 2; // of the circle through three points
          const centre = [chord / 2, rise - radius] as const;
          const points = chordsOf(outline);
          for (const [u, v] of points) expect(Math.hypot(u - centre[0], v - centre[1])).toBeCloseTo(radius, 6);
          expect(Math.max(...points.map(([, v]) => v))).toBeGreaterThan(rise - 0.05 - 1e-9);
          expect(Math.max(...points.map(([, v]) => v))).toBeLessThan(rise + 1e-6);
          // Sector less triangle, against the polygon of the chords.
          const polygon = points.reduce((sum, [u0, v0], i) => {
            const [u1, v1] = points[(i + 1) % points.length]!;
            return sum + (u0 * v1 - u1 * v0) / 2;
          }, 0);
          expect(areaOf(outline)).toBeGreaterThan(polygon - 1e-6);
          expect(areaOf(outline) - polygon).toBeLessThan(0.05 * (chord + 2 * rise));
        },
      ),
      { seed: SEED, numRuns: runs(1000) },
    );
  });

  it("of a circle has the area of a circle", () => {
    expect(
      areaOf([
        [-3, 0, 1],
        [3, 0, 1],
      ]),
    ).toBeCloseTo(Math.PI * 9, 9);
  });
});

describe("a bottom rail", () => {
  it("is cut out between feet that are measured from the sides of the frame, and is lighter by as much", () => {
    const set = built({ form: "feet", foot: 5, rise: 2.5, relief: 1 });
    const { from, to, depth, outline } = shape(set);
    const { length, thickness, mass } = rail(set);
    const stile = inch(1.5);
    expect([from, length - to, depth]).toEqual(
      [inch(5) - stile, inch(5) - stile, inch(2.5)].map((at) => expect.closeTo(at, 6)),
    );
    expect(outline.map(([l]) => l)).toEqual(
      [from, to, to - inch(1), from + inch(1)].map((at) => expect.closeTo(at, 6)),
    );
    const trapezium = ((to - from + (to - from - 2 * inch(1))) / 2) * depth;
    const whole = rail(built(undefined));
    const density = set.stock.find(({ id }) => id === rail(set).material)!.density;
    expect(whole.mass - mass).toBeCloseTo((trapezium * thickness * density) / 1e9, 5);
    expect(hasFailed(set)).toBe(false);
  });

  it("has an arch from foot to foot", () => {
    const set = built({ form: "arch", foot: 4, rise: 3 });
    const { outline, from, to } = shape(set);
    const crown = Math.max(...chordsOf(outline as [number, number, number][]).map(([, w]) => w));
    expect(crown).toBeCloseTo(inch(3), 1);
    expect(to - from).toBeCloseTo(rail(set).length - 2 * (inch(4) - inch(1.5)), 6);
    expect(hasFailed(set)).toBe(false);
  });

  it("is cut by template, never lowered on to a blade", () => {
    const set = built({ form: "arch", foot: 4, rise: 3 });
    const work = set.handWork.find(({ mark }) => mark === rail(set).mark)!;
    expect(work.text).toContain("template");
    expect(work.text).toContain("Never by lowering it on to a turning blade");
    expect(set.settings.flatMap(({ runs: all }) => all).filter(({ mark }) => mark === rail(set).mark)).toEqual([]);
  });

  it("has its template at full size from its end to its middle", () => {
    const set = built({ form: "arch", foot: 4, rise: 3 });
    const pages = drawSticks(set).filter(({ key }) => key.startsWith("edge-"));
    expect(pages.length).toBeGreaterThan(0);
    expect(new Set(drawSticks(set).map(({ key }) => key)).size).toBe(drawSticks(set).length);
  });

  it("has no page of a template on which it runs straight", () => {
    const pages = drawSticks(built({ form: "feet", foot: 4, rise: 3 })).filter(({ key }) => key.startsWith("edge-"));
    expect(pages).toHaveLength(1);
    expect(textBoxes(pages[0]!.shapes).map(({ text }) => text)).toContain("straight on to the other end");
  });
});

describe("the dry fit finds an outline", () => {
  const planted: [string, (feature: SetFeature) => void][] = [
    ["that is lower than it says", (f) => (f.outline[1]![2]! *= 0.98)],
    ["that begins elsewhere", (f) => (f.outline[0]![0] += 3)],
    ["that is not open at the edge", (f) => (f.outline[0]![1] += 1)],
  ];
  it.each(planted)("%s", (_, spoil) => {
    const set = structuredClone(built({ form: "arch", foot: 4, rise: 3 }));
    spoil(shape(set));
    const found = dryFit(set).filter(({ level }) => level === "failure");
    expect(found.map(({ id, parts }) => [id, parts])).toEqual([["feature", [rail(set).mark]]]);
  });
});

describe("what cannot be cut is said at its place", () => {
  const said = (lower: Lower, more: Record<string, unknown> = {}): string[] =>
    problemsIn(textOf(lower, more)).map(({ where, found }) => `${where?.path}: ${found}`);

  it.each<[string, Lower, Record<string, unknown>, string]>([
    [
      "feet narrower than the stiles",
      { form: "feet", foot: 1, rise: 2 },
      {},
      'cases[0].frame.lower.foot: feet 1 in wide on "case", whose stiles are 1 1/2 in',
    ],
    [
      "a rise that leaves no rail",
      { form: "feet", foot: 4, rise: 4.5 },
      {},
      'cases[0].frame.lower.rise: a rise of 4 1/2 in in the bottom rail of "case", which is 4.705 in wide',
    ],
    [
      "feet that meet",
      { form: "feet", foot: 21, rise: 2 },
      {},
      'cases[0].frame.lower: feet that leave 1/4 in between them under "case"',
    ],
    [
      "a rail over a toe space",
      { form: "feet", foot: 4, rise: 2 },
      { kick: {} },
      'cases[0].frame.lower: a shaped lower edge on the bottom rail of "case", which does not reach the floor',
    ],
    [
      "a slope of an arch",
      { form: "arch", foot: 4, rise: 2, relief: 1 },
      {},
      'cases[0].frame.lower.relief: "relief" for an arch',
    ],
  ])("%s", (_, lower, more, words) => {
    expect(said(lower, more)).toContain(words);
  });
});

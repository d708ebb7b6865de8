/** Worked examples, reckoned by hand: these very numbers must come out. */
import { describe, expect, it } from "vitest";
import type { DryfitSet, SetFeature, SetPart } from "../../src/set/schema.ts";
import { setOf, testFile } from "../support/jobs/examples.ts";

const IN = 25.4;
const CLOSE = 3; // toBeCloseTo: within 0.0005 mm

const only = (set: DryfitSet, role: string, hand: string | null = null): SetPart => {
  const found = set.parts.filter((part) => part.role === role && (hand === null || part.hand === hand));
  expect(found, `${role} ${hand ?? ""}`).toHaveLength(1);
  return found[0]!;
};

/** Near walls of the grooves that run across the part's length, from its low end. */
const walls = (part: SetPart, face?: string): number[] =>
  part.features
    .filter(
      (feature: SetFeature) => feature.kind === "groove" && feature.along === "w" && (!face || feature.face === face),
    )
    .map(({ at }) => at)
    .sort((a, b) => a - b);

const expectInches = (found: number[], inches: number[]): void => {
  expect(found).toHaveLength(inches.length);
  inches.forEach((inch, i) => {
    expect(found[i]).toBeCloseTo(inch * IN, CLOSE);
  });
};

describe.each(["example-a-in", "example-a-mm"])(
  "worked example A, %s: 36 x 30 x 12, 3/4 plywood, joints 3/8 deep",
  (name) => {
    const set = setOf(testFile(name));
    const left = only(set, "side", "left");
    const right = only(set, "side", "right");

    it("gives the sizes", () => {
      for (const part of [only(set, "bottom"), only(set, "top")]) expectInches([part.length, part.width], [35.25, 12]);
      const divider = only(set, "divider");
      expectInches([divider.length, divider.width], [26.5, 11]);
      const shelf = only(set, "shelf");
      expectInches([shelf.length, shelf.width], [17.625, 11]);
      const back = only(set, "back");
      expectInches([back.length, back.width], [26.25, 35]);
      for (const side of [left, right]) expectInches([side.length, side.width], [30, 12]);
    });

    it("gives the clear bays", () => {
      expectInches(
        set.openings.map(({ width }) => width),
        [16.875, 16.875, 16.875],
      );
      expectInches(
        set.openings.map(({ height }) => height),
        [12.5, 12.5, 25.75],
      );
    });

    it("gives the near walls", () => {
      expectInches(walls(left), [2, 15.25, 28.5]);
      expectInches(walls(right), [2, 28.5]);
      expectInches(walls(only(set, "divider"), "t1"), [12.875]);
      expectInches(walls(only(set, "divider"), "t0"), []);
      for (const part of [only(set, "bottom"), only(set, "top")]) {
        expectInches(walls(part), [17.25]);
        const groove = part.features.find(({ along }) => along === "w")!;
        expectInches([part.length - groove.at - groove.width], [17.25]); // "from either end"
      }
    });

    it("houses the back a quarter deep on four sides, three quarters in from the rear edges", () => {
      for (const part of [left, right, only(set, "bottom"), only(set, "top")]) {
        const groove = part.features.find(({ along }) => along === "l")!;
        expectInches([groove.at, groove.width, groove.depth], [11, 0.25, 0.25]);
      }
    });

    it("has nothing to object to but the span of its bottom, 34 1/2 in without a foot under it", () => {
      const objections = set.checks.filter(({ level }) => level === "failure" || level === "warning");
      expect(objections.map(({ id, level, parts }) => [id, level, ...parts])).toEqual([
        ["shelf-sag", "warning", only(set, "bottom").mark],
      ]);
      expect(objections[0]!.text).toMatch(/: (34 1\/2 in|876\.3 mm) clear/);
    });
  },
);

it("worked example A is the same set in inches and in millimetres, unit and words aside", () => {
  const numbers = (set: DryfitSet): unknown => {
    const { unit: _unit, name: _name, ...job } = set.job;
    const { assemblies, openings, parts, pieces, joints, sheets, sticks } = set;
    const settings = set.settings.map(({ test: _t, caution: _c, cutter: _k, ...rest }) => rest);
    const named = (list: DryfitSet["sheets"]): unknown => list.map(({ boundText: _b, ...rest }) => rest);
    return { job, assemblies, openings, parts, pieces, joints, settings, sheets: named(sheets), sticks };
  };
  expect(numbers(setOf(testFile("example-a-mm")))).toEqual(numbers(setOf(testFile("example-a-in"))));
});

it("worked example B: 900 wide, 18 nominal, 17.6 measured, joints 9 deep", () => {
  const set = setOf(testFile("example-b"));
  const bottom = only(set, "bottom");
  expect(bottom.length).toBeCloseTo(882.8, CLOSE);
  expect(set.openings[0]!.width).toBeCloseTo(864.8, CLOSE);
  const groove = set.parts.find(({ role }) => role === "side")!.features.find(({ holds }) => holds === bottom.mark)!;
  expect(groove.width).toBeCloseTo(17.7, CLOSE);
  expect(set.checks.filter(({ level }) => level === "failure")).toEqual([]);
});

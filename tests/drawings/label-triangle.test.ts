/** The triangle across the labels of one glue-up, and the small label of a part that is narrower than its label. */
import { describe, expect, it } from "vitest";
import { drawLabel } from "../../src/drawings/labels/label.ts";
import { sliceOf } from "../../src/drawings/labels/label-triangle.ts";
import { planLabels } from "../../src/plans/labels.ts";
import type { DryfitSet, SetPart } from "../../src/set/schema.ts";
import { exampleSets, setOf, testFile } from "../support/jobs/examples.ts";
import { labelOf } from "../support/pages/label-formats.ts";
import { overlapping, textBoxes } from "../support/pages/text-boxes.ts";

const slices = (set: DryfitSet): Record<string, string> =>
  Object.fromEntries(
    set.parts.flatMap((part) => {
      const slice = sliceOf(set, part);
      return slice === null ? [] : [[`${part.mark} ${part.name}`, `${slice.cut} ${slice.n + 1} of ${slice.of}`]];
    }),
  );

describe("the triangle of example A", () => {
  const set = setOf(testFile("example-a-in"));
  const mark = (name: string): string => set.parts.find((part) => part.name === name)!.mark;

  it("is sliced from left to right for what stands, and from the floor up for what lies; the back has none", () => {
    const named = (name: string): string => `${mark(name)} ${name}`;
    expect(slices(set)).toEqual({
      [named("left side")]: "upright 1 of 3",
      [named("divider")]: "upright 2 of 3",
      [named("right side")]: "upright 3 of 3",
      [named("bottom")]: "level 1 of 3",
      [named("shelf")]: "level 2 of 3",
      [named("top panel")]: "level 3 of 3",
    });
  });
});

it.each(exampleSets())(
  "of %s: the slices of each glue-up make one triangle whole, each slice on one label",
  (_, set) => {
    const found = new Map<string, number[]>();
    for (const part of set.parts) {
      const slice = sliceOf(set, part);
      if (slice === null) continue;
      const key = `${part.assembly} ${slice.cut} ${slice.of}`;
      found.set(key, [...(found.get(key) ?? []), slice.n]);
    }
    expect(found.size).toBeGreaterThan(0);
    for (const [key, ns] of found) {
      const of = Number(key.split(" ").at(-1));
      expect(
        ns.sort((a, b) => a - b),
        key,
      ).toEqual(Array.from({ length: of }, (_, n) => n));
    }
  },
);

describe("a narrow part", () => {
  const base = setOf(testFile("example-a-in"));
  const drawn = (width: number, label: { width: number; height: number }): ReturnType<typeof textBoxes> => {
    const part: SetPart = { ...base.parts.find(({ name }) => name === "shelf")!, width };
    const paper = { ...base.paper, labels: labelOf(base.paper.labels, label.width, label.height) };
    const set: DryfitSet = { ...base, paper, parts: base.parts.map((one) => (one.mark === part.mark ? part : one)) };
    const { text } = planLabels({ ...set, parts: [part] })[0]!;
    return textBoxes(drawLabel(set, part, text));
  };
  const words = (boxes: ReturnType<typeof textBoxes>): string => boxes.map(({ text }) => text).join(" ");

  it.each([
    [25, { width: 66.675, height: 25.4 }],
    [18, { width: 66.675, height: 25.4 }],
    [12, { width: 66.675, height: 25.4 }],
    [38, { width: 99.1, height: 67.7 }],
    [20, { width: 99.1, height: 38.1 }],
  ])("%d mm wide has its mark and size on a small label that it takes", (width, label) => {
    const boxes = drawn(width, label);
    expect(words(boxes)).toContain("cut out along the line");
    const mark = boxes[0]!;
    expect(mark.size).toBeGreaterThanOrEqual(4);
    expect(mark.y1).toBeLessThan(width - 1);
    expect(overlapping(boxes)).toEqual([]);
    expect(boxes.filter(({ x1, y1 }) => x1 > label.width - 0.5 || y1 > label.height - 0.5)).toEqual([]);
  });

  it("narrower than any lettering is tied on, and one that has room for the whole label is not cut", () => {
    expect(words(drawn(4, { width: 66.675, height: 25.4 }))).toMatch(/tie it on/);
    expect(words(drawn(26, { width: 66.675, height: 25.4 }))).not.toMatch(/cut out|tie it on/);
  });
});

/** Joints at full size: every groove that holds a part has one, as wide and deep on paper as it is cut, either hand its own. */
import { beforeAll, describe, expect, it } from "vitest";
import { drawSticks } from "../../src/drawings/sticks/sticks.ts";
import type { DryfitSet } from "../../src/set/schema.ts";
import { writePdf } from "../../src/writers/pdf.ts";
import { exampleSets, setOf, testFile } from "../support/jobs/examples.ts";
import { type PdfFile, readPdf } from "../support/pages/pdf.ts";
import { textBoxes } from "../support/pages/text-boxes.ts";

const detailPages = (set: DryfitSet) => drawSticks(set).filter(({ key }) => key.startsWith("stick-details"));

const TITLE = /^In (.*), (groove|rabbet) for (.*):$/;

/** Titles of the details; one that wraps is put together again by the reader of the next line. */
const titlesOf = (set: DryfitSet): { takers: string[]; enters: string[] }[] =>
  detailPages(set)
    .flatMap(({ shapes }) => textBoxes(shapes).map(({ text }) => text))
    .flatMap((text) => {
      const found = TITLE.exec(text);
      return found === null ? [] : [{ takers: found[1]!.split(", "), enters: found[3]!.split(", ") }];
    });

const held = (set: DryfitSet) =>
  set.parts.flatMap((part) =>
    part.features
      .filter(({ kind, face, holds }) => /groove|rabbet/.test(kind) && face[0] === "t" && holds !== null)
      .map((feature) => ({ part, feature })),
  );

describe.each([
  ["example-a-in", setOf(testFile("example-a-in"))] as const,
  ["tongue", setOf(testFile("tongue"))] as const,
  ["rabbeted-back", setOf(testFile("rabbeted-back"))] as const,
  ...exampleSets(),
])("%s", (_, set) => {
  let file: PdfFile;
  beforeAll(async () => {
    file = await readPdf(await writePdf({ title: "t", subject: "s", date: set.job.date, pages: detailPages(set) }));
  });

  it("has a detail for every groove that holds a part", () => {
    const titles = titlesOf(set);
    expect(titles.length).toBeGreaterThan(0);
    const missing = held(set).filter(
      ({ part, feature }) =>
        !titles.some(({ takers, enters }) => takers.includes(part.mark) && enters.includes(feature.holds!)),
    );
    expect(missing.map(({ part, feature }) => `${part.mark} for ${feature.holds}`)).toEqual([]);
  });

  it("draws each groove's floor as long and its walls as high as it is cut", () => {
    const sides = file.pages.flatMap(({ paths }) =>
      paths
        .filter(({ paint, width }) => paint === "stroke" && width > 0.3) // outlines
        .flatMap(({ runs }) =>
          runs.flatMap(({ points }) =>
            points.slice(1).map((point, i) => Math.hypot(point.x - points[i]!.x, point.y - points[i]!.y)),
          ),
        ),
    );
    for (const { feature } of held(set)) {
      for (const side of [feature.width, feature.depth]) {
        expect(Math.min(...sides.map((one) => Math.abs(one - side))), `${side}`).toBeLessThan(0.01);
      }
    }
  });
});

it("draws the back's groove once for the left and once, mirrored, for the right side", () => {
  const set = setOf(testFile("example-a-in"));
  const [left, right] = set.parts.filter(({ role }) => role === "side").map(({ mark }) => mark);
  const back = set.parts.find(({ role }) => role === "back")!.mark;
  const forBack = titlesOf(set).filter(({ enters }) => enters.includes(back));
  const takers = forBack.map((one) => one.takers);
  expect(takers.filter((marks) => marks.includes(left!) && marks.includes(right!))).toEqual([]);
  expect(takers.flat()).toEqual(expect.arrayContaining([left, right]));
});

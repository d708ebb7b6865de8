/** Printers as their check bars were measured: readings to scales, on sticks, labels and the roll. */
import { cpSync, readFileSync, writeFileSync } from "node:fs";
import { join } from "node:path";
import { describe, expect, it } from "vitest";
import { ProblemsFound } from "../../src/base/problem.ts";
import { drawLabels } from "../../src/drawings/labels/labels.ts";
import { drawSticks } from "../../src/drawings/sticks/sticks.ts";
import type { PaperChoice } from "../../src/project/paper.ts";
import { readShop } from "../../src/project/shop/shop.ts";
import { exampleSets } from "../support/jobs/examples.ts";
import { inFolder, jobWith, printed, problemsIn, readText } from "../support/jobs/project-file.ts";
import { textBoxes } from "../support/pages/text-boxes.ts";

const withPaper = (paper: string): string => jobWith(['"in",', `"in",\n  "paper": ${paper},`]);
const paperOf = (paper: string): PaperChoice => readText(withPaper(paper)).project.paper;

describe("what the bars measure", () => {
  it("is read in the bar's own unit, whatever the job's", () => {
    const { print } = paperOf('{ "print": { "x": { "100 mm": 98.4 }, "y": { "4 in": "4 1/16" } } }');
    expect(print.x).toBeCloseTo(0.984, 12);
    expect(print.y).toBeCloseTo(4.0625 / 4, 12);
    expect(paperOf('{ "print": { "x": { "100 mm": "9.84 cm" } } }').print.x).toBeCloseTo(0.984, 12);
  });

  it("of two bars is weighed by their length: least squares, by hand", () => {
    // 98 of 100 and 100.6 of 101.6: (9800 + 10220.96) / (10000 + 10322.56)
    const { x } = paperOf('{ "print": { "x": { "100 mm": 98.6, "4 in": "100.6 mm" } } }').print;
    expect(x).toBeCloseTo((98.6 * 100 + 100.6 * 101.6) / (100 ** 2 + 101.6 ** 2), 12);
  });

  it("corrects sticks and labels alike, the roll by its own readings", () => {
    const paper = paperOf('{ "print": { "x": 0.984, "y": 1.012 }, "roll": { "y": { "250 mm": 249 } } }');
    expect(paper.print).toEqual({ x: 0.984, y: 1.012 });
    expect(paper.labels.print).toEqual(paper.print);
    expect(paper.roll).toEqual({ x: 1, y: 0.996 });
  });

  it("may differ for the labels, and a label printer is another printer", () => {
    const print = '"print": { "x": 0.984 }';
    const own = paperOf(`{ ${print}, "labels": { "format": "A4 3 x 8", "scale": { "x": 1.01 } } }`);
    expect(own.labels.print).toEqual({ x: 1.01, y: 1 });
    expect(paperOf(`{ ${print}, "labels": "Single 100 x 50 mm, 203 dpi" }`).labels).toMatchObject({
      dpi: 203,
      print: { x: 1, y: 1 },
      page: { width: 100, height: 50 },
    });
  });

  it("is on every page that it corrects", () => {
    const [, example] = exampleSets()[0]!;
    const print = { x: 0.984, y: 1.012 };
    const paper = { ...example.paper, print, labels: { ...example.paper.labels, print } };
    const set = { ...example, paper };
    for (const page of [...drawSticks(set), ...drawLabels(set)]) {
      const words = textBoxes(page.shapes)
        .map(({ text }) => text)
        .join(" ");
      expect(words, page.label).toContain("corrected for a printer that prints x at 0.984 and y at 1.012");
    }
  });
});

describe("the file is at fault", () => {
  it.each([
    [
      "bars that disagree",
      '{ "print": { "x": { "100 mm": 98.4, "4 in": 4 } } }',
      `job.json:4:30  paper.print.x
  error: bars along one axis that disagree: 100 mm measured as 98.4 mm, 4 in measured as 4 in
  expected: bars of one page, each measured from end line to end line
  try: measure both again with one rule, or give the better one alone`,
    ],
    [
      "a reading in the wrong unit",
      '{ "print": { "y": { "4 in": "98.4" } } }',
      `job.json:4:40  paper.print.y.4 in
  error: the 4 in bar measured as 98.4 in
  expected: what the bar measures, within a tenth of its length
  try: measure again from end line to end line, and check the unit`,
    ],
    [
      "a printer that the shop does not have",
      '{ "print": "cellar" }',
      `job.json:4:23  paper.print
  error: there is no printer "cellar", nor any other
  expected: a printer of shared/paper.json, or what its check bars measure
  try: enter it there under "printers", or give x and y`,
    ],
    [
      "a start beyond the page",
      '{ "labels": { "format": "A4 3 x 8", "start": 25 } }',
      `job.json:4:57  paper.labels.start
  error: start 25 on a page of 24 labels
  expected: a label from 1 to 24
  try: count the labels row by row: the first is 1`,
    ],
  ])("%s", (_, paper, expected) => {
    expect(printed(problemsIn(withPaper(paper)))).toBe(expected);
  });
});

it("labels are moved by an offset in the job's unit, and keep their pitch", () => {
  const plain = paperOf('{ "labels": "A4 3 x 8" }').labels;
  const moved = paperOf('{ "labels": { "format": "A4 3 x 8", "offset": { "x": "-0.5 mm", "y": "1/16" } } }').labels;
  expect(moved.left - plain.left).toBeCloseTo(-0.5, 9);
  expect(moved.top - plain.top).toBeCloseTo(25.4 / 16, 9);
  expect(moved.pitch).toEqual(plain.pitch);
});

it("the shop's printers stand in its paper file, one of them for every job that names none", () => {
  const shopWith = (entry: string): ReturnType<typeof readShop> =>
    inFolder((folder) => {
      cpSync("shared", folder, { recursive: true });
      const file = join(folder, "paper.json");
      writeFileSync(file, readFileSync(file, "utf8").replace('"unit": "mm",', `"unit": "mm", ${entry},`));
      return readShop(folder);
    });
  const { paper } = shopWith('"printers": { "office": { "x": { "100 mm": 98.9 } } }, "print": "office"');
  expect([paper.print, paper.printers]).toEqual(["office", { office: { x: { "100 mm": 98.9 } } }]);
  expect(() => shopWith('"printers": { "office": { "z": 1 } }')).toThrow(ProblemsFound);
});

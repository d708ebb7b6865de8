/** Sticks on long pages: within what a PDF page may be, corrected for the roll's printer, and true. */
import { expect, it } from "vitest";
import { drawRollSticks } from "../../src/drawings/sticks/long-sticks.ts";
import { planSticks } from "../../src/plans/sticks/index.ts";
import { cutStick } from "../../src/plans/sticks/tiles.ts";
import type { DryfitSet } from "../../src/set/schema.ts";
import { LONGEST_PAGE, longestOnRoll } from "../../src/set/stick-page.ts";
import { writePdf } from "../../src/writers/pdf.ts";
import { setOf, testFile } from "../support/jobs/examples.ts";
import { readPdf } from "../support/pages/pdf.ts";
import { textBoxes } from "../support/pages/text-boxes.ts";

const base = setOf(testFile("example-a-mm"));
const withRoll = (roll: { x: number; y: number }): DryfitSet => {
  const paper = { ...base.paper, roll };
  return { ...base, paper, sticks: planSticks({ ...base, paper }) };
};

it.each([
  { x: 1, y: 1 },
  { x: 0.984, y: 1.012 },
])("have their walls where set.json has them, printed by a roll printer that prints $x by $y", async (roll) => {
  const set = withRoll(roll);
  const pages = drawRollSticks(set);
  const file = await readPdf(await writePdf({ title: "t", subject: "s", date: set.job.date, pages }));
  expect(file.pages).toHaveLength(set.sticks.length);
  for (const [i, stick] of set.sticks.entries()) {
    const { width, height, paths } = file.pages[i]!;
    const printed = (x: number): number => width / 2 + roll.x * (x - width / 2);
    const middle = height / 2 + (12 + 20 - (2 * 12 + 40 + 8) / 2) / roll.y; // of the strip: 12 from the top, 40 high
    const crossing = paths
      .filter(({ paint }) => paint === "stroke")
      .flatMap(({ runs }) => runs.flatMap(({ points }) => points.slice(1).map((b, n) => [points[n]!, b] as const)))
      .filter(([a, b]) => Math.abs(a.x - b.x) < 1e-3 && Math.min(a.y, b.y) < middle && Math.max(a.y, b.y) > middle)
      .map(([a]) => printed(a.x))
      .sort((a, b) => a - b);
    const zero = crossing[0]!;
    const walls = stick.marks.flatMap(({ at, width: wide }) => (wide === 0 ? [at] : [at, at + wide]));
    for (const wall of walls) {
      expect(Math.min(...crossing.map((at) => Math.abs(at - zero - wall))), `${stick.name} ${wall}`).toBeLessThan(0.1);
    }
    const words = textBoxes(pages[i]!.shapes).map(({ text }) => text);
    const isCorrected = words.some((text) =>
      text.includes("corrected for a printer that prints x at 0.984 and y at 1.012"),
    );
    expect(isCorrected).toBe(roll.x !== 1);
  }
});

it("come in pieces that are joined where no page of a PDF is long enough, and say why", async () => {
  const [first] = base.sticks;
  const length = 7000;
  const stick = { ...first!, length, marks: first!.marks.filter(({ kind }) => kind === "groove") };
  const long = cutStick(stick, longestOnRoll(base.paper), 10);
  expect(long).toHaveLength(2);
  expect(long[0]!.to - long[1]!.from).toBe(16);
  const set: DryfitSet = { ...base, sticks: [{ ...stick, long, tiles: base.sticks[0]!.tiles }] };
  const pages = drawRollSticks(set);
  const file = await readPdf(await writePdf({ title: "t", subject: "s", date: set.job.date, pages }));
  for (const { mediaBox } of file.pages) expect(Math.max(...mediaBox)).toBeLessThanOrEqual(14_400);
  expect(LONGEST_PAGE).toBe(5080);
  const words = pages.map(({ shapes }) => textBoxes(shapes).map(({ text }) => text));
  for (const page of words) {
    expect(page.join(" ")).toContain("in 2 pieces: no page of a PDF is longer than 200 in, 5080 mm");
    expect(page.filter((text) => text === "A")).toHaveLength(2); // the letter of the join, from either edge
  }
});

/** Labels of every format, read by a decoder: as printed at 203, 300 and 600 dpi, and spoiled the way a telephone sees them. */
import { beforeAll, describe, expect, it } from "vitest";
import { drawLabel } from "../../src/drawings/labels/label.ts";
import { drawLabels } from "../../src/drawings/labels/labels.ts";
import { checkLettering } from "../../src/writers/lettered.ts";
import { exampleSets } from "../support/jobs/examples.ts";
import { messageOf } from "../support/message.ts";
import { codesIn, prepareReader } from "../support/pages/codes.ts";
import { FORMAT_NAMES } from "../support/pages/label-formats.ts";
import { labelledSets, labelPictures, printedIn } from "../support/pages/label-pictures.ts";
import { overlapping, textBoxes } from "../support/pages/text-boxes.ts";
import { IS_WHOLE, tell } from "../support/runs.ts";

beforeAll(prepareReader);

describe.each(FORMAT_NAMES)("labels %s", (name) => {
  const sets = labelledSets(name);

  it("are read as they are printed, and blurred, noisy, turned and with the ink spread", async () => {
    let read = 0;
    for await (const { of, text, what, raster } of labelPictures(name)) {
      const codes = await codesIn(raster);
      expect(
        codes.map((code) => code.text),
        `${of}, ${what}`,
      ).toEqual([text]);
      read += 1;
    }
    expect(read).toBeGreaterThanOrEqual(2 * sets.flatMap(printedIn).length);
    if (IS_WHOLE) tell(`Labels ${name}`, [["codes read", read]]);
  }, 3_600_000);

  it("hold all that is lettered on them, nothing over anything", () => {
    for (const set of sets) {
      const { width, height } = set.paper.labels.label;
      for (const { mark, text } of set.labels) {
        const boxes = textBoxes(drawLabel(set, set.parts.find((part) => part.mark === mark)!, text));
        const out = boxes.filter(({ x0, y0, x1, y1 }) => x0 < 0.5 || y0 < 0.5 || x1 > width - 0.5 || y1 > height - 0.5);
        expect([out.map((box) => box.text), overlapping(boxes)], `part ${mark}`).toEqual([[], []]);
      }
    }
  });
});

it("are of every shape in the shop's list, and none is missing", () => {
  expect(FORMAT_NAMES.length).toBeGreaterThanOrEqual(15);
  expect(FORMAT_NAMES.filter((name) => name.includes("dpi"))).toHaveLength(4);
});

it("a name that cannot be lettered is refused, its characters named", () => {
  const [, example] = exampleSets()[0]!;
  const parts = example.parts.map((part, i) => (i === 0 ? { ...part, name: "\u68DA board" } : part));
  const message = messageOf(() => checkLettering(drawLabels({ ...example, parts })));
  expect(message).toContain("\u68DA (U+68DA)");
  expect(message).toContain("letters of Latin, Greek or Cyrillic writing");
});

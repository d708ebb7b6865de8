/** Labels of every format, read by a decoder: as printed at 203, 300 and 600 dpi, and spoiled the way a telephone sees them. */
import { beforeAll, describe, expect, it } from "vitest";
import { drawLabel } from "../../src/drawings/labels/label.ts";
import { drawLabels } from "../../src/drawings/labels/labels.ts";
import { planLabels } from "../../src/plans/labels.ts";
import { insetsOf, moduleSize } from "../../src/set/label-page.ts";
import { qrMatrix } from "../../src/set/qr.ts";
import type { DryfitSet, SetPart } from "../../src/set/schema.ts";
import { checkLettering } from "../../src/writers/lettered.ts";
import { writePdf } from "../../src/writers/pdf.ts";
import { exampleSets } from "../support/jobs/examples.ts";
import { messageOf } from "../support/message.ts";
import { codesIn, prepareReader, spoiled } from "../support/pages/codes.ts";
import { FORMAT_NAMES, formatCalled, type LabelFormat } from "../support/pages/label-formats.ts";
import { openPdf } from "../support/pages/pdf.ts";
import { overlapping, textBoxes } from "../support/pages/text-boxes.ts";
import { rasteriseWindow } from "../support/pages/window.ts";
import { IS_WHOLE, SEED, tell } from "../support/runs.ts";

/** Hard to letter and to read: every sort of writing the lettering has, and quotes that a reader could stumble over. */
const NAMES = [
  "shelf",
  `"upper" shelf, O'Brien's \\ 100 % <b>&amp;`,
  "\u00E9tag\u00E8re d\u2019angle, \u0141\u00F3d\u017A, gro\u00DFe T\u00FCr",
  "\u03C1\u03AC\u03C6\u03B9 \u03C0\u03AC\u03BD\u03C9 \u03B1\u03C1\u03B9\u03C3\u03C4\u03B5\u03C1\u03AC",
  "the shelf over the wheel that holds the bats, throwing tools and the wet sponges, up",
];

/** The examples' parts, some with names that are hard; `all` of them, or a few. */
function partsFor(set: DryfitSet, n: number): SetPart[] {
  const named = set.parts.map((part, i) => (i < NAMES.length ? { ...part, name: NAMES[i]! } : part));
  return IS_WHOLE ? named : [named[n % NAMES.length]!];
}

const inFormat = (set: DryfitSet, labels: LabelFormat): DryfitSet => {
  const put = { ...set, paper: { ...set.paper, labels } };
  return { ...put, labels: planLabels(put) };
};

const PLAIN = [203, 300, 600];
const PER_MM = [12, 6]; // of a spoiled picture; the coarse one for modules of 0.5 mm and more
/** Each of them, or one by turns. */
const some = <T>(all: T[], n: number): T[] => (IS_WHOLE ? all : [all[n % all.length]!]);
const GAIN = 0.1; // of a module, over both its edges

beforeAll(prepareReader);

describe.each(FORMAT_NAMES)("labels %s", (name) => {
  const n = FORMAT_NAMES.indexOf(name);
  const labels = formatCalled(name);
  const [, example] = exampleSets()[n % exampleSets().length]!;
  const renamed = partsFor(example, n);
  const parts = example.parts.map((part) => renamed.find(({ mark }) => mark === part.mark) ?? part);
  const set = inFormat({ ...example, parts }, labels);
  const wanted = planLabels({ ...set, parts: renamed });

  it("are read as they are printed, and blurred, noisy, turned and with the ink spread", async () => {
    const pages = drawLabels({ ...set, labels: wanted });
    const pdf = await openPdf(await writePdf({ title: "t", subject: "s", date: set.job.date, pages }));
    let read = 0;
    for (const { mark, text, spot } of wanted) {
      const { modules } = qrMatrix(text)!;
      const size = moduleSize(labels, modules)!;
      // The code stands at the label's right; what is beside it would only be more to blur.
      const side = (modules + 8) * size + 2;
      const { height } = labels.label;
      const x = Math.max(0, spot!.x + labels.label.width - insetsOf(labels).right - side);
      const at = (dpi: number) =>
        rasteriseWindow(pdf, spot!.page, dpi, { x, y: Math.max(0, spot!.y), width: side, height });
      for (const dpi of some(labels.dpi === null ? PLAIN : [labels.dpi, ...PLAIN], n)) {
        const codes = await codesIn((await at(dpi)).raster);
        expect(
          codes.map((code) => code.text),
          `part ${mark} at ${dpi} dpi`,
        ).toEqual([text]);
        read += 1;
      }
      for (const perMm of some(
        PER_MM.filter((one) => one === 12 || size >= 0.5),
        n,
      )) {
        const picture = spoiled((await at(perMm * 25.4)).raster, {
          gain: (GAIN * size * perMm) / 2,
          turn: 15,
          blur: 0.8,
          noise: 8,
          seed: SEED + Number(mark),
        });
        const codes = await codesIn(picture);
        expect(
          codes.map((code) => code.text),
          `part ${mark}, spoiled, at ${perMm} px/mm`,
        ).toEqual([text]);
        read += 1;
      }
    }
    await pdf.destroy();
    if (IS_WHOLE) tell(`Labels ${name}`, [["codes read", read]]);
  }, 3_600_000);

  it("hold all that is lettered on them, nothing over anything", () => {
    for (const { mark, text } of wanted) {
      const boxes = textBoxes(drawLabel(set, set.parts.find((part) => part.mark === mark)!, text));
      const out = boxes.filter(
        ({ x0, y0, x1, y1 }) => x0 < 0.5 || y0 < 0.5 || x1 > labels.label.width - 0.5 || y1 > labels.label.height - 0.5,
      );
      expect([out.map((box) => box.text), overlapping(boxes)], `part ${mark}`).toEqual([[], []]);
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

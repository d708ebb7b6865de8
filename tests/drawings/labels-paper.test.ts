/** labels.pdf as printed: every code read by a decoder of its own, nothing over anything, nothing off its label. */
import fc from "fast-check";
import { beforeAll, describe, expect, it } from "vitest";
import { drawLabel } from "../../src/drawings/labels/label.ts";
import { drawLabels } from "../../src/drawings/labels/labels.ts";
import { planLabels } from "../../src/plans/labels.ts";
import { planRack } from "../../src/plans/sheets/rack.ts";
import type { DryfitSet, Face, SetPart } from "../../src/set/schema.ts";
import { writePdf } from "../../src/writers/pdf.ts";
import { exampleSets, setOf, testFile } from "../support/jobs/examples.ts";
import { messageOf } from "../support/message.ts";
import { codesIn, prepareReader } from "../support/pages/codes.ts";
import { FORMAT_NAMES, formatCalled, labelOf } from "../support/pages/label-formats.ts";
import { readPdf } from "../support/pages/pdf.ts";
import { type Raster, rasterise } from "../support/pages/raster.ts";
import { inkAtEdges } from "../support/pages/stick-operators.ts";
import { overlapping, type TextBox, textBoxes } from "../support/pages/text-boxes.ts";
import { runs } from "../support/runs.ts";

beforeAll(prepareReader);

/** Each code's text, and where its middle lies on the page. */
async function codesOn(raster: Raster, dpi: number): Promise<{ text: string; x: number; y: number }[]> {
  const mm = 25.4 / dpi;
  return (await codesIn(raster)).map(({ text, x, y }) => ({ text, x: x * mm, y: y * mm }));
}

const pdfOf = (set: DryfitSet): Promise<Uint8Array> =>
  writePdf({ title: set.job.title, subject: "labels", date: set.job.date, pages: drawLabels(set) });

describe.each(exampleSets())("%s", (_, set) => {
  let bytes: Uint8Array;
  beforeAll(async () => {
    bytes = await pdfOf(set);
  });

  it.each([300, 203])(
    "has every code read at %i dpi, on its own label, saying what set.json says",
    async (dpi) => {
      const { width, height } = set.paper.labels.label;
      const offcuts = set.rack.flatMap(({ label, text, spot }) => (text === null ? [] : [{ mark: label, text, spot }]));
      const labels = [...set.labels, ...offcuts];
      const pages = Math.max(...labels.map(({ spot }) => spot!.page));
      for (let page = 1; page <= pages; page++) {
        const codes = await codesOn(await rasterise(bytes, page, dpi), dpi);
        const wanted = labels.filter(({ spot }) => spot!.page === page);
        expect(codes).toHaveLength(wanted.length);
        for (const { text, spot, mark } of wanted) {
          const { x, y } = spot!;
          const here = codes.filter((code) => code.x > x && code.x < x + width && code.y > y && code.y < y + height);
          expect(
            here.map((code) => code.text),
            `part ${mark}`,
          ).toEqual([text]);
        }
      }
    },
    30_000,
  );

  it("letters nothing over anything", () => {
    expect(drawLabels(set).flatMap(({ shapes }) => overlapping(textBoxes(shapes)))).toEqual([]);
  });
});

it("says the part's address in its code", async () => {
  const example = setOf(testFile("plain-box"));
  const addressed: DryfitSet = { ...example, job: { ...example.job, address: "https://example.org/box" } };
  const set = { ...addressed, labels: planLabels(addressed), rack: [] };
  const codes = await codesOn(await rasterise(await pdfOf(set), 1, 300), 300);
  expect(codes.map(({ text }) => text).sort()).toEqual(
    set.parts.map(({ mark }) => `https://example.org/box/parts/${mark}.html`).sort(),
  );
}, 30_000);

const FORMATS = FORMAT_NAMES.map(formatCalled);
const SMALLEST = labelOf(FORMATS[0]!, 38, 21);

const MOST_WORD = 30;
const word = fc.string({
  unit: fc.constantFrom(..."abcdefghijklmnoprstuvwxyzABMW0389"),
  minLength: 1,
  maxLength: MOST_WORD,
});
const phrase = (most: number) => fc.array(word, { minLength: 1, maxLength: most }).map((words) => words.join(" "));

/** A part that is hard to letter: long names, marks and lists, sizes in 64ths of an inch. */
const hardPart = fc.record({
  mark: fc.integer({ min: 1, max: 999 }).map(String),
  name: phrase(4),
  length: fc.integer({ min: 1, max: 7000 }).map((n) => (n * 25.4) / 64),
  width: fc.integer({ min: 1, max: 3000 }).map((n) => (n * 25.4) / 64),
  hand: fc.constantFrom("left" as const, "right" as const, null),
  alike: fc.integer({ min: 0, max: 6 }),
  same: fc.array(fc.integer({ min: 100, max: 999 }).map(String), { maxLength: 8 }),
  holds: fc.array(fc.integer({ min: 1, max: 999 }).map(String), { maxLength: 6 }),
});

type HardPart = typeof hardPart extends fc.Arbitrary<infer Hard> ? Hard : never;

const rowOfHoles = fc.record({
  n: fc.integer({ min: 1, max: 12 }),
  face: fc.constantFrom("l0" as const, "l1" as const, "t0" as const, "t1" as const),
  count: fc.integer({ min: 1, max: 60 }),
});

const base = setOf(testFile("example-a-in"));
const LEAST_LETTER = 1.8;
const LEAST_MARK = 6;
const NARROW_MARK = 4; // on what is cut out for a narrow part

const outside = (boxes: TextBox[], width: number, height: number): string[] =>
  boxes
    .filter(({ x0, y0, x1, y1 }) => x0 < 0.5 || y0 < 0.5 || x1 > width - 0.5 || y1 > height - 0.5)
    .map(({ text }) => text);

it("letters any part on any label: inside it, nothing over anything, the mark large", () => {
  fc.assert(
    fc.property(
      hardPart,
      fc.constantFrom(...FORMATS),
      fc.constantFrom("in" as const, "mm" as const),
      fc.array(rowOfHoles, { maxLength: 4 }),
      (hard, labels, unit, rows) => {
        const { set, part } = setWith(hard, labels, unit, rows);
        const { width, height } = labels.label;
        const { text } = planLabels({ ...set, parts: [part] })[0]!;
        const boxes = textBoxes(drawLabel(set, part, text));
        expect(overlapping(boxes)).toEqual([]);
        expect(outside(boxes, width, height)).toEqual([]);
        expect(boxes.filter(({ size }) => size < LEAST_LETTER - 1e-9).map((box) => box.text)).toEqual([]);
        const least = Math.min(part.length, part.width) < height ? NARROW_MARK : LEAST_MARK;
        expect(boxes.find((box) => box.text === part.mark && box.size >= least)).toBeDefined();
        const said = boxes.map((box) => box.text).join(" ");
        expect(said).toContain(`rev. ${set.job.revision}`);
      },
    ),
    { numRuns: runs(2000), seed: 20261122 },
  );
}, 60_000);

it("letters the smallest labels down to mark, revision and size, and sends to the part's page; or says that it cannot", () => {
  const refusals = new Set<string>();
  let lettered = 0;
  fc.assert(
    fc.property(hardPart, fc.constantFrom("in" as const, "mm" as const), (hard, unit) => {
      const { set, part } = setWith(hard, SMALLEST, unit, []);
      let boxes: TextBox[];
      try {
        boxes = textBoxes(drawLabel(set, part, planLabels({ ...set, parts: [part] })[0]!.text));
      } catch (error) {
        refusals.add(messageOf(() => raise(error)).split("\n")[0]!);
        return;
      }
      lettered += 1;
      expect(overlapping(boxes)).toEqual([]);
      expect(outside(boxes, 38, 21)).toEqual([]);
      expect(boxes.filter(({ size }) => size < LEAST_LETTER - 1e-9).map((box) => box.text)).toEqual([]);
      expect(boxes.find((box) => box.text === part.mark)).toBeDefined();
      const said = boxes.map((box) => box.text).join(" ");
      expect(said).toContain(`rev. ${set.job.revision}`);
      expect(said.replaceAll(" ", "")).toMatch(/seepartpage|grain/);
    }),
    { numRuns: runs(1000), seed: 20261130 },
  );
  expect(lettered).toBeGreaterThan(runs(1000) / 2);
  for (const refusal of refusals) {
    expect(refusal).toMatch(
      /^ {2}error: part \d+: (mark and size do not fit on a label of 38 x 21 mm|the QR code on its)/,
    );
  }
}, 60_000);

/** Thrown again, so that its words can be read. */
const raise = (error: unknown): never => {
  throw error;
};

/** Only this part's label is looked at; others are there to be named on it. */
function setWith(
  hard: HardPart,
  labels: DryfitSet["paper"]["labels"],
  unit: "in" | "mm",
  rows: { n: number; face: Face; count: number }[],
): { set: DryfitSet; part: SetPart } {
  const others = base.parts.filter(({ mark }) => mark !== hard.mark).slice(0, hard.alike);
  const [template] = base.parts;
  const part: SetPart = {
    ...template!,
    ...hard,
    alike: others.map(({ mark }) => mark),
    features: hard.holds.flatMap((holds) => template!.features.slice(0, 1).map((feature) => ({ ...feature, holds }))),
  };
  const set: DryfitSet = {
    ...base,
    job: { ...base.job, unit },
    paper: { ...base.paper, labels },
    parts: [...others, part],
    orders: [gluedUp([part, ...others])],
    drilling: drillingOf(part, rows),
  };
  return { set, part };
}

/** One glue-up of them all: the triangle is drawn across the labels of those that stand side by side. */
const gluedUp = (parts: SetPart[]): DryfitSet["orders"][number] => ({
  ...base.orders[0]!,
  glueUps: [{ n: 1, parts: parts.map(({ mark }) => mark), joints: 1, minutes: null }],
});

const drillingOf = (part: SetPart, rows: { n: number; face: Face; count: number }[]): DryfitSet["drilling"] =>
  [...new Set(rows.map(({ n }) => n))].map((n) => ({
    n,
    group: 1,
    diameter: 5,
    depth: 10,
    holds: "shelf pins",
    rows: rows
      .filter((row) => row.n === n)
      .map(({ face, count }, i) => ({
        mark: part.mark,
        row: `row ${i}`,
        features: [],
        face,
        datum: "l0",
        first: 100,
        pitch: 32,
        count,
        edge: "w0",
        distance: 37,
      })),
    test: "",
    caution: "",
  }));

const inFormat = (set: DryfitSet, width: number, height: number): DryfitSet => ({
  ...set,
  paper: { ...set.paper, labels: labelOf(set.paper.labels, width, height) },
});

const SIZES = [
  [66.675, 25.4],
  [63.5, 33.9],
  [99.1, 38.1],
  [64, 36],
  [99.1, 67.7],
] as const;

/** The words of a label as they are read, line by line. */
const wordsOn = (set: DryfitSet, part: SetPart): string[] =>
  textBoxes(drawLabel(set, part, planLabels({ ...set, parts: [part] })[0]!.text))
    .sort((a, b) => a.y0 - b.y0 || a.x0 - b.x0)
    .flatMap(({ text }) => text.split(" "));

describe.each(["loose-shelves", "loose-shelves-each-side", "butt-dowels", "twin-cabinet-in", "joint-per-place"])(
  "the drilled parts of %s",
  (name) => {
    const set = setOf(testFile(name));
    const drilled = set.parts.filter(({ features }) => features.some(({ kind }) => kind === "hole"));

    it("are told as drilled, by the number of each drilling, on every label", () => {
      expect(drilled.length).toBeGreaterThan(0);
      for (const [width, height] of SIZES) {
        for (const part of set.parts) {
          const said = wordsOn(inFormat(set, width, height), part).join(" ");
          const numbers = set.drilling.flatMap(({ n, rows }) =>
            rows.some(({ mark }) => mark === part.mark) ? [n] : [],
          );
          expect([part.mark, numbers.length > 0]).toEqual([part.mark, drilled.includes(part)]);
          for (const n of numbers)
            expect(said, `${part.mark} on ${width} x ${height}`).toMatch(new RegExp(`drilling ${n}\\b`));
          if (numbers.length === 0) expect(said).not.toContain("drilling");
        }
      }
    });

    it("lose no word for it on the larger labels", () => {
      for (const [width, height] of SIZES.filter(([wide]) => wide > 90)) {
        const sized = inFormat(set, width, height);
        for (const part of drilled) {
          const told = wordsOn(sized, part);
          const bare = wordsOn({ ...sized, drilling: [] }, part);
          for (const word of new Set(bare)) {
            const times = (words: string[]): number => words.filter((other) => other.startsWith(word)).length;
            expect(times(told), `${word} on part ${part.mark}`).toBeGreaterThanOrEqual(times(bare));
          }
        }
      }
    });
  },
);

it("says how many rows of how many holes go into which face", () => {
  const set = inFormat(setOf(testFile("loose-shelves")), 99.1, 67.7);
  for (const part of set.parts.filter(({ role }) => role === "side")) {
    expect(wordsOn(set, part).join(" ")).toContain("drilling 1: 2 rows of 11, inside face");
  }
  const dowelled = inFormat(setOf(testFile("butt-dowels")), 99.1, 67.7);
  const divider = dowelled.parts.find(({ role }) => role === "divider")!;
  expect(wordsOn(dowelled, divider).join(" ")).toMatch(/drilling \d: 1 row of 3, bottom end, 1 row of 3, top end/);
});

it("tells look-alikes apart on both labels", () => {
  const [, set] = exampleSets().find(([name]) => name === "ware-bookcase")!;
  const pair = set.parts.find(({ role, alike }) => role === "side" && alike.length > 0)!;
  const words = textBoxes(drawLabel(set, pair, set.labels.find(({ mark }) => mark === pair.mark)!.text))
    .sort((a, b) => a.y0 - b.y0 || a.x0 - b.x0)
    .map(({ text }) => text)
    .join(" ");
  expect(words).toContain(`not ${pair.alike[0]} (mirror image)`);
});

it.each(FORMAT_NAMES.filter((name) => !name.includes("dpi")))(
  "leaves the edge of the page white that printers do: labels %s and their test page",
  async (name) => {
    const [, example] = exampleSets()[0]!;
    const labels = formatCalled(name);
    const set = { ...example, paper: { ...example.paper, labels } };
    const file = await readPdf(
      await pdfOf({ ...set, labels: planLabels(set), rack: planRack(set, set.parts.length, []) }),
    );
    expect(inkAtEdges(labels.page, file)).toEqual([]);
  },
);

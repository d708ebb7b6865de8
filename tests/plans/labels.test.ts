/** Labels as planned: what the codes say, where they lie, and what a QR code holds. */

import { readFileSync } from "node:fs";
import { describe, expect, it } from "vitest";
import { labelName } from "../../src/drawings/labels/label-words.ts";
import { planLabels } from "../../src/plans/labels.ts";
import { moduleSize } from "../../src/set/label-page.ts";
import { qrMatrix } from "../../src/set/qr.ts";
import type { DryfitSet } from "../../src/set/schema.ts";
import { exampleSets, setOf, testFile } from "../support/jobs/examples.ts";
import { messageOf } from "../support/message.ts";

type Capacity = { rows: { version: number; modules: number; level: string; byte: number }[] };
type Layouts = {
  rows: {
    name: string;
    columns: number;
    rows: number;
    label_mm: [number, number];
    left_mm: number;
    top_mm: number;
    pitch_mm: [number, number];
    right_mm: number;
    bottom_mm: number;
  }[];
};

const reference = <T>(name: string): T =>
  JSON.parse(readFileSync(new URL(`../reference/${name}.json`, import.meta.url), "utf8")) as T;

describe("QR codes, level M", () => {
  it.each(reference<Capacity>("qr-capacity").rows.filter(({ level }) => level === "M"))(
    "version $version has $modules modules and holds $byte bytes, not one more",
    ({ version, modules, byte }) => {
      expect(qrMatrix("a".repeat(byte))?.modules).toBe(modules);
      const over = qrMatrix("a".repeat(byte + 1))?.modules ?? null;
      expect(over).toBe(version === 40 ? null : modules + 4);
    },
  );

  it("counts bytes, not letters", () => {
    expect(qrMatrix("\u00E9".repeat(31))?.modules).toBe(33); // 62 bytes fill version 4
    expect(qrMatrix("\u00E9".repeat(32))?.modules).toBe(37);
  });
});

const set = setOf(testFile("example-a-in"));
const labelled = (over: Partial<DryfitSet["job"]>, label?: { width: number; height: number }): DryfitSet => ({
  ...set,
  job: { ...set.job, ...over },
  paper: { ...set.paper, labels: { ...set.paper.labels, ...(label ? { label } : {}) } },
});
const textOf = (one: DryfitSet, name: string): string => {
  const { mark } = set.parts.find((part) => part.name === name)!;
  return planLabels({ ...one, parts: one.parts.filter((part) => part.mark === mark) })[0]!.text;
};

describe("what a code says", () => {
  const marks = (names: string[]): string =>
    names.map((name) => set.parts.find((part) => part.name === name)!.mark).join(", ");
  const side = marks(["left side"]);

  it("says job, revision, mark, size, name, grain and grooves where there is room", () => {
    expect(textOf(labelled({}, { width: 100, height: 60 }), "left side")).toMatch(
      new RegExp(
        `^dryfit 1, job A, revision A, part ${side}, 30 x 12 x 3/4 in, left side, grain lengthwise, grooves for [0-9, ]+$`,
      ),
    );
  });

  it("says nothing of grooves where there are none", () => {
    expect(textOf(labelled({}, { width: 100, height: 60 }), "shelf")).toBe(
      `dryfit 1, job A, revision A, part ${marks(["shelf"])}, 17 5/8 x 11 x 3/4 in, shelf, grain lengthwise`,
    );
  });

  // Version 5, 84 bytes, is the largest code that 25.4 mm take at 0.5 mm modules.
  it("drops whole fields from the end", () => {
    const full = `dryfit 1, job A, revision A, part ${side}, 30 x 12 x 3/4 in, left side, grain lengthwise`;
    expect(textOf(labelled({}), "left side")).toBe(full);
    const longer = "a".repeat(84 - full.length + 2);
    expect(textOf(labelled({ number: longer }), "left side")).toBe(
      `dryfit 1, job ${longer}, revision A, part ${side}, 30 x 12 x 3/4 in, left side`,
    );
  });

  const wordsFor = (number: string): string => `dryfit 1, job ${number}, revision A, part ${side}, 30 x 12 x 3/4 in`;

  it("keeps job, revision, mark and size to the last byte at modules of 0.5 mm, then takes smaller ones", () => {
    const most = "a".repeat(84 - wordsFor("").length);
    expect(textOf(labelled({ number: most }), "left side")).toBe(wordsFor(most));
    const longer = labelled({ number: `${most}a` });
    expect(textOf(longer, "left side").startsWith(`${wordsFor(`${most}a`)}, left side`)).toBe(true);
    expect(moduleSize(set.paper.labels, qrMatrix(textOf(longer, "left side"))!.modules)).toBe(0.375);
  });

  // Version 10, 213 bytes, is the largest code that 25.4 mm take at 0.375 mm modules.
  it("says which part's label is too small even for these", () => {
    const most = "a".repeat(213 - wordsFor("").length);
    expect(textOf(labelled({ number: most }), "left side")).toBe(wordsFor(most));
    const only = { ...labelled({ number: `${most}a` }), parts: set.parts.filter(({ mark }) => mark === side) };
    expect(messageOf(() => planLabels(only))).toBe(
      [
        `  error: part ${side}: the QR code on its label would have to say "${wordsFor(`${most}a`)}"`,
        "  expected: a text that fits a code of 0.375 mm modules on a label of 66.675 x 25.4 mm (Letter 3 x 10)",
        "  try: a shorter job number, or larger labels",
      ].join("\n"),
    );
  });

  it("gives the address of the part's page where the job has one", () => {
    expect(textOf(labelled({ address: "https://example.org/a/" }), "left side")).toBe(
      `https://example.org/a/parts/${side}.html`,
    );
    const address = `https://example.org/${"a".repeat(190)}`;
    const only = { ...labelled({ address }), parts: set.parts.filter(({ mark }) => mark === side) };
    expect(messageOf(() => planLabels(only))).toBe(
      [
        `  error: part ${side}: the QR code on its label would have to say "${address}/parts/${side}.html"`,
        "  expected: a text that fits a code of 0.375 mm modules on a label of 66.675 x 25.4 mm (Letter 3 x 10)",
        "  try: a shorter address, or larger labels",
      ].join("\n"),
    );
  });

  it("is put on whole dots of a label printer, between 0.375 and 0.8 mm a module", () => {
    for (const [dpi, side_mm] of [
      [203, 50],
      [300, 50],
      [300, 29],
    ] as const) {
      const format = { ...set.paper.labels, dpi, label: { width: 2 * side_mm, height: side_mm } };
      for (const modules of [25, 29, 33, 37, 41]) {
        const size = moduleSize(format, modules);
        if (size === null) continue;
        const dots = (size * dpi) / 25.4;
        expect(Math.abs(dots - Math.round(dots))).toBeLessThan(1e-9);
        expect(size).toBeGreaterThanOrEqual(0.375);
        expect(size).toBeLessThanOrEqual(0.8);
      }
    }
  });
});

describe("where labels lie", () => {
  it.each(reference<Layouts>("label-sheets").rows.filter(({ label_mm: [, height] }) => height > 25))(
    "fills $name row by row, its last label as far from the paper's edges as its first",
    (row) => {
      const [width, height] = row.label_mm;
      const page = row.name.startsWith("A4")
        ? { name: "A4", width: 210, height: 297 }
        : { name: "Letter", width: 215.9, height: 279.4 };
      const labels: DryfitSet["paper"]["labels"] = {
        name: row.name,
        page,
        columns: row.columns,
        rows: row.rows,
        label: { width, height },
        left: row.left_mm,
        top: row.top_mm,
        pitch: { x: row.pitch_mm[0], y: row.pitch_mm[1] },
        cutLines: false,
        start: 1,
        dpi: null,
        print: { x: 1, y: 1 },
      };
      const perPage = row.columns * row.rows;
      const [first] = set.parts;
      const parts = Array.from({ length: perPage + 1 }, (_, i) => ({ ...first!, mark: String(i + 1) }));
      const planned = planLabels({ ...set, parts, paper: { ...set.paper, labels } });
      const [last, second, next] = [perPage - 1, 1, perPage].map((i) => planned[i]!.spot!);
      expect(page.width - last!.x - width).toBeCloseTo(row.right_mm, 1);
      expect(page.height - last!.y - height).toBeCloseTo(row.bottom_mm, 1);
      expect(second!.y).toBe(row.top_mm);
      expect([last!.page, next!.page]).toEqual([1, 2]);
      expect([next!.x, next!.y]).toEqual([row.left_mm, row.top_mm]);
    },
  );
});

it("starts at the label that is still there, and goes on at the first of the next page", () => {
  const { columns, rows } = set.paper.labels;
  const used = { ...set, paper: { ...set.paper, labels: { ...set.paper.labels, start: columns * rows - 1 } } };
  const [first, second, third] = planLabels(used).map(({ spot }) => spot!);
  const whole = planLabels({ ...set, parts: Array.from({ length: 30 }, () => set.parts[0]!) }).map(({ spot }) => spot!);
  expect([first, second]).toEqual([whole[columns * rows - 2], whole[columns * rows - 1]]);
  expect(third).toEqual({ ...whole[0], page: 2 });
});

describe.each(exampleSets())("%s", (_, example) => {
  it("has one label for every part, each with modules of 0.5 mm or more", () => {
    expect(example.labels.map(({ mark }) => mark)).toEqual(example.parts.map(({ mark }) => mark));
    for (const { text } of example.labels) {
      const size = moduleSize(example.paper.labels, qrMatrix(text)!.modules);
      expect(size).toBeGreaterThanOrEqual(0.5);
    }
  });
});

it("says a part's case once, also where both have one name", () => {
  const set = setOf(testFile("worktop-solid"));
  const [part] = set.parts;
  const named = (name: string, home: string): string => labelName(set, { ...part!, hand: null, name, case: home });
  expect(named("worktop", "worktop")).toBe("worktop");
  expect(named("worktop", "bench")).toBe("worktop, bench");
});

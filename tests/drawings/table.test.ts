import fc from "fast-check";
import { describe, expect, it } from "vitest";
import {
  type Atom,
  BREAK,
  figure,
  figureTwice,
  glue,
  setLines,
  tick,
  word,
  words,
  writeIn,
} from "../../src/drawings/draughting/cell.ts";
import { flow, flowEvenly, flowItem } from "../../src/drawings/draughting/flow.ts";
import { type Column, drawTable, type Row, shareWidths } from "../../src/drawings/draughting/table.ts";
import { drawChecks } from "../../src/drawings/lists/checks.ts";
import { drawSteps } from "../../src/drawings/steps/steps.ts";
import type { Rect, Shape } from "../../src/paper/shape.ts";
import type { DryfitSet } from "../../src/set/schema.ts";
import { exampleSets } from "../support/jobs/examples.ts";
import { linesOf, textOf, tokensOf } from "../support/pages/read-figures.ts";
import { overlapping, type TextBox, textBoxes } from "../support/pages/text-boxes.ts";

const TOUCH = 0.05;

const outside = (boxes: readonly TextBox[], space: Rect): string[] =>
  boxes
    .filter(
      ({ x0, x1, y0, y1 }) =>
        x0 < space.x - TOUCH ||
        y0 < space.y - TOUCH ||
        x1 > space.x + space.width + TOUCH ||
        y1 > space.y + space.height + TOUCH,
    )
    .map(({ text }) => text);

const SPACE: Rect = { x: 12, y: 20, width: 240, height: 160 };

const letters = fc.string({ unit: fc.constantFrom(..."abcdefghij ,.MWQ"), maxLength: 60 });
const atoms: fc.Arbitrary<Atom[]> = fc.oneof<fc.Arbitrary<Atom[]>[]>(
  letters.map((content) => words(content)),
  letters.map((content) => words(content, 3.5, "bold")),
  fc.integer({ min: 1, max: 60000 }).map((n) => figureTwice((n * 25.4) / 64, "in")),
  fc.integer({ min: 1, max: 60000 }).map((n) => [glue([word("+"), figure(n / 20, "mm")]), BREAK, word("x")]),
  fc.constant([tick(), writeIn(18)]),
  fc.constant([]),
);

/** The first column holds an own name for each row, so that it is found again. */
const tables = fc
  .integer({ min: 1, max: 5 })
  .chain((count) =>
    fc.record({
      heads: fc.array(fc.constantFrom("Name", "Length", "Between + joints = cut length", "As built"), {
        minLength: count,
        maxLength: count,
      }),
      rows: fc.array(
        fc.record({ isHeading: fc.boolean(), cells: fc.array(atoms, { minLength: count, maxLength: count }) }),
        { maxLength: 45 },
      ),
      grow: fc.boolean(),
      firm: fc.boolean(),
    }),
  )
  .map(({ heads, rows, grow, firm }) => {
    const columns: Column[] = [
      { head: "Row" },
      ...heads.map(
        (head, i): Column => ({
          head,
          ...(grow && i === 0 ? { grow: 1 } : {}),
          ...(firm ? { firm: true as const } : {}),
        }),
      ),
    ];
    const list: Row[] = rows.map(({ isHeading, cells }, i) =>
      isHeading && i % 7 === 0 ? { heading: words(`H${i}`) } : { cells: [[word(`R${i}`)], ...cells] },
    );
    return { columns, rows: list };
  });

const named = (boxes: readonly TextBox[], letter: "R" | "H"): string[] =>
  [...boxes]
    .sort((a, b) => a.y0 - b.y0 || a.x0 - b.x0)
    .map(({ text }) => text)
    .flatMap((text) => new RegExp(`^${letter}\\d+(?= |$)`).exec(text)?.[0] ?? []);

describe("a table", () => {
  it("keeps every text apart and inside its space, every row once and in order, its heads on every drawing", () => {
    fc.assert(
      fc.property(tables, ({ columns, rows }) => {
        const drawings = drawTable(columns, rows, SPACE);
        const pages = drawings.map((shapes) => textBoxes(shapes));
        for (const boxes of pages) {
          expect(overlapping(boxes)).toEqual([]);
          expect(outside(boxes, SPACE)).toEqual([]);
          const first = Math.min(...boxes.filter(({ text }) => /^[RH]\d+( |$)/.test(text)).map(({ y0 }) => y0));
          expect(boxes.filter(({ text }) => text === "Row")).toHaveLength(1);
          expect(boxes.find(({ text }) => text === "Row")!.y1).toBeLessThan(first);
        }
        const wanted = rows.flatMap((row, i) => ("cells" in row ? [`R${i}`] : []));
        expect(pages.flatMap((boxes) => named(boxes, "R"))).toEqual(wanted);
        // A heading comes once where it stands and again, as continued, over the rows it still holds.
        pages.forEach((boxes, p) => {
          const isContinued = boxes.some(({ text }) => text.endsWith("(continued)"));
          const [head] = named(boxes, "H");
          if (isContinued) expect(pages.slice(0, p).some((before) => named(before, "H").includes(head!))).toBe(true);
        });
      }),
      { numRuns: 150, seed: 7 },
    );
  });

  it("shares its width: nothing under what it needs, nothing over the whole", () => {
    const ask = fc
      .record({
        floor: fc.double({ min: 1, max: 20, noNaN: true }),
        a: fc.double({ min: 0, max: 30, noNaN: true }),
        b: fc.double({ min: 0, max: 60, noNaN: true }),
        firm: fc.boolean(),
        grow: fc.constantFrom(0, 1),
      })
      .map(({ floor, a, b, firm, grow }) => ({ floor, least: floor + a, most: floor + a + b, firm, grow }));
    fc.assert(
      fc.property(
        fc.array(ask, { minLength: 1, maxLength: 9 }),
        fc.double({ min: 60, max: 400, noNaN: true }),
        (asks, width) => {
          fc.pre(asks.reduce((sum, { floor }) => sum + floor, 0) <= width);
          const widths = shareWidths(asks, width);
          const sum = widths.reduce((a, b) => a + b, 0);
          const least = asks.reduce((a, b) => a + b.least, 0);
          expect(sum).toBeLessThanOrEqual(width + 1e-6);
          widths.forEach((one, i) => {
            expect(one).toBeGreaterThanOrEqual((least <= width ? asks[i]!.least : asks[i]!.floor) - 1e-6);
          });
          // Where something is short of what it asks for, nothing is left unused.
          if (widths.some((one, i) => one < asks[i]!.most - 1e-6)) expect(sum).toBeGreaterThan(width - 1e-6);
        },
      ),
      { seed: 3 },
    );
  });

  it("draws its heading again as continued", () => {
    const rows: Row[] = [
      { heading: words("Birch") },
      ...Array.from({ length: 40 }, (_, i): Row => ({ cells: [[word(`R${i}`)], [figure(100 + i, "mm")]] })),
    ];
    const drawings = drawTable([{ head: "Row" }, { head: "Length", grow: 1 }], rows, SPACE);
    const lines = drawings.map((shapes) => linesOf(tokensOf(textBoxes(shapes))).map(textOf));
    expect(lines.map((page) => page.slice(0, 2))).toEqual([
      ["Row Length", "Birch"],
      ["Row Length", "Birch (continued)"],
    ]);
  });

  it("parts no row from both its neighbours: two stand over a break and two under it", () => {
    for (let count = 2; count <= 60; count++) {
      const rows = Array.from({ length: count }, (_, i): Row => ({ cells: [[word(`R${i}`)]] }));
      const onEach = drawTable([{ head: "Row" }], rows, SPACE).map((shapes) => named(textBoxes(shapes), "R").length);
      expect(Math.min(...onEach), `${count} rows`).toBeGreaterThan(1);
    }
  });

  it("refuses a row higher than the drawing", () => {
    const high: Row = { cells: [Array.from({ length: 120 }, (_, i) => [word(`w${i}`), BREAK]).flat()] };
    const draw = () => drawTable([{ head: "Notes" }], [high], SPACE);
    expect(draw).toThrow(
      /^ {2}error: a block of the drawings \d+ mm high\n {2}expected: at most the \d+ mm the paper for drawings leaves it\n {2}try: choose larger paper for drawings$/,
    );
  });

  it("refuses a space too narrow for its boxes", () => {
    const row: Row = { cells: [[writeIn(30)], [writeIn(40)]] };
    const draw = () => drawTable([{ head: "A" }, { head: "B" }], [row], { ...SPACE, width: 60 });
    expect(draw).toThrow(
      /^ {2}error: a table of the drawings 73 mm wide\n {2}expected: at most the 60 mm the paper for drawings leaves it\n {2}try: choose larger paper for drawings$/,
    );
  });

  it("refuses a row with a cell too few", () => {
    const draw = () => drawTable([{ head: "A" }, { head: "B" }], [{ cells: [words("x")] }], SPACE);
    expect(draw).toThrow("Internal error: a row of 1 cells in a table of 2 columns");
  });
});

describe("lines of a cell", () => {
  it("keep to their width, breaking a word that is longer, and lose no letter", () => {
    fc.assert(
      fc.property(letters, fc.double({ min: 9, max: 80, noNaN: true }), (content, width) => {
        const block = setLines(words(content), width);
        const boxes = textBoxes(block.shapes);
        expect(Math.max(0, ...boxes.map(({ x1 }) => x1))).toBeLessThanOrEqual(width + 1e-3);
        expect(Math.max(0, ...boxes.map(({ y1 }) => y1))).toBeLessThanOrEqual(block.height + 1e-6);
        const read = linesOf(tokensOf(boxes)).flatMap((line) => line.map(({ text }) => text));
        expect(read.join("").replaceAll(" ", "")).toBe(content.replace(/\s/g, ""));
      }),
      { seed: 11 },
    );
  });
});

describe("flow", () => {
  const block = (name: string, height: number) => ({
    width: 50,
    height,
    baseline: 3,
    shapes: words(name).flatMap((atom) => setLines([atom], 50).shapes),
  });
  const columns: Rect[] = [
    { x: 0, y: 0, width: 50, height: 100 },
    { x: 60, y: 0, width: 50, height: 100 },
  ];
  const places = (drawings: Shape[][]) =>
    drawings.map((shapes) =>
      textBoxes(shapes).map(({ text, x0, y0 }) => [text, Math.round(x0), Math.round(y0)] as const),
    );

  it("moves a group whole to the next column, breaks one too high for any, and keeps what belongs together", () => {
    const groups = [
      [flowItem(block("a", 60))],
      [flowItem(block("b", 30)), flowItem(block("c", 30))],
      [flowItem(block("d", 45), { head: block("D", 10) }), flowItem(block("e", 90), { head: block("E", 10) })],
      [flowItem(block("f", 10), { above: 5, keep: true }), flowItem(block("g", 80), { above: 5 })],
    ];
    expect(places(flow(groups, () => columns))).toEqual([
      [
        ["a", 0, 0],
        ["b", 60, 0],
        ["c", 60, 30],
      ],
      [
        ["D", 0, 0],
        ["d", 0, 10],
        ["E", 60, 0],
        ["e", 60, 10],
      ],
      [
        ["f", 0, 0],
        ["g", 0, 15],
      ],
    ]);
  });
});

describe("a list", () => {
  it("fills its drawings to their foot, and its last is never nearly blank", () => {
    const [column] = [{ x: 0, y: 0, width: 50, height: 100 }];
    for (let count = 1; count <= 45; count++) {
      const groups = Array.from({ length: count }, () => [
        flowItem({ width: 50, height: 10, baseline: 3, shapes: [] }),
      ]);
      const counts = flowEvenly(groups, () => [column]).map((shapes) => shapes.length);
      const last = counts.pop()!;
      expect(counts.length + 1).toBe(Math.ceil(count / 10));
      if (counts.length === 0) continue;
      expect(last).toBeGreaterThanOrEqual(3);
      // Only what the last one lacked is taken from those before it.
      expect(counts.reduce((sum, one) => sum + 10 - one, 0)).toBe(Math.max(0, last === 3 ? 3 - (count % 10 || 10) : 0));
    }
  });
});

describe.each(exampleSets())("steps and checks of %s", (_name, set) => {
  const steps = drawSteps(set);

  it("begin every column of the steps with a step's number, or with that of the step that goes on there", () => {
    for (const { shapes } of steps) {
      const boxes = textBoxes(shapes);
      const top = Math.min(...boxes.map(({ y0 }) => y0));
      const heads = boxes.filter(({ y0, size, text }) => y0 < top + 6 && (size === 5 || text.includes("(continued)")));
      const columns = new Set(
        boxes
          .filter(({ text, size }) => size === 5 || /^\d+ \(continued\)/.test(text))
          .map(({ x0 }) => Math.round(x0 / 20)),
      );
      expect(new Set(heads.map(({ x0 }) => Math.round(x0 / 20)))).toEqual(columns);
    }
  });

  it("number every step once, with every target to write beside", () => {
    const boxes = steps.flatMap(({ shapes }) => textBoxes(shapes));
    const numbers = boxes.filter(({ size }) => size === 5).map(({ text }) => text);
    expect(numbers).toEqual(set.steps.map(({ n }) => String(n)));
    expect(boxes.filter(({ text }) => text === "CAUTION")).toHaveLength(
      set.steps.reduce((sum, { cautions }) => sum + cautions.length, 0),
    );
  });

  it("never say one number after another with nothing between: a name's number, then a figure", () => {
    const said = [
      ...set.steps.flatMap(({ title, text, cautions, now, boxes }) => [
        ...[title, ...text, ...cautions, ...now],
        ...boxes.map(({ label }) => label),
      ]),
      ...set.checks.flatMap(({ text, change, rule }) => [text, change ?? "", rule ?? ""]),
      ...set.purchase.flatMap(({ what, note }) => [what, note]),
      ...set.groups.map(({ gate }) => gate.text),
      ...set.handWork.map(({ text }) => text),
    ];
    const names = [...set.parts.map(({ name, mark }) => `${name} ${mark}`), ...set.assemblies.map(({ name }) => name)];
    const numbered = names.filter((name) => /\d$/.test(name));
    // A mixed number's whole and its fraction stand so, and nothing else does.
    const beside = said.flatMap((text) => [...text.matchAll(/\d (?!\d+\/\d)\d.{0,12}/g)].map(([found]) => found));
    expect(beside).toEqual([]);
    for (const text of said)
      for (const name of numbered) {
        const at = text.toLowerCase().indexOf(`${name.toLowerCase()} `);
        if (at >= 0) expect(text.slice(at + name.length + 1, at + name.length + 2), text).not.toMatch(/\d/);
      }
  });

  it("put failures first, whatever their order in the set", () => {
    const [first] = set.checks;
    const failed: DryfitSet = {
      ...set,
      checks: [...set.checks, { ...first!, level: "failure", text: "It does not fit." }],
    };
    const lines = drawChecks(failed).flatMap(({ shapes }) => linesOf(tokensOf(textBoxes(shapes))).map(textOf));
    expect(lines[0]).toMatch(/^1 failure, /);
    expect(lines[2]).toMatch(/^FAILURE .*It does not fit\.$/);
  });
});

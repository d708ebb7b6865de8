import { describe, expect, it } from "vitest";
import { closingSum, figureOf, formatLength, MM_PER_INCH, type Unit } from "../../src/base/length.ts";
import { drawingSpace } from "../../src/drawings/draughting/frame.ts";
import { drawCutList } from "../../src/drawings/lists/cut-list.ts";
import { randomFrom } from "../../src/plans/layout/random.ts";
import type { DryfitSet, SetPart } from "../../src/set/schema.ts";
import { exampleSets, setOf, testFile } from "../support/jobs/examples.ts";
import { onPaper, PAPER_NAMES } from "../support/pages/papers.ts";
import { linesOf, parseFigure, printedWithin, type Token, textOf, tokensOf } from "../support/pages/read-figures.ts";
import { textBoxes } from "../support/pages/text-boxes.ts";

const SETS = [
  ...exampleSets(),
  ...["three-alike", "markup", "example-a-in", "example-b"].map((name) => [name, setOf(testFile(name))] as const),
];

const pagesOf = (set: DryfitSet): Token[][] => drawCutList(set).map(({ shapes }) => tokensOf(textBoxes(shapes)));

const headX = (page: readonly Token[], head: string): number => page.find(({ text }) => text === head)!.x0;

/** Marks are the figures of the saw's height in the first column. */
const marksOf = (set: DryfitSet, page: readonly Token[]): Token[] =>
  page.filter(
    ({ size, x0 }) => Math.abs(size - 3.5) < 1e-6 && x0 < headX(page, "Name") - 0.5 && x0 > drawingSpace(set).x,
  );

type Row = { marks: string[]; tokens: Token[] };

/** On paper wide enough that no row wraps but for its marks: everything on the first mark's baseline. */
function rowsOf(set: DryfitSet): Row[] {
  return pagesOf(set).flatMap((page) => {
    const names = headX(page, "Name");
    return linesOf(page)
      .filter((line) => line.some((token) => marksOf(set, page).includes(token)))
      .map((line) => ({
        marks: line.filter(({ x0 }) => x0 < names - 0.5).map(({ text }) => text),
        tokens: line.filter(({ x0 }) => x0 > names - 0.5),
      }))
      .filter(({ tokens }) => tokens.length > 0); // further marks of a row stand under its first
  });
}

describe.each(SETS)("the cut list of %s", (_name, set) => {
  it.each(PAPER_NAMES)("on %s has every part once, its heads on every drawing", (paper) => {
    const sized = onPaper(set, paper);
    const pages = pagesOf(sized);
    for (const page of pages)
      for (const head of ["Part", "Name", "Length", "Width"]) {
        expect(page.filter(({ text }) => text === head)).toHaveLength(1);
      }
    const marks = pages.flatMap((page) => marksOf(sized, page).map(({ text }) => text));
    expect([...marks].sort()).toEqual(set.parts.map(({ mark }) => mark).sort());
  });

  it("gives each part's length, width and thickness, and the decimal beside a fraction", () => {
    const { unit } = set.job;
    for (const { marks, tokens } of rowsOf(onPaper(set, "a3"))) {
      const part = set.parts.find(({ mark }) => mark === marks[0])!;
      const figures = tokens.filter(({ text, size }) => parseFigure(text, unit) !== null && size > 3.4);
      const [quantity, length, width, thickness] = figures as [Token, Token, Token, Token];
      const alike = set.parts.filter(
        ({ mark, case: of, sums }) =>
          (mark === part.mark || part.same.includes(mark)) &&
          of === part.case &&
          sums.every(({ between }, i) => formatLength(between, unit) === formatLength(part.sums[i]!.between, unit)),
      );
      expect(quantity.text).toBe(String(alike.length));
      for (const [token, wanted] of [
        [length, part.length],
        [width, part.width],
        [thickness, part.thickness],
      ] as const) {
        const read = parseFigure(token.text, unit)!;
        expect(Math.abs(read - wanted), `${part.mark}: ${token.text}`).toBeLessThanOrEqual(printedWithin(token, unit));
        if (!token.fraction) continue;
        const beside = tokens.find(
          ({ x0, size }) => x0 > token.x1 && x0 < token.x1 + 3 && Math.abs(size - 2.5) < 1e-6,
        )!;
        expect(Math.abs(Number(beside.text) - read / 25.4)).toBeLessThanOrEqual(0.0005 + 1e-9);
      }
    }
  });

  it("is grouped by stock, and by mark within it", () => {
    const firsts = rowsOf(onPaper(set, "a3")).map(({ marks }) => set.parts.find(({ mark }) => mark === marks[0])!);
    const order = (part: SetPart): number => set.stock.findIndex(({ id }) => id === part.material);
    firsts.slice(1).forEach((part, i) => {
      const before = firsts[i]!;
      expect(
        order(before) < order(part) || (order(before) === order(part) && Number(before.mark) < Number(part.mark)),
      ).toBe(true);
    });
  });

  it("adds up: between + joints = cut size, on the paper", () => {
    const { unit } = set.job;
    let sums = 0;
    const printed = new Set<string>();
    for (const page of pagesOf(onPaper(set, "a3"))) {
      const column = page.filter(({ x0 }) => x0 > headX(page, "Grain") + 8 && x0 < headX(page, "Look-alikes") - 0.5);
      for (const line of linesOf(column)) {
        const text = textOf(line.filter(({ text }) => text !== "L" && text !== "W"));
        const match = /^(\S+(?: \d+\/\d+)?) \+ (\S+(?: \d+\/\d+)?) \+ (\S+(?: \d+\/\d+)?) = (.+)$/.exec(text);
        if (match === null) {
          expect(text.includes("+") && text !== "Between + joints = cut size").toBe(false);
          continue;
        }
        const [between, low, high, total] = match.slice(1).map((one) => parseFigure(one, unit)!);
        // A fraction of an inch may end in half a thousandth, which no decimal beside it has.
        const slack = unit === "in" ? 0.0005 * 25.4 + 1e-6 : 1e-6;
        expect(Math.abs(between! + low! + high! - total!), text).toBeLessThanOrEqual(slack);
        printed.add(match[1]!);
        sums += 1;
      }
    }
    const wanted = rowsOf(onPaper(set, "a3")).reduce(
      (sum, { marks }) => sum + set.parts.find(({ mark }) => mark === marks[0])!.sums.length,
      0,
    );
    expect(sums).toBe(wanted);
    // What is clear between two parts is told as on the views.
    const clear = set.parts.flatMap((part) => part.sums.map(({ between }) => between));
    const figures = new Set(clear.map((between) => formatLength(between, unit)));
    expect([...printed].filter((text) => !figures.has(text))).toEqual([]);
  });
});

describe("a sum as printed", () => {
  const said = (length: number, unit: Unit): number => {
    const figure = figureOf(length, unit);
    if (figure.kind === "decimal") return Number(figure.text);
    return figure.whole + figure.numerator / figure.denominator;
  };

  it.each(["mm", "in"] as const)(
    "closes in %s, its clear size told as everywhere, its joints within a last place",
    (unit) => {
      const [place, step, scale] = unit === "mm" ? [0.01, 0.1, 1] : [0.001, MM_PER_INCH / 32, MM_PER_INCH];
      const random = randomFrom(31);
      const upTo = (most: number): number => (random.below(1e6) / 1e6) * most;
      for (let n = 0; n < 1000; n++) {
        const whole = step * (400 + random.below(20000));
        const low = random.once(4) ? step * random.below(100) : upTo(12);
        const joints = [low, random.once(3) ? low : upTo(12)];
        const between = whole - joints[0]! - joints[1]!;
        const [clear, ...ends] = closingSum(between, joints, whole, unit);
        const figures = [clear, ...ends].map((term) => said(term, unit));
        const told = `${figures.join(" + ")} = ${whole / scale}`;
        expect(clear, told).toBe(between);
        expect(Math.abs(figures.reduce((sum, one) => sum + one, 0) - said(whole, unit)), told).toBeLessThan(
          unit === "mm" ? 1e-6 : place / 2 + 1e-6,
        );
        ends.forEach((end, i) => {
          expect(Math.abs(said(end, unit) - joints[i]! / scale), told).toBeLessThan(1.5 * place + 1e-6);
        });
      }
    },
  );
});

describe("what else the cut list says", () => {
  const set = setOf(testFile("example-a-in"));
  const rows = (of: DryfitSet): string[] =>
    drawCutList(onPaper(of, "a3")).flatMap(({ shapes }) => linesOf(tokensOf(textBoxes(shapes))).map(textOf));

  it("names look-alikes, and grooves that run on past what they hold", () => {
    const [part] = set.parts as [SetPart];
    const feature = { ...part.features[0]!, holds: "3", runOuts: [[0, 20]] as [number, number][] };
    const told: DryfitSet = {
      ...set,
      parts: [{ ...part, alike: ["10", "2"], features: [feature] }, ...set.parts.slice(1)],
    };
    const row = rows(told).find((line) => line.startsWith(`${part.mark} `))!;
    expect(row).toMatch(/ 2, 10 grooves? runs? on past 3$/);
  });

  it("tells what is first cut larger", () => {
    const piece = set.pieces[0]!;
    const told: DryfitSet = { ...set, pieces: [{ ...piece, state: "oversize" }, ...set.pieces.slice(1)] };
    const part = set.parts.find(({ mark }) => mark === piece.mark)!;
    const row = rows(told).find((line) => line.startsWith(`${part.mark} `))!;
    expect(row).toMatch(/cut oversize first, then trim$/);
  });

  it.each(PAPER_NAMES)("has a row more where no row could hold all that are made alike, on %s", (paper) => {
    const shelf = set.parts.find(({ role }) => role === "bottom")!;
    const marks = Array.from({ length: 45 }, (_, i) => `${500 + i}`);
    const many = marks.map((mark) => ({ ...shelf, mark, same: marks.filter((other) => other !== mark) }));
    const told = onPaper({ ...set, parts: [...set.parts, ...many] }, paper);
    const found = pagesOf(told).flatMap((page) => marksOf(told, page).map(({ text }) => text));
    expect(found.filter((mark) => marks.includes(mark)).sort()).toEqual(marks);
    if (paper !== "a3") return;
    const counts = rowsOf(told)
      .filter((row) => marks.includes(row.marks[0]!))
      .map((row) => row.tokens.map(({ text }) => text));
    expect(counts.length).toBeGreaterThan(1);
    // Every "Make" is of its own row: together they are all of them.
    const made = counts.map((row) => Number(row.find((word) => /^\d+$/.test(word) && Number(word) <= 45)));
    expect(made.reduce((sum, one) => sum + one, 0)).toBe(45);
  });
});

/**
 * Figures on every page: fractions in lowest terms, signs of the font and no letters in their place, the unit told once,
 * marks that could be read upside down barred. Text is taken from the pages' shapes.
 */
import { describe, expect, it } from "vitest";
import { drawBundle } from "../../src/drawings/bundle.ts";
import { unitAndStep } from "../../src/drawings/draughting/frame.ts";
import { exampleFile, setOf } from "../support/jobs/examples.ts";
import { partedFigures } from "../support/pages/parted-figures.ts";
import { textBoxes } from "../support/pages/text-boxes.ts";

const divisor = (a: number, b: number): number => (b === 0 ? a : divisor(b, a % b));

describe.each(["glaze-console", "ware-bookcase"])("the pages of %s", (name) => {
  const set = setOf(exampleFile(name));
  const { drawings, sticks, labels } = drawBundle(set);
  const papers = [...drawings, ...sticks, ...labels];
  const pages = papers.map(({ key, shapes }) => ({ key, texts: textBoxes(shapes) }));
  const told = pages.flatMap(({ key, texts }) => texts.map(({ text }) => ({ key, text })));
  const written = (pattern: RegExp): string[] =>
    told.filter(({ text }) => pattern.test(text)).map(({ key, text }) => `${key}: ${text}`);

  it("have every fraction that stands in words in lowest terms, with a denominator of the rule", () => {
    const wrong = told.flatMap(({ key, text }) =>
      [...text.matchAll(/(?<![\d./-])(\d+)\/(\d+)(?![\d/])/g)]
        .map(([whole, over, under]) => ({ whole, over: Number(over), under: Number(under) }))
        // A mark among marks, a board's quarters and a check's share of the span are no lengths.
        .filter(({ over, under }) => [2, 4, 8, 16, 32, 64].includes(under) && over < under)
        .filter(({ over, under }) => divisor(over, under) !== 1)
        .map(({ whole }) => `${key}: ${whole}`),
    );
    expect(wrong).toEqual([]);
  });

  it("part no mixed number, and no figure from its unit, by a line's end", () => {
    expect(papers.flatMap(({ key, shapes }) => partedFigures(shapes).map((one) => `${key}: ${one}`))).toEqual([]);
  });

  it("write minus, multiplication and degree by their own signs", () => {
    // A format of labels is called by the name that the project file gives it.
    expect(written(/\d ?[xX] ?\d/).filter((one) => !one.includes("labels ("))).toEqual([]);
    expect(written(/(^|[ (=])-\d/)).toEqual([]);
    expect(written(/\d ?deg\b/)).toEqual([]);
    expect(written(/\u00d7/).length).toBeGreaterThan(0);
  });

  it("have no inch mark and no foot mark but in a scale's name: figures stand without a unit", () => {
    expect(written(/\d ?(''|")/).filter((one) => !/= 1'-0"/.test(one))).toEqual([]);
  });

  it("tell the unit, and the step it is rounded to, once on every drawing", () => {
    const keys = new Set(drawings.map(({ key }) => key));
    for (const { key, texts } of pages) {
      if (keys.has(key))
        expect(
          texts.filter(({ text }) => text === unitAndStep(set)),
          key,
        ).toHaveLength(1);
    }
  });
});

import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { formatDecimal, formatLength, type Unit } from "../../src/base/length.ts";
import { drawLength, type FigureOptions, measureLength } from "../../src/drawings/draughting/figure.ts";
import { measureText } from "../../src/paper/lettering.ts";
import type { PathShape, Shape, TextShape } from "../../src/paper/shape.ts";

const textsOf = (shapes: Shape[]): TextShape[] => shapes.filter((shape) => shape.kind === "text");
const barsOf = (shapes: Shape[]): PathShape[] => shapes.filter((shape) => shape.kind === "path");
const points = (path: PathShape) => path.steps.flatMap((step) => ("at" in step ? [step.at] : []));

const lettered = (mm: number, unit: Unit, options?: FigureOptions): string[] =>
  textsOf(drawLength([0, 0], mm, unit, 3.5, options).shapes).map((shape) => shape.text);

/** Where the shapes begin and end along the line. */
function extent(shapes: Shape[]): { left: number; right: number } {
  const texts = textsOf(shapes).flatMap((shape) => [
    shape.at[0],
    shape.at[0] + measureText(shape.text, shape.size, shape.weight),
  ]);
  const bars = barsOf(shapes).flatMap((bar) => points(bar).map((point) => point[0]));
  return { left: Math.min(...texts, ...bars), right: Math.max(...texts, ...bars) };
}

describe("drawLength, inches", () => {
  it("stacks the fraction in lowest terms beside the whole number", () => {
    expect(lettered(17.625 * 25.4, "in")).toEqual(["17", "5", "8"]);
    expect(lettered(23.6875 * 25.4, "in")).toEqual(["23", "11", "16"]);
    expect(lettered(0.5 * 25.4, "in")).toEqual(["1", "2"]);
    expect(lettered(12 * 25.4, "in")).toEqual(["12"]);
    expect(lettered(0, "in")).toEqual(["0"]);
    expect(lettered(-1.25 * 25.4, "in")).toEqual(["\u22121", "1", "4"]);
    expect(lettered(-0.25 * 25.4, "in")).toEqual(["\u2212", "1", "4"]);
  });

  it("letters a length that is no whole number of 64ths in thousandths", () => {
    expect(lettered(17.9, "in")).toEqual(["0.705"]);
    expect(lettered(-17.9, "in")).toEqual(["\u22120.705"]);
    // A half of a thousandth goes up, whichever way its last bit fell when it was reckoned, and in words as in figures.
    for (const noise of [-1e-12, 0, 1e-12]) {
      expect(lettered(0.2665 * 25.4 + noise, "in")).toEqual(["0.267"]);
      expect(formatLength(0.2665 * 25.4 + noise, "in")).toBe("0.267");
      expect(formatDecimal(0.2665 * 25.4 + noise, "in")).toBe("0.267");
      expect(formatLength(1.005 + noise, "mm")).toBe("1.01");
      expect(formatLength(-1.005 + noise, "mm")).toBe("\u22121.01");
    }
  });

  it("draws fraction digits at 72 % of the size, over and under a bar at half the height of the whole number", () => {
    const { shapes } = drawLength([100, 50], 17.625 * 25.4, "in", 3.5);
    const [whole, over, under] = textsOf(shapes) as [TextShape, TextShape, TextShape];
    const bar = barsOf(shapes)[0]!;
    const heights = points(bar).map((point) => point[1]);
    const [top, bottom] = [Math.min(...heights), Math.max(...heights)];
    expect(whole.at).toEqual([100, 50]);
    expect([over.size, under.size]).toEqual([0.72 * 3.5, 0.72 * 3.5]);
    expect((top + bottom) / 2).toBeCloseTo(50 - 3.5 / 2, 9);
    expect(over.at[1]).toBeLessThan(top - 0.3);
    expect(under.at[1] - under.size).toBeGreaterThan(bottom + 0.3);
    // The space the layout of dimensions keeps for it: 1.4 above the baseline and 0.4 below, in heights.
    expect(50 - (over.at[1] - over.size)).toBeCloseTo(1.4 * 3.5, 9);
    expect(under.at[1] - 50).toBeCloseTo(0.4 * 3.5, 9);
  });

  it("centres numerator and denominator on the bar, which is as wide as the wider of them", () => {
    const { shapes } = drawLength([0, 0], (3 / 64) * 25.4, "in", 5);
    const [over, under] = textsOf(shapes) as [TextShape, TextShape];
    const ends = points(barsOf(shapes)[0]!).map((point) => point[0]);
    const middle = (Math.min(...ends) + Math.max(...ends)) / 2;
    for (const text of [over, under]) {
      expect(text.at[0] + measureText(text.text, text.size, text.weight) / 2).toBeCloseTo(middle, 9);
    }
    expect(Math.max(...ends) - Math.min(...ends)).toBeGreaterThan(measureText("64", under.size, "regular"));
  });

  it("letters nothing of the figure smaller than the least size given", () => {
    const small = (least: number) =>
      textsOf(drawLength([0, 0], 12.7, "in", 2.5, { least }).shapes).map((shape) => shape.size);
    expect(small(1)).toEqual([0.72 * 2.5, 0.72 * 2.5]);
    expect(small(2.2)).toEqual([2.2, 2.2]);
    expect(measureLength(12.7, "in", 2.5, "regular", { least: 2.2 })).toBeGreaterThan(measureLength(12.7, "in", 2.5));
  });
});

describe("drawLength, millimetres", () => {
  it("letters a decimal without trailing zeros, with a true minus", () => {
    expect(lettered(882.8, "mm")).toEqual(["882.8"]);
    expect(lettered(600, "mm")).toEqual(["600"]);
    expect(lettered(17.65, "mm")).toEqual(["17.65"]);
    expect(lettered(-9, "mm")).toEqual(["\u22129"]);
    expect(lettered(9, "mm", { suffix: " mm" })).toEqual(["9", " mm"]);
  });
});

describe("any length", () => {
  const lengths = fc.record({
    units: fc.integer({ min: -64_000, max: 64_000 }),
    unit: fc.constantFrom<Unit>("in", "mm"),
    size: fc.integer({ min: 5, max: 40 }).map((n) => n / 4),
    weight: fc.constantFrom("regular" as const, "bold" as const),
    anchor: fc.constantFrom("start" as const, "middle" as const, "end" as const),
    suffix: fc.constantFrom("", '"', " mm"),
  });

  it("takes the width that was measured, from its anchor on, and no more", () => {
    fc.assert(
      fc.property(lengths, ({ units, unit, size, weight, anchor, suffix }) => {
        const mm = unit === "in" ? (units / 64) * 25.4 : units / 20;
        const { shapes, width } = drawLength([30, 40], mm, unit, size, { weight, anchor, suffix });
        const start = { start: 30, middle: 30 - width / 2, end: 30 - width }[anchor];
        const { left, right } = extent(shapes);
        expect(width).toBe(measureLength(mm, unit, size, weight, { suffix }));
        expect(left).toBeCloseTo(start, 6);
        expect(right).toBeCloseTo(start + width, 6);
        for (const text of textsOf(shapes)) expect(text.weight).toBe(weight);
      }),
    );
  });

  it("can be read back to the length it stands for", () => {
    fc.assert(
      fc.property(fc.integer({ min: 0, max: 64_000 }), (sixtyFourths) => {
        const texts = lettered((sixtyFourths / 64) * 25.4, "in").map(Number);
        const [whole, over, under] = texts.length === 2 ? [0, ...texts] : texts;
        const value = whole! + (over === undefined ? 0 : over / under!);
        expect(value).toBe(sixtyFourths / 64);
      }),
    );
  });
});

/** A figure on the page: where it stands and what it says. */
import { MM_PER_INCH } from "../../../src/base/length.ts";
import { parseFigure } from "../pages/read-figures.ts";
import type { SeenPage, Spot } from "./page.ts";

type Word = SeenPage["words"][number];

/** `value` as it is printed, in the page's unit; `check`: it stands in brackets, and says again what others say. */
export type ReadFigure = { value: number; fraction: boolean; check: boolean; token: Word };

/** Half of the last digit that is printed: so far a figure may be out by its own rounding. */
export const ROUNDED = { mm: 0.0051, in: 0.00051 };
const SHORT = { mm: 10, in: 100 };

/** A decimal with every place that is printed may have been rounded itself; a shorter one, or a fraction, is what it says. */
export function roundedBy(value: number, unit: "mm" | "in"): number {
  const isWhole = (parts: number): boolean => Math.abs(value * parts - Math.round(value * parts)) < 1e-6;
  return isWhole(SHORT[unit]) || (unit === "in" && isWhole(64)) ? 0 : ROUNDED[unit];
}

/** What is sold by the other unit is told in that first: the bit's size in the page's own. */
export function soldBore(value: number, sold: "mm" | "in", again: number): number {
  const [own, unit] = sold === "mm" ? [value / MM_PER_INCH, "in" as const] : [value * MM_PER_INCH, "mm" as const];
  if (Math.abs(own - again) > ROUNDED[unit]) throw new Error(`${value} ${sold} is not ${again}`);
  return again;
}

/** A bit of whole or half millimetres that is told in inches alone, as no rack has it, or one of 64ths told in mm. */
export function strayBore(value: number, unit: "mm" | "in"): boolean {
  const isWhole = (parts: number, within: number): boolean => Math.abs(parts - Math.round(parts)) <= within;
  if (unit === "in")
    return !isWhole(64 * value, 1e-6) && isWhole(2 * MM_PER_INCH * value, 2 * MM_PER_INCH * ROUNDED.in);
  return !isWhole(2 * value, 1e-6) && isWhole((64 * value) / MM_PER_INCH, (64 * ROUNDED.mm) / MM_PER_INCH);
}

const SAW_FIGURE = 3.5;

/** Figures read at the saw are lettered larger than words. */
export const isSawFigure = (word: Pick<Word, "text" | "size">): boolean =>
  word.size > SAW_FIGURE - 0.01 && saidBy(word.text) !== null;

/** What a figure says, in the page's own unit. */
export const saidBy = (text: string): number | null => parseFigure(text, "mm");

const FINEST = 64;

/** Fractions that no rule has: halves of halves, in lowest terms, are what an inch is divided into. */
export const strayFractions = (words: readonly Word[]): string[] =>
  words.flatMap(({ text, fraction }) => {
    if (!fraction) return [];
    const [over, under] = text.split(" ").at(-1)!.split("/").map(Number) as [number, number];
    const isHalved = Number.isInteger(Math.log2(under)) && under <= FINEST;
    return isHalved && over % 2 === 1 && over < under ? [] : [`${text} stands on no rule`];
  });

const isWholeIn = (value: number, step: number): boolean => Math.abs(value / step - Math.round(value / step)) < 1e-6;

/** A fraction of an inch that the step, one too, does not go into. */
export const isFiner = (value: number, step: number): boolean =>
  isWholeIn(1, step) && isWholeIn(value, 1 / FINEST) && !isWholeIn(value, step);

/** Fractions read at the saw that are finer than the step that the page says its figures are rounded to. */
export const finerFractions = (words: readonly Word[], step: number): string[] =>
  words
    .filter((word) => word.fraction && isSawFigure(word) && isFiner(saidBy(word.text)!, step))
    .map(({ text }) => `${text} is finer than the step ${step}`);

const BRACKET = 0.6; // at most, between a figure and its bracket

/** The figure with the brackets that it may stand in. */
export function figureOf(words: readonly Word[], word: Word): ReadFigure {
  const isLine = (one: Word): boolean => Math.abs(one.y1 - word.y1) < 0.05;
  const before = words.some((one) => one.text === "(" && isLine(one) && Math.abs(word.x0 - one.x1) < BRACKET);
  const after = words.some((one) => one.text === ")" && isLine(one) && Math.abs(one.x0 - word.x1) < BRACKET);
  if (before !== after) throw new Error(`half a bracket at ${word.text}`);
  return { value: saidBy(word.text)!, fraction: word.fraction, check: before, token: word };
}

const GAP = 0.9; // between a line's end and its figure
const HALF_WIDTH = 0.35; // what a fraction's bar stands out

/** The figure that stands at the end of a line which runs outwards across `way`: its middle on the line, close beyond its end. */
export function figureAt(words: readonly Word[], way: "x" | "y", [x, y]: Spot, sign: 1 | -1): ReadFigure | null {
  const found = words.filter(isSawFigure).find((word) => {
    const down = word.y1 - y; // of the baseline, below the line's end
    const height = word.size;
    if (way === "x") {
      if (Math.abs((word.x0 + word.x1) / 2 - x) > HALF_WIDTH) return false;
      return sign === -1
        ? down < -GAP + 0.05 && down > -GAP - 0.4 * height - 0.05
        : down - height > GAP - 0.05 && down - 1.4 * height < GAP + 0.05;
    }
    if (Math.abs(word.y1 - height / 2 - y) > 0.1) return false;
    const [low, high] = bracketed(words, word);
    return sign === -1 ? Math.abs(x - high - GAP) < HALF_WIDTH : Math.abs(low - x - GAP) < HALF_WIDTH;
  });
  return found === undefined ? null : figureOf(words, found);
}

/** How far a figure reaches with its brackets. */
function bracketed(words: readonly Word[], word: Word): readonly [number, number] {
  const isLine = (one: Word): boolean => Math.abs(one.y1 - word.y1) < 0.05;
  const before = words.find((one) => one.text === "(" && isLine(one) && Math.abs(word.x0 - one.x1) < BRACKET);
  const after = words.find((one) => one.text === ")" && isLine(one) && Math.abs(one.x0 - word.x1) < BRACKET);
  return [before?.x0 ?? word.x0, after?.x1 ?? word.x1];
}

/** One wrong digit in one figure of a page. */
import type { Token } from "../pages/read-figures.ts";
import { isSawFigure, saidBy } from "./figure.ts";
import { titleTop } from "./outline.ts";
import type { SeenPage } from "./page.ts";

/** The places in a page's words where a figure stands that is read at the saw. */
export function figuresOn(page: SeenPage): number[] {
  const bottom = titleTop(page);
  return page.words.flatMap((word, i) => (isSawFigure(word) && word.y1 < bottom && !isMark(word) ? [i] : []));
}

/** Marks of what enters are bold numbers: a wrong mark is no wrong figure. */
const isMark = (word: SeenPage["words"][number]): boolean => word.bold && /^\d+$/.test(word.text);

/** The same page with one digit of one figure changed; `pick` chooses among the digits and what takes their place. */
export function misprinted(page: SeenPage, at: number, pick: (below: number) => number): SeenPage {
  const word = page.words[at]!;
  const digits = [...word.text].flatMap((one, i) => (/\d/.test(one) ? [i] : []));
  for (let tries = 0; tries < 40; tries++) {
    const i = digits[pick(digits.length)]!;
    const digit = (Number(word.text[i]) + 1 + pick(9)) % 10;
    const text = `${word.text.slice(0, i)}${digit}${word.text.slice(i + 1)}`;
    const value = saidBy(text);
    if (value === null || !Number.isFinite(value) || value === saidBy(word.text)) continue;
    const wrong: Token = { ...word, text };
    return { ...page, words: page.words.map((one, n) => (n === at ? { ...one, ...wrong } : one)) };
  }
  throw new Error(`no digit of ${word.text} can be changed`);
}

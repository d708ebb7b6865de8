/** One wrong digit in one figure of a page. */
import type { Token } from "../pages/read-figures.ts";
import { columnsOfPage } from "./columns.ts";
import { isSawFigure, saidBy } from "./figure.ts";
import { titleTop } from "./outline.ts";
import type { SeenPage } from "./page.ts";
import type { PaperPage } from "./paper.ts";

/** The places in a page's words where a figure stands that is read at the saw. */
export function figuresOn(page: SeenPage): number[] {
  const bottom = titleTop(page);
  return page.words.flatMap((word, i) => (isSawFigure(word) && word.y1 < bottom && !isMark(word) ? [i] : []));
}

/** Words between the heads of a table: from the first of them to before the second. */
const under = (page: SeenPage, from: string, to: string): ((word: SeenPage["words"][number]) => boolean) => {
  const head = (text: string): SeenPage["words"][number] | undefined => page.words.find((one) => one.text === text);
  const [a, b] = [head(from), head(to)];
  return ({ x0, y1 }) => a !== undefined && b !== undefined && y1 > a.y1 && x0 > a.x0 - 0.5 && x0 < b.x0 - 0.5;
};

/** Of each kind of page, the figures that make the parts and the cuts. */
export function figuresOf({ kind, page }: PaperPage): number[] {
  if (kind === "part") return figuresOn(page);
  const bottom = titleTop(page);
  const isFigure = (word: SeenPage["words"][number]): boolean => saidBy(word.text) !== null && word.y1 < bottom;
  const at = (isWanted: (word: SeenPage["words"][number]) => boolean): number[] =>
    page.words.flatMap((word, i) => (isFigure(word) && isWanted(word) ? [i] : []));
  if (kind === "list") {
    const [sizes, sums] = [under(page, "Make", "Grain"), under(page, "Between + joints = cut size", "Look-alikes")];
    return at((word) => sizes(word) || sums(word));
  }
  if (kind === "stock") {
    // One reading of several moves their mean by less than its last digit: it is not held against anything.
    const [nominal, measured] = [under(page, "Nominal", "Readings"), under(page, "Lengths follow", "Sheet or board")];
    return at((word) => nominal(word) || measured(word));
  }
  return columnsOfPage(page).flatMap((column): number[] => {
    const first = Math.min(
      ...column.words.filter(({ text, bold }) => bold && /^Setting \d/.test(text)).map(({ y0 }) => y0),
    );
    const last = Math.min(
      ...column.words.filter(({ text, y0 }) => /^(By hand|Drilling)/.test(text) && y0 > first).map(({ y0 }) => y0),
      bottom,
    );
    return at(
      (word) => column.words.includes(word) && isSawFigure(word) && !isMark(word) && word.y0 > first && word.y1 < last,
    );
  });
}

/** Marks of what enters are bold numbers: a wrong mark is no wrong figure. */
const isMark = (word: SeenPage["words"][number]): boolean => word.bold && word.size < 4 && /^\d+$/.test(word.text);

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

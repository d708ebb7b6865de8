/** Tables by their rules: a wide one under the heads, a thin one under each row, all from margin to margin. */
import { linesOf } from "../pages/read-figures.ts";
import { isDrawnWith, isLevel, type SeenPage } from "./page.ts";

type Word = SeenPage["words"][number];

/** Lines of words, top down. */
export type Cell = Word[][];
/** `under`: what is said under the cells, across the table. */
export type Row = { cells: Cell[]; under: Cell } | { heading: string };
export type Table = { x0: number; x1: number; y0: number; y1: number; rows: Row[] };

const TOUCH = 0.05;
const PAD = 1.2; // from the edge of a column to its words
const HEAD = 12; // at most, of the heads' height

type Rule = { x0: number; x1: number; y: number };

const rulesOf = (page: SeenPage, pen: "outline" | "thin"): Rule[] =>
  page.strokes
    .filter((one) => isLevel(one) && isDrawnWith(one, pen))
    .map(({ from, to }) => ({ x0: Math.min(from[0], to[0]), x1: Math.max(from[0], to[0]), y: from[1] }))
    .sort((a, b) => a.y - b.y);

export const textOfCell = (cell: Cell): string => cell.flatMap((line) => line.map(({ text }) => text)).join(" ");

/** Where each column begins, if the words are these heads in their order; one that wraps goes on under its first line. */
function marginsOf(words: readonly Word[], heads: readonly string[]): number[] | null {
  const columns: { x0: number; x1: number; texts: string[] }[] = [];
  for (const { x0, x1, text } of [...words].sort((a, b) => a.y1 - b.y1)) {
    const own = columns.find((one) => one.x0 < x1 && x0 < one.x1);
    if (own === undefined) columns.push({ x0, x1, texts: [text] });
    else {
      own.texts.push(text);
      [own.x0, own.x1] = [Math.min(own.x0, x0), Math.max(own.x1, x1)];
    }
  }
  columns.sort((a, b) => a.x0 - b.x0);
  const isHeads = columns.map(({ texts }) => texts.join(" ")).join("|") === heads.join("|");
  return isHeads ? columns.map(({ x0 }) => x0 - PAD - TOUCH) : null;
}

/** Every table on the page that has these heads. */
export function tablesWith(page: SeenPage, heads: readonly string[]): Table[] {
  const thin = rulesOf(page, "thin");
  const wide = rulesOf(page, "outline");
  const isUnder = (a: Rule, b: Rule): boolean =>
    Math.abs(a.x0 - b.x0) < TOUCH && Math.abs(a.x1 - b.x1) < TOUCH && b.y > a.y;
  const within = (x0: number, x1: number, y0: number, y1: number): Word[] =>
    page.words.filter((one) => one.x0 > x0 - TOUCH && one.x1 < x1 + TOUCH && one.y1 > y0 && one.y1 < y1);
  return wide.flatMap((head): Table[] => {
    const over = within(head.x0, head.x1, head.y - HEAD, head.y).filter(({ bold }) => !bold);
    const lines = [...new Set(over.map(({ y1 }) => Math.round(y1 * 10)))].sort((a, b) => b - a);
    const margins = lines
      .map((line) =>
        marginsOf(
          over.filter(({ y1 }) => Math.round(y1 * 10) >= line),
          heads,
        ),
      )
      .find((one) => one !== null);
    if (margins === undefined || margins === null) return [];
    const next = wide.find((one) => isUnder(head, one))?.y ?? Number.POSITIVE_INFINITY;
    const rows: Row[] = [];
    let from = head.y;
    for (const rule of thin.filter((one) => isUnder(head, one) && one.y < next)) {
      const words = within(head.x0, head.x1, from, rule.y + TOUCH);
      from = rule.y;
      if (words.length === 0) continue;
      const said = words.find(({ bold, text }) => bold && text === "Notes:");
      const isUnderCells = (one: Word): boolean => said !== undefined && one.y1 > said.y0 - TOUCH;
      const cells = margins.map((margin, i): Cell => {
        const end = margins[i + 1] ?? head.x1 + 1;
        return linesOf(words.filter((one) => !isUnderCells(one) && one.x0 >= margin && one.x0 < end));
      });
      const under = linesOf(words.filter((one) => isUnderCells(one) && one !== said));
      rows.push(
        isHeading(words, cells)
          ? {
              heading: linesOf(words)
                .flat()
                .map(({ text }) => text)
                .join(" "),
            }
          : { cells, under },
      );
    }
    return [{ x0: head.x0, x1: head.x1, y0: head.y, y1: from, rows }];
  });
}

/** A heading begins bold, with no box to tick before it, and runs on over the columns. */
const isHeading = (words: readonly Word[], cells: readonly Cell[]): boolean => {
  const top = Math.min(...words.map(({ y1 }) => y1));
  const [first] = words.filter(({ y1 }) => y1 < top + 1).sort((a, b) => a.x0 - b.x0) as [Word];
  return first.bold && !/^\d+(?:, \d+)*[,.]?$/.test(first.text) && cells[0]!.length === 1;
};

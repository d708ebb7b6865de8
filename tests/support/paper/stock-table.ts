/** The stock as measured, read back from the buying list. */
import { saidBy } from "./figure.ts";
import type { SeenPage } from "./page.ts";
import { tablesWith, textOfCell } from "./table.ts";

export type MeasuredStock = { name: string; nominal: number; readings: number[]; mean: number; thickest: number };

const HEADS = ["Stock", "Nominal", "Readings", "Lengths follow", "Grooves follow", "Sheet or board", "Faces"];

const figure = (text: string): number => {
  const value = saidBy(text);
  if (value === null) throw new Error(`no figure: ${text}`);
  return value;
};

export const readStocks = (pages: readonly SeenPage[]): MeasuredStock[] =>
  pages.flatMap((page) =>
    tablesWith(page, HEADS).flatMap(({ rows }) =>
      rows.flatMap((row): MeasuredStock[] => {
        if ("heading" in row) return [];
        const [name, nominal, readings, mean, thickest] = row.cells;
        return [
          {
            name: textOfCell(name!),
            nominal: figure(textOfCell(nominal!)),
            readings: readings!.flat().map(({ text }) => figure(text)),
            mean: figure(textOfCell(mean!)),
            thickest: figure(textOfCell(thickest!)),
          },
        ];
      }),
    ),
  );

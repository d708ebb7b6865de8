/** What is read at the saw of a whole set, each page known by its title: the stock, the cut list, the settings, the part drawings. */

import { framePages } from "../../../src/drawings/draughting/frame.ts";
import { drawCutList } from "../../../src/drawings/lists/cut-list.ts";
import { drawPurchase } from "../../../src/drawings/lists/purchase.ts";
import { drawSettings } from "../../../src/drawings/machines/settings.ts";
import { drawParts } from "../../../src/drawings/parts/part-drawing.ts";
import type { DryfitSet } from "../../../src/set/schema.ts";
import { agreementFaults } from "./agreement.ts";
import { putTogether } from "./case.ts";
import { columnsOfPage } from "./columns.ts";
import { readCutList } from "./cut-list.ts";
import { drillingFaults, readDrilling } from "./drilling.ts";
import { finerFractions, isFiner, strayFractions } from "./figure.ts";
import { fitOnPaper } from "./fit.ts";
import { handWorkFaults, readHandWork } from "./hand-work.ts";
import { titleTop } from "./outline.ts";
import { type SeenPage, seenOnPage } from "./page.ts";
import { type ReadPart, readParts } from "./part/part.ts";
import { readPartPage } from "./part-views.ts";
import { runInFaults } from "./run-ins.ts";
import { settingFaults } from "./set-grooves.ts";
import { readSettings } from "./settings.ts";
import { slideFaults } from "./slide-lines.ts";
import { standingFaults } from "./standing.ts";
import { readStocks } from "./stock-table.ts";

export type PageKind = "stock" | "list" | "settings" | "part";
export type PaperPage = { kind: PageKind; page: SeenPage };

const TITLES: readonly (readonly [RegExp, PageKind])[] = [
  [/^Purchase list/, "stock"],
  [/^Cut list/, "list"],
  [/^Settings/, "settings"],
  [/^Parts? \d/, "part"],
];

/** By what its title block says; null for all other drawings. */
export function kindOf(page: SeenPage): PageKind | null {
  if (!page.words.some(({ text }) => text === "Drawing no.")) return null;
  const bottom = titleTop(page);
  const title = page.words.filter(({ bold, y1 }) => bold && y1 > bottom).map(({ text }) => text);
  return TITLES.find(([one]) => title.some((text) => one.test(text)))?.[1] ?? null;
}

export const sorted = (pages: readonly SeenPage[]): PaperPage[] =>
  pages.flatMap((page) => {
    const kind = kindOf(page);
    return kind === null ? [] : [{ kind, page }];
  });

/** The same pages from the shapes that the PDF is written from. */
export const paperOf = (set: DryfitSet): PaperPage[] =>
  sorted(
    framePages(set, [...drawPurchase(set), ...drawCutList(set), ...drawSettings(set), ...drawParts(set)]).map(
      seenOnPage,
    ),
  );

/** What no groove holds: strips and bases, frames, fronts and tops, told by other drawings. */
export const HELD_OTHERWISE =
  /filler|plinth|return|rail|stile|door|drawer|applied front|slab|packing|worktop|loose shelf|runner|foot|feet/;

/** A page is read once, however often it is laid beside others. */
const read = new WeakMap<SeenPage, ReadPart[]>();

function partsOf(page: SeenPage): ReadPart[] {
  const parts = read.get(page) ?? readParts(readPartPage(page));
  read.set(page, parts);
  return parts;
}

export const partsOn = (pages: readonly PaperPage[]): ReadPart[] =>
  pages.filter(({ kind }) => kind === "part").flatMap(({ page }) => partsOf(page));

/** What the paper says against itself, and what does not fit. */
export function faultsOfPaper(pages: readonly PaperPage[]): string[] {
  const of = (wanted: PageKind): SeenPage[] => pages.flatMap(({ kind, page }) => (kind === wanted ? [page] : []));
  const parts = partsOn(pages);
  const { unit, step } = readPartPage(of("part")[0]!);
  const list = readCutList(of("list"));
  const stocks = readStocks(of("stock"));
  const columns = of("settings").flatMap(columnsOfPage);
  const settings = readSettings(columns, unit);
  const together = putTogether(
    parts.filter(({ caption }) => !HELD_OTHERWISE.test(caption.name)),
    unit,
  );
  return [
    ...pages.flatMap(({ page }) => strayFractions(page.words)),
    // A sheet measured to a finer fraction hands that on to what is cut for it.
    ...(stocks.some(({ readings, mean }) => [...readings, mean].some((one) => isFiner(one, step)))
      ? []
      : of("part").flatMap(({ words }) => finerFractions(words, step))),
    ...list.faults,
    ...parts.flatMap(({ faults }) => faults),
    ...agreementFaults(list, stocks, parts, unit),
    ...settingFaults(settings, parts, unit),
    ...drillingFaults(readDrilling(columns), parts, unit),
    ...handWorkFaults(readHandWork(columns), parts, unit),
    ...runInFaults(settings, together.placed, unit),
    ...slideFaults(together.placed, unit),
    ...standingFaults(together.placed, unit, step),
    ...together.unplaced.map((mark) => `${mark} has no place`),
    ...fitOnPaper(together, stocks, unit, step),
  ];
}

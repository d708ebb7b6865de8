/** Sheet layouts: which part is cut from which sheet, where, and by which cuts in which order. */

import type { Mm, Unit } from "../base/length.ts";
import { formatLengthWithUnit } from "../base/length.ts";
import type { SetSheet, SetStock } from "../set/schema.ts";
import { isBoardStock, isSheetStock, type SheetStock } from "../set/stock.ts";
import { type Bound, boundOf } from "./layout/bound.ts";
import { cutSheet, shapeOf, tidied } from "./layout/cuts.ts";
import type { LayoutEngine, LayoutItem, LayoutSheet } from "./layout/engine.ts";
import { fits } from "./layout/engine.ts";
import { beginning } from "./layout/fewest.ts";
import { bedOf, findLayout } from "./layout/search.ts";
import type { Tree } from "./layout/tree.ts";
import { areaOf, nodesOf } from "./layout/tree.ts";
import { toMm, toNm } from "./layout/units.ts";

export type LayoutPiece = {
  id: string;
  mark: string;
  stock: string;
  length: Mm; // along the grain
  width: Mm;
  /** Whether its length may lie across the sheet's; left out: as its stock, which forbids it where it has a grain. */
  turn?: boolean;
};

export type LayoutInput = {
  pieces: readonly LayoutPiece[];
  stock: readonly SetStock[]; // what comes in boards is left alone
  kerf: Mm;
  unit: Unit;
};

/** A piece that no sheet of its stock can give. */
type LayoutProblem = {
  pieceId: string;
  mark: string;
  stock: string;
  text: string; // what was found
  expected: string;
  remedy: string;
};

export type LayoutPlan = { sheets: SetSheet[]; problems: LayoutProblem[] };

/** Leaves looked at for one stock: the more pieces, the more ways there are to lay them; at most about half a second. */
const TRIALS = { each: 150_000, most: 50_000_000 };
const SEED = 1;
/** Rips, crosscuts and one more cut to width or length: what can be cut without losing one's place; deeper only to save a sheet. */
const DEPTH = 3;
const MOST_DEPTH = 99;

export const planSheets = (input: LayoutInput, engine: LayoutEngine = findLayout): LayoutPlan =>
  planLayouts(input, input.stock.filter(isSheetStock), "sheet", engine);

/** What comes in boards is laid out likewise: ripped and crosscut from boards as long and wide as are to be had. */
export const planBoards = (input: LayoutInput, engine: LayoutEngine = findLayout): LayoutPlan =>
  planLayouts(
    input,
    input.stock
      .filter(isBoardStock)
      // No board's edges are true before its parts are milled: their allowances take care of that.
      .map((stock) => ({ ...stock, sheet: { length: stock.boards.length, width: stock.boards.width }, trim: 0 })),
    "board",
    engine,
  );

type Noun = "sheet" | "board";

function planLayouts(input: LayoutInput, stocks: readonly SheetStock[], noun: Noun, engine: LayoutEngine): LayoutPlan {
  const sheets: SetSheet[] = [];
  const problems: LayoutProblem[] = [];
  for (const stock of stocks) {
    const pieces = input.pieces.filter((piece) => piece.stock === stock.id);
    const usable = usableOf(stock, input.kerf);
    const fitting = pieces.filter((piece) => fits(itemOf(piece, stock, input.kerf), usable));
    for (const piece of pieces) if (!fitting.includes(piece)) problems.push(tooLarge(piece, stock, input.unit, noun));
    sheets.push(...planStock(fitting, stock, usable, input.kerf, sheets.length, noun, engine));
  }
  return { sheets, problems };
}

/** The sheet less its trims, plus one kerf: the last part in a row needs none after it. */
const usableOf = (stock: SheetStock, kerf: Mm): LayoutSheet => ({
  length: toNm(stock.sheet.length) - 2 * toNm(stock.trim) + toNm(kerf),
  width: toNm(stock.sheet.width) - 2 * toNm(stock.trim) + toNm(kerf),
});

const itemOf = (piece: LayoutPiece, stock: SheetStock, kerf: Mm): LayoutItem => ({
  length: toNm(piece.length) + toNm(kerf),
  width: toNm(piece.width) + toNm(kerf),
  copies: 1,
  turn: piece.turn ?? !stock.grain,
});

function planStock(
  pieces: readonly LayoutPiece[],
  stock: SheetStock,
  usable: LayoutSheet,
  kerf: Mm,
  before: number,
  noun: Noun,
  engine: LayoutEngine,
): SetSheet[] {
  if (pieces.length === 0) return [];
  const { items, copies } = grouped(pieces, stock, kerf);
  const options = { depth: DEPTH, most: MOST_DEPTH, least: 1 };
  const first = beginning({ items, bed: bedOf(usable), free: [], options }, { left: 0 });
  const proof = boundOf(items, usable, first.length);
  const bound = proof.least;
  const trials = Math.min(TRIALS.most, TRIALS.each * pieces.length);
  const trees = engine(items, usable, { ...options, trials, seed: SEED, least: bound });
  const given = items.map(() => 0);
  const next = (item: number): LayoutPiece => {
    const n = given[item]!;
    given[item] = n + 1;
    return copies[item]![n]!;
  };
  return inOrder(trees.map(tidied)).map((tree, i) => {
    const n = before + i + 1;
    const taken = new Map<string, LayoutPiece>();
    const blank = {
      n,
      letter: noun === "sheet" ? ("S" as const) : ("B" as const),
      length: toNm(stock.sheet.length),
      width: toNm(stock.sheet.width),
      trim: toNm(stock.trim),
      kerf: toNm(kerf),
    };
    const cut = cutSheet(tree, blank, (item) => {
      const piece = next(item);
      taken.set(piece.id, piece);
      return piece.id;
    });
    return {
      n,
      stock: stock.id,
      length: stock.sheet.length,
      width: stock.sheet.width,
      trim: stock.trim,
      kerf,
      parts: cut.parts.map(({ id, x, y, turned }) => {
        const { mark, length, width } = taken.get(id)!;
        return { id, mark, x: toMm(x), y: toMm(y), length, width, turned };
      }),
      cuts: cut.cuts.map((each) => ({
        ...each,
        at: toMm(each.at),
        from: toMm(each.from),
        to: toMm(each.to),
        fence: toMm(each.fence),
      })),
      offcuts: cut.offcuts.map(({ id, x, y, length, width }) => ({
        id,
        x: toMm(x),
        y: toMm(y),
        length: toMm(length),
        width: toMm(width),
      })),
      bound,
      boundText: boundText(trees.length, bound, noun),
      boundProof: boundProof(proof, noun),
    };
  });
}

/** Pieces of one size are copies of one item; items in the order of their first piece. */
function grouped(
  pieces: readonly LayoutPiece[],
  stock: SheetStock,
  kerf: Mm,
): { items: LayoutItem[]; copies: LayoutPiece[][] } {
  const groups = new Map<string, { item: LayoutItem; pieces: LayoutPiece[] }>();
  for (const piece of pieces) {
    const item = itemOf(piece, stock, kerf);
    const key = `${item.length} ${item.width} ${item.turn}`;
    const group = groups.get(key);
    if (group) {
      group.item.copies += 1;
      group.pieces.push(piece);
    } else groups.set(key, { item, pieces: [piece] });
  }
  const list = [...groups.values()];
  return { items: list.map(({ item }) => item), copies: list.map((group) => group.pieces) };
}

/** Sheets cut alike one after another, full ones first: the one with the large offcut comes last. */
function inOrder(trees: readonly Tree[]): Tree[] {
  const keyed = trees.map((tree) => {
    let largest = 0;
    for (const node of nodesOf(tree)) if (node.kind === "waste") largest = Math.max(largest, areaOf(node));
    return { tree, largest, shape: shapeOf(tree) };
  });
  keyed.sort((a, b) => a.largest - b.largest || (a.shape < b.shape ? -1 : a.shape > b.shape ? 1 : 0));
  return keyed.map(({ tree }) => tree);
}

const count = (n: number, noun: Noun): string => (n === 1 ? `1 ${noun}` : `${n} ${noun}s`);

function boundText(sheets: number, bound: number, noun: Noun): string {
  if (sheets > bound) return `${count(sheets, noun)}; at most ${sheets - bound} over the least`;
  return sheets === 1 ? `1 ${noun}` : `${count(sheets, noun)}: proved the least; ${sheets - 1} cannot hold them`;
}

/** So that it can be added up again: each part's length and width taken by the two functions, as shares of the sheet's, multiplied. */
const boundProof = ({ least, sum, lengths, widths }: Bound, noun: Noun): string =>
  least < 2
    ? ""
    : `Least number: lengths by ${lengths}, widths by ${widths}, a kerf added to each, the parts come to ${sum.toFixed(3)} ${noun}s, and no ${noun} holds more than 1.`;

function tooLarge(piece: LayoutPiece, stock: SheetStock, unit: Unit, noun: Noun): LayoutProblem {
  const size = (length: Mm, width: Mm): string =>
    `${formatLengthWithUnit(length, unit)} x ${formatLengthWithUnit(width, unit)}`;
  const { length, width } = stock.sheet;
  const turn = piece.turn ?? !stock.grain;
  const left = { length: length - 2 * stock.trim, width: width - 2 * stock.trim };
  const fitsIn = (room: { length: Mm; width: Mm }, across: boolean): boolean =>
    across
      ? toNm(piece.width) <= toNm(room.length) && toNm(piece.length) <= toNm(room.width)
      : toNm(piece.length) <= toNm(room.length) && toNm(piece.width) <= toNm(room.width);
  const remedies: string[] = [];
  if (!turn && fitsIn(left, true))
    remedies.push(`let its length lie across the ${noun} (it would fit, against the grain)`);
  if (fitsIn({ length, width }, false) || (turn && fitsIn({ length, width }, true))) {
    const margin = (across: boolean): Mm =>
      across
        ? Math.min(length - piece.width, width - piece.length) / 2
        : Math.min(length - piece.length, width - piece.width) / 2;
    const most = Math.max(margin(false), turn ? margin(true) : 0);
    remedies.push(`a trim of at most ${formatLengthWithUnit(most, unit)} at each edge`);
  }
  const need = size(piece.length + 2 * stock.trim, piece.width + 2 * stock.trim);
  remedies.push(`a stock with ${noun}s of at least ${need}`, "a smaller case, or one more case beside it");
  return {
    pieceId: piece.id,
    mark: piece.mark,
    stock: stock.id,
    text: `part ${piece.mark} is ${size(piece.length, piece.width)}; a ${noun} of ${stock.name} gives ${size(left.length, left.width)} inside its trim`,
    expected: `a part that fits a ${noun}${turn ? " one way or the other" : ", its length along the grain"}`,
    remedy: remedies.join("; or "),
  };
}

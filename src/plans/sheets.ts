/** Sheet layouts: which part is cut from which sheet, where, and by which cuts in which order. */

import type { Mm, Unit } from "../base/length.ts";
import type { Keep, LayoutEffort } from "../project/project.ts";
import type { SetSheet, SetStock } from "../set/schema.ts";
import { isBoardStock, isSheetStock, type SheetStock } from "../set/stock.ts";
import type { Bound } from "./layout/bound.ts";
import { cutSheet, shapeOf, tidied } from "./layout/cuts.ts";
import type { LayoutEngine, LayoutItem, LayoutSheet } from "./layout/engine.ts";
import { fits } from "./layout/engine.ts";
import { halved } from "./layout/halves.ts";
import { layMix, type Mix, type Rack, type Taken } from "./layout/mix.ts";
import { alone, type Carrier } from "./layout/rounds.ts";
import { findLayout } from "./layout/search.ts";
import { areaOf, nodesOf } from "./layout/tree.ts";
import { toMm, toNm } from "./layout/units.ts";
import { type LayoutPiece, type LayoutProblem, type Noun, tooLarge, tooMany } from "./layout-problems.ts";

export type { LayoutPiece };

export type LayoutInput = {
  pieces: readonly LayoutPiece[];
  stock: readonly SetStock[]; // what comes in boards is left alone
  kerf: Mm;
  unit: Unit;
  effort?: LayoutEffort;
  seed?: number;
  keep?: Keep | null;
  /** What one person handles at the saw, kg; null: not looked at. */
  lift?: number | null;
  /** True when the search has to end: see LayoutOptions. */
  isLate?: () => boolean;
  /** Carries the second of the two searches; left out: one after the other. */
  carry?: Carrier;
};

export type LayoutPlan = { sheets: SetSheet[]; problems: LayoutProblem[] };

/** Leaves looked at for one stock: the more pieces, the more ways there are to lay them; at most about half a second. */
const TRIALS = { each: 150_000, most: 50_000_000 };
const EFFORT: Record<LayoutEffort, number> = { quick: 0.2, normal: 1, long: 10 };
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

function planLayouts(input: LayoutInput, stocks: readonly SheetStock[], noun: Noun, engine: LayoutEngine): LayoutPlan {
  const sheets: SetSheet[] = [];
  const problems: LayoutProblem[] = [];
  for (const stock of stocks) {
    const pieces = input.pieces.filter((piece) => piece.stock === stock.id);
    const rack = rackOf(stock, input.kerf);
    const fitting = pieces.filter((piece) =>
      [...rack.sizes, ...rack.offcuts].some((room) => fits(itemOf(piece, stock, input.kerf), room)),
    );
    for (const piece of pieces) if (!fitting.includes(piece)) problems.push(tooLarge(piece, stock, input.unit, noun));
    const laid = planStock(fitting, stock, rack, input, sheets.length, noun, engine);
    sheets.push(...laid.sheets);
    problems.push(...laid.problems);
  }
  return { sheets, problems };
}

const AREA = 1e-12; // of a size without a price: by area

/** What there is to cut from: sizes less their trims, plus one kerf, for the last part in a row needs none after it; offcuts whole. */
function rackOf(stock: SheetStock, kerf: Mm): Omit<Rack, "items"> {
  const room = (size: { length: Mm; width: Mm }, trim: Mm): LayoutSheet => ({
    length: toNm(size.length) - 2 * toNm(trim) + toNm(kerf),
    width: toNm(size.width) - 2 * toNm(trim) + toNm(kerf),
  });
  const all = sizesOf(stock);
  const isPriced = all.every(({ price }) => price !== null);
  return {
    sizes: all.map((size) => ({
      ...room(size, stock.trim),
      cost: isPriced ? size.price! : size.length * size.width * AREA,
      count: size.count ?? Number.POSITIVE_INFINITY,
    })),
    offcuts: stock.offcuts.map((offcut) => room(offcut, 0)),
  };
}

/** The usual size first. */
const sizesOf = (stock: SheetStock): SetStock["sizes"] => [
  { ...stock.sheet, price: stock.price, count: stock.count },
  ...stock.sizes,
];

const itemOf = (piece: LayoutPiece, stock: SheetStock, kerf: Mm): LayoutItem => ({
  length: toNm(piece.length) + toNm(kerf),
  width: toNm(piece.width) + toNm(kerf),
  copies: 1,
  turn: piece.turn ?? !stock.grain,
});

function planStock(
  pieces: readonly LayoutPiece[],
  stock: SheetStock,
  rack: Omit<Rack, "items">,
  input: LayoutInput,
  before: number,
  noun: Noun,
  engine: LayoutEngine,
): LayoutPlan {
  if (pieces.length === 0) return { sheets: [], problems: [] };
  const { kerf, unit, effort = "normal", seed = SEED, keep = null, lift = null } = input;
  const { isLate = () => false, carry = alone } = input;
  const { items, copies } = grouped(pieces, stock, kerf);
  const trials = Math.round(EFFORT[effort] * Math.min(TRIALS.most, TRIALS.each * pieces.length));
  const mix = layMix({ ...rack, items }, { trials, seed, isLate, carry, depth: DEPTH, most: MOST_DEPTH }, engine);
  if (mix === null) {
    // Parts that only an offcut would hold are in each other's way there.
    const held = pieces.filter((piece) => rack.sizes.some((size) => fits(itemOf(piece, stock, kerf), size)));
    const rest = planStock(held, stock, rack, input, before, noun, engine);
    const without = pieces.filter((piece) => !held.includes(piece)).map((piece) => tooLarge(piece, stock, unit, noun));
    return { sheets: rest.sheets, problems: [...without, ...rest.problems] };
  }
  const given = items.map(() => 0);
  const next = (item: number): LayoutPiece => {
    const n = given[item]!;
    given[item] = n + 1;
    return copies[item]![n]!;
  };
  const handled = lift === null ? Number.POSITIVE_INFINITY : toNm(1) ** 2 * (lift / massOf(stock));
  const bought = mix.taken.filter(({ of }) => of === "size").length;
  const words = wordsOf(mix, rack, bought, noun);
  const taken = inOrder(mix.taken.map((one) => ({ ...one, tree: halved(tidied(one.tree), handled) })));
  const sheets = taken.map(({ tree, of, index }, i): SetSheet => {
    const n = before + i + 1;
    const onIt = new Map<string, LayoutPiece>();
    const offcut = of === "offcut" ? stock.offcuts[index]! : null;
    const { length, width } = offcut ?? sizesOf(stock)[index]!;
    const trim = offcut === null ? stock.trim : 0;
    const blank = {
      n,
      letter: noun === "sheet" ? ("S" as const) : ("B" as const),
      length: toNm(length),
      width: toNm(width),
      trim: toNm(trim),
      kerf: toNm(kerf),
      keep: keep && { length: toNm(keep.length), width: toNm(keep.width) },
    };
    const cut = cutSheet(tree, blank, (item) => {
      const piece = next(item);
      onIt.set(piece.id, piece);
      return piece.id;
    });
    return {
      n,
      stock: stock.id,
      offcut: offcut === null ? null : offcut.label,
      length,
      width,
      trim,
      kerf,
      parts: cut.parts.map(({ id, x, y, turned }) => {
        const piece = onIt.get(id)!;
        return { id, mark: piece.mark, x: toMm(x), y: toMm(y), length: piece.length, width: piece.width, turned };
      }),
      cuts: cut.cuts.map((each) => ({
        ...each,
        at: toMm(each.at),
        from: toMm(each.from),
        to: toMm(each.to),
        fence: toMm(each.fence),
      })),
      offcuts: cut.offcuts.map(({ id, x, y, length: along, width: across }) => ({
        id,
        x: toMm(x),
        y: toMm(y),
        length: toMm(along),
        width: toMm(across),
      })),
      ...words,
    };
  });
  // Of one size; of several those are taken that are to be had, as long as that is enough.
  const surplus =
    stock.count === null || rack.sizes.length > 1
      ? []
      : sheets.filter(({ offcut }) => offcut === null).slice(stock.count);
  const byId = new Map(pieces.map((piece) => [piece.id, piece]));
  const problems = surplus.flatMap(({ parts }) =>
    parts.map(({ id }) => tooMany(byId.get(id)!, stock, bought, words.bound, unit, noun)),
  );
  return { sheets, problems };
}

/** Of a square millimetre, in kg. */
const massOf = ({ thickness, density }: SheetStock): number => (thickness * density) / 1e9;

/** How good the layout is, and how that is known. */
function wordsOf(
  { taken, proof }: Mix,
  rack: Omit<Rack, "items">,
  bought: number,
  noun: Noun,
): Pick<SetSheet, "bound" | "boundText" | "boundProof"> {
  const offcuts = taken.length - bought;
  const beside = offcuts === 0 ? "" : ` beside ${offcuts === 1 ? "1 offcut" : `${offcuts} offcuts`} of the rack`;
  if (proof === null) {
    const sizes = rack.sizes.length;
    return {
      bound: 1,
      boundText: `${count(bought, noun)}${beside}: the cheapest found of ${sizes} sizes`,
      boundProof: "",
    };
  }
  const { least } = proof;
  if (bought === 0)
    return {
      bound: least,
      boundText: `0 ${noun}s to buy: ${offcuts === 1 ? "1 offcut holds" : `${offcuts} offcuts hold`} them`,
      boundProof: "",
    };
  return {
    bound: least,
    boundText: boundText(bought, least, noun, beside),
    boundProof: rack.offcuts.length > 0 ? proofBeside(proof, rack.offcuts.length, noun) : boundProof(proof, noun),
  };
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

/** Offcuts of the rack first; sheets cut alike one after another, full ones first: the one with the large offcut comes last. */
function inOrder(taken: readonly Taken[]): Taken[] {
  const keyed = taken.map((one) => {
    let largest = 0;
    for (const node of nodesOf(one.tree)) if (node.kind === "waste") largest = Math.max(largest, areaOf(node));
    return { one, largest, shape: shapeOf(one.tree) };
  });
  keyed.sort((a, b) => {
    const offcutsFirst = Number(a.one.of === "size") - Number(b.one.of === "size");
    const inList = a.one.of === "offcut" ? a.one.index - b.one.index : 0;
    return offcutsFirst || inList || a.largest - b.largest || (a.shape < b.shape ? -1 : a.shape > b.shape ? 1 : 0);
  });
  return keyed.map(({ one }) => one);
}

const count = (n: number, noun: Noun): string => (n === 1 ? `1 ${noun}` : `${n} ${noun}s`);

function boundText(sheets: number, bound: number, noun: Noun, beside: string): string {
  const those = `${count(sheets, noun)}${beside}`;
  if (sheets > bound) return `${those}; at most ${sheets - bound} over the least`;
  if (sheets === 1) return those;
  return `${those}: proved the least; ${sheets - 1} cannot hold ${beside === "" ? "them" : "the rest"}`;
}

/** So that it can be added up again: each part's length and width taken by the two functions, as shares of the sheet's, multiplied. */
const boundProof = ({ least, sum, lengths, widths }: Bound, noun: Noun): string =>
  least < 2
    ? ""
    : `Least number: lengths by ${lengths}, widths by ${widths}, a kerf added to each, the parts come to ${sum.toFixed(3)} ${noun}s, and no ${noun} holds more than 1.`;

/** The offcuts of the rack count as full. */
const proofBeside = ({ least, sum, lengths, widths }: Bound, offcuts: number, noun: Noun): string =>
  least < 2
    ? ""
    : `Least number: lengths by ${lengths}, widths by ${widths}, a kerf added to each, the parts come to ${sum.toFixed(3)} ${noun}s more than the ${offcuts === 1 ? "offcut holds" : `${offcuts} offcuts hold`} by the same, and no ${noun} holds more than 1.`;

/** Sheet layouts: which part is cut from which sheet, where, and by which cuts in which order. */

import type { Mm, Unit } from "../../base/length.ts";
import { LAYOUT } from "../../project/defaults.ts";
import type { Keep, LayoutEffort } from "../../project/layout.ts";
import type { SetSheet, SetStock } from "../../set/schema.ts";
import { isBoardStock, isSheetStock, type SheetStock } from "../../set/stock.ts";
import { isUseful, tidied } from "../layout/cuts.ts";
import type { LayoutEngine, LayoutSheet } from "../layout/engine.ts";
import { fits } from "../layout/engine.ts";
import { halved } from "../layout/halves.ts";
import { layMix, type Mix, type Rack } from "../layout/mix.ts";
import { alone, type Carrier } from "../layout/rounds.ts";
import { findLayout } from "../layout/search.ts";
import type { Axis } from "../layout/tree.ts";
import { toNm } from "../layout/units.ts";
import { layWished } from "../layout/wished.ts";
import { askedOf, firstKept, isAnyTurned, isBegun, type PieceWish, type SetWish, wishesKept } from "./asked.ts";
import { type Clear, clearOf, onOffcuts, roomIn } from "./defects.ts";
import { earlyIn, earlyKept, leastEarly, withEarly } from "./early.ts";
import { itemOf, type Lots, lotsOf, withStrips } from "./lots.ts";
import { givingEarly, inOrder } from "./order.ts";
import type { LayoutPiece, Noun } from "./piece.ts";
import { type LayoutProblem, tooLarge, tooMany } from "./problems.ts";
import { inNm, letterOf, sheetFrom } from "./sheet.ts";
import type { LayoutWishes } from "./wishes.ts";
import { wordsOf } from "./words.ts";

export type { LayoutPiece };

export type LayoutInput = {
  pieces: readonly LayoutPiece[];
  stock: readonly SetStock[]; // what comes in boards is left alone
  kerf: Mm;
  unit: Unit;
  effort?: LayoutEffort;
  seed?: number;
  keep?: Keep | null;
  /** Pieces of parts that come from one strip. */
  together?: LayoutWishes["together"];
  /** Levels of cutting that a layout passes only where that saves a sheet; null: as is usual for the number of parts. */
  levels?: number | null;
  /** The cuts that each sheet is to begin with; null: whichever serve best. */
  first?: Axis | null;
  /** What one person handles at the saw, kg; null: not looked at. */
  lift?: number | null;
  /** True when the search has to end: see LayoutOptions. */
  isLate?: () => boolean;
  /** Carries the second of the two searches; left out: one after the other. */
  carry?: Carrier;
};

/** `wishes`: what was asked for beyond the fewest sheets, and whether it is kept. */
export type LayoutPlan = { sheets: SetSheet[]; problems: LayoutProblem[]; wishes: SetWish[] };

/** Of the search's counter, for one stock: the more pieces, the more ways there are to lay them; at most about half a second. */
const TRIALS = { each: 150_000, most: 50_000_000 };
const EFFORT: Record<LayoutEffort, number> = { quick: 0.2, normal: 1, long: 10 };
const SEED = 1;
const MOST_LEVELS = 99;

export const usualLevels = (parts: number): number =>
  parts <= LAYOUT.levels.upTo ? LAYOUT.levels.few : LAYOUT.levels.many;

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
  const { effort = "normal", seed = SEED, levels = null, first = null } = input;
  const { isLate = () => false, carry = alone, together = [] } = input;
  const how: Lay = { ...input, effort, seed, levels, first, isLate, carry, together, noun, engine };
  const plan: LayoutPlan = { sheets: [], problems: [], wishes: [] };
  for (const stock of stocks) {
    const pieces = input.pieces.filter((piece) => piece.stock === stock.id);
    const rack = rackOf(stock, input.kerf);
    const fitting = pieces.filter((piece) =>
      [...rack.sizes, ...rack.offcuts].some((room) => fits(itemOf(piece, stock, input.kerf), room)),
    );
    for (const piece of pieces)
      if (!fitting.includes(piece)) plan.problems.push(tooLarge(piece, stock, input.unit, noun));
    const laid = planStock(fitting, stock, rack, plan.sheets.length, how);
    plan.sheets.push(...laid.sheets);
    plan.problems.push(...laid.problems);
    plan.wishes.push(...laid.wishes);
  }
  return plan;
}

const AREA = 1e-12; // of a size without a price: by area

/** `offcuts` of a rack: what is clear of each, as in `clear`. */
type Stocked = Omit<Rack, "items"> & { clear: readonly Clear[] };

/** What there is to cut from: sizes less their trims, plus one kerf, for the last part in a row needs none after it; offcuts untrimmed. */
function rackOf(stock: SheetStock, kerf: Mm): Stocked {
  const room = (size: { length: Mm; width: Mm }, trim: Mm): LayoutSheet => ({
    length: toNm(size.length) - 2 * toNm(trim) + toNm(kerf),
    width: toNm(size.width) - 2 * toNm(trim) + toNm(kerf),
  });
  const all = sizesOf(stock);
  const isPriced = all.every(({ price }) => price !== null);
  const clear = clearOf(stock.offcuts, kerf);
  return {
    clear,
    sizes: all.map((size) => ({
      ...room(size, stock.trim),
      cost: isPriced ? size.price! : size.length * size.width * AREA,
      count: size.count ?? Number.POSITIVE_INFINITY,
    })),
    offcuts: clear.map((run) => roomIn(run, kerf)),
  };
}

/** The usual size first. */
const sizesOf = (stock: SheetStock): SetStock["sizes"] => [
  { ...stock.sheet, price: stock.price, count: stock.count },
  ...stock.sizes,
];

/** What the layouts are asked, of the pieces of one stock. */
type Lay = Required<Omit<LayoutInput, "pieces" | "stock" | "keep" | "lift">> &
  Pick<LayoutInput, "keep" | "lift"> & { noun: Noun; engine: LayoutEngine };

function planStock(
  pieces: readonly LayoutPiece[],
  stock: SheetStock,
  rack: Stocked,
  before: number,
  how: Lay,
): LayoutPlan {
  if (pieces.length === 0) return { sheets: [], problems: [], wishes: [] };
  const { kerf, unit, effort, seed, levels, keep = null, lift = null, isLate, carry, noun, engine } = how;
  const trials = Math.round(EFFORT[effort] * Math.min(TRIALS.most, TRIALS.each * pieces.length));
  const asked = askedOf(pieces, how.together, stock, rack, how);
  const lotsWith = (kept: readonly PieceWish[]): Lots => {
    const straight = new Set(kept.flatMap((wish) => (wish.kind === "grain" ? wish.pieces : [])));
    const strips = kept.flatMap((wish) => (wish.kind === "together" ? [wish] : []));
    return lotsOf(pieces, [...asked.must, ...strips], straight, stock, kerf);
  };
  const lay = (from: Rack, share: number, kept: readonly PieceWish[]): Mix | null => {
    const first = kept.flatMap((wish) => (wish.kind === "first" ? [wish.axis] : []))[0];
    const search = { trials: Math.round(trials * share), seed, isLate, carry };
    return layMix(from, { ...search, depth: levels ?? usualLevels(pieces.length), most: MOST_LEVELS, first }, engine);
  };
  const lotsOfTrees = new Map<Mix["taken"], Lots>();
  const found = layWished<PieceWish>({
    wishes: asked.open,
    sizes: rack.sizes,
    lay: (kept, share) => {
      const lots = lotsWith(kept);
      const mix = lay({ ...rack, items: lots.items }, share, kept);
      if (mix !== null) lotsOfTrees.set(mix.taken, lots);
      return mix;
    },
    keeps: (mix, wish, kept) => {
      if (wish.kind === "together") return kept.includes(wish);
      if (wish.kind === "first") return isBegun(mix.taken, wish.axis);
      return !isAnyTurned(mix, lotsOfTrees.get(mix.taken)!, wish.pieces);
    },
  });
  if (found === null) {
    // Parts that only an offcut would hold are in each other's way there.
    const held = pieces.filter((piece) => rack.sizes.some((size) => fits(itemOf(piece, stock, kerf), size)));
    const rest = planStock(held, stock, rack, before, how);
    const without = pieces.filter((piece) => !held.includes(piece)).map((piece) => tooLarge(piece, stock, unit, noun));
    return { ...rest, problems: [...without, ...rest.problems] };
  }
  const { kept } = found;
  const lots = lotsOfTrees.get(found.mix.taken)!;
  const { copies, strips } = lots;
  const early = earlyIn(copies);
  const least = leastEarly(pieces, stock, rack, kerf);
  const laid = withEarly(found.mix, lots, rack, least, (from, share) => lay(from, share, [...kept]));
  const mix = {
    ...laid,
    taken: onOffcuts(laid.taken, rack.clear, stock.offcuts, kerf, (size) =>
      isUseful(size, { letter: letterOf(noun), keep: inNm(keep) }),
    ),
  };
  const given = copies.map(() => 0);
  const next = (item: number): LayoutPiece => copies[item]![given[item]!++]!;
  const handled = lift === null ? Number.POSITIVE_INFINITY : toNm(1) ** 2 * (lift / massOf(stock));
  const bought = mix.taken.filter(({ of }) => of === "size").length;
  const words = wordsOf(mix, { sizes: rack.sizes.length, offcuts: stock.offcuts.length }, bought, noun);
  const trees = mix.taken.map((one) => ({ ...one, tree: halved(tidied(withStrips(one.tree, strips)), handled) }));
  const sheets = inOrder(trees, early).map(({ tree, of, index }, i): SetSheet => {
    const offcut = of === "offcut" ? stock.offcuts[index]! : null;
    const { length, width } = offcut ?? sizesOf(stock)[index]!;
    return sheetFrom(tree, {
      ...{ n: before + i + 1, noun, stock: stock.id, offcut: offcut?.label ?? null, length, width },
      defects: (offcut?.defects ?? []).map(({ from, to }) => ({ x: from, y: 0, length: to - from, width })),
      ...{ trim: offcut === null ? stock.trim : 0, kerf, keep, words, next },
    });
  });
  // Of one size; of several those are taken that are to be had, as long as that is enough.
  const surplus =
    stock.count === null || rack.sizes.length > 1
      ? []
      : sheets.filter(({ offcut }) => offcut === null).slice(stock.count);
  const byId = new Map(pieces.map((piece) => [piece.id, piece]));
  const tooFew = surplus.flatMap(({ parts }) =>
    parts.map(({ id }) => tooMany(byId.get(id)!, stock, bought, words.bound, unit, noun)),
  );
  return {
    sheets,
    problems: [...asked.problems, ...tooFew],
    wishes: [
      ...wishesKept(pieces, asked, sheets, kept, stock),
      ...firstKept(pieces, how.first, trees),
      ...earlyKept(pieces, givingEarly(trees, early).length <= least),
    ],
  };
}

/** Of a square millimetre, in kg. */
const massOf = ({ thickness, density }: SheetStock): number => (thickness * density) / 1e9;

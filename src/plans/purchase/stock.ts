/** What parts are cut from: sheets, boards, lumber, what is fetched from the rack, and lippings. */

import type { Mm, Unit } from "../../base/length.ts";
import { formatLength, formatLengthWithUnit, isSame, MM_PER_INCH } from "../../base/length.ts";
import { boardFeet, quartersOf } from "../../base/lumber.ts";
import { listInWords } from "../../base/words.ts";
import type { DryfitSet, SetPurchase, SetSheet } from "../../set/schema.ts";
import type { BoardStock, SheetStock } from "../../set/stock.ts";
import { OVER, type PurchaseInput } from "./input.ts";

type Piece = DryfitSet["pieces"][number];

/** Lippings by what they are, in metres or feet. */
export function planLippings({ pieces, unit }: PurchaseInput): SetPurchase[] {
  const strips = pieces.filter(({ kind }) => kind === "lipping");
  const isSameKind = (a: Piece, b: Piece): boolean =>
    a.stock === b.stock && isSame(a.thickness, b.thickness) && isSame(a.width, b.width);
  const kinds = strips.filter((one, i) => strips.findIndex((other) => isSameKind(one, other)) === i);
  return kinds.map((kind): SetPurchase => {
    const { stock: name, thickness, width } = kind;
    const own = strips.filter((one) => isSameKind(one, kind));
    const length = own.reduce((sum, one) => sum + one.length, 0);
    const longest = Math.max(...own.map((one) => one.length));
    return {
      what: name,
      size: `${formatLength(thickness, unit)} thick, over ${formatLength(width, unit)} ${unit} wide`,
      quantity: Math.ceil((length * OVER) / (unit === "mm" ? 1000 : 12 * MM_PER_INCH)),
      unit: unit === "mm" ? "m" : "ft",
      price: null,
      note: `${own.length} ${own.length === 1 ? "piece" : "pieces"}, the longest ${formatLength(longest, unit)} ${unit}; a tenth over, flushed to the panel after the glue`,
    };
  });
}

/** A line for each size that is bought, then what is fetched from the rack. */
export function planSheetLine(stock: SheetStock, sheets: readonly SetSheet[], unit: Unit): SetPurchase[] {
  const own = sheets.filter((sheet) => sheet.stock === stock.id);
  const sizes = [{ ...stock.sheet, price: stock.price }, ...stock.sizes];
  const lines = sizes.flatMap(({ length, width, price }): SetPurchase[] => {
    const bought = own.filter((one) => one.offcut === null && isSame(one.length, length) && isSame(one.width, width));
    const [first] = bought;
    if (!first) return [];
    const used = bought.flatMap((sheet) => sheet.parts).reduce((sum, part) => sum + part.length * part.width, 0);
    const share = Math.round((100 * used) / (bought.length * length * width));
    const each = price === null ? "" : `; ${price.toFixed(2)} each`;
    return [
      {
        what: stock.name,
        size: `${[length, width, stock.nominal].map((size) => formatLength(size, unit)).join(" x ")} ${unit}`,
        quantity: bought.length,
        unit: bought.length === 1 ? "sheet" : "sheets",
        price: price === null ? null : Math.round(bought.length * price * 100) / 100,
        note: `${first.boundText}; parts take ${share} %${each}`,
      },
    ];
  });
  return [...lines, ...planRackLine(stock, own)];
}

/** Nothing to buy, but to be fetched before the saw is set up. */
export function planRackLine({ name }: SheetStock | BoardStock, laid: readonly SetSheet[]): SetPurchase[] {
  const labels = laid.flatMap(({ offcut }) => (offcut === null ? [] : [offcut]));
  if (labels.length === 0) return [];
  return [
    {
      what: `${name}, from the rack`,
      size: labels.length === 1 ? "as it is labelled" : "as they are labelled",
      quantity: labels.length,
      unit: labels.length === 1 ? "offcut" : "offcuts",
      price: null,
      note: `not to buy: ${listInWords(labels.map((label) => `"${label}"`))}; measure each before the rest is bought`,
    },
  ];
}

/** Boards as they are laid out, or more of them where knots and splits are reckoned with; what is bought against what the parts take. */
export function planBoardLine(
  stock: BoardStock,
  pieces: DryfitSet["pieces"],
  laid: readonly SetSheet[],
  unit: Unit,
): SetPurchase[] {
  const mine = laid.filter((board) => board.stock === stock.id);
  const rack = planRackLine(stock, mine);
  const fromRack = new Set(mine.flatMap(({ offcut, parts }) => (offcut === null ? [] : parts.map(({ id }) => id))));
  const own = pieces.filter((piece) => piece.stock === stock.id && piece.kind === "board" && !fromRack.has(piece.id));
  const count = mine.filter(({ offcut }) => offcut === null).length;
  if (own.length === 0) return rack;
  if (stock.boards.dressed) return [planLumberLine(stock, own, count, unit), ...rack];
  const { rough, length, width, spare } = stock.boards;
  const measure = (piece: { length: Mm; width: Mm; thickness: Mm }): number =>
    unit === "in" ? boardFeet(piece) : (piece.length * piece.width * piece.thickness) / 1e9;
  const takes = own.reduce((sum, piece) => sum + measure(piece), 0);
  const each = measure({ length, width, thickness: rough });
  const quantity = Math.max(count, Math.ceil((takes * (1 + spare)) / each - 1e-9));
  const shown = (amount: number): string =>
    unit === "in" ? `${amount.toFixed(1)} board feet` : `${amount.toFixed(3)} m3`;
  const quarters = unit === "in" ? quartersOf(rough) : null;
  const longest = Math.max(...own.map((piece) => piece.length));
  const widest = Math.max(...own.map((piece) => piece.width));
  const more = quantity > count ? `, ${quantity - count} of them for knots and splits` : "";
  return [
    {
      what: stock.name,
      size: `${quarters === null ? "" : `${quarters.quarters}, `}${[length, width, rough].map((size) => formatLength(size, unit)).join(" x ")} ${unit} in the rough, planed to ${formatLength(stock.nominal, unit)}`,
      quantity,
      unit: quantity === 1 ? "board" : "boards",
      price: stock.price === null ? null : Math.round(quantity * each * stock.price * 100) / 100,
      note: `${shown(quantity * each)} bought${more}; the parts take ${shown(takes)} in the rough, ${own.length} pieces, the longest ${formatLengthWithUnit(longest, unit)}, the widest ${formatLengthWithUnit(widest, unit)}; other lengths and widths will do that hold these`,
    },
    ...rack,
  ];
}

/** Lumber that is bought planed: whole lengths, as many as are laid out or more, and what they run to. */
function planLumberLine({ name, boards }: BoardStock, own: DryfitSet["pieces"], laid: number, unit: Unit): SetPurchase {
  const takes = own.reduce((sum, piece) => sum + piece.length, 0);
  const quantity = Math.max(laid, Math.ceil((takes * (1 + boards.spare)) / boards.length - 1e-9));
  const run = (length: Mm): string =>
    unit === "mm" ? `${(length / 1000).toFixed(1)} m` : `${(length / (12 * MM_PER_INCH)).toFixed(1)} ft`;
  const longest = Math.max(...own.map((piece) => piece.length));
  const more = quantity > laid ? `, ${quantity - laid} of them for knots and splits` : "";
  return {
    what: name,
    size: `${[boards.rough, boards.width, boards.length].map((size) => formatLength(size, unit)).join(" x ")} ${unit}, planed`,
    quantity,
    unit: quantity === 1 ? "length" : "lengths",
    price: null,
    note: `${run(quantity * boards.length)} bought${more}; the parts take ${run(takes)}, ${own.length} pieces, the longest ${formatLengthWithUnit(longest, unit)}; straight and dry; other lengths will do that hold these`,
  };
}

/** Pieces that no layout can hold, each with what would make room for it. */
import type { Mm, Unit } from "../../base/length.ts";
import { formatLengthWithUnit } from "../../base/length.ts";
import { listInWords } from "../../base/words.ts";
import type { SheetStock } from "../../set/stock.ts";
import { toNm } from "../layout/units.ts";
import { type LayoutPiece, mayTurn, type Noun } from "./piece.ts";

/** A piece that no sheet of its stock can give. */
export type LayoutProblem = {
  pieceId: string;
  mark: string;
  stock: string;
  text: string; // what was found
  expected: string;
  remedy: string;
};

/** Larger than any sheet of its stock gives. */
export function tooLarge(piece: LayoutPiece, stock: SheetStock, unit: Unit, noun: Noun): LayoutProblem {
  const size = (length: Mm, width: Mm): string =>
    `${formatLengthWithUnit(length, unit)} x ${formatLengthWithUnit(width, unit)}`;
  const { length, width } = stock.sheet;
  const turn = mayTurn(piece, stock);
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

/** On a sheet beyond those that are to be had. */
export function tooMany(
  piece: LayoutPiece,
  stock: SheetStock,
  needed: number,
  least: number,
  unit: Unit,
  noun: Noun,
): LayoutProblem {
  const nouns = stock.count === 1 ? noun : `${noun}s`;
  const size = `${formatLengthWithUnit(piece.length, unit)} x ${formatLengthWithUnit(piece.width, unit)}`;
  return {
    pieceId: piece.id,
    mark: piece.mark,
    stock: stock.id,
    text: `part ${piece.mark}, ${size}, finds no room: ${stock.count} ${nouns} of ${stock.name} ${stock.count === 1 ? "is" : "are"} to be had, the layout found takes ${needed}, and no layout fewer than ${least}`,
    expected: `parts that the ${nouns} to be had hold`,
    remedy: `${needed - stock.count!} more ${noun === "sheet" ? "of its sheets" : "of its boards"}, or an offcut of at least ${size}; or another stock for some parts${mayTurn(piece, stock) ? "" : "; or let parts lie against the grain"}`,
  };
}

/** Pieces that must come from one strip, and no sheet is long or wide enough for it. */
export function stripTooLarge(
  pieces: readonly LayoutPiece[],
  strip: { length: Mm; width: Mm },
  stock: SheetStock,
  unit: Unit,
  noun: Noun,
): LayoutProblem[] {
  const size = (length: Mm, width: Mm): string =>
    `${formatLengthWithUnit(length, unit)} x ${formatLengthWithUnit(width, unit)}`;
  const { length, width } = stock.sheet;
  return pieces.map(({ id, mark }) => ({
    pieceId: id,
    mark,
    stock: stock.id,
    text: `part ${mark} is to come from one strip with ${listInWords(pieces.filter((one) => one.id !== id).map((one) => one.mark))}, kerfs included ${size(strip.length, strip.width)}; a ${noun} of ${stock.name} gives ${size(length - 2 * stock.trim, width - 2 * stock.trim)} inside its trim`,
    expected: `a strip that a ${noun} holds, along the grain`,
    remedy: `a strip of fewer parts; or leave "must" out; or a stock with ${noun}s of at least ${size(strip.length + 2 * stock.trim, strip.width + 2 * stock.trim)}`,
  }));
}

/** Pieces that no layout can hold, each with what would make room for it. */
import type { Mm, Unit } from "../base/length.ts";
import { formatLengthWithUnit } from "../base/length.ts";
import type { SheetStock } from "../set/stock.ts";
import { toNm } from "./layout/units.ts";

export type LayoutPiece = {
  id: string;
  mark: string;
  stock: string;
  length: Mm; // along the grain
  width: Mm;
  /** Whether its length may lie across the sheet's; left out: as its stock, which forbids it where it has a grain. */
  turn?: boolean;
};

/** A piece that no sheet of its stock can give. */
export type LayoutProblem = {
  pieceId: string;
  mark: string;
  stock: string;
  text: string; // what was found
  expected: string;
  remedy: string;
};

export type Noun = "sheet" | "board";

/** Larger than any sheet of its stock gives. */
export function tooLarge(piece: LayoutPiece, stock: SheetStock, unit: Unit, noun: Noun): LayoutProblem {
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
    remedy: `${needed - stock.count!} more ${noun === "sheet" ? "of its sheets" : "of its boards"}, or an offcut of at least ${size}; or another stock for some parts${(piece.turn ?? !stock.grain) ? "" : "; or let parts lie against the grain"}`,
  };
}

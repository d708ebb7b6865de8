/** One sheet of the set from its tree: what lies where, by which cuts. */
import type { Mm } from "../../base/length.ts";
import type { Keep } from "../../project/layout.ts";
import type { SetSheet } from "../../set/schema.ts";
import { cutSheet } from "../layout/cuts.ts";
import type { Tree } from "../layout/tree.ts";
import { type Nm, toMm, toNm } from "../layout/units.ts";
import type { LayoutPiece, Noun } from "./piece.ts";

/** `words`: what is said of the number of sheets. `next`: the piece that is cut as another copy of an item. */
export type SheetBlank = {
  n: number;
  noun: Noun;
  stock: string;
  offcut: string | null;
  length: Mm;
  width: Mm;
  defects: SetSheet["defects"];
  trim: Mm;
  kerf: Mm;
  keep: Keep | null;
  words: Pick<SetSheet, "bound" | "boundText" | "boundProof">;
  next: (item: number) => LayoutPiece;
};

export const letterOf = (noun: Noun): "S" | "B" => (noun === "sheet" ? "S" : "B");
export const inNm = (keep: Keep | null): { length: Nm; width: Nm } | null =>
  keep && { length: toNm(keep.length), width: toNm(keep.width) };

export function sheetFrom(
  tree: Tree,
  { n, noun, stock, offcut, defects, words, next, ...sizes }: SheetBlank,
): SetSheet {
  const { length, width, trim, kerf, keep } = sizes;
  const onIt = new Map<string, LayoutPiece>();
  const blank = {
    n,
    letter: letterOf(noun),
    length: toNm(length),
    width: toNm(width),
    trim: toNm(trim),
    kerf: toNm(kerf),
    keep: inNm(keep),
  };
  const cut = cutSheet(tree, blank, (item) => {
    const piece = next(item);
    onIt.set(piece.id, piece);
    return piece.id;
  });
  return {
    n,
    stock,
    offcut,
    length,
    width,
    defects,
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
}

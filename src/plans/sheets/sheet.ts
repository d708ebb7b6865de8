/** One sheet of the set from its tree: what lies where, by which cuts. */
import type { Mm } from "../../base/length.ts";
import type { Keep } from "../../project/layout.ts";
import type { SetSheet } from "../../set/schema.ts";
import { cutSheet } from "../layout/cuts.ts";
import type { Tree } from "../layout/tree.ts";
import { toMm, toNm } from "../layout/units.ts";
import type { LayoutPiece, Noun } from "./piece.ts";

/** `words`: what is said of the number of sheets. `next`: the piece that is cut as another copy of an item. */
export type SheetBlank = {
  n: number;
  noun: Noun;
  stock: string;
  offcut: string | null;
  length: Mm;
  width: Mm;
  trim: Mm;
  kerf: Mm;
  keep: Keep | null;
  words: Pick<SetSheet, "bound" | "boundText" | "boundProof">;
  next: (item: number) => LayoutPiece;
};

export function sheetFrom(tree: Tree, { n, noun, stock, offcut, words, next, ...blank }: SheetBlank): SetSheet {
  const { length, width, trim, kerf, keep } = blank;
  const onIt = new Map<string, LayoutPiece>();
  const inNm = {
    n,
    letter: noun === "sheet" ? ("S" as const) : ("B" as const),
    length: toNm(length),
    width: toNm(width),
    trim: toNm(trim),
    kerf: toNm(kerf),
    keep: keep && { length: toNm(keep.length), width: toNm(keep.width) },
  };
  const cut = cutSheet(tree, inNm, (item) => {
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

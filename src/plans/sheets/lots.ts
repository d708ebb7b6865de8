/** Pieces as the layout takes them: those of one size as copies of one item, those that stay together as one strip, cut up again afterwards. */
import type { Mm } from "../../base/length.ts";
import type { SheetStock } from "../../set/stock.ts";
import type { LayoutItem } from "../layout/engine.ts";
import { type Axis, cutOf, type Placed, type Tree, waste } from "../layout/tree.ts";
import { type Nm, toNm } from "../layout/units.ts";
import { type LayoutPiece, mayTurn } from "./piece.ts";

/** Pieces cut from one strip, from its low end on: "x" end to end, "y" side by side. */
export type PieceStrip = { pieces: LayoutPiece[]; run: Axis };

/** `items`: for the layout. `copies`: of each the pieces; beyond the items stand those of strips, one each. */
export type Lots = { items: LayoutItem[]; copies: LayoutPiece[][]; strips: Map<number, StripLot> };

type StripLot = { run: Axis; members: { item: number; length: Nm; width: Nm }[] };

const folded = ({ length, width }: { length: Mm; width: Mm }, kerf: Mm): { length: Nm; width: Nm } => ({
  length: toNm(length) + toNm(kerf),
  width: toNm(width) + toNm(kerf),
});

/** `straight`: pieces that might be turned, and are not to be. */
export const itemOf = (
  piece: LayoutPiece,
  stock: SheetStock,
  kerf: Mm,
  straight: ReadonlySet<LayoutPiece> = new Set(),
): LayoutItem => ({
  ...folded(piece, kerf),
  copies: 1,
  turn: mayTurn(piece, stock) && !straight.has(piece),
});

/** As large as its pieces in their row, a kerf between any two. Never turned: the figure runs along the sheet's grain. */
export function stripItem({ pieces, run }: PieceStrip, kerf: Mm): LayoutItem {
  const sizes = pieces.map((piece) => folded(piece, kerf));
  const over = (list: Nm[], isRun: boolean): Nm =>
    isRun ? list.reduce((sum, one) => sum + one, 0) : Math.max(...list);
  return {
    length: over(
      sizes.map(({ length }) => length),
      run === "x",
    ),
    width: over(
      sizes.map(({ width }) => width),
      run === "y",
    ),
    copies: 1,
    turn: false,
  };
}

/** Items in the order of their first piece, early ones first among their copies; then the strips. */
export function lotsOf(
  pieces: readonly LayoutPiece[],
  strips: readonly PieceStrip[],
  straight: ReadonlySet<LayoutPiece>,
  stock: SheetStock,
  kerf: Mm,
): Lots {
  const inStrips = new Set(strips.flatMap((strip) => strip.pieces));
  const groups = new Map<string, { item: LayoutItem; pieces: LayoutPiece[] }>();
  for (const piece of pieces) {
    if (inStrips.has(piece)) continue;
    const item = itemOf(piece, stock, kerf, straight);
    const key = `${item.length} ${item.width} ${item.turn}`;
    const group = groups.get(key);
    if (group) {
      group.item.copies += 1;
      group.pieces.push(piece);
    } else groups.set(key, { item, pieces: [piece] });
  }
  const list = [...groups.values()];
  const items = [...list.map(({ item }) => item), ...strips.map((strip) => stripItem(strip, kerf))];
  const isLate = ({ early = false }: LayoutPiece): number => Number(!early);
  const copies = [
    ...list.map((group) => group.pieces.toSorted((a, b) => isLate(a) - isLate(b))),
    ...strips.map((): LayoutPiece[] => []),
  ];
  const lots: Lots = { items, copies, strips: new Map() };
  strips.forEach((strip, i) => {
    const members = strip.pieces.map((piece) => ({ item: copies.push([piece]) - 1, ...folded(piece, kerf) }));
    lots.strips.set(list.length + i, { run: strip.run, members });
  });
  return lots;
}

/** The tree with its strips cut up: each a piece of its own, whose order is kept. */
export function withStrips(tree: Tree, strips: Lots["strips"]): Tree {
  if (tree.kind === "waste") return tree;
  if (tree.kind === "cut") return { ...tree, children: tree.children.map((child) => withStrips(child, strips)) };
  const strip = strips.get(tree.item);
  return strip === undefined ? tree : stripTree(tree, strip);
}

function stripTree({ length, width }: Placed, { run, members }: StripLot): Tree {
  const across: Axis = run === "x" ? "y" : "x";
  const children = members.map((one): Tree => {
    const part: Placed = { kind: "part", item: one.item, turned: false, length: one.length, width: one.width };
    // One that is narrower, or shorter, than the strip is cut free of what is left beside it.
    const [long, wide] = run === "x" ? [one.length, width] : [length, one.width];
    const spare = run === "x" ? waste(long, wide - one.width) : waste(long - one.length, wide);
    const rest = run === "x" ? spare.width : spare.length;
    return rest === 0 ? part : cutOf(across, long, wide, [part, spare]);
  });
  return { kind: "cut", across: run, length, width, children, ordered: true };
}

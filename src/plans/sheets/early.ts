/** Parts that are wanted from the first sheets: of layouts as cheap, the one that gives them from the fewest. */
import type { Mm } from "../../base/length.ts";
import type { SheetStock } from "../../set/stock.ts";
import { boundOf } from "../layout/bound.ts";
import type { LayoutItem } from "../layout/engine.ts";
import type { Mix, Rack, Taken } from "../layout/mix.ts";
import { cutOf, nodesOf, type Tree } from "../layout/tree.ts";
import type { SetWish } from "./asked.ts";
import { itemOf, type Lots, withStrips } from "./lots.ts";
import { type Early, givingEarly } from "./order.ts";
import type { LayoutPiece } from "./piece.ts";

/** Of each item, how many of its pieces are wanted from the first sheets. */
export const earlyIn = (copies: readonly LayoutPiece[][]): Early =>
  new Map(
    copies.flatMap((own, item) => {
      const count = own.filter(({ early }) => early === true).length;
      return count === 0 ? [] : [[item, { count, area: own[0]!.length * own[0]!.width }] as const];
    }),
  );

/** Fewer sheets no layout could take them from. */
export function leastEarly(
  pieces: readonly LayoutPiece[],
  stock: SheetStock,
  { sizes, offcuts }: Omit<Rack, "items">,
  kerf: Mm,
): number {
  const items = pieces.filter(({ early }) => early === true).map((piece) => itemOf(piece, stock, kerf));
  return Math.min(...sizes.map((size) => boundOf(items, size, 0, offcuts).least));
}

const FIRST_SHARE = 0.4; // of the budget, for the parts that are wanted early alone
const REST_SHARE = 0.8;

/**
 * Where the layout takes them from more sheets than they need: they alone on as few as can be, the other parts in what these leave
 * and on further sheets; kept where that costs no more. `lay`: lays other items, with so much of the budget.
 */
export function withEarly(
  mix: Mix,
  { items, copies, strips }: Lots,
  { sizes, offcuts }: Omit<Rack, "items">,
  least: number,
  lay: (rack: Rack, share: number) => Mix | null,
): Mix {
  const early = earlyIn(copies);
  const sheetsFor = (taken: readonly Taken[]): number =>
    givingEarly(
      taken.map((one) => ({ ...one, tree: withStrips(one.tree, strips) })),
      early,
    ).length;
  if (early.size === 0 || sizes.length > 1 || offcuts.length > 0 || sheetsFor(mix.taken) <= least) return mix;
  // A strip is wanted early where one of its parts is.
  const wanted = items.map((item, i) => {
    const strip = strips.get(i);
    return strip === undefined
      ? (early.get(i)?.count ?? 0)
      : strip.members.some((one) => early.has(one.item))
        ? item.copies
        : 0;
  });
  const first = part(items, (i) => wanted[i]!);
  const rest = part(items, (i) => items[i]!.copies - wanted[i]!);
  const base = lay({ items: first.items, sizes, offcuts: [] }, FIRST_SHARE);
  if (base === null) return mix;
  const trees = base.taken.map(({ tree }) => numbered(tree, first.of));
  const left = trees.flatMap((tree) => [...nodesOf(tree)].filter(({ kind }) => kind === "waste"));
  const others = rest.items.length === 0 ? null : lay({ items: rest.items, sizes, offcuts: left }, REST_SHARE);
  if (rest.items.length > 0 && others === null) return mix;
  const filled = new Map(
    (others?.taken ?? []).flatMap(({ of, index, tree }) =>
      of === "offcut" ? [[left[index]!, numbered(tree, rest.of)] as const] : [],
    ),
  );
  const taken: Taken[] = [
    ...trees.map((tree): Taken => ({ of: "size", index: 0, tree: grafted(tree, filled) })),
    ...(others?.taken ?? [])
      .filter(({ of }) => of === "size")
      .map((one) => ({ ...one, tree: numbered(one.tree, rest.of) })),
  ];
  const cost = base.cost + (others?.cost ?? 0);
  return cost <= mix.cost && sheetsFor(taken) < sheetsFor(mix.taken) ? { taken, cost, proof: mix.proof } : mix;
}

/** Items with so many copies each, and their places in the whole list. */
function part(items: readonly LayoutItem[], copiesOf: (item: number) => number): { items: LayoutItem[]; of: number[] } {
  const of = items.flatMap((_, i) => (copiesOf(i) > 0 ? [i] : []));
  return { items: of.map((i) => ({ ...items[i]!, copies: copiesOf(i) })), of };
}

const numbered = (tree: Tree, of: readonly number[]): Tree =>
  tree.kind === "part"
    ? { ...tree, item: of[tree.item]! }
    : tree.kind === "cut"
      ? { ...tree, children: tree.children.map((child) => numbered(child, of)) }
      : tree;

/** Waste with what was cut from it after all. */
const grafted = (tree: Tree, filled: ReadonlyMap<Tree, Tree>): Tree =>
  tree.kind === "cut"
    ? cutOf(
        tree.across,
        tree.length,
        tree.width,
        tree.children.map((child) => grafted(child, filled)),
      )
    : (filled.get(tree) ?? tree);

export function earlyKept(pieces: readonly LayoutPiece[], isKept: boolean): SetWish[] {
  const ids = pieces.flatMap(({ id, early }) => (early === true ? [id] : []));
  return ids.length === 0 ? [] : [{ kind: "early", pieces: ids, run: null, kept: isKept }];
}

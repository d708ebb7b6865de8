/** The job's wishes on the pieces of one stock, and what a layout keeps of them. */
import type { Mm, Unit } from "../../base/length.ts";
import type { DryfitSet, SetSheet } from "../../set/schema.ts";
import type { SheetStock } from "../../set/stock.ts";
import { fits } from "../layout/engine.ts";
import { beginsWith } from "../layout/first-cut.ts";
import type { Mix, Rack, Taken } from "../layout/mix.ts";
import { type Axis, nodesOf } from "../layout/tree.ts";
import { toMm } from "../layout/units.ts";
import { itemOf, type Lots, type PieceStrip, stripItem } from "./lots.ts";
import type { LayoutPiece, Noun } from "./piece.ts";
import { type LayoutProblem, stripTooLarge } from "./problems.ts";
import type { LayoutWishes } from "./wishes.ts";

export type SetWish = DryfitSet["layout"]["wishes"][number];

/** What a layout may keep or not: pieces in one strip; pieces of one size along the grain; cuts that every sheet begins with. */
export type PieceWish =
  | ({ kind: "together" } & PieceStrip)
  | { kind: "grain"; pieces: LayoutPiece[] }
  | { kind: "first"; axis: Axis };

/** `must`: strips that are no wish. `open`: wishes that can be kept at all. `lost`: strips that no sheet holds. */
export type Asked = { must: PieceStrip[]; open: PieceWish[]; lost: PieceStrip[]; problems: LayoutProblem[] };

export function askedOf(
  pieces: readonly LayoutPiece[],
  together: LayoutWishes["together"],
  stock: SheetStock,
  rack: Omit<Rack, "items">,
  { kerf, unit, noun, first }: { kerf: Mm; unit: Unit; noun: Noun; first: Axis | null },
): Asked {
  const asked: Asked = { must: [], open: [], lost: [], problems: [] };
  for (const { marks, run, must } of together) {
    const own = marks.flatMap((mark) => pieces.filter((piece) => piece.mark === mark));
    if (own.length < 2) continue;
    const strip: PieceStrip = { pieces: own, run };
    const item = stripItem(strip, kerf);
    if (rack.sizes.some((size) => fits(item, size))) {
      if (must) asked.must.push(strip);
      else asked.open.push({ kind: "together", ...strip });
    } else {
      asked.lost.push(strip);
      const size = { length: toMm(item.length) - kerf, width: toMm(item.width) - kerf };
      if (must) asked.problems.push(...stripTooLarge(own, size, stock, unit, noun));
    }
  }
  if (stock.grain) {
    const bySize = new Map<string, LayoutPiece[]>();
    for (const piece of pieces) {
      if (piece.grain !== "wish") continue;
      const key = `${piece.length} ${piece.width}`;
      bySize.set(key, [...(bySize.get(key) ?? []), piece]);
    }
    // One that fits no other way than across has no wish to keep.
    const straight = (piece: LayoutPiece): boolean =>
      rack.sizes.some((size) => fits(itemOf(piece, stock, kerf, new Set([piece])), size));
    for (const own of bySize.values()) if (straight(own[0]!)) asked.open.push({ kind: "grain", pieces: own });
  }
  // The last to be added again where not all can be kept: what is seen of the furniture goes before what is handy at the saw.
  if (first !== null) asked.open.push({ kind: "first", axis: first });
  return asked;
}

/** Whether every sheet that is bought is cut along this axis first. */
export const isBegun = (taken: readonly Taken[], axis: Axis): boolean =>
  taken.every(({ of, tree }) => of === "offcut" || beginsWith(tree, axis));

/** Whether any copy of these pieces' items lies across. */
export function isAnyTurned({ taken }: Mix, { copies }: Lots, pieces: readonly LayoutPiece[]): boolean {
  const items = new Set(copies.flatMap((own, item) => (own.some((piece) => pieces.includes(piece)) ? [item] : [])));
  for (const { tree } of taken) {
    for (const node of nodesOf(tree)) if (node.kind === "part" && node.turned && items.has(node.item)) return true;
  }
  return false;
}

/** Of every wish, whether these sheets keep it. */
export function wishesKept(
  pieces: readonly LayoutPiece[],
  { must, open, lost }: Asked,
  sheets: readonly SetSheet[],
  kept: ReadonlySet<PieceWish>,
  stock: SheetStock,
): SetWish[] {
  const strip = ({ pieces: own, run }: PieceStrip, isKept: boolean): SetWish => ({
    kind: "together",
    pieces: own.map(({ id }) => id),
    run,
    kept: isKept,
  });
  const turned = new Set(sheets.flatMap(({ parts }) => parts.flatMap((part) => (part.turned ? [part.id] : []))));
  const wished = stock.grain ? pieces.filter(({ grain }) => grain === "wish") : [];
  return [
    ...must.map((one) => strip(one, true)),
    ...open.flatMap((one) => (one.kind === "together" ? [strip(one, kept.has(one))] : [])),
    ...lost.map((one) => strip(one, false)),
    ...wished.map(({ id }): SetWish => ({ kind: "grain", pieces: [id], run: null, kept: !turned.has(id) })),
  ];
}

/** Of the cuts that every sheet was to begin with; `taken`: as they are cut. */
export const firstKept = (pieces: readonly LayoutPiece[], first: Axis | null, taken: readonly Taken[]): SetWish[] =>
  first === null ? [] : [{ kind: "first", pieces: pieces.map(({ id }) => id), run: null, kept: isBegun(taken, first) }];

import { type Mm, SAME } from "../base/length.ts";
import { rounderOf } from "../base/step.ts";
import { MILLING } from "../project/defaults.ts";
import type { DryfitSet, SetPart, SetStock, SetWorktop } from "../set/schema.ts";
import { type Scribed, scribedAlong } from "../set/scribe.ts";
import type { LayoutWishes } from "./sheets/wishes.ts";

/** `grain`: as its stock and the job have it. */
type Piece = Omit<DryfitSet["pieces"][number], "grain">;

/** "12a": a part's pieces by letter. */
export const pieceId = (mark: string, i: number): string => `${mark}${String.fromCharCode(97 + i)}`;

/** A panel is cut to its final size; a board with so much to plane, to joint and to trim, as far as the stock gives it. */
function inTheRough(
  stock: SetStock,
  { mark, cut, thickness }: Pick<SetPart, "mark" | "cut" | "thickness">,
  step: Mm,
): Piece[] {
  if (stock.boards === null)
    return [{ id: mark, mark, stock: stock.id, ...cut, thickness, state: "final", kind: "panel" }];
  const { rough, length, width, dressed } = stock.boards;
  const upTo = (finished: Mm, allowance: Mm, most: Mm): Mm => Math.max(finished, Math.min(finished + allowance, most));
  if (dressed) {
    const long = upTo(cut.length, MILLING.length, length);
    return [
      { id: mark, mark, stock: stock.id, length: long, width: cut.width, thickness, state: "oversize", kind: "board" },
    ];
  }
  const piece = (id: string, across: Mm): Piece => ({
    id,
    mark,
    stock: stock.id,
    length: upTo(cut.length, MILLING.length, length),
    width: upTo(across, MILLING.width, width),
    thickness: rough,
    state: "rough",
    kind: "board",
  });
  if (cut.width <= width + SAME) return [piece(mark, cut.width)];
  // Wider than any board: glued up.
  const n = Math.ceil(cut.width / Math.max(width - MILLING.width, SAME) - SAME);
  const each = rounderOf(step).up(cut.width / n); // a share of the width, on the rule that all else is read from
  return Array.from({ length: n }, (_, i) => piece(pieceId(mark, i), each));
}

/** A door, however it hangs. */
type Horned = { assembly: string; horns: Mm };

/** Longer by a horn at each end, which comes off when its door is glued up. */
const horned = (piece: Piece, horn: Mm): Piece =>
  horn < SAME
    ? piece
    : { ...piece, length: piece.length + 2 * horn, state: piece.state === "final" ? "oversize" : piece.state };
/** What each board of a glued-up worktop is milled from. */
function boardsOf({ glued, mark }: SetWorktop, { id, boards }: SetStock): Piece[] {
  return glued!.boards.map(({ piece, width }) => ({
    id: piece,
    mark,
    stock: id,
    length: glued!.length + MILLING.length,
    width: width + MILLING.width,
    thickness: boards!.rough,
    state: "rough",
    kind: "board",
  }));
}

/** A panel that is cut with something over. */
const oversized = (piece: Piece, over: { length: Mm; width: Mm } | undefined): Piece =>
  over === undefined
    ? piece
    : { ...piece, length: piece.length + over.length, width: piece.width + over.width, state: "oversize" };

function bodyOf(
  part: SetPart,
  stock: SetStock,
  doors: readonly Horned[],
  set: Scribed,
  { oversize }: LayoutWishes,
  step: Mm,
): Piece[] {
  const worktop = set.worktops.find(({ mark }) => mark === part.mark);
  if (worktop !== undefined && worktop.glued !== null) return boardsOf(worktop, stock);
  const door = part.role === "doorStile" ? doors.find(({ assembly }) => assembly === part.assembly) : undefined;
  const left = { length: scribedAlong("l", set, part), width: scribedAlong("w", set, part) };
  const isLeft = left.length + left.width > SAME;
  if (stock.boards === null)
    return inTheRough(stock, part, step).map((piece) => {
      const scribed = oversized(piece, isLeft ? left : undefined);
      return oversized(horned(scribed, door?.horns ?? 0), oversize.get(part.mark));
    });
  return inTheRough(stock, { ...part, cut: { ...part.cut, width: part.cut.width + left.width } }, step).map((piece) =>
    oversized(horned(piece, door?.horns ?? 0), oversize.get(part.mark)),
  );
}

/** The panel of each part, or what it is milled from, and each of its lippings. */
export const planPieces = (
  parts: readonly SetPart[],
  stock: readonly SetStock[],
  doors: readonly Horned[],
  set: Scribed,
  wishes: LayoutWishes,
  step: Mm,
): DryfitSet["pieces"] =>
  parts.flatMap((part): DryfitSet["pieces"] => {
    const { mark, material, thickness, lippings } = part;
    const own = stock.find(({ id }) => id === material)!;
    const asked = wishes.grain.get(mark);
    const grain = !own.grain || asked === "none" ? "any" : asked === "wish" ? "wish" : "along";
    return [
      ...bodyOf(part, own, doors, set, wishes, step).map((piece) => ({ ...piece, grain }) as const),
      ...lippings.map((lipping, i): DryfitSet["pieces"][number] => ({
        id: pieceId(mark, i),
        mark,
        stock: lipping.name,
        length: lipping.to - lipping.from,
        width: thickness,
        thickness: lipping.thickness,
        state: "final",
        kind: "lipping",
        grain: "along",
      })),
    ];
  });

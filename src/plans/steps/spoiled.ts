/** What can still give a part that is spoiled: an offcut of the sheet or board layouts, or a larger part that is itself spoiled. */
import { type Mm, SAME } from "../../base/length.ts";
import { choiceInWords, listInWords } from "../../base/words.ts";
import { MILLING } from "../../project/defaults.ts";
import type { DryfitSet, SetGroup, SetPart } from "../../set/schema.ts";
import { byMark } from "../../set/words.ts";
import { groupOf } from "../groups.ts";

type Input = Pick<DryfitSet, "parts" | "pieces" | "stock" | "sheets" | "boards" | "groups">;
type Piece = DryfitSet["pieces"][number];
type Size = { length: Mm; width: Mm };

/** Grain along the length of both; what has no grain lies either way. */
const gives = (from: Size, { length, width }: Size, turns: boolean): boolean => {
  const fits = (long: Mm, wide: Mm): boolean => long <= from.length + SAME && wide <= from.width + SAME;
  return fits(length, width) || (turns && fits(width, length));
};

/** A spoiled part has lost something, so one of the same size gives nothing. */
const isLarger = (from: Size, size: Size): boolean => from.length * from.width > size.length * size.width + SAME;

/** What a larger part has to hold: no longer in the rough, but with the horns and what is scribed still on. */
function milled({ cut }: SetPart, { length, width, kind, state }: Piece): Size {
  if (kind === "panel") return { length, width };
  // Of several boards that make one part each is narrower than it.
  const across = state === "rough" ? width - MILLING.width : width;
  return { length: Math.max(cut.length, length - MILLING.length), width: across };
}

/** What remedies there are, each with the pieces it is for. */
type Heap = Map<string, string[]>;

const note = (heap: Heap, key: string, id: string): void => void heap.set(key, [...(heap.get(key) ?? []), id]);

/** The offcuts, else the larger parts, that give a piece; null: neither does. */
function remedyFor(piece: Piece, input: Input): { offcuts: string[] } | { larger: string[] } | null {
  const { parts, sheets, boards, groups } = input;
  const part = parts.find(({ mark }) => mark === piece.mark)!;
  const turns = piece.kind === "panel" && part.grain === "none";
  const offcuts = [...sheets, ...boards]
    .filter(({ stock }) => stock === piece.stock)
    .flatMap((bed) => bed.offcuts.filter((offcut) => gives(offcut, piece, turns)).map(({ id }) => id));
  if (offcuts.length > 0) return { offcuts };
  const size = milled(part, piece);
  const group = groupOf(piece.mark, groups).n;
  const larger = parts.filter(
    (one) =>
      one !== part &&
      one.material === piece.stock &&
      // What is made later is not there yet to be spoiled.
      groupOf(one.mark, groups).n <= group &&
      isLarger(one.cut, size) &&
      gives(one.cut, size, turns),
  );
  return larger.length === 0 ? null : { larger: larger.map(({ mark }) => mark) };
}

type Comes = "sheets" | "boards";
const CUT_FROM: Record<Comes, Piece["kind"]> = { sheets: "panel", boards: "board" };

/**
 * Of the parts of a group that come in sheets, in boards or in either: one sentence for each kind of remedy; pieces that the same offcuts or
 * parts give are told together. A part that is glued up of several boards is told board by board.
 */
export function spoiledInWords(kind: SetGroup["kind"], comes: readonly Comes[], input: Input): string[] {
  const offcuts: Heap = new Map();
  const larger: Heap = new Map();
  const fresh: Heap = new Map();
  const group = input.groups.find((one) => one.kind === kind);
  const kinds = comes.map((one) => CUT_FROM[one]);
  const own = input.pieces.filter((piece) => kinds.includes(piece.kind) && group?.parts.includes(piece.mark));
  for (const piece of own) {
    const remedy = remedyFor(piece, input);
    if (remedy === null) note(fresh, piece.kind === "panel" ? "sheet" : "board", piece.id);
    else if ("offcuts" in remedy) note(offcuts, `offcut ${choiceInWords(remedy.offcuts)}`, piece.id);
    else note(larger, choiceInWords(remedy.larger), piece.id);
  }
  const told = (heap: Heap): string =>
    [...heap].map(([from, ids]) => `${listInWords([...ids].sort(byMark))} from ${from}`).join("; ");
  return [
    ...(offcuts.size === 0 ? [] : [`If a part is spoiled, it can be cut again: ${told(offcuts)}.`]),
    ...(larger.size === 0
      ? []
      : [`No offcut gives these, but what is sound of a larger part that was spoiled may: ${told(larger)}.`]),
    ...[...fresh].map(
      ([bed, ids]) =>
        `Nothing that is left over gives ${listInWords([...ids].sort(byMark))}: spoiled, ${ids.length === 1 ? "it" : "each"} needs a fresh ${bed}, so cut with most care.`,
    ),
  ];
}

/** Layouts of sheets and boards: every piece once, whole inside its sheet or board and clear of its defects, a kerf between any two. */
import type { Mm } from "../../base/length.ts";
import { isSame } from "../../base/length.ts";
import type { DryfitSet, SetCheck, SetSheet } from "../../set/schema.ts";
import { TOUCH } from "../solids/boxes.ts";
import { amount, failureOf } from "../words.ts";

type Spot = { id: string; mark: string; x0: Mm; x1: Mm; y0: Mm; y1: Mm };

const spotOf = ({ id, mark, x, y, length, width, turned }: SetSheet["parts"][number]): Spot => ({
  id,
  mark,
  x0: x,
  x1: x + (turned ? width : length),
  y0: y,
  y1: y + (turned ? length : width),
});

export function checkLayouts(set: DryfitSet): SetCheck[] {
  return [
    ...checkOn(set, set.sheets, "sheet", ({ kind }) => kind === "panel"),
    ...checkOn(set, set.boards, "board", ({ kind }) => kind === "board"),
  ];
}

/** A set whose layouts are not planned yet has none. */
function checkOn(
  { pieces, job }: DryfitSet,
  laid: readonly SetSheet[],
  noun: "sheet" | "board",
  isCut: (piece: DryfitSet["pieces"][number]) => boolean,
): SetCheck[] {
  if (laid.length === 0) return [];
  const fault = (marks: readonly string[], text: string): SetCheck => failureOf("layout", marks, text);
  const missing = pieces.filter(isCut).flatMap((piece): SetCheck[] => {
    const found = laid.flatMap((one) => one.parts.filter(({ id }) => id === piece.id).map((part) => ({ one, part })));
    const [first] = found;
    if (found.length !== 1 || first === undefined)
      return [fault([piece.mark], `Piece ${piece.id} lies on ${found.length} ${noun}s. Change: cut it once.`)];
    const isLike = isSame(first.part.length, piece.length) && isSame(first.part.width, piece.width);
    if (isLike && first.one.stock === piece.stock) return [];
    return [
      fault(
        [piece.mark],
        `Piece ${piece.id} is cut ${amount(first.part.length, job)} x ${amount(first.part.width, job)} from ${first.one.stock}, not ${amount(piece.length, job)} x ${amount(piece.width, job)} from ${piece.stock}. Change: the layout.`,
      ),
    ];
  });
  const badly = laid.flatMap((one): SetCheck[] => {
    const spots = one.parts.map(spotOf);
    const out = spots.filter(
      ({ x0, x1, y0, y1 }) =>
        Math.min(x0, y0) < one.trim - TOUCH || x1 > one.length - one.trim + TOUCH || y1 > one.width - one.trim + TOUCH,
    );
    const close = spots.flatMap((a, i) =>
      spots
        .slice(i + 1)
        .filter((b) => {
          const apart = Math.max(b.x0 - a.x1, a.x0 - b.x1, b.y0 - a.y1, a.y0 - b.y1);
          return apart < one.kerf - TOUCH;
        })
        .map((b) => [a, b] as const),
    );
    const flawed = spots.filter(({ x0, x1, y0, y1 }) =>
      one.defects.some(
        ({ x, y, length, width }) =>
          x0 < x + length - TOUCH && x < x1 - TOUCH && y0 < y + width - TOUCH && y < y1 - TOUCH,
      ),
    );
    return [
      ...flawed.map(({ id, mark }) =>
        fault([mark], `Piece ${id} takes in a defect of ${noun} ${one.n}. Change: where it lies.`),
      ),
      ...out.map(({ id, mark }) =>
        fault([mark], `Piece ${id} lies partly outside ${noun} ${one.n}. Change: where it lies.`),
      ),
      ...close.map(([a, b]) =>
        fault(
          [a.mark, b.mark],
          `Pieces ${a.id} and ${b.id} lie less than a kerf of ${amount(one.kerf, job)} apart on ${noun} ${one.n}. Change: where one of them lies.`,
        ),
      ),
    ];
  });
  return [...missing, ...badly];
}

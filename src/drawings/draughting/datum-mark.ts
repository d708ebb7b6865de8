/** The mark of a datum on a part's view: a filled triangle, its base on the end or edge that goes against the fence or stop. */
import { isSame, type Mm } from "../../base/length.ts";
import { fill, polygonSteps } from "../../paper/draw.ts";
import type { Point, Rect, Shape } from "../../paper/shape.ts";
import type { Face, SetPart } from "../../set/schema.ts";
import { datumAt } from "../parts/datum.ts";
import type { OnPaper } from "../parts/part-axes.ts";
import type { Side } from "./dimension.ts";

/** Kept free beside a view for the mark. */
export const DATUM_SPACE: Mm = 3.6;
const DATUM_SIZE: Mm = 2.8;

/** The side of the view on which a datum lies. */
export function sideOfDatum(datum: Face, part: SetPart, paper: OnPaper, box: Rect): Side {
  const onL = datum[0] === "l";
  const at = onL ? paper.l(datumAt(part, datum)) : paper.w(datumAt(part, datum));
  return onL === (paper.lie === "lying") ? (at < box.width / 2 ? "left" : "right") : at < box.y / 2 ? "above" : "below";
}

/** Where along its end or edge a datum's triangle may stand, the first that has wood there. */
const ALONG: readonly number[] = [0.2, 0.05, 0.02, 0.8, 0.95, 0.98, 0.5, 0.35, 0.65];

/** Where on its run an end or edge was cut away, from face to face: a triangle there would float. */
const gapsIn = (part: SetPart, datum: Face): (readonly [Mm, Mm])[] => {
  const [i, j] = datum[0] === "l" ? ([0, 1] as const) : ([1, 0] as const);
  return part.features
    .filter(({ kind, box: [lo, hi] }) => {
      const isThere = datum[1] === "0" ? isSame(lo[i], 0) : isSame(hi[i], datumAt(part, datum));
      return (kind === "shape" || kind === "notch") && isThere;
    })
    .map(({ box: [lo, hi] }) => [lo[j], hi[j]] as const);
};

/** Along the side of the view, as a share of it from the end that the view has on its left or below. */
function placeAlong(datum: Face, part: SetPart, paper: OnPaper, box: Rect): number {
  const across = datum[0] === "l" ? "w" : "l";
  const isLevel = (datum[0] === "l") !== (paper.lie === "lying");
  const onPaper = (at: Mm): Mm => (across === "l" ? paper.l(at) : paper.w(at));
  const gaps = gapsIn(part, datum).map((gap) => gap.map(onPaper).sort((a, b) => a - b));
  const placeOf = (share: number): Mm => (isLevel ? box.x + box.width * share : box.y + box.height * (1 - share));
  const isWood = (share: number): boolean =>
    gaps.every(([from, to]) => {
      const at = placeOf(share);
      return at + DATUM_SIZE / 2 < from! || at - DATUM_SIZE / 2 > to!;
    });
  return ALONG.find(isWood) ?? ALONG[0]!;
}

const OUTWARDS: Record<Side, Point> = { left: [-1, 0], right: [1, 0], above: [0, -1], below: [0, 1] };

export function datumMark(datum: Face, part: SetPart, paper: OnPaper, box: Rect): Shape {
  const side = sideOfDatum(datum, part, paper, box);
  const half = DATUM_SIZE / 2;
  const along = placeAlong(datum, part, paper, box);
  const base: Point =
    side === "left" || side === "right"
      ? [side === "left" ? box.x : box.x + box.width, box.y + box.height * (1 - along)]
      : [box.x + box.width * along, side === "above" ? box.y : box.y + box.height];
  const out = OUTWARDS[side];
  return fill(
    0,
    polygonSteps([
      [base[0] + out[1] * half, base[1] + out[0] * half],
      [base[0] - out[1] * half, base[1] - out[0] * half],
      [base[0] + out[0] * DATUM_SIZE, base[1] + out[1] * DATUM_SIZE],
    ]),
  );
}

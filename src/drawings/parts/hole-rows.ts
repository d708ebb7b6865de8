/** The rows of holes drilled into a part, as its drawing dimensions and words them. */
import type { Mm } from "../../base/length.ts";
import { axisOfFace, isHigh, lippedAfter, sizeAlong } from "../../set/facing.ts";
import type { DryfitSet, Face, SetFeature, SetPart } from "../../set/schema.ts";

export type HoleRow = {
  features: number[];
  face: Face;
  count: number;
  diameter: Mm;
  depth: Mm;
  holds: string;
  datum: Face;
  first: Mm;
  /** 0: a hole alone. */
  pitch: Mm;
  edge: Face;
  distance: Mm;
  /** Every hole's middle, from the datum. */
  at: Mm[];
};

/** From an end or edge, as it is when the hole is drilled, to the hole's middle. */
function middleFrom(part: SetPart, face: Face, { box: [lo, hi] }: SetFeature): Mm {
  const axis = axisOfFace(face);
  const i = { l: 0, w: 1, t: 2 }[axis] as 0 | 1 | 2;
  const middle = (lo[i] + hi[i]) / 2;
  return (isHigh(face) ? sizeAlong(part, axis) - middle : middle) - lippedAfter(part, face);
}

/** The rows of a part as the drilling plan has them. */
export const holeRows = (set: DryfitSet, part: SetPart): HoleRow[] =>
  set.drilling.flatMap(({ diameter, depth, holds, rows }) =>
    rows
      .filter(({ mark }) => mark === part.mark)
      .map((row) => ({
        ...row,
        diameter,
        depth,
        holds,
        at: row.features.map((index) => middleFrom(part, row.datum, part.features[index]!)).sort((a, b) => a - b),
      })),
  );

/** So many holes are told one by one; more by their pitch. */
const FEW = 5;

export const isTold = ({ count }: Pick<HoleRow, "count">): boolean => count <= FEW;

/** The rows of holes drilled into a part, as its drawing dimensions and words them. */
import type { Mm } from "../../base/length.ts";
import type { DryfitSet, Face, SetPart } from "../../set/schema.ts";

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
};

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
      })),
  );

/** So many holes are told one by one; more by their pitch. */
export const FEW = 5;

export const isTold = ({ count }: Pick<HoleRow, "count">): boolean => count <= FEW;

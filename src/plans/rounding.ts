/** Rounding: how far the printed model lies from the exact one, and where most. */
import { AXES } from "../base/geometry.ts";
import { type Mm, SAME } from "../base/length.ts";
import type { Model } from "../model/model.ts";
import type { DryfitSet } from "../set/schema.ts";
import type { Marks } from "./parts.ts";

type Moved = { mark: string | null; what: string; by: Mm };

/** The largest rounding of any length or width, of the place of any end, edge or face, and of any joint's depth; mm. */
export function planRounding(exact: Model, printed: Model, marks: Marks): DryfitSet["rounding"] {
  const moved = [
    ...sizesOf(exact, printed, marks),
    ...facesOf(exact, printed, marks),
    ...depthsOf(exact, printed, marks),
  ].filter(({ by }) => by > SAME); // less is float noise
  const none: Moved = { mark: null, what: "nothing was rounded", by: 0 };
  const { by, mark, what } = moved.reduce((most, one) => (one.by > most.by ? one : most), none);
  return { largest: by, mark, what };
}

/** Both ends of a part may move inwards, so its length may lose more than either. */
const sizesOf = (exact: Model, printed: Model, marks: Marks): Moved[] =>
  exact.assemblies.flatMap((one, i) =>
    one.parts.flatMap(({ key, box }, j) => {
      const after = printed.assemblies[i]!.parts[j]!.box;
      return AXES.map((axis) => ({
        mark: marks.get(key)!,
        what: "the length or width of it",
        by: Math.abs(box[1][axis] - box[0][axis] - (after[1][axis] - after[0][axis])),
      }));
    }),
  );

const facesOf = (exact: Model, printed: Model, marks: Marks): Moved[] =>
  exact.assemblies.flatMap((one, i) =>
    one.parts.flatMap(({ key, box }, j) => {
      const after = printed.assemblies[i]!.parts[j]!.box;
      return AXES.flatMap((axis) =>
        ([0, 1] as const).map((side) => ({
          mark: marks.get(key)!,
          what: "an end or a face of it",
          by: Math.abs(box[side][axis] - after[side][axis]),
        })),
      );
    }),
  );

const depthsOf = (exact: Model, printed: Model, marks: Marks): Moved[] =>
  exact.assemblies.flatMap((one, i) =>
    one.joints.map(({ receiving, depth }, j) => ({
      mark: marks.get(receiving)!,
      what: "the depth of a groove in it",
      by: Math.abs(depth - printed.assemblies[i]!.joints[j]!.depth),
    })),
  );

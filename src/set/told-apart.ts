/** What tells a part from one that looks like it: the labels, the checks and whoever else says it say the same. */
import { type Mm, SAME } from "../base/length.ts";
import { handTolerance, isMirrored, isSameMade, isTurnedOnly, type Shape } from "./hand.ts";
import type { DryfitSet } from "./schema.ts";

/** Of the other, as seen from the one: its sizes where any differs, else that it is the mirror image, or is cut, finished or only marked otherwise. */
export type Difference =
  | { kind: "sizes"; sizes: string[] }
  | { kind: "mirror" }
  | { kind: "made" }
  | { kind: "marked" };

const SIZES = [
  ["length", "longer", "shorter"],
  ["width", "wider", "narrower"],
  ["thickness", "thicker", "thinner"],
] as const;

export const likenessTolerance = ({
  step,
  assemblies,
  stock,
}: Pick<DryfitSet, "assemblies" | "stock"> & { step: Mm }): Mm =>
  handTolerance(step, Math.max(...assemblies.map(({ fits }) => fits.allowance)), stock);

/**
 * A mirror image is equal in all but hand. `tolerance`: what differs by less in two sets of features is rounding and the fit allowance,
 * which lie to one side; where that makes no left and right, only a part that is mirrored to the last figure is a mirror image.
 */
export function differenceOf(one: Shape, other: Shape, tolerance: Mm, say: (length: Mm) => string): Difference {
  const sizes = SIZES.flatMap(([axis, more, less]) => {
    const by = other[axis] - one[axis];
    return Math.abs(by) < SAME ? [] : [`${say(Math.abs(by))} ${by > 0 ? more : less}`];
  });
  if (sizes.length > 0) return { kind: "sizes", sizes };
  if (isSameMade(one, other)) return { kind: "marked" };
  const isMirror =
    isMirrored(one, other, SAME) || (isMirrored(one, other, tolerance) && !isTurnedOnly(one, other, tolerance));
  return { kind: isMirror ? "mirror" : "made" };
}

/** In so many words: "1/8 longer", "mirror image", "other grooves". */
export function differenceInShort(difference: Difference): string {
  switch (difference.kind) {
    case "sizes":
      return difference.sizes.join(" and ");
    case "mirror":
      return "mirror image";
    case "made":
      return "other grooves";
    case "marked":
      return "other lines on it";
  }
}

/** As said before the mark of the one: "is 1/8 in longer than". */
export function differenceInWords(difference: Difference): string {
  switch (difference.kind) {
    case "sizes":
      return `is ${difference.sizes.join(" and ")} than`;
    case "mirror":
      return "is the mirror image of";
    case "made":
      return "has other grooves, notches or show faces than";
    case "marked":
      return "is made alike, but has other lines on it than";
  }
}

/** Lippings: panel and lippings together are the finished part, and each lipping is cut as a piece of its own, as long as its run. */
import { isSame, type Mm } from "../base/length.ts";
import type { DryfitSet, SetCheck, SetPart } from "../set/schema.ts";
import { amount, failure, nameOf } from "./words.ts";

/** What the lippings on the ends (l) or the edges (w) add to the panel. */
const addedTo = (part: SetPart, axis: "l" | "w"): Mm =>
  part.lippings.filter(({ edge }) => edge[0] === axis).reduce((sum, { thickness }) => sum + thickness, 0);

export function checkLippings(set: DryfitSet): SetCheck[] {
  const { job } = set;
  return set.parts.flatMap((part) => {
    const checks: SetCheck[] = [];
    const sizes = [
      ["length", part.length, part.cut.length, addedTo(part, "l")],
      ["width", part.width, part.cut.width, addedTo(part, "w")],
    ] as const;
    for (const [what, finished, cut, added] of sizes) {
      if (isSame(cut + added, finished)) continue;
      checks.push(
        failure(
          "lipping",
          [part],
          `The panel of ${nameOf(part)} is cut to a ${what} of ${amount(cut, job)}; with ${amount(added, job)} of lippings that makes ${amount(cut + added, job)}, not ${amount(finished, job)}. Change: cut the panel to ${amount(finished - added, job)}.`,
        ),
      );
    }
    const pieces = set.pieces.filter(({ mark, kind }) => mark === part.mark && kind === "lipping");
    for (const lipping of part.lippings) {
      const run = lipping.to - lipping.from;
      const own = pieces.findIndex(
        (piece) =>
          isSame(piece.thickness, lipping.thickness) &&
          isSame(piece.width, part.thickness) &&
          (piece.state === "final" ? isSame(piece.length, run) : piece.length >= run),
      );
      if (own >= 0) pieces.splice(own, 1);
      else
        checks.push(
          failure(
            "lipping",
            [part],
            `No piece is cut for the lipping on ${lipping.edge} of ${nameOf(part)}: ${amount(run, job)} x ${amount(part.thickness, job)} x ${amount(lipping.thickness, job)}. Change: cut one of that size.`,
          ),
        );
    }
    if (pieces.length > 0)
      checks.push(
        failure(
          "lipping",
          [part],
          `${pieces.map(({ id }) => id).join(", ")} of ${nameOf(part)} is cut as a lipping, but no lipping of that size is left. Change: leave the piece out.`,
        ),
      );
    return checks;
  });
}

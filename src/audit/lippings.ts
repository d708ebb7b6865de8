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
    checks.push(...checkCorners(part, job), ...checkName(part, set));
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

/** A lipping reaches from shoulder to shoulder: where its edge's corner is left open for it, it begins there and is no thicker or thinner. */
function checkCorners(part: SetPart, job: DryfitSet["job"]): SetCheck[] {
  return part.lippings.flatMap((lipping) => {
    const [run, across] = lipping.edge[0] === "l" ? ([1, 0] as const) : ([0, 1] as const);
    const size = [part.length, part.width] as const;
    const high = lipping.edge[1] === "1";
    const corners = part.features.filter(
      ({ lipping: isCorner, box }) =>
        isCorner && (high ? isSame(box[1][across], size[across]) : isSame(box[0][across], 0)),
    );
    const bounds = (at: "low" | "high"): Mm => {
      const own = corners.find(({ box }) => (at === "low" ? isSame(box[0][run], 0) : isSame(box[1][run], size[run])));
      if (own !== undefined) return at === "low" ? own.box[1][run] : own.box[0][run];
      const notch = part.features.find(
        ({ kind, box, lipping: isCorner }) =>
          kind === "notch" &&
          !isCorner &&
          (high ? isSame(box[1][across], size[across]) : isSame(box[0][across], 0)) &&
          (at === "low" ? isSame(box[0][run], 0) : isSame(box[1][run], size[run])),
      );
      if (notch !== undefined) return at === "low" ? notch.box[1][run] : notch.box[0][run];
      return at === "low" ? 0 : size[run];
    };
    const told: string[] = [];
    if (!isSame(lipping.from, bounds("low")))
      told.push(`begins at ${amount(lipping.from, job)}, not ${amount(bounds("low"), job)}`);
    if (!isSame(lipping.to, bounds("high")))
      told.push(`ends at ${amount(lipping.to, job)}, not ${amount(bounds("high"), job)}`);
    for (const { box } of corners) {
      const thick = box[1][across] - box[0][across];
      if (!isSame(thick, lipping.thickness))
        told.push(`is ${amount(lipping.thickness, job)} thick, but a corner is left open for ${amount(thick, job)}`);
    }
    if (told.length === 0) return [];
    return [
      failure(
        "lipping",
        [part],
        `The lipping on ${lipping.edge} of ${nameOf(part)} ${[...new Set(told)].join(", ")}. Change: from shoulder to shoulder, and the corners as long as it is thick.`,
      ),
    ];
  });
}

/** One lipping by one name: of one thickness in its case. */
function checkName(part: SetPart, set: DryfitSet): SetCheck[] {
  return part.lippings.flatMap(({ name, thickness, lipped }) => {
    const others = set.parts.filter(
      (other) =>
        other.assembly === part.assembly &&
        other.lippings.some(
          (each) => each.name === name && each.lipped === lipped && !isSame(each.thickness, thickness),
        ),
    );
    if (others.length === 0) return [];
    return [
      failure(
        "lipping",
        [part],
        `${name} is ${amount(thickness, set.job)} thick on ${nameOf(part)}, but not on ${others.map(nameOf).join(", ")}. Change: one thickness.`,
      ),
    ];
  });
}

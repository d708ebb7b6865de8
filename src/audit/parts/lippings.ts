/** Lippings: panel and lippings together are the finished part, and each lipping is cut as a piece of its own, as long as its run. */
import { isSame, type Mm, SAME } from "../../base/length.ts";
import type { DryfitSet, Face, SetCheck, SetFeature, SetLipping, SetPart } from "../../set/schema.ts";
import { amount, failure, nameOf } from "../words.ts";

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
    checks.push(
      ...part.lippings.flatMap((lipping) => [...checkRun(part, lipping, job), ...checkCutThrough(part, lipping, job)]),
      ...checkCorners(part),
      ...checkName(part, set),
    );
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

type Run = 0 | 1;

/** Of an end (l) or an edge (w): the axis it runs along, the one across it, and where it lies on that. */
function edgeOf(part: SetPart, edge: Face): { run: Run; across: Run; isAt: (box: SetFeature["box"]) => boolean } {
  const across: Run = edge[0] === "l" ? 0 : 1;
  const size = across === 0 ? part.length : part.width;
  return {
    run: across === 0 ? 1 : 0,
    across,
    isAt: ([lo, hi]) => (edge[1] === "1" ? isSame(hi[across], size) : isSame(lo[across], 0)),
  };
}

/** A lipping reaches from shoulder to shoulder: where its edge's corner is left open for it, it begins there and is no thicker or thinner. */
function checkRun(part: SetPart, lipping: SetLipping, job: DryfitSet["job"]): SetCheck[] {
  const { run, across, isAt } = edgeOf(part, lipping.edge);
  const size = run === 0 ? part.length : part.width;
  const corners = part.features.filter((feature) => feature.lipping && isAt(feature.box));
  const notches = part.features.filter(
    ({ kind, box, lipping: isCorner }) => kind === "notch" && !isCorner && isAt(box),
  );
  const endsAt = (high: boolean): Mm => {
    const own = [...corners, ...notches].find(({ box: [lo, hi] }) =>
      high ? isSame(hi[run], size) : isSame(lo[run], 0),
    );
    // Strips on the ends lie between those on the edges, which run past them.
    const past = lipping.edge[0] === "l" ? part.lippings.find(({ edge }) => edge === (high ? "w1" : "w0")) : undefined;
    if (own === undefined) return high ? size - (past?.thickness ?? 0) : (past?.thickness ?? 0);
    return high ? own.box[0][run] : own.box[1][run];
  };
  const told: string[] = [];
  const compare = (what: string, is: Mm, wanted: Mm): void => {
    if (!isSame(is, wanted)) told.push(`${what} ${amount(is, job)}, not ${amount(wanted, job)}`);
  };
  compare("begins at", lipping.from, endsAt(false));
  compare("ends at", lipping.to, endsAt(true));
  for (const { box } of corners)
    compare("has a corner left open for", lipping.thickness, box[1][across] - box[0][across]);
  if (told.length === 0) return [];
  return [
    failure(
      "lipping",
      [part],
      `The lipping on ${lipping.edge} of ${nameOf(part)} ${[...new Set(told)].join(", ")}. Change: from shoulder to shoulder, and the corners as long as it is thick.`,
    ),
  ];
}

/** A corner is left open for a lipping alone. */
function checkCorners(part: SetPart): SetCheck[] {
  const left = part.features.filter(
    ({ lipping, box }) => lipping && !part.lippings.some(({ edge }) => edgeOf(part, edge).isAt(box)),
  );
  if (left.length === 0) return [];
  const some = left.length === 1 ? "corner of" : "corners of";
  return [
    failure(
      "lipping",
      [part],
      `${left.length} ${some} ${nameOf(part)} ${left.length === 1 ? "is" : "are"} left open for a lipping that it does not have there. Change: the lipping, or the corner.`,
    ),
  ];
}

/** A groove stops at the back of a lipping: cut through it, its end would show. */
function checkCutThrough(part: SetPart, { edge, thickness, from, to }: SetLipping, job: DryfitSet["job"]): SetCheck[] {
  const { run, across } = edgeOf(part, edge);
  const size = across === 0 ? part.length : part.width;
  const [low, high] = edge[1] === "1" ? [size - thickness, size] : [0, thickness];
  const through = part.features.filter(
    ({ kind, box: [lo, hi] }) =>
      (kind === "groove" || kind === "rabbet") &&
      Math.min(hi[across], high) - Math.max(lo[across], low) > SAME &&
      Math.min(hi[run], to) - Math.max(lo[run], from) > SAME,
  );
  if (through.length === 0) return [];
  return [
    failure(
      "lipping",
      [part],
      `${through.length} ${through.length === 1 ? "groove cuts" : "grooves cut"} into the lipping on ${edge} of ${nameOf(part)}, the first at ${amount(through[0]!.at, job)}. Change: stop the groove at the lipping's back.`,
    ),
  ];
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

/** The figures as printed: whole steps, sizes that agree with stock and pieces, every part there once. */
import { isSame, type Mm, SAME } from "../../base/length.ts";
import type { DryfitSet, SetCheck, SetFeature, SetPart } from "../../set/schema.ts";
import { slicesOf } from "../solids/sockets.ts";
import { isRightHanded } from "../solids/solid.ts";
import { amount, failure, failureOf, nameOf } from "../words.ts";
import { checkLippings } from "./lippings.ts";

const isWholeSteps = (length: Mm, step: Mm): boolean => Math.abs(length - Math.round(length / step) * step) < SAME;

/** The lengths that rounding decides. Thicknesses and groove widths follow the measured stock and are never rounded. */
function roundedFigures(part: SetPart): [string, Mm][] {
  const features = part.features.flatMap((feature): [string, Mm][] => {
    const name = `of the ${feature.kind} on face ${feature.face}`;
    // Holes are set out row by row, and judged there.
    if (feature.kind === "hole") return [];
    // As the bit has it.
    if (feature.kind === "edge") return [];
    // A mortise by its two ends and how deep it goes; across, by the middle of the thickness.
    if (feature.kind === "mortise")
      return [
        [`start ${name}`, feature.from],
        [`end ${name}`, feature.to],
        [`depth ${name}`, feature.depth],
      ];
    // Set out across the part where the tails are widest; as deep as the other part is thick.
    if (feature.kind === "socket") return tipsOf(feature).map((at): [string, Mm] => [`wall ${name}`, at]);
    // A mitre is as deep as the part is thick.
    if (feature.kind === "mitre") return [];
    // A slot is set out by the middles of its round ends, as deep as the part is thick.
    if (feature.kind === "slot") {
      const end = feature.width / 2;
      return [
        [`start ${name}`, feature.from + end],
        [`end ${name}`, feature.to - end],
        [`middle ${name}`, feature.at + end],
      ];
    }
    const along: [string, Mm][] = [
      ...(isSetOut(part, feature, 0) ? [[`start ${name}`, feature.from] as [string, Mm]] : []),
      ...(isSetOut(part, feature, 1) ? [[`end ${name}`, feature.to] as [string, Mm]] : []),
      ...(isFitted(part, feature) ? [] : [[`depth ${name}`, feature.depth] as [string, Mm]]),
    ];
    // A notch's three sides are a blank's edge, the part's thickness and two cuts: those across the thickness are no figure to set.
    const inPlane = feature.along === "t" ? along.slice(-1) : along;
    // What the lipping leaves open at its end follows from the lipping's thickness, and is not cut.
    if (feature.lipping) return [];
    return isBehindLipping(part, feature) ? inPlane : [...inPlane, [`near wall ${name}`, nearWall(part, feature)]];
  });
  return [["length", part.length], ["width", part.width], ...features];
}

/** Where a socket's walls are in the plane that the tails end in: there those are widest, and what is between two of them is narrowest. */
function tipsOf(feature: SetFeature): Mm[] {
  const found = slicesOf(feature);
  if (found === null) return [];
  const [narrow, wide] = [...found.slices].sort((a, b) => a.to - a.from - (b.to - b.from));
  const tips = feature.axis === "t" ? narrow! : wide!;
  return [tips.from, tips.to];
}

/** The broad face that looks to the front; t0 where a part stands otherwise. */
const frontOf = ({ place }: SetPart): "t0" | "t1" => (place?.t === "-y" ? "t1" : "t0");

/**
 * Of two shoulders of one tongue the one at the front is set out, and the other cut until the tongue fits its groove; of two laps that
 * lie in each other the one at the front, and the other until the faces are flush.
 */
const isFitted = (part: SetPart, { kind, face, along, at, width }: SetFeature): boolean =>
  face !== frontOf(part) &&
  (kind === "lap" ||
    (kind === "shoulder" &&
      part.features.some(
        (one) =>
          one.kind === "shoulder" &&
          one.face === frontOf(part) &&
          one.along === along &&
          isSame(one.at, at) &&
          isSame(one.width, width),
      )));

/** A mortise in an edge is set out from the front face. */
const nearWall = (part: SetPart, { kind, at, width }: SetFeature): Mm =>
  kind === "stub mortise" && frontOf(part) === "t1" ? part.thickness - at - width : at;

/** A notch that goes on where the lipping ends begins there. */
const isBehindLipping = (part: SetPart, { kind, at }: SetFeature): boolean =>
  kind === "notch" && part.lippings.some(({ edge, thickness }) => edge.endsWith("0") && isSame(at, thickness));

/** A groove that ends in another, or at the back of a lipping, ends where those are: nobody measures it. */
function isSetOut(part: SetPart, feature: SetFeature, end: 0 | 1): boolean {
  if (feature.ends[end] === "open") return false;
  const size = feature.along === "l" ? part.length : part.width;
  const short = end === 0 ? feature.from : size - feature.to;
  return !part.lippings.some(({ edge, thickness }) => edge === `${feature.along}${end}` && isSame(thickness, short));
}

function checkSteps(set: DryfitSet): SetCheck[] {
  const { job } = set;
  return set.parts.flatMap((part) =>
    roundedFigures(part)
      .filter(([, length]) => !isWholeSteps(length, job.step))
      .map(([what, length]) =>
        failure(
          "whole-steps",
          [part],
          `The ${what} of ${nameOf(part)} is ${amount(length, job)}, which is no whole number of steps of ${amount(job.step, job)}. Change: round it to the step.`,
        ),
      ),
  );
}

function checkStock(set: DryfitSet): SetCheck[] {
  const { job } = set;
  return set.parts.flatMap((part) => {
    const stock = set.stock.find((each) => each.id === part.material);
    if (!stock)
      return failure(
        "stock",
        [part],
        `${nameOf(part)} is of a stock that the set does not hold: ${part.material}. Change: a stock of the job.`,
      );
    if (isSame(part.thickness, stock.thickness)) return [];
    // Packing is planed to what it fills, and judged where it lies.
    if (part.role === "packing" && stock.boards !== null && part.thickness < stock.boards.rough) return [];
    return failure(
      "stock",
      [part],
      `${nameOf(part)} is ${amount(part.thickness, job)} thick, but ${stock.name} measures ${amount(stock.thickness, job)}. Change: give the part the measured thickness, or another stock.`,
    );
  });
}

function checkPlaces(set: DryfitSet): SetCheck[] {
  return set.parts.flatMap((part) => {
    const checks: SetCheck[] = [];
    if (part.place && !isRightHanded(part.place)) {
      checks.push(
        failure(
          "place",
          [part],
          `The place of ${nameOf(part)} is left-handed (l ${part.place.l}, w ${part.place.w}, t ${part.place.t}): it would be the mirror image of the part that is cut. Change: turn one of its axes round.`,
        ),
      );
    }
    if (!set.assemblies.some((assembly) => assembly.name === part.assembly)) {
      checks.push(
        failure(
          "place",
          [part],
          `${nameOf(part)} belongs to no assembly of the set: ${part.assembly}. Change: an assembly of the job.`,
        ),
      );
    }
    return checks;
  });
}

function checkMarks(set: DryfitSet): SetCheck[] {
  const twice = (what: "mark" | "key"): SetCheck[] =>
    set.parts
      .filter((part, i) => set.parts.findIndex((other) => other[what] === part[what]) !== i)
      .map((part) =>
        failure(
          "marks",
          [part],
          `Two parts have the ${what} ${part[what]}, ${part.name} among them. Change: leave one of them out, or give it its own.`,
        ),
      );
  return [...twice("mark"), ...twice("key")];
}

/** A part is cut as a piece, finished to the part's own size; a piece without a part is a part forgotten. */
function checkPieces(set: DryfitSet): SetCheck[] {
  const { job } = set;
  const orphans = set.pieces
    .filter((piece) => !set.parts.some((part) => part.mark === piece.mark))
    .map(
      (piece): SetCheck =>
        failureOf(
          "pieces",
          [piece.mark],
          `Piece ${piece.id} is cut, ${amount(piece.length, job)} x ${amount(piece.width, job)}, but no part ${piece.mark} uses it. Change: put the part back, or leave the piece out.`,
        ),
    );
  const wrong = set.parts.flatMap((part) => {
    const pieces = set.pieces.filter((piece) => piece.mark === part.mark);
    if (pieces.length === 0)
      return failure("pieces", [part], `No piece is cut for ${nameOf(part)}. Change: add the piece.`);
    const boards = pieces.filter(({ kind }) => kind === "board");
    const glued = boards.reduce((sum, { width }) => sum + width, 0);
    if (boards.length > 1 && glued < part.cut.width - SAME)
      return failure(
        "pieces",
        [part],
        `The ${boards.length} boards of ${nameOf(part)} are ${amount(glued, job)} wide together, and it is ${amount(part.cut.width, job)}. Change: more boards, or wider ones.`,
      );
    return pieces
      .filter(({ kind }) => kind !== "lipping")
      .flatMap((piece) => {
        const isCut =
          piece.state === "final"
            ? isSame(piece.length, part.cut.length) && isSame(piece.width, part.cut.width)
            : piece.length >= part.cut.length - SAME && (boards.length > 1 || piece.width >= part.cut.width - SAME);
        // Rough boards are planed.
        const isThick =
          piece.kind === "board" ? piece.thickness >= part.thickness - SAME : isSame(piece.thickness, part.thickness);
        if (isCut && isThick && piece.stock === part.material) return [];
        return failure(
          "pieces",
          [part],
          `Piece ${piece.id} is ${amount(piece.length, job)} x ${amount(piece.width, job)} x ${amount(piece.thickness, job)} of ${piece.stock}, but ${nameOf(part)} is ${amount(part.cut.length, job)} x ${amount(part.cut.width, job)} x ${amount(part.thickness, job)} of ${part.material}. Change: cut the piece to the part's size, from its stock.`,
        );
      });
  });
  return [...orphans, ...wrong];
}

export const checkFigures = (set: DryfitSet): SetCheck[] => [
  ...checkMarks(set),
  ...checkPlaces(set),
  ...checkStock(set),
  ...checkPieces(set),
  ...checkLippings(set),
  ...checkSteps(set),
];

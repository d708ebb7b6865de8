/** Parts said to be interchangeable really are, and a part said to have no hand may really be made either way round. */
import type { AxisIndex } from "../../base/geometry.ts";
import { isSame, type Mm } from "../../base/length.ts";
import type { DryfitSet, Face, SetCheck, SetPart } from "../../set/schema.ts";
import { TOUCH } from "../solids/boxes.ts";
import { faceAxis, isHighFace, sizeOf } from "../solids/solid.ts";
import { amount, failure, nameAll, nameOf } from "../words.ts";

/** Which of the local axes a move turns round: half turns about one axis turn the two others, a mirror turns one. */
type Turn = readonly [boolean, boolean, boolean];
const HALF_TURNS: readonly Turn[] = [
  [false, false, false],
  [false, true, true],
  [true, false, true],
  [true, true, false],
];
const MIRRORED: readonly Turn[] = HALF_TURNS.map(([l, w, t]): Turn => [!l, w, t]);

/** What every feature of a part takes away after a turn: lower corner, then upper. */
function turnedFeatures(part: SetPart, [l, w, t]: Turn): Mm[][] {
  const { length, width, thickness } = part;
  return part.features.map(({ box: [lo, hi] }) => [
    l ? length - hi[0] : lo[0],
    w ? width - hi[1] : lo[1],
    t ? thickness - hi[2] : lo[2],
    l ? length - lo[0] : hi[0],
    w ? width - lo[1] : hi[1],
    t ? thickness - lo[2] : hi[2],
  ]);
}

/** Where its good faces and its lipped edges come to lie. */
function turnedShow(part: SetPart, turn: Turn): string {
  const turned = (face: Face): string => `${face[0]}${isHighFace(face) === turn[faceAxis(face)] ? 0 : 1}`;
  const lipped = part.lippings.map(({ edge, name, thickness }) => `${turned(edge)} ${name} ${thickness.toFixed(4)}`);
  return [...part.show.map(turned), ...lipped].sort().join(" ");
}

/** Whether a part, turned one of these ways, is the other to within so much. */
function turnsInto(part: SetPart, other: SetPart, turns: readonly Turn[], within: Mm): boolean {
  const wanted = turnedFeatures(other, HALF_TURNS[0]!);
  return turns.some((turn) => {
    const features = turnedFeatures(part, turn);
    const alike = (a: Mm[], b: Mm[]): boolean => a.every((x, i) => Math.abs(x - b[i]!) <= within);
    return (
      features.length === wanted.length &&
      features.every((feature) => wanted.some((each) => alike(feature, each))) &&
      wanted.every((feature) => features.some((each) => alike(feature, each))) &&
      turnedShow(part, turn) === turnedShow(other, HALF_TURNS[0]!)
    );
  });
}

const isInterchangeable = (a: SetPart, b: SetPart): boolean =>
  a.material === b.material &&
  sizeOf(a).every((size, i) => isSame(size, sizeOf(b)[i as AxisIndex])) &&
  turnsInto(a, b, HALF_TURNS, TOUCH);

/**
 * What makes no hand: a groove meant for the middle of a part lies off it by rounding (its wall, and the part's two ends, by a step each) and
 * by what it is wider than the part in it, for all of that lies at one wall.
 */
function playOf(set: DryfitSet, part: SetPart): Mm {
  const allowance = set.assemblies.find((assembly) => assembly.name === part.assembly)?.fits.allowance ?? 0;
  const spread = Math.max(0, ...set.stock.map((stock) => stock.thickest - stock.thickness));
  return 3 * set.job.step + allowance + spread;
}

export function checkLikeness(set: DryfitSet): SetCheck[] {
  const { job } = set;
  return set.parts.flatMap((part, i) => {
    const checks: SetCheck[] = [];
    const first = set.parts.findIndex((other) => other.pattern === part.pattern);
    const other = set.parts[first]!;
    if (first < i && !isInterchangeable(other, part)) {
      checks.push(
        failure(
          "pattern",
          [other, part],
          `${nameAll([other, part])} have one pattern, ${part.pattern}, and so one drawing, but are not alike in size, features and show faces. Change: give each its own pattern.`,
        ),
      );
    }
    const strangers = set.parts.filter((each) => part.same.includes(each.mark) && !isInterchangeable(each, part));
    if (strangers.length > 0) {
      checks.push(
        failure(
          "pattern",
          [part, ...strangers],
          `${nameOf(part)} is said to be the same as ${nameAll(strangers)}, but is not. Change: leave it out of the list.`,
        ),
      );
    }
    const play = playOf(set, part);
    if (part.hand === null && !turnsInto(part, part, MIRRORED, play + TOUCH)) {
      checks.push(
        failure(
          "hand",
          [part],
          `${nameOf(part)} is said to have no hand, but made the other way round it differs by more than ${amount(play, job)} however it is turned. Change: give it a hand.`,
        ),
      );
    }
    if (part.hand !== null && turnsInto(part, part, MIRRORED, TOUCH)) {
      checks.push(
        failure(
          "hand",
          [part],
          `${nameOf(part)} is said to be a ${part.hand} part, but its mirror image is the same part. Change: leave the hand out.`,
        ),
      );
    }
    return checks;
  });
}

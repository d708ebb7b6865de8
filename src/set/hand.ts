/** Hand and likeness, read off the finished parts: which are mirror images, which interchangeable, which easily confused. */
import { AXES, type Box, boxSize, boxToOuter, boxVolume, type Place, type Vec } from "../base/geometry.ts";
import { type Mm, SAME } from "../base/length.ts";
import type { Face, SetPart } from "./schema.ts";

export type Shape = Pick<
  SetPart,
  "role" | "material" | "length" | "width" | "thickness" | "features" | "show" | "lippings" | "lines" | "place"
>;

const AXIS_LETTERS = ["l", "w", "t"] as const;

/** Which local axes a move of the box turns round. Rotations of a box on to itself turn none or two of them; a mirror image turns one. */
type Turn = readonly [boolean, boolean, boolean];
const ROTATIONS: readonly Turn[] = [
  [false, false, false],
  [true, true, false],
  [true, false, true],
  [false, true, true],
];
const MIRROR: Turn = [false, false, true];

const turned = (value: Mm, size: Mm, turn: boolean): Mm => (turn ? size - value : value);
/** To a ten-thousandth. Halves of one, as 32nds of an inch have, go up whatever the float noise: else parts made alike would differ. */
const figure = (value: Mm): string => (Math.floor(value * 1e4 + 0.501) / 1e4).toFixed(4);

/** Features and show faces after a turn, in words that are equal where the shapes are. */
function describe(part: Shape, turn: Turn): string {
  const size: Vec = [part.length, part.width, part.thickness];
  const boxes = part.features.map(({ box: [lo, hi] }) =>
    AXES.map((axis) => {
      const ends = [turned(lo[axis], size[axis], turn[axis]), turned(hi[axis], size[axis], turn[axis])];
      return ends
        .sort((a, b) => a - b)
        .map(figure)
        .join("..");
    }).join(" "),
  );
  return [...boxes.sort(), describeShow(part, turn)].join("; ");
}

/** Show faces and lipped edges after a turn. */
function describeShow(part: Shape, turn: Turn): string {
  const turnedFace = (face: Face): string => {
    const axis = AXIS_LETTERS.indexOf(face[0] as "l" | "w" | "t");
    return `${face[0]}${turn[axis as 0 | 1 | 2] ? 1 - Number(face[1]) : face[1]}`;
  };
  const lipped = part.lippings.map(({ edge, name, thickness }) => `${turnedFace(edge)} ${name} ${figure(thickness)}`);
  return [...part.show.map(turnedFace), ...lipped].sort().join(" ");
}

const compose = (a: Turn, b: Turn): Turn => [a[0] !== b[0], a[1] !== b[1], a[2] !== b[2]];

const canonical = (part: Shape, before: Turn): string =>
  ROTATIONS.map((rotation) => describe(part, compose(before, rotation))).sort()[0]!;

const UNTURNED: Turn = [false, false, false];

/** What is drawn on it for others to be fixed to: parts that differ in it have a drawing each. */
const lineText = ({ lines }: Shape): string =>
  lines
    .map(({ face, along, at, from, to, points, bolt }) =>
      // Screws of slides follow from the slide's ends.
      [
        face,
        along,
        ...[at, from, to, ...(bolt === null ? [] : [...points, bolt.diameter, bolt.into])].map(figure),
      ].join(" "),
    )
    .join("; ");

/** Same shape and hand: interchangeable. Two parts with an equal pattern text need one drawing. A solid strip may be planed to a thickness of its own. */
export const patternText = (part: Shape): string =>
  [
    part.role,
    part.material,
    ...[part.length, part.width, part.thickness].map(figure),
    canonical(part, UNTURNED),
    lineText(part),
  ].join(" | ");

/** Features after a turn, as numbers that can be compared with a tolerance. */
function turnedBoxes(part: Shape, turn: Turn): Mm[][] {
  const size: Vec = [part.length, part.width, part.thickness];
  return part.features.map(({ box: [lo, hi] }) =>
    AXES.flatMap((axis) =>
      [turned(lo[axis], size[axis], turn[axis]), turned(hi[axis], size[axis], turn[axis])].sort((a, b) => a - b),
    ),
  );
}

function isSameShape(a: Shape, b: Shape, turn: Turn, tolerance: Mm): boolean {
  const boxes = turnedBoxes(b, turn);
  const near = (one: Mm[], other: Mm[]): boolean => one.every((value, i) => Math.abs(value - other[i]!) <= tolerance);
  const matched = turnedBoxes(a, UNTURNED).every((one) => boxes.some((other) => near(one, other)));
  return matched && describeShow(a, UNTURNED) === describeShow(b, turn);
}

/** A wall and both ends of its part may each lie a step off the middle, and the allowance and the spread of readings all lie to one side. */
export const handTolerance = (step: Mm, allowance: Mm, stock: readonly { thickness: Mm; thickest: Mm }[]): Mm =>
  3 * step + allowance + Math.max(...stock.map(({ thickness, thickest }) => thickest - thickness));

/** `tolerance`: features nearer to each other than this are the same to the hand, since rounding and the fit allowance make no left and right. */
export const isHanded = (part: Shape, tolerance: Mm): boolean =>
  !ROTATIONS.some((rotation) => isSameShape(part, part, compose(MIRROR, rotation), tolerance));

/**
 * Left or right, or null without a hand. A left side has its inside on the right, so for a side the hand is where it stands, and so for an outer stile and a door's; for any other
 * part it is the side, as seen from the front, on which more wood is taken away. Every measure here changes sign in a mirror.
 */
export function handOf(part: Shape, key: string, tolerance: Mm): "left" | "right" | null {
  if (!isHanded(part, tolerance) || part.place === null) return null;
  const standing = ["side", "stile", "doorStile", "drawerSide"].includes(part.role) ? /-(left|right)$/.exec(key) : null;
  if (standing !== null) return standing[1] as "left" | "right";
  const place: Place = part.place;
  const whole = boxToOuter(place, [
    [0, 0, 0],
    [part.length, part.width, part.thickness],
  ]);
  const boxes = part.features.map(({ box }) => boxToOuter(place, box));
  for (const measure of MOMENTS) {
    const sum = boxes.reduce((total, box) => total + boxVolume(box) * measure(offCentre(box, whole)), 0);
    if (Math.abs(sum) > 1e-3) return sum < 0 ? "left" : "right";
  }
  // Balanced in every way: the texts of the part and of its mirror image change places in a mirror, and so tell them apart.
  return canonical(part, UNTURNED) < canonical(part, MIRROR) ? "left" : "right";
}

const MOMENTS: readonly ((offset: Vec) => number)[] = [
  ([x]) => x,
  ([x, , z]) => x * z,
  ([x, y]) => x * y,
  ([x, y, z]) => x * y * z,
];

function offCentre(box: Box, whole: Box): Vec {
  const middle = (b: Box): Vec => [0, 1, 2].map((i) => b[0][i as 0] + boxSize(b)[i as 0] / 2) as unknown as Vec;
  const [a, c] = [middle(box), middle(whole)];
  return [a[0] - c[0], a[1] - c[1], a[2] - c[2]];
}

/** The mirror image of the other, to within `tolerance`: rounding and the fit allowance lie to one side in both. */
export const isMirrored = (a: Shape, b: Shape, tolerance: Mm): boolean =>
  isSameSize(a, b, tolerance) &&
  a.features.length === b.features.length &&
  ROTATIONS.some((rotation) => isSameShape(a, b, compose(MIRROR, rotation), tolerance));

/** The other itself, turned round, to within `tolerance`. */
export const isTurnedOnly = (a: Shape, b: Shape, tolerance: Mm): boolean =>
  isSameSize(a, b, tolerance) &&
  a.features.length === b.features.length &&
  ROTATIONS.some((rotation) => isSameShape(a, b, rotation, tolerance));

/** Equal in size, features and show faces, whatever the two are called. */
export const isSameMade = (a: Shape, b: Shape): boolean =>
  isSameSize(a, b, SAME) && canonical(a, UNTURNED) === canonical(b, UNTURNED);

/** The same in what is drawn on them for others to be fixed to, too: either will do. */
export const isInterchangeable = (a: Shape, b: Shape): boolean => isSameMade(a, b) && lineText(a) === lineText(b);

const isSameSize = (a: Shape, b: Shape, tolerance: Mm): boolean =>
  a.material === b.material &&
  (["length", "width", "thickness"] as const).every((size) => Math.abs(a[size] - b[size]) <= tolerance);

/** Alike but for less than this in each size (1/4 in), or alike but for features: easily taken for one another in a pile. */
export const LOOKS_ALIKE: Mm = 6.35;

export const looksAlike = (a: Shape, b: Shape): boolean =>
  a.material === b.material &&
  Math.abs(a.length - b.length) < LOOKS_ALIKE - SAME &&
  Math.abs(a.width - b.width) < LOOKS_ALIKE - SAME &&
  // Made alike, they may be taken for one another without harm.
  !isSameMade(a, b);

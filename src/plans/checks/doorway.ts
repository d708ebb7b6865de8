/** Doorway: whether each piece goes through the narrowest opening on the way to its place, and which way round. */
import type { Vec } from "../../base/geometry.ts";
import { type Mm, SAME, type Unit } from "../../base/length.ts";
import type { SetCheck } from "../../set/schema.ts";
import { type CheckInput, checkOf, PRACTICE, shown, tapeUp } from "./input.ts";
import { alikePieces, carriedPieces, type Piece } from "./piece.ts";

type Opening = { width: Mm; height: Mm };

/** Hands hold it, and paint stays on: common practice, no source. */
export const CLEAR: Mm = 20;

/**
 * Whether a rectangle p x q fits into an opening, turned in its plane by whatever angle it takes: upright, on its side, or tilted by its
 * diagonal (W. B. Carver, American Mathematical Monthly 64, 1957).
 */
export function fitsTilted(p: Mm, q: Mm, { width, height }: Opening): boolean {
  const [long, short] = p >= q ? [p, q] : [q, p];
  const [a, b] = width >= height ? [width, height] : [height, width];
  if (long <= a + SAME) return short <= b + SAME;
  if (short > b + SAME) return false;
  const diagonal = long ** 2 + short ** 2;
  return b >= (2 * long * short * a + (long ** 2 - short ** 2) * Math.sqrt(diagonal - a ** 2)) / diagonal - SAME;
}

/** Ways to carry a piece: the face that goes through the opening, as it stands in it, and how that is said. */
type Way = { across: Mm; up: Mm; words: string; tilted: boolean };

const waysOf = ([width, depth, height]: Vec): Omit<Way, "tilted">[] => [
  { across: depth, up: height, words: "standing, an end first" },
  { across: width, up: height, words: "standing, its front first" },
  { across: width, up: depth, words: "laid on its back, its top first" },
  { across: depth, up: width, words: "on end, its top first" },
  { across: height, up: depth, words: "laid on its back, an end first" },
  { across: height, up: width, words: "laid on an end, its front first" },
];

/** The first way that passes with room for hands: standing before lying, straight before tilted. */
export function wayThrough(size: Vec, opening: Opening): Way | null {
  const room: Opening = { width: opening.width - CLEAR, height: opening.height - CLEAR };
  const ways = waysOf(size);
  const straight = ways.find(({ across, up }) => across <= room.width + SAME && up <= room.height + SAME);
  if (straight !== undefined) return { ...straight, tilted: false };
  const tilted = ways.find(({ across, up }) => fitsTilted(across, up, room));
  return tilted === undefined ? null : { ...tilted, tilted: true };
}

/** The least face that a piece can go through an opening with. */
const leastFace = (size: Vec): readonly [Mm, Mm] => {
  const [a, b] = [...size].sort((x, y) => x - y) as [Mm, Mm, Mm];
  return [a, b];
};

const RULE = `a face of the piece goes through the opening, straight or tilted in its plane, ${CLEAR} mm to spare for hands (${PRACTICE})`;

export function checkDoorway(input: CheckInput): SetCheck[] {
  const { doorway, unit } = input;
  const show = (length: Mm): string => shown(length, unit);
  const pieces = alikePieces(carriedPieces(input));
  if (doorway === null) {
    const needs = pieces.map(({ name, piece, count }) => {
      const [a, b] = leastFace(piece.size).map((side) => tapeUp(side + CLEAR, unit));
      return `${name} ${isMany(piece, count) ? "need" : "needs"} ${show(a!)} by ${show(b!)} at the least`;
    });
    return [
      checkOf("doorway", "note", [], {
        text: `No doorway is given: ${needs.join("; ")}.`,
        rule: RULE,
        change: 'measure the narrowest opening on the way and give it as "doorway" in the project file',
      }),
    ];
  }
  return pieces.map(({ name, piece, count }) => {
    const way = wayThrough(piece.size, doorway);
    const opening = `the doorway of ${show(doorway.width)} by ${show(doorway.height)}`;
    if (way === null) {
      const [a, b] = leastFace(piece.size);
      return checkOf("doorway", "warning", [], {
        text: `${name}, ${sizeText(piece, show)}, ${isMany(piece, count) ? "do" : "does"} not go through ${opening}, whichever way turned: the least face is ${show(a)} by ${show(b)}.`,
        rule: RULE,
        change: "a case made in two, or put together where it will stand",
      });
    }
    const how = way.tilted ? `tilted in the opening, ${way.words}` : way.words;
    return checkOf("doorway", "ok", [], {
      text: `${name} ${isMany(piece, count) ? "go" : "goes"} through ${opening} ${how}: ${show(way.across)} by ${show(way.up)}.${standingUp(piece, way, unit)}`,
      rule: RULE,
    });
  });
}

const isMany = ({ assemblies }: Piece, count: number): boolean =>
  count > 1 || assemblies.filter(({ kind }) => kind === "case").length > 1;

const sizeText = ({ size }: Piece, show: (length: Mm) => string): string =>
  `${show(size[0])} wide, ${show(size[2])} high and ${show(size[1])} deep`;

/** What was laid down is stood up again over its lower edge, and then needs the diagonal of its side. */
function standingUp({ size }: Piece, { words }: Way, unit: Unit): string {
  if (words.startsWith("standing")) return "";
  const diagonal = words.includes("back") ? Math.hypot(size[1], size[2]) : Math.hypot(size[0], size[2]);
  return ` To be stood up again it needs ${shown(tapeUp(diagonal, unit), unit)} under the ceiling.`;
}

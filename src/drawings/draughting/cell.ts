/** What stands in a table or a note: words, lengths, marks and boxes, set in lines that wrap at a width. */
import { figureOf, formatDecimal, type Mm, type Unit } from "../../base/length.ts";
import { group, rect, text } from "../../paper/draw.ts";
import { measureText } from "../../paper/lettering.ts";
import type { GroupShape, Point, Shape, TextShape } from "../../paper/shape.ts";
import { drawLength } from "./figure.ts";
import { LEAST_TEXT, LINE_SPACING } from "./fitting.ts";
import { linkToPart } from "./part-link.ts";
import { typeset, unparted } from "./typeset.ts";

type Weight = TextShape["weight"];
export type Align = "start" | "middle" | "end";

export const TEXT: Mm = 2.8; // words in tables and notes
export const SMALL: Mm = LEAST_TEXT; // heads, second figures
export const FIGURE: Mm = 3.5; // what is read at the saw

/** Shapes measured from their own upper left corner; `baseline` is where their first line of text stands. */
export type Block = { width: Mm; height: Mm; baseline: Mm; shapes: Shape[] };

/** The smallest thing a line is made of. A drawn one stands on its baseline at its own origin. */
export type Atom =
  | {
      kind: "word";
      text: string;
      size: Mm;
      weight: Weight;
      grey: number;
      isFigure?: true;
      /** A part's mark, which leads to its drawing. */
      part?: string;
    }
  | {
      kind: "drawn";
      width: Mm;
      up: Mm;
      down: Mm;
      shapes: Shape[];
      /** A length, which a revision may change. */
      isFigure?: true;
      /** What it was glued of. */
      glued?: { atoms: readonly Atom[]; gap: number };
    }
  | { kind: "break" };

type Placed = Exclude<Atom, { kind: "break" }>;

const DESCENDER = 0.36; // of the capital height: the font's g and p, with a little air
const LINE_GAP = (LINE_SPACING - 1 - DESCENDER) * TEXT; // between one line's descenders and the next one's capitals
const FIGURE_GAP: Mm = 1; // between a stacked fraction and what stands over or under it
const LONGEST_WHOLE_WORD: Mm = 26; // a longer word may break inside rather than widen its column
const SHORTEST_BROKEN_WORD: Mm = 9; // narrower than this, a broken word is no longer read

const SLACK: Mm = 1e-6; // a column as wide as its word holds the word

export const BREAK: Atom = { kind: "break" };

export const word = (
  content: string,
  size: Mm = TEXT,
  weight: Weight = "regular",
  grey = 0,
): Extract<Atom, { kind: "word" }> => ({
  kind: "word",
  text: typeset(content),
  size,
  weight,
  grey,
});

export const words = (content: string, size: Mm = TEXT, weight: Weight = "regular", grey = 0): Atom[] =>
  unparted(typeset(content)).map((one) => word(one, size, weight, grey));

// A stacked fraction's bar half way up the whole number, its digits clear of it: in heights of the whole number, as figure.ts has them.
const FRACTION_BAR = 0.5;
const FRACTION_CLEAR = 0.18;
const FRACTION_DIGITS = 0.72;

/** A length on the line: a stacked fraction, or a decimal. */
export function figure(
  length: Mm,
  unit: Unit,
  size: Mm = FIGURE,
  weight: Weight = "regular",
  check: boolean = false,
): Atom {
  const options = { anchor: "start", weight, least: LEAST_TEXT, check } as const;
  const drawn = drawLength([0, 0], length, unit, size, options);
  const half = FRACTION_CLEAR * size + Math.max(FRACTION_DIGITS * size, LEAST_TEXT);
  const isStacked = isFraction(length, unit);
  return {
    kind: "drawn",
    width: drawn.width,
    up: isStacked ? FRACTION_BAR * size + half : size,
    down: isStacked ? half - FRACTION_BAR * size : size * DESCENDER,
    shapes: drawn.shapes,
    isFigure: true,
  };
}

function isFraction(length: Mm, unit: Unit): boolean {
  const figured = figureOf(length, unit);
  return figured.kind === "fraction" && figured.numerator !== 0;
}

/** A length in brackets: it says again what other figures say, to be checked by. */
export const checkFigure = (length: Mm, unit: Unit): Atom => figure(length, unit, FIGURE, "regular", true);

/** A length with its decimal beside it where it is a fraction: two pictures of one number are hard to misread alike. */
export const figureTwice = (length: Mm, unit: Unit, size: Mm = FIGURE, weight: Weight = "regular"): Atom[] =>
  isFraction(length, unit)
    ? [figure(length, unit, size, weight), { ...word(formatDecimal(length, unit), SMALL), isFigure: true }]
    : [figure(length, unit, size, weight)];

const TICK: Mm = 3.4;

/** A box to tick. */
export const tick = (): Atom => ({
  kind: "drawn",
  width: TICK,
  up: TICK - 0.2,
  down: 0.2,
  shapes: [rect("thin", { x: 0, y: 0.2 - TICK, width: TICK, height: TICK })],
});

/** A box to tick, and a part's mark. */
export const tickedMark = (mark: string): Atom =>
  glue([tick(), { ...word(mark, FIGURE, "bold"), part: mark } satisfies Atom]);

/** A box to write a figure in by hand. */
export const writeIn = (width: Mm): Atom => ({
  kind: "drawn",
  width,
  up: 4.4,
  down: 1.4,
  shapes: [rect("thin", { x: 0, y: -4.4, width, height: 5.8 })],
});

/** Atoms that no line end may part; `gap` in word spaces. */
export function glue(atoms: readonly Atom[], gap = 1): Atom {
  const parts = atoms.filter((atom): atom is Placed => atom.kind !== "break");
  const shapes: Shape[] = [];
  let x = 0;
  parts.forEach((atom, i) => {
    if (i > 0) x += gap * spaceBefore(atom);
    shapes.push(...shapesOf(atom, x));
    x += widthOf(atom);
  });
  return {
    kind: "drawn",
    width: x,
    up: Math.max(...parts.map(upOf)),
    down: Math.max(...parts.map(downOf)),
    shapes,
    glued: { atoms: parts, gap },
  };
}

const widthOf = (atom: Placed): Mm =>
  atom.kind === "word" ? measureText(atom.text, atom.size, atom.weight) : atom.width;
const upOf = (atom: Placed): Mm => (atom.kind === "word" ? atom.size : atom.up);
const downOf = (atom: Placed): Mm => (atom.kind === "word" ? atom.size * DESCENDER : atom.down);
const spaceBefore = (atom: Placed): Mm =>
  atom.kind === "word" ? measureText(" ", atom.size, atom.weight) : measureText(" ", TEXT, "regular");

const shapesOf = (atom: Placed, x: Mm): Shape[] =>
  atom.kind === "word"
    ? [
        text([x, 0], atom.text, atom.size, { weight: atom.weight, grey: atom.grey }),
        ...(atom.part === undefined
          ? []
          : [linkToPart(atom.part, { x, y: -atom.size, width: widthOf(atom), height: atom.size })]),
      ]
    : [group(atom.shapes, { move: [x, 0] })];

const least = (atoms: readonly Atom[], wholeWord: Mm): Mm =>
  Math.max(
    0,
    ...atoms.map((atom) =>
      atom.kind === "break" ? 0 : atom.kind === "word" ? Math.min(widthOf(atom), wholeWord) : atom.width,
    ),
  );

/** The narrowest column these atoms can stand in without breaking a word of common length. */
export const leastWidth = (atoms: readonly Atom[]): Mm => least(atoms, LONGEST_WHOLE_WORD);

/** The narrowest column they can stand in at all. */
export const floorWidth = (atoms: readonly Atom[]): Mm => least(atoms, SHORTEST_BROKEN_WORD);

/** The width at which nothing wraps. */
export const mostWidth = (atoms: readonly Atom[]): Mm =>
  Math.max(0, ...breakLines(atoms, Number.POSITIVE_INFINITY).map((line) => line.width));

type Line = { atoms: Placed[]; width: Mm };

/** A word in pieces that each fit the width, at least one letter each; a number and its unit, which stand as one word, parted first. */
function splitWord(atom: Extract<Atom, { kind: "word" }>, width: Mm): Placed[] {
  const apart = atom.text.split(" ");
  if (apart.length > 1) return apart.flatMap((one) => splitWord({ ...atom, text: one }, width));
  const pieces: string[] = [];
  let piece = "";
  for (const letter of atom.text) {
    if (piece !== "" && measureText(piece + letter, atom.size, atom.weight) > width) {
      pieces.push(piece);
      piece = "";
    }
    piece += letter;
  }
  return [...pieces, piece].map((content) => ({ ...atom, text: content }));
}

function breakLines(atoms: readonly Atom[], width: Mm): Line[] {
  const lines: Line[] = [];
  let line: Line = { atoms: [], width: 0 };
  const end = () => {
    lines.push(line);
    line = { atoms: [], width: 0 };
  };
  for (const atom of atoms) {
    if (atom.kind === "break") {
      end();
      continue;
    }
    const pieces = atom.kind === "word" && widthOf(atom) > width + SLACK ? splitWord(atom, width) : [atom];
    for (const piece of pieces) {
      const space = line.atoms.length === 0 ? 0 : spaceBefore(piece);
      if (line.atoms.length > 0 && line.width + space + widthOf(piece) > width + SLACK) end();
      line.width += (line.atoms.length === 0 ? 0 : space) + widthOf(piece);
      line.atoms.push(piece);
    }
  }
  if (line.atoms.length > 0) end();
  return lines;
}

// Taller or deeper than words: a stacked fraction or a box.
const TIGHT_UP: Mm = FIGURE + 0.1;
const TIGHT_DOWN: Mm = FIGURE * DESCENDER + 0.1;

/** Neighbouring words of one style as one text: it reads, and is found, as it was written. */
function joinWords(atoms: readonly Placed[]): Placed[] {
  const joined: Placed[] = [];
  for (const atom of atoms) {
    const last = joined.at(-1);
    const isLike =
      last?.kind === "word" &&
      atom.kind === "word" &&
      last.size === atom.size &&
      last.weight === atom.weight &&
      last.grey === atom.grey;
    if (isLike) joined[joined.length - 1] = { ...last, text: `${last.text} ${atom.text}` };
    else joined.push(atom);
  }
  return joined;
}

/** The atoms set in lines no wider than `width`. */
export function setLines(atoms: readonly Atom[], width: Mm, align: Align = "start"): Block {
  const shapes: Shape[] = [];
  let y = 0;
  let baseline = 0;
  let lastDown = 0;
  breakLines(atoms, width).forEach((line, i) => {
    const up = Math.max(0, ...line.atoms.map(upOf));
    const down = Math.max(0, ...line.atoms.map(downOf));
    const isTight = up > TIGHT_UP || lastDown > TIGHT_DOWN;
    if (i > 0) y += isTight ? FIGURE_GAP : LINE_GAP;
    if (i === 0) baseline = up;
    lastDown = down;
    let x = align === "start" ? 0 : align === "middle" ? (width - line.width) / 2 : width - line.width;
    const set: Shape[] = [];
    joinWords(line.atoms).forEach((atom, n) => {
      if (n > 0) x += spaceBefore(atom);
      set.push(...shapesOf(atom, x));
      x += widthOf(atom);
    });
    shapes.push(group(set, { move: [0, y + up] }));
    y += up + down;
  });
  return { width, height: y, baseline, shapes };
}

export const placeBlock = (block: Block, at: Point): GroupShape => group(block.shapes, { move: at });

/** Blocks one under the other. */
export function stackBlocks(blocks: readonly Block[], gap: Mm): Block {
  const shapes: Shape[] = [];
  let y = 0;
  blocks.forEach((block, i) => {
    if (i > 0) y += gap;
    shapes.push(placeBlock(block, [0, y]));
    y += block.height;
  });
  return {
    width: Math.max(0, ...blocks.map((block) => block.width)),
    height: y,
    baseline: blocks[0]?.baseline ?? 0,
    shapes,
  };
}

/** Blocks side by side, their tops level. */
export function besideBlocks(blocks: readonly Block[], gap: Mm): Block {
  const shapes: Shape[] = [];
  let x = 0;
  blocks.forEach((block, i) => {
    if (i > 0) x += gap;
    shapes.push(placeBlock(block, [x, 0]));
    x += block.width;
  });
  return {
    width: x,
    height: Math.max(0, ...blocks.map((block) => block.height)),
    baseline: blocks[0]?.baseline ?? 0,
    shapes,
  };
}

/** The block turned a quarter, to be read from the right. */
export const turnBlock = (block: Block): Block => ({
  width: block.height,
  height: block.width,
  baseline: block.width,
  shapes: [group(block.shapes, { move: [0, block.width], turn: 90 })],
});

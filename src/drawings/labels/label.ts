/**
 * One label, from its own upper left corner:
 *
 *     12  left side   [picture]   [QR code]
 *         A-7 rev. B
 *     30 x 12 x 0.703 in
 *     not 7 (1/8 in longer), inside face takes 3, 5
 */
import { formatLength, type Mm, type Unit } from "../../base/length.ts";
import { ProblemsFound } from "../../base/problem.ts";
import { group } from "../../paper/draw.ts";
import { measureText } from "../../paper/lettering.ts";
import type { Shape } from "../../paper/shape.ts";
import { dotOf, drawnSize, insetsOf, LABEL_EDGE, LABEL_TOP } from "../../set/label-page.ts";
import type { DryfitSet, SetPart } from "../../set/schema.ts";
import {
  type Atom,
  type Block,
  glue,
  leastWidth,
  mostWidth,
  placeBlock,
  setLines,
  stackBlocks,
  word,
  words,
} from "../draughting/cell.ts";
import { drawLength } from "../draughting/figure.ts";
import { lengthBars, wayUpDepth, wayUpWord } from "../draughting/way-up.ts";
import { cutRound, drawNarrow, narrowHeight } from "./label-narrow.ts";
import { drawPartPicture } from "./label-picture.ts";
import { drawQr } from "./label-qr.ts";
import { type Slice, sliceOf, triangle } from "./label-triangle.ts";
import { type LabelField, labelFields, labelName } from "./label-words.ts";

const CODE_EDGE: Mm = 0.5;
const GAP: Mm = 0.6;
const LEAST_GAP: Mm = 0.35;

const MARK_SHARE = 0.3; // of the label's height
const MOST_MARK: Mm = 14;
const LEAST_MARK: Mm = 6; // still read at arm's length
const SMALLEST_MARK: Mm = 4; // on a label that holds hardly more: as on the small label of a narrow part

/** Small print, largest first; the floor is what a 203 dpi label printer still letters clearly. */
const TEXT_SIZES: readonly Mm[] = [3.2, 2.8, 2.5, 2.2, 2, 1.8];
const LEAST_FIGURE: Mm = 2.5; // its fraction's digits are then 1.8
const LEAST_DECIMAL: Mm = 2.2;

const LEAST_PICTURE: Mm = 9; // wide, beside the name
const PICTURE_SHARES = [0.42, 0.34, 0.26]; // of the column, where the name leaves it
const TALL_PICTURE: Mm = 8.5; // the height at which the picture goes below the code or the words

type Room = { width: Mm; height: Mm };

export function drawLabel(set: DryfitSet, part: SetPart, said: string): Shape[] {
  const format = set.paper.labels;
  const label = drawnSize(format);
  const inset = insetsOf(format);
  const qr = drawQr(format, said);
  const dot = dotOf(format);
  const onDots = (at: Mm): Mm => (dot === null ? at : Math.floor(at / dot + 1e-6) * dot);
  const left = onDots(label.width - CODE_EDGE - qr.side);
  const room = { width: left - LABEL_EDGE, height: label.height - 2 * LABEL_TOP }; // the code brings its own white
  const below = label.height - qr.side - CODE_EDGE - LABEL_TOP;
  const isBelow = below >= TALL_PICTURE;
  const column = narrowColumn(set, part, room) ?? layOut(set, part, room, !isBelow);
  const top = onDots(isBelow ? CODE_EDGE : (label.height - qr.side) / 2);
  const picture = { x: left, y: CODE_EDGE + qr.side, width: qr.side - LABEL_EDGE, height: Math.min(below, qr.side) };
  const shapes = [
    group(column.shapes, { move: [LABEL_EDGE, LABEL_TOP] }),
    group(qr.shapes, { move: [left, top] }),
    ...(isBelow ? drawPartPicture(set, part, picture) : []),
  ];
  return inset.left + inset.top === 0 ? shapes : [group(shapes, { move: [inset.left, inset.top] })];
}

const NARROW_ADVICE = "narrow part: cut out along the line and stick that on; keep the rest";
const TOO_NARROW = "too narrow for a label: tie it on";

/** The small label of a narrow part, and under it what is said besides; null where the part has room for the whole label. */
function narrowColumn(set: DryfitSet, part: SetPart, room: Room): Block | null {
  const most = narrowHeight(part, set.paper.labels.label);
  if (most === null) return null;
  const width = room.width - GAP;
  const name = labelName(set, part);
  const small = drawNarrow(
    set,
    part,
    name,
    (digits) => sizeAtoms(set, part, digits, digits),
    width,
    Math.min(most - insetsOf(set.paper.labels).top, room.height) - LABEL_TOP,
  );
  if (small === null) return null;
  const { height } = small;
  const more: LabelField = { text: "see part page", bold: false };
  const untold = untoldOn(small, set, part, name);
  const fields = [...untold, { text: NARROW_ADVICE, bold: true }, ...labelFields(set, part)];
  const below = { width: room.width, height: room.height - height - 2 * GAP };
  // What stands nowhere else is given up last, and of that the name alone.
  const options = [
    fields,
    ...fields.slice(untold.length).map((_, i) => [...fields.slice(0, fields.length - 1 - i), more]),
    [...untoldOn(small, set, part, null), more],
  ];
  const rest = TEXT_SIZES.filter((size) => size <= 2.8)
    .flatMap((size) =>
      options.slice(0, size === TEXT_SIZES.at(-1) ? options.length : 1).map((some) => ({ size, some })),
    )
    .map(({ size, some }) => fieldsBlock({ room: below, size }, some))
    .find((block) => block.height <= below.height);
  if (rest === undefined && untold.length > 0) throw tooSmall(set, part);
  return {
    width: room.width,
    height: room.height,
    baseline: small.baseline,
    shapes: [
      ...small.shapes,
      group([cutRound(0, 0, width, height)], { move: [0, 0] }),
      ...(rest === undefined ? [] : [placeBlock(rest, [0, height + 2 * GAP])]),
    ],
  };
}

/** What the small label had no room for stands beside the code. */
function untoldOn(
  { isSized, isNamed }: { isSized: boolean; isNamed: boolean },
  { job }: DryfitSet,
  part: SetPart,
  name: string | null,
): LabelField[] {
  const issue = `rev. ${job.revision}`;
  const sides = [part.length, part.width, part.thickness].map((side) => formatLength(side, job.unit));
  return [
    ...(isNamed ? [] : [{ text: name === null ? issue : `${name}, ${issue}`, bold: true }]),
    ...(isSized ? [] : [{ text: `${sides.join(" \u00d7 ")} ${job.unit}`, bold: true }]),
  ];
}

/**
 * The largest print that fits; at the floor, fields are said shortly, then given up one by one and the label sends to the part's page, which
 * has the picture, too, and a name however long.
 */
function layOut(set: DryfitSet, part: SetPart, room: Room, isPictured: boolean): Block {
  const slice = sliceOf(set, part);
  const fields = [...tieOn(set, part), ...labelFields(set, part)];
  const name = labelName(set, part);
  const issue = `${set.job.number} rev. ${set.job.revision}`;
  const wanted = Math.min(MOST_MARK, Math.max(LEAST_MARK, MARK_SHARE * room.height));
  const floor = TEXT_SIZES.at(-1)!;
  for (const size of TEXT_SIZES) {
    for (const mark of size === floor ? [wanted, LEAST_MARK] : [wanted]) {
      const block = tryOut({ set, part, name, issue, room, mark, size, slice }, fields, isPictured);
      if (block !== null) return block;
    }
  }
  // The triangle goes before any word does: it wraps the line of the issue.
  const least: Column = { set, part, name, issue, room, mark: LEAST_MARK, size: floor, slice: null };
  const short = fields.map((field) => ({ ...field, text: field.short ?? field.text }));
  for (const some of [fields, short]) {
    const whole = tryOut(least, some, isPictured);
    if (whole !== null) return whole;
  }
  const more: LabelField = { text: "see part page", bold: false };
  for (let count = short.length - 1; count >= 0; count--) {
    const block = tryOut(least, [...short.slice(0, count), more], isPictured);
    if (block !== null) return block;
  }
  for (const short of shortened(name)) {
    const block = tryOut({ ...least, name: short, issue: `rev. ${set.job.revision}` }, [more], false);
    if (block !== null) return block;
  }
  return leastBlock({ ...least, issue: `rev. ${set.job.revision}` }, more);
}

/** The name, then with one letter less each time. */
function shortened(name: string): string[] {
  const letters = [...name];
  const cut = (count: number): string => `${letters.slice(0, count).join("").trimEnd()}\u2026`;
  return [name, ...letters.slice(1).map((_, i) => cut(letters.length - 1 - i))];
}

/** On the smallest labels: mark and revision, the size, and what still has room of the name and of the way to the rest. */
function leastBlock(column: Column, more: LabelField): Block {
  const { set, part, room, size, issue, name } = column;
  const sized = setLines(
    sizeAtoms(set, part, LEAST_FIGURE, size).map((atom) => tightened(atom, set.job.unit)),
    room.width,
  );
  const sent = fieldsBlock(column, [more]);
  const named = shortened(name).map((some) => setLines(words(some, size, "bold"), room.width));
  const isBroken = (mark: Mm): boolean =>
    leastWidth(words(issue, size)) > room.width - measureText(part.mark, mark, "bold") - 2 * GAP;
  const marks = [column.mark, SMALLEST_MARK].filter((mark) => !isBroken(mark));
  const choices = marks.flatMap((mark) => {
    const bare = { ...column, mark, name: "" };
    const marked = headBlock(bare, null);
    const sending = headBlock({ ...bare, issue: `${issue}, ${more.text}` }, null);
    return [...[...named, null].map((some) => [marked, some, sized, sent]), [sending, sized]];
  });
  const found = choices
    .map((blocks) =>
      stackBlocks(
        blocks.filter((block) => block !== null),
        LEAST_GAP,
      ),
    )
    .find(({ height }) => height <= room.height + 1e-6);
  if (found === undefined) throw tooSmall(set, part);
  return found;
}

/** Decimals need none of the room that a fraction's digits take above and below. */
const tightened = (atom: Atom, unit: Unit): Atom =>
  atom.kind === "drawn" && unit === "mm" ? { ...atom, up: LEAST_FIGURE, down: 0.22 * LEAST_FIGURE } : atom;

const tooSmall = ({ paper }: DryfitSet, part: SetPart): ProblemsFound =>
  new ProblemsFound([
    {
      level: "error",
      kind: "input",
      where: null,
      found: `part ${part.mark}: mark and size do not fit on a label of ${paper.labels.label.width} x ${paper.labels.label.height} mm`,
      expected: `a mark ${SMALLEST_MARK} mm high and the part's size beside the QR code`,
      remedy: "choose larger labels, or a shorter job number",
    },
  ]);

/** A part on which not even the small label has room. */
function tieOn(set: DryfitSet, part: SetPart): LabelField[] {
  const most = narrowHeight(part, set.paper.labels.label);
  const isTied = most !== null && drawNarrow(set, part, "", () => [], 20, most - LABEL_TOP) === null;
  return isTied ? [{ text: TOO_NARROW, bold: true, short: "tie it on" }] : [];
}

/** What is being tried: the room, the height of the mark and of the small print. */
type Column = {
  set: DryfitSet;
  part: SetPart;
  name: string;
  issue: string;
  room: Room;
  mark: Mm;
  size: Mm;
  slice: Slice | null;
};

function tryOut(column: Column, fields: LabelField[], isPictured: boolean): Block | null {
  const { room, set, part } = column;
  const body = [sizeBlock(column), fieldsBlock(column, fields)];
  const isFitting = (block: Block): boolean => block.height <= room.height + 1e-6;
  const head = headBlock(column, null);
  const plain = head === null ? null : stackBlocks([head, ...body], GAP);
  if (!isPictured) return plain !== null && isFitting(plain) ? plain : null;
  const below = plain === null ? 0 : room.height - plain.height - GAP;
  if (plain !== null && below >= TALL_PICTURE) {
    return stackBlocks([plain, pictureBlock(set, part, room.width, below)], GAP);
  }
  for (const share of PICTURE_SHARES) {
    const pictured = headBlock(column, share * room.width);
    const whole = pictured === null ? null : stackBlocks([pictured, ...body], GAP);
    if (whole !== null && isFitting(whole)) return whole;
  }
  return null;
}

/** The mark, beside it the name over job and revision, and the picture at the right; null where the name would break inside a word. */
function headBlock(
  { set, part, name: said, issue, room, mark, size, slice }: Column,
  pictured: Mm | null,
): Block | null {
  const markWidth = measureText(part.mark, mark, "bold");
  const name = said === "" ? [] : words(said, Math.max(size, Math.min(size + 0.3, 2.8)), "bold");
  const beside = room.width - markWidth - 2 * GAP;
  const picture = pictured === null ? 0 : Math.min(pictured, beside - leastWidth(name) - GAP);
  const nameWidth = beside - picture - (pictured === null ? 0 : GAP);
  if ((pictured !== null && picture < LEAST_PICTURE) || leastWidth(name) > nameWidth + 1e-6) return null;
  const issued = [...words(issue, size), ...(slice === null ? [] : [triangle(slice, TRIANGLE * size)])];
  const nameBlock = stackBlocks([setLines(name, nameWidth), setLines(issued, nameWidth)], GAP / 2);
  const marked = setLines([wayUpWord(part.mark, mark, "bold")], markWidth + 1);
  const height = Math.max(mark, marked.baseline + wayUpDepth(part.mark, mark), nameBlock.height);
  const box = { x: room.width - picture, y: 0, width: picture, height };
  return {
    width: room.width,
    height,
    baseline: mark,
    shapes: [
      placeBlock(marked, [0, 0]),
      placeBlock(nameBlock, [markWidth + 2 * GAP, 0]),
      ...(pictured === null ? [] : drawPartPicture(set, part, box)),
    ],
  };
}

const TRIANGLE = 1.8; // of the small print's height

const pictureBlock = (set: DryfitSet, part: SetPart, width: Mm, height: Mm): Block => ({
  width,
  height,
  baseline: height,
  shapes: drawPartPicture(set, part, { x: 0, y: 0, width, height }),
});

/** A fraction's digits may be smaller on a label than on a drawing; the rest of the figure is the same. */
function smallFigure(length: Mm, unit: Unit, size: Mm): Atom {
  const { shapes, width } = drawLength([0, 0], length, unit, size, { weight: "bold", least: TEXT_SIZES.at(-1)! });
  const half = 0.18 * size + Math.max(0.72 * size, TEXT_SIZES.at(-1)!); // from the fraction's bar outwards
  const bars = lengthBars(length, unit, size, "bold");
  return { kind: "drawn", width, up: 0.5 * size + half, down: half - 0.5 * size, shapes: [...shapes, ...bars] };
}

/** Length, width and thickness on one line where a size allows it. */
function sizeBlock({ set, part, room, size }: Column): Block {
  const { unit } = set.job;
  const sizes = TEXT_SIZES.filter((one) => one <= Math.max(size, LEAST_FIGURE)).filter(
    (one) => one >= (unit === "mm" ? LEAST_DECIMAL : LEAST_FIGURE),
  );
  const sides = (digits: Mm): Atom[] => sizeAtoms(set, part, digits, Math.min(size, digits));
  const digits = sizes.find((one) => mostWidth(sides(one)) <= room.width) ?? LEAST_FIGURE;
  return setLines(sides(digits), room.width);
}

function sizeAtoms({ job: { unit } }: DryfitSet, part: SetPart, digits: Mm, small: Mm): Atom[] {
  const side = (length: Mm): Atom => smallFigure(length, unit, digits);
  const times = word("\u00D7", digits);
  return [side(part.length), glue([times, side(part.width)]), glue([times, side(part.thickness), word(unit, small)])];
}

/** The fields in one running text, parted by dots that stay with the word before them. */
function fieldsBlock({ room, size }: Pick<Column, "room" | "size">, fields: LabelField[]): Block {
  const atoms = fields.flatMap((field, i): Atom[] => {
    const said = words(field.text, size, field.bold ? "bold" : "regular");
    const last = said.at(-1);
    return i === fields.length - 1 || last === undefined
      ? said
      : [...said.slice(0, -1), glue([last, word("\u00B7", size)])];
  });
  return setLines(atoms, room.width);
}

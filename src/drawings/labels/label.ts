/**
 * One label, from its own upper left corner:
 *
 *     12  left side   [picture]   [QR code]
 *         A-7 rev. B
 *     30 x 12 x 0.703 in
 *     not 7 (1/8 in longer), inside face takes 3, 5
 */
import type { Mm, Unit } from "../../base/length.ts";
import { group } from "../../paper/draw.ts";
import { measureText } from "../../paper/lettering.ts";
import type { Shape } from "../../paper/shape.ts";
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
import { drawPartPicture } from "./label-picture.ts";
import { drawQr } from "./label-qr.ts";
import { type LabelField, labelFields, labelName } from "./label-words.ts";

const EDGE: Mm = 1.6; // lettering keeps clear of the die cut at the sides
const TOP: Mm = 1.1; // above and below: the rows' creep of 0.5 mm, and a little
const CODE_EDGE: Mm = 0.5;
const GAP: Mm = 0.6;

const MARK_SHARE = 0.3; // of the label's height
const MOST_MARK: Mm = 14;
const LEAST_MARK: Mm = 6; // still read at arm's length

/** Small print, largest first; the floor is what a 203 dpi label printer still letters clearly. */
const TEXT_SIZES: readonly Mm[] = [3.2, 2.8, 2.5, 2.2, 2, 1.8];
const LEAST_FIGURE: Mm = 2.5; // its fraction's digits are then 1.8
const LEAST_DECIMAL: Mm = 2.2;

const LEAST_PICTURE: Mm = 9; // wide, beside the name
const PICTURE_SHARES = [0.42, 0.34, 0.26]; // of the column, where the name leaves it
const TALL_PICTURE: Mm = 8.5; // the height at which the picture goes below the code or the words

type Room = { width: Mm; height: Mm };

export function drawLabel(set: DryfitSet, part: SetPart, said: string): Shape[] {
  const { label } = set.paper.labels;
  const qr = drawQr(set.paper.labels, said);
  const left = label.width - CODE_EDGE - qr.side;
  const room = { width: left - EDGE, height: label.height - 2 * TOP }; // the code brings its own white
  const below = label.height - qr.side - CODE_EDGE - TOP;
  const isBelow = below >= TALL_PICTURE;
  const column = layOut(set, part, room, !isBelow);
  const top = isBelow ? CODE_EDGE : (label.height - qr.side) / 2;
  const picture = { x: left, y: CODE_EDGE + qr.side, width: qr.side - EDGE, height: Math.min(below, qr.side) };
  return [
    group(column.shapes, { move: [EDGE, TOP] }),
    group(qr.shapes, { move: [left, top] }),
    ...(isBelow ? drawPartPicture(set, part, picture) : []),
  ];
}

/**
 * The largest print that fits; at the floor, fields are said shortly, then given up one by one and the label sends to the part's page, which
 * has the picture, too, and a name however long.
 */
function layOut(set: DryfitSet, part: SetPart, room: Room, isPictured: boolean): Block {
  const fields = labelFields(set, part);
  const name = labelName(set, part);
  const issue = `${set.job.number} rev. ${set.job.revision}`;
  const wanted = Math.min(MOST_MARK, Math.max(LEAST_MARK, MARK_SHARE * room.height));
  const floor = TEXT_SIZES.at(-1)!;
  for (const size of TEXT_SIZES) {
    for (const mark of size === floor ? [wanted, LEAST_MARK] : [wanted]) {
      const block = tryOut({ set, part, name, issue, room, mark, size }, fields, isPictured);
      if (block !== null) return block;
    }
  }
  const least: Column = { set, part, name, issue, room, mark: LEAST_MARK, size: floor };
  const short = fields.map((field) => ({ ...field, text: field.short ?? field.text }));
  const shortened = tryOut(least, short, isPictured);
  if (shortened !== null) return shortened;
  const more: LabelField = { text: "see part page", bold: false };
  for (let count = short.length - 1; count >= 0; count--) {
    const block = tryOut(least, [...short.slice(0, count), more], isPictured);
    if (block !== null) return block;
  }
  const letters = [...name];
  for (let count = letters.length; count > 0; count--) {
    const short = count === letters.length ? name : `${letters.slice(0, count).join("").trimEnd()}\u2026`;
    const block = tryOut({ ...least, name: short, issue: `rev. ${set.job.revision}` }, [more], false);
    if (block !== null) return block;
  }
  throw new Error(`the label of part ${part.mark} does not hold its mark and size: choose larger labels`);
}

/** What is being tried: the room, the height of the mark and of the small print. */
type Column = { set: DryfitSet; part: SetPart; name: string; issue: string; room: Room; mark: Mm; size: Mm };

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
function headBlock({ set, part, name: said, issue, room, mark, size }: Column, pictured: Mm | null): Block | null {
  const markWidth = measureText(part.mark, mark, "bold");
  const name = words(said, Math.max(size, Math.min(size + 0.3, 2.8)), "bold");
  const beside = room.width - markWidth - 2 * GAP;
  const picture = pictured === null ? 0 : Math.min(pictured, beside - leastWidth(name) - GAP);
  const nameWidth = beside - picture - (pictured === null ? 0 : GAP);
  if ((pictured !== null && picture < LEAST_PICTURE) || leastWidth(name) > nameWidth + 1e-6) return null;
  const nameBlock = stackBlocks([setLines(name, nameWidth), setLines(words(issue, size), nameWidth)], GAP / 2);
  const height = Math.max(mark, nameBlock.height);
  const box = { x: room.width - picture, y: 0, width: picture, height };
  return {
    width: room.width,
    height,
    baseline: mark,
    shapes: [
      placeBlock(setLines([word(part.mark, mark, "bold")], markWidth + 1), [0, 0]),
      placeBlock(nameBlock, [markWidth + 2 * GAP, 0]),
      ...(pictured === null ? [] : drawPartPicture(set, part, box)),
    ],
  };
}

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
  return { kind: "drawn", width, up: 0.5 * size + half, down: half - 0.5 * size, shapes };
}

/** Length, width and thickness on one line where a size allows it. */
function sizeBlock({ set, part, room, size }: Column): Block {
  const { unit } = set.job;
  const sizes = TEXT_SIZES.filter((one) => one <= Math.max(size, LEAST_FIGURE)).filter(
    (one) => one >= (unit === "mm" ? LEAST_DECIMAL : LEAST_FIGURE),
  );
  const sides = (digits: Mm): Atom[] => {
    const side = (length: Mm): Atom => smallFigure(length, unit, digits);
    const times = word("\u00D7", digits);
    return [
      side(part.length),
      glue([times, side(part.width)]),
      glue([times, side(part.thickness), word(unit, Math.min(size, digits))]),
    ];
  };
  const digits = sizes.find((one) => mostWidth(sides(one)) <= room.width) ?? LEAST_FIGURE;
  return setLines(sides(digits), room.width);
}

/** The fields in one running text, parted by dots that stay with the word before them. */
function fieldsBlock({ room, size }: Column, fields: LabelField[]): Block {
  const atoms = fields.flatMap((field, i): Atom[] => {
    const said = words(field.text, size, field.bold ? "bold" : "regular");
    const last = said.at(-1);
    return i === fields.length - 1 || last === undefined
      ? said
      : [...said.slice(0, -1), glue([last, word("\u00B7", size)])];
  });
  return setLines(atoms, room.width);
}

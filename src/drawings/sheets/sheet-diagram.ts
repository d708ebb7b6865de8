/** A sheet to scale: parts with marks and sizes, numbered cuts, waste hatched, offcuts named. Its length, and grain, lies level, unless it stands. */
import type { Mm, Unit } from "../../base/length.ts";
import { fill, line, polygonSteps, rect, text } from "../../paper/draw.ts";
import { measureText } from "../../paper/lettering.ts";
import type { Point, Rect, Shape } from "../../paper/shape.ts";
import { keptSize } from "../../set/offcut.ts";
import type { SetSheet, SetStock } from "../../set/schema.ts";
import { type Atom, type Block, figure, glue, placeBlock, SMALL, TEXT, turnBlock, word } from "../draughting/cell.ts";
import { arrow } from "../draughting/dimension.ts";
import { hatch } from "../draughting/hatch.ts";
import { type Placed, placeItem, type Spot } from "../draughting/placing.ts";
import {
  asBlock,
  CLEAR,
  dotIn,
  dotRoom,
  type Lettered,
  letterInside,
  letterOutside,
  type Sizes,
} from "./sheet-marks.ts";
import { placeNumbers } from "./sheet-numbers.ts";
import { marginsOf, NOTHING, onPaper, type Paper, paperOf, partRect, stripsOf } from "./sheet-paper.ts";
import { piecesOf } from "./sheet-pieces.ts";

const HATCH: Mm = 1.6;
const ARROW: Mm = 20;
const SHORT_ARROW: Mm = 6; // upright, in the margin over the sheet
const NARROW: Mm = 7; // room for one line of lettering

/** What is lettered on a part, the fullest first: one mark, or one for each of the sheets cut alike, or the first and how many more. */
export type Lettering = { idsOf: (index: number) => string[]; unit: Unit; stock: SetStock; stands?: boolean };

/**
 * `outside`: how many are not lettered in themselves; `shortened`: some part has only its first mark; `without`: first marks
 * of what found no room for any.
 */
export type SheetDiagram = { block: Block; outside: number; shortened: boolean; without: string[] };

/** The rectangle less others, as rectangles: strips between the others' edges. */
function withoutRects(whole: Rect, taken: readonly Rect[]): Rect[] {
  const within = (v: Mm): boolean => v > whole.x && v < whole.x + whole.width;
  const xs = [whole.x, whole.x + whole.width, ...taken.flatMap((box) => [box.x, box.x + box.width]).filter(within)];
  const sorted = [...new Set(xs)].sort((a, b) => a - b);
  return sorted.slice(0, -1).flatMap((x, i) => {
    const width = sorted[i + 1]! - x;
    const middle = x + width / 2;
    const column = taken.filter((box) => box.x < middle && middle < box.x + box.width).sort((a, b) => a.y - b.y);
    const free: Rect[] = [];
    let y = whole.y;
    for (const box of column) {
      if (box.y > y) free.push({ x, y, width, height: box.y - y });
      y = Math.max(y, box.y + box.height);
    }
    if (y < whole.y + whole.height) free.push({ x, y, width, height: whole.y + whole.height - y });
    return free;
  });
}

/** At the top left, where it keeps clear of the numbers; of a sheet that stands its arrow is upright. */
function drawGrain(paper: Paper, stock: SetStock, stands: boolean): { shapes: Shape[]; box: Rect } {
  const y = paper.box.y - 3.6;
  const { x } = paper.box;
  const content = stock.grain ? "grain" : "no grain: parts may be turned";
  const width = measureText(content, SMALL, "regular");
  const grain = !stock.grain ? null : stands ? uprightArrow([x, y]) : levelArrow([x, y]);
  const start = x + (grain?.width ?? 0);
  return {
    shapes: [text([start, y + SMALL / 2], content, SMALL), ...(grain?.shapes ?? [])],
    box: { x, y: y - SMALL / 2, width: start - x + width, height: SMALL * 1.36 },
  };
}

type Arrow = { shapes: Shape[]; width: Mm };

function levelArrow([x, y]: Point): Arrow {
  const tip = (at: Mm, into: 1 | -1): Shape =>
    fill(
      0,
      polygonSteps([
        [at, y],
        [at + into * 2.2, y - 0.7],
        [at + into * 2.2, y + 0.7],
      ]),
    );
  return { shapes: [line("thin", [x, y], [x + ARROW, y]), tip(x, 1), tip(x + ARROW, -1)], width: ARROW + 2 };
}

function uprightArrow([x, y]: Point): Arrow {
  const over: Point = [x + 1, y - SHORT_ARROW / 2];
  const under: Point = [x + 1, y + SHORT_ARROW / 2];
  return { shapes: [line("thin", over, under), arrow(under, over), arrow(over, under)], width: 4 };
}

/** The names of strips beside them. */
function letterStrips(sheet: SetSheet, paper: Paper): { shapes: Shape[]; placed: Placed[] } {
  const named = stripsOf(sheet).filter(({ width }) => width * paper.ratios.across >= 3.4);
  const at = (piece: { y: Mm; width: Mm }): Mm => paper.y(piece.y + piece.width / 2) + SMALL / 2;
  const x = paper.box.x - 1.2;
  return {
    shapes: named.map((piece) => text([x, at(piece)], piece.name, SMALL, { anchor: "end" })),
    placed: named.map((piece) => {
      const width = measureText(piece.name, SMALL, "regular");
      return { box: { x: x - width, y: at(piece) - SMALL, width, height: SMALL }, block: NOTHING };
    }),
  };
}

const PIECE_INSET: Mm = 1; // of a piece's name from its left end

/**
 * The names of strips that begin inside the sheet, at their left ends, where nothing else stands. A piece that is divided
 * into strips has no name here: it would be read as one of them.
 */
function letterPieces(sheet: SetSheet, paper: Paper, taken: readonly Placed[]): Shape[] {
  const pieces = piecesOf(sheet);
  const names = new Set(pieces.map(({ name }) => name));
  const isDivided = (name: string): boolean =>
    sheet.cuts.some((cut) => cut.piece === name && cut.makes.some((made) => made !== name && names.has(made)));
  const beside = new Set(stripsOf(sheet).map(({ name }) => name));
  const placed = [...taken, ...sheet.parts.flatMap((part) => edgesOf(onPaper(paper, partRect(part))))];
  const shapes: Shape[] = [];
  for (const piece of pieces) {
    if (beside.has(piece.name) || isDivided(piece.name)) continue;
    const level = asBlock([word(piece.name, SMALL)]);
    const box = onPaper(paper, piece);
    const forms = [level, turnBlock(level)].map((block, i) => ({ block, spots: endSpots(box, block, i) }));
    const found = placeItem({ forms }, placed);
    if (found === null) continue;
    placed.push(found);
    beside.add(piece.name); // once, as first made
    shapes.push(placeBlock(found.block as Block, [found.box.x, found.box.y]));
  }
  return shapes;
}

/** The edges of a part, as what a name keeps clear of: it may lie in a piece, and never across what the piece is cut to. */
const edgesOf = ({ x, y, width, height }: Rect): Placed[] =>
  [
    ...[y, y + height].map((at) => ({ x: x + CLEAR, y: at, width: width - 2 * CLEAR, height: 0 })),
    ...[x, x + width].map((at) => ({ x: at, y: y + CLEAR, width: 0, height: height - 2 * CLEAR })),
  ].map((box) => ({ box, block: NOTHING }));

/** Along the left end of a piece, its middle first. */
function endSpots(box: Rect, block: Block, cost: number): Spot[] {
  const room = box.height - block.height - 2 * CLEAR;
  if (room < 0 || block.width + PIECE_INSET > box.width) return [];
  return [0.5, 0.25, 0.75, 0.1, 0.9].map((share, i) => ({
    x: box.x + PIECE_INSET,
    y: box.y + CLEAR + room * share,
    cost: cost * 5 + i,
  }));
}

/** With the margins round the sheet; its upper left corner at the origin. `across`: the scale of widths, where they are drawn larger. */
export function drawSheetDiagram(sheet: SetSheet, ratio: number, lettering: Lettering, across = ratio): SheetDiagram {
  const margins = marginsOf(sheet);
  const paper = paperOf(sheet, { along: ratio, across });
  const { box } = paper;
  const { stands = false } = lettering;
  const parts = sheet.parts.map((part) => onPaper(paper, partRect(part)));
  const offcuts = sheet.offcuts.map((offcut) => onPaper(paper, offcut));
  const grain = drawGrain(paper, lettering.stock, stands);
  const sizeAt = ({ length, width }: { length: Mm; width: Mm }, size: Mm): Atom =>
    glue([figure(length, lettering.unit, size), word("\u00d7", size), figure(width, lettering.unit, size)]);
  const sizesOf = (piece: { length: Mm; width: Mm }): Sizes => ({
    usual: sizeAt(piece, TEXT),
    small: sizeAt(piece, SMALL),
  });
  const asBought = ({ length, width }: { length: Mm; width: Mm }): { length: Mm; width: Mm } =>
    stands ? { length: width, width: length } : { length, width };
  const letters: Shape[] = [];
  const without: string[] = [];
  let shortened = false;
  let outside = 0;
  // The smallest has the fewest places: it chooses first.
  const order = [
    ...sheet.parts.map((part, i) => ({ ids: lettering.idsOf(i), sizes: sizesOf(part), box: parts[i]! })),
    ...sheet.offcuts.map((offcut, i) => ({
      ids: [offcut.id],
      sizes: sizesOf(keptSize(asBought(offcut), lettering.unit)),
      box: offcuts[i]!,
    })),
  ].sort((a, b) => a.box.width * a.box.height - b.box.width * b.box.height);
  const note = (lettered: Lettered | null, ids: readonly string[]): void => {
    letters.push(...(lettered?.shapes ?? []));
    if (lettered === null || !lettered.isInside) outside += 1;
    if (lettered === null) without.push(ids.at(-1)!);
    else shortened ||= lettered.id !== ids[0];
  };
  // A narrow strip has room for its mark or for the number of a cut beside it: the mark comes first, the number has other places.
  const strips = letterStrips(sheet, paper);
  const placed: Placed[] = [{ box: grain.box, block: NOTHING }, ...strips.placed];
  const isNarrow = (one: { box: Rect }): boolean => Math.min(one.box.width, one.box.height) <= NARROW;
  const later = order.filter((one) => {
    if (!isNarrow(one)) return true;
    const { ids, sizes, box: own } = one;
    const lettered = letterInside(ids, sizes, own, placed);
    if (lettered !== null) note(lettered, ids);
    return lettered === null;
  });
  const dots = later.filter(isNarrow).map(({ box: own }) => dotRoom(dotIn(own, placed)));
  const numbers = placeNumbers(sheet, paper, [...placed, ...dots]);
  placed.push(...numbers.placed.slice(placed.length + dots.length));
  for (const { ids, sizes, box: own } of later) {
    note(letterInside(ids, sizes, own, placed) ?? letterOutside(ids, own, paper, placed), ids);
  }
  const defects = sheet.defects.map((defect) => onPaper(paper, defect));
  const waste = withoutRects(box, [...parts, ...offcuts]).filter(({ width, height }) => Math.min(width, height) > 0.3);
  const pieces = letterPieces(sheet, paper, [...placed, ...waste.map((one) => ({ box: one, block: NOTHING }))]);
  const block: Block = {
    width: margins.left + box.width + margins.right,
    height: margins.top + box.height + margins.bottom,
    baseline: margins.top,
    shapes: [
      hatch(waste, "rising", HATCH),
      hatch(defects, "falling", HATCH),
      ...offcuts.map((offcut) => rect("thin", offcut)),
      ...parts.map((part) => rect("outline", part)),
      rect("outline", box),
      ...numbers.shapes,
      ...letters,
      ...pieces,
      ...strips.shapes,
      ...grain.shapes,
    ],
  };
  return { block, outside, shortened, without };
}

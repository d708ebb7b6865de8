/** A sheet to scale: parts with marks and sizes, numbered cuts, waste hatched, offcuts named. Its length, and grain, lies level. */
import type { Mm, Unit } from "../../base/length.ts";
import { fill, line, polygonSteps, rect, text } from "../../paper/draw.ts";
import { measureText } from "../../paper/lettering.ts";
import type { Point, Rect, Shape } from "../../paper/shape.ts";
import type { SetSheet, SetStock } from "../../set/schema.ts";
import { balloonRadius, drawBalloon } from "../draughting/balloon.ts";
import {
  type Atom,
  type Block,
  BREAK,
  figure,
  glue,
  mostWidth,
  placeBlock,
  SMALL,
  setLines,
  TEXT,
  turnBlock,
  word,
} from "../draughting/cell.ts";
import { hatch } from "../draughting/hatch.ts";
import { type Placed, placeItem, type Spot } from "../draughting/placing.ts";
import { piecesOf, type SheetPiece } from "./sheet-pieces.ts";

const HATCH: Mm = 1.6;
const ARROW: Mm = 20;
const NOTHING = { width: 0, height: 0, shapes: [] };
const NUMBER: Mm = SMALL; // of a cut, in its circle
const NUMBER_RADIUS: Mm = balloonRadius("88", NUMBER);
/** Two rows of numbers beyond an edge, where cuts lie close. */
const NUMBER_ROWS: Mm = 4 * NUMBER_RADIUS + 2;
const TOP: Mm = 7; // grain, one row of numbers

/** Room round the sheet: strip names at the left, grain at the top, numbers at the right and below. */
export const marginsOf = (sheet: SetSheet): { left: Mm; right: Mm; top: Mm; bottom: Mm } => ({
  left: 3 + Math.max(0, ...stripsOf(sheet).map(({ name }) => measureText(name, SMALL, "regular"))),
  right: NUMBER_ROWS,
  top: TOP,
  bottom: NUMBER_ROWS,
});

/** The pieces that begin at the sheet's left edge; a piece cut from one of them again stands in its place without a name. */
function stripsOf(sheet: SetSheet): SheetPiece[] {
  const strips: SheetPiece[] = [];
  for (const piece of piecesOf(sheet)) {
    const isAtEdge = piece.x <= sheet.trim + sheet.kerf;
    const overlaps = strips.some((one) => piece.y < one.y + one.width && one.y < piece.y + piece.width);
    if (isAtEdge && !overlaps) strips.push(piece);
  }
  return strips;
}

/** What is lettered on a part, the fullest first: one mark, or one for each of the sheets cut alike, or the first and how many more. */
export type Lettering = { idsOf: (index: number) => string[]; unit: Unit; stock: SetStock };

/**
 * `outside`: how many are not lettered in themselves; `shortened`: some part has only its first mark; `without`: first marks
 * of what found no room for any.
 */
export type SheetDiagram = { block: Block; outside: number; shortened: boolean; without: string[] };

type Paper = { box: Rect; x: (x: Mm) => Mm; y: (y: Mm) => Mm; ratio: number };

const onPaper = (paper: Paper, at: { x: Mm; y: Mm; length: Mm; width: Mm }): Rect => ({
  x: paper.x(at.x),
  y: paper.y(at.y + at.width),
  width: at.length * paper.ratio,
  height: at.width * paper.ratio,
});

const partRect = (part: SetSheet["parts"][number]) => ({
  x: part.x,
  y: part.y,
  length: part.turned ? part.width : part.length,
  width: part.turned ? part.length : part.width,
});

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

/** A number on each cut: beyond the sheet's edge where the cut reaches it, on the line otherwise. */
function placeNumbers(sheet: SetSheet, paper: Paper, taken: readonly Placed[]): { shapes: Shape[]; placed: Placed[] } {
  const placed: Placed[] = [...taken];
  const leaders: Shape[] = [];
  const balloons: Shape[] = [];
  for (const cut of sheet.cuts) {
    const label = String(cut.n);
    const radius = balloonRadius(label, NUMBER);
    const at = cut.at + sheet.kerf / 2;
    const isLevel = cut.across === "y";
    const point = (along: Mm, beyond = 0): Point =>
      isLevel ? [paper.x(along) + beyond, paper.y(at)] : [paper.x(at), paper.y(along) - beyond];
    const ends: { spot: Point; reach: Point; cost: number }[] = [];
    const out = radius + 1.2;
    const edge = isLevel ? sheet.length : sheet.width;
    for (const [row, cost] of [
      [0, 0],
      [2 * radius + 0.8, 1],
    ] as const) {
      // Level cuts are numbered at the right, for strip names stand at the left; upright ones below, then above.
      if (isLevel && edge - cut.to <= sheet.trim + 1)
        ends.push({ spot: point(edge, out + row), reach: point(cut.to), cost });
      if (!isLevel && cut.from <= sheet.trim + 1)
        ends.push({ spot: point(0, -out - row), reach: point(cut.from), cost });
      if (!isLevel && row === 0 && edge - cut.to <= sheet.trim + 1) {
        ends.push({ spot: point(edge, out), reach: point(cut.to), cost: 0.5 });
      }
    }
    // On the line, near an end of it: the middle is where the sizes of the parts beside it stand.
    const aside = Math.min(0.5, (radius + 0.6) / paper.ratio / (cut.to - cut.from));
    const inside = [aside, 1 - aside, 0.5, 0.3, 0.7].map((share, i) => {
      const spot = point(cut.from + (cut.to - cut.from) * share);
      return { spot, reach: spot, cost: 10 + i };
    });
    const spots: (Spot & { reach: Point })[] = [...ends, ...inside].map(({ spot, reach, cost }) => ({
      x: spot[0] - radius,
      y: spot[1] - radius,
      cost,
      reach,
    }));
    const found = placeItem(
      { forms: [{ block: { ...NOTHING, width: 2 * radius, height: 2 * radius }, spots }] },
      placed,
    );
    // Where every place is taken, the number stands on its line all the same: a cut without one could not be followed.
    const spot = spots.find(({ x, y }) => found !== null && x === found.box.x && y === found.box.y) ?? spots[0]!;
    const centre: Point = [spot.x + radius, spot.y + radius];
    placed.push({
      box: { x: spot.x, y: spot.y, width: 2 * radius, height: 2 * radius },
      block: NOTHING,
    });
    leaders.push(line("thin", spot.reach, centre));
    balloons.push(...drawBalloon(centre, label, NUMBER));
  }
  return { shapes: [...leaders, ...balloons], placed };
}

const asBlock = (atoms: Atom[], align: "start" | "middle" = "middle"): Block =>
  setLines(atoms, mostWidth(atoms) + 1e-6, align);

const CLEAR: Mm = 0.6; // of a text from the edge of its part

/** The size of a part as lettered on it: the smaller where the larger has no room. */
type Sizes = { usual: Atom; small: Atom };

/** Places for a block inside a box: its middle first, then about it. */
function spotsIn(box: Rect, block: Block): Spot[] {
  const room = { x: box.width - block.width - 2 * CLEAR, y: box.height - block.height - 2 * CLEAR };
  if (room.x < 0 || room.y < 0) return [];
  const shares = [0.5, 0.25, 0.75, 0, 1];
  return shares.flatMap((sx, i) =>
    shares.map((sy, j) => ({ x: box.x + CLEAR + room.x * sx, y: box.y + CLEAR + room.y * sy, cost: i + j })),
  );
}

const EDGE_DESCENT = 0.36; // of a figure's height: decimals have no descenders, so a thin strip may cut it

/** Mark and size in the largest form that fits, level before upright; then the mark alone. */
function formsOf(id: string, sizes: Sizes, box: Rect): { block: Block; spots: Spot[] }[] {
  const mark = (height: Mm): Atom => word(id, height, "bold");
  const large = id.length > 3 ? 3.5 : 5; // offcuts have long names
  const withSize = [
    asBlock([mark(large), BREAK, sizes.usual]),
    asBlock([glue([mark(3.5), sizes.usual])]),
    asBlock([mark(3.5), BREAK, sizes.small]),
    asBlock([glue([mark(3.5), sizes.small])]),
    tight(asBlock([glue([mark(SMALL), sizes.small])])),
  ];
  const alone = [asBlock([mark(3.5)]), tight(asBlock([mark(3.5)])), tight(asBlock([mark(SMALL)]))];
  return [...withSize, ...withSize.map(turnBlock), ...alone, ...alone.map(turnBlock)].map((block) => ({
    block,
    spots: spotsIn(box, block),
  }));
}

const tight = (block: Block): Block => ({ ...block, height: block.height - EDGE_DESCENT * SMALL });

function leaderSpots(block: Block, paper: Paper, box: Rect): Spot[] {
  const below = paper.box.y + paper.box.height + NUMBER_ROWS - block.height;
  const above = paper.box.y - block.height - 0.6;
  return Array.from({ length: 41 }, (_, i) => i - 20).flatMap((i) => {
    const x = box.x + box.width / 2 - block.width / 2 + i * 3;
    const isOver = x >= paper.box.x && x + block.width <= paper.box.x + paper.box.width;
    return isOver
      ? [
          { x, y: above, cost: Math.abs(i) },
          { x, y: below, cost: Math.abs(i) + 5 },
        ]
      : [];
  });
}

type Lettered = { shapes: Shape[]; id: string; isInside: boolean };

/** Letters one part or offcut in the fullest form that has room, and notes what it covers; null where none has. */
function letter(ids: readonly string[], sizes: Sizes, box: Rect, paper: Paper, placed: Placed[]): Lettered | null {
  for (const way of [letterInside, letterOutside]) {
    for (const id of ids) {
      const shapes = way(id, sizes, box, paper, placed);
      if (shapes !== null) return { shapes, id, isInside: way === letterInside };
    }
  }
  return null;
}

type Way = (id: string, sizes: Sizes, box: Rect, paper: Paper, placed: Placed[]) => Shape[] | null;

const letterInside: Way = (id, sizes, box, _paper, placed) => {
  const inside = placeItem({ forms: formsOf(id, sizes, box) }, placed);
  if (inside === null) return null;
  placed.push(inside);
  return [placeBlock(inside.block as Block, [inside.box.x, inside.box.y])];
};

/** Above or below the sheet, with a leader. */
const letterOutside: Way = (id, _sizes, box, paper, placed) => {
  const block = asBlock([word(id, SMALL, "bold")]);
  const outside = placeItem({ forms: [{ block, spots: leaderSpots(block, paper, box) }] }, placed);
  if (outside === null) return null;
  placed.push(outside);
  const isAbove = outside.box.y < paper.box.y;
  const foot: Point = [outside.box.x + block.width / 2, isAbove ? outside.box.y + block.height : outside.box.y];
  return [
    placeBlock(block, [outside.box.x, outside.box.y]),
    line("thin", foot, [box.x + box.width / 2, box.y + box.height / 2]),
  ];
};

/** At the top left, where it keeps clear of the numbers. */
function drawGrain(paper: Paper, stock: SetStock): { shapes: Shape[]; box: Rect } {
  const y = paper.box.y - 3.6;
  const { x } = paper.box;
  const content = stock.grain ? "grain" : "no grain: parts may be turned";
  const width = measureText(content, SMALL, "regular");
  const box = { x, y: y - SMALL / 2, width: width + (stock.grain ? ARROW + 2 : 0), height: SMALL * 1.36 };
  const label = text([x + box.width - width, y + SMALL / 2], content, SMALL);
  if (!stock.grain) return { shapes: [label], box };
  const tip = (at: Mm, into: 1 | -1): Shape =>
    fill(
      0,
      polygonSteps([
        [at, y],
        [at + into * 2.2, y - 0.7],
        [at + into * 2.2, y + 0.7],
      ]),
    );
  return { shapes: [label, line("thin", [x, y], [x + ARROW, y]), tip(x, 1), tip(x + ARROW, -1)], box };
}

/** The names of strips beside them. */
const letterStrips = (sheet: SetSheet, paper: Paper): Shape[] =>
  stripsOf(sheet).flatMap((piece) => {
    if (piece.width * paper.ratio < 3.4) return [];
    const middle = paper.y(piece.y + piece.width / 2);
    return [text([paper.box.x - 1.2, middle + SMALL / 2], piece.name, SMALL, { anchor: "end" })];
  });

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
  const placed = [...taken];
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

/** With the margins round the sheet; its upper left corner at the origin. */
export function drawSheetDiagram(sheet: SetSheet, ratio: number, lettering: Lettering): SheetDiagram {
  const margins = marginsOf(sheet);
  const box = { x: margins.left, y: margins.top, width: sheet.length * ratio, height: sheet.width * ratio };
  const paper: Paper = { box, ratio, x: (x) => box.x + x * ratio, y: (y) => box.y + box.height - y * ratio };
  const parts = sheet.parts.map((part) => onPaper(paper, partRect(part)));
  const offcuts = sheet.offcuts.map((offcut) => onPaper(paper, offcut));
  const grain = drawGrain(paper, lettering.stock);
  const numbers = placeNumbers(sheet, paper, [{ box: grain.box, block: NOTHING }]);
  const placed: Placed[] = [...numbers.placed];
  const sizeAt = ({ length, width }: { length: Mm; width: Mm }, size: Mm): Atom =>
    glue([figure(length, lettering.unit, size), word("x", size), figure(width, lettering.unit, size)]);
  const sizesOf = (piece: { length: Mm; width: Mm }): Sizes => ({
    usual: sizeAt(piece, TEXT),
    small: sizeAt(piece, SMALL),
  });
  const letters: Shape[] = [];
  const without: string[] = [];
  let shortened = false;
  let outside = 0;
  // The smallest has the fewest places: it chooses first.
  const order = [
    ...sheet.parts.map((part, i) => ({ ids: lettering.idsOf(i), sizes: sizesOf(part), box: parts[i]! })),
    ...sheet.offcuts.map((offcut, i) => ({ ids: [offcut.id], sizes: sizesOf(offcut), box: offcuts[i]! })),
  ].sort((a, b) => a.box.width * a.box.height - b.box.width * b.box.height);
  for (const { ids, sizes, box: own } of order) {
    const lettered = letter(ids, sizes, own, paper, placed);
    letters.push(...(lettered?.shapes ?? []));
    if (lettered === null || !lettered.isInside) outside += 1;
    if (lettered === null) without.push(ids.at(-1)!);
    else shortened ||= lettered.id !== ids[0];
  }
  const waste = withoutRects(box, [...parts, ...offcuts]).filter(({ width, height }) => Math.min(width, height) > 0.3);
  const pieces = letterPieces(sheet, paper, [...placed, ...waste.map((one) => ({ box: one, block: NOTHING }))]);
  const block: Block = {
    width: margins.left + box.width + margins.right,
    height: margins.top + box.height + margins.bottom,
    baseline: margins.top,
    shapes: [
      hatch(waste, "rising", HATCH),
      ...offcuts.map((offcut) => rect("thin", offcut)),
      ...parts.map((part) => rect("outline", part)),
      rect("outline", box),
      ...numbers.shapes,
      ...letters,
      ...pieces,
      ...letterStrips(sheet, paper),
      ...grain.shapes,
    ],
  };
  return { block, outside, shortened, without };
}

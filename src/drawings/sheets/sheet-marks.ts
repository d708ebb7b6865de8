/** What is lettered on a part or an offcut: mark and size in it, or the mark alone, or the mark outside with a leader. */
import type { Mm } from "../../base/length.ts";
import { circleSteps, fill, line } from "../../paper/draw.ts";
import type { Point, Rect, Shape } from "../../paper/shape.ts";
import { grow, isWithin, meets } from "../draughting/block.ts";
import {
  type Atom,
  type Block,
  BREAK,
  glue,
  mostWidth,
  placeBlock,
  SMALL,
  setLines,
  turnBlock,
} from "../draughting/cell.ts";
import { type Placed, placeItem, type Spot } from "../draughting/placing.ts";
import { wayUpWord } from "../draughting/way-up.ts";
import { alongLeader } from "./sheet-numbers.ts";
import { NOTHING, NUMBER_ROWS, type Paper } from "./sheet-paper.ts";

const DOT: Mm = 0.4;

export const asBlock = (atoms: Atom[], align: "start" | "middle" = "middle"): Block =>
  setLines(atoms, mostWidth(atoms) + 1e-6, align);

export const CLEAR: Mm = 0.6; // of a text from the edge of its part
const NARROW_CLEAR: Mm = 0.3; // where the part is no higher than its mark

/** The size of a part as lettered on it: the smaller where the larger has no room. */
export type Sizes = { usual: Atom; small: Atom };

/** Places for a block inside a box: its middle first, then about it. */
function spotsIn(box: Rect, block: Block, clear = CLEAR): Spot[] {
  const room = { x: box.width - block.width - 2 * clear, y: box.height - block.height - 2 * clear };
  if (room.x < 0 || room.y < 0) return [];
  const shares = [0.5, 0.25, 0.75, 0, 1];
  return shares.flatMap((sx, i) =>
    shares.map((sy, j) => ({ x: box.x + clear + room.x * sx, y: box.y + clear + room.y * sy, cost: i + j })),
  );
}

const EDGE_DESCENT = 0.36; // of a figure's height: decimals have no descenders, so a thin strip may cut it

/** Mark and size in the largest form that fits, level before upright; then the mark alone. */
function formsOf(id: string, sizes: Sizes, box: Rect): { block: Block; spots: Spot[] }[] {
  const mark = (height: Mm): Atom => wayUpWord(id, height, "bold");
  const large = id.length > 3 ? 3.5 : 5; // offcuts have long names
  const inLine = asBlock([glue([mark(SMALL), sizes.small])]);
  const withSize = [
    asBlock([mark(large), BREAK, sizes.usual]),
    asBlock([glue([mark(3.5), sizes.usual])]),
    asBlock([mark(3.5), BREAK, sizes.small]),
    asBlock([glue([mark(3.5), sizes.small])]),
    isLow(sizes.small) ? tight(inLine) : inLine,
  ];
  const alone = [asBlock([mark(3.5)]), tight(asBlock([mark(3.5)])), tight(asBlock([mark(SMALL)]))];
  const least = tight(asBlock([mark(SMALL)]));
  return [
    ...[...withSize, ...withSize.map(turnBlock), ...alone, ...alone.map(turnBlock)].map((block) => ({
      block,
      spots: spotsIn(box, block),
    })),
    ...[least, turnBlock(least)].map((block) => ({ block, spots: spotsIn(box, block, NARROW_CLEAR) })),
  ];
}

/** Nothing hangs below it that would meet the edge: a stacked fraction does. */
const isLow = (atom: Atom): boolean => atom.kind === "drawn" && atom.down <= EDGE_DESCENT * SMALL + 1e-6;

const tight = (block: Block): Block => ({ ...block, height: block.height - EDGE_DESCENT * SMALL });

/** Above and below the sheet: the shorter the leader the better. */
function leaderSpots(block: Block, paper: Paper, box: Rect): Spot[] {
  const below = paper.box.y + paper.box.height + NUMBER_ROWS - block.height;
  const above = paper.box.y - block.height - 0.6;
  const middle: Point = [box.x + box.width / 2, box.y + box.height / 2];
  return Array.from({ length: 41 }, (_, i) => i - 20).flatMap((i) => {
    const x = middle[0] - block.width / 2 + i * 3;
    const isOver = x >= paper.box.x && x + block.width <= paper.box.x + paper.box.width;
    if (!isOver) return [];
    return [above, below].map((y) => ({ x, y, cost: Math.abs(middle[1] - y) + 2 * Math.abs(i) }));
  });
}

export type Lettered = { shapes: Shape[]; id: string; isInside: boolean };

/** Letters one part or offcut in the fullest form that has room in it, and notes what it covers; null where none has. */
export function letterInside(ids: readonly string[], sizes: Sizes, box: Rect, placed: Placed[]): Lettered | null {
  for (const id of ids) {
    const inside = placeItem({ forms: formsOf(id, sizes, box) }, placed);
    if (inside === null) continue;
    placed.push(inside);
    return { shapes: [placeBlock(inside.block as Block, [inside.box.x, inside.box.y])], id, isInside: true };
  }
  return null;
}

const DOT_CLEAR: Mm = 0.5; // of a leader's dot from lettering and from its part's edge
const SHARES = [0.5, 0.35, 0.65, 0.2, 0.8, 0.1, 0.9];

/** Where a leader ends in a part: at its middle, or as near to that as no lettering and no number of a cut is in the way. */
export function dotIn(box: Rect, placed: readonly Placed[]): Point {
  const spots = SHARES.flatMap((sx) => SHARES.map((sy): Point => [box.x + box.width * sx, box.y + box.height * sy]));
  const roomAt = ([x, y]: Point): Rect => grow({ x, y, width: 0, height: 0 }, DOT + DOT_CLEAR);
  const middle = spots[0]!;
  return (
    spots
      .filter((spot) => isWithin(roomAt(spot), box) && !placed.some((other) => meets(roomAt(spot), other.box)))
      .sort(
        (a, b) => Math.hypot(a[0] - middle[0], a[1] - middle[1]) - Math.hypot(b[0] - middle[0], b[1] - middle[1]),
      )[0] ?? middle
  );
}

/** What a leader's dot takes of a part that is too narrow for its mark: numbers of cuts leave that much of it free. */
export const dotRoom = ([x, y]: Point): Placed => ({
  box: { x: x - DOT, y: y - DOT, width: 2 * DOT, height: 2 * DOT },
  block: NOTHING,
});

/** Above or below the sheet, with a leader. */
export function letterOutside(ids: readonly string[], box: Rect, paper: Paper, placed: Placed[]): Lettered | null {
  for (const id of ids) {
    const block = asBlock([wayUpWord(id, SMALL, "bold")]);
    const outside = placeItem({ forms: [{ block, spots: leaderSpots(block, paper, box) }] }, placed);
    if (outside === null) continue;
    placed.push(outside);
    const isAbove = outside.box.y < paper.box.y;
    const foot: Point = [outside.box.x + block.width / 2, isAbove ? outside.box.y + block.height : outside.box.y];
    const dot = dotIn(box, placed);
    placed.push(...alongLeader(foot, dot));
    return {
      shapes: [
        placeBlock(block, [outside.box.x, outside.box.y]),
        line("thin", foot, dot),
        fill(0, circleSteps(dot, DOT)),
      ],
      id,
      isInside: false,
    };
  }
  return null;
}

/** Drawings of views that would stay nearly blank share one: over each other or side by side, each at its own scale. */
import type { Mm } from "../../base/length.ts";
import { ProblemsFound } from "../../base/problem.ts";
import { line } from "../../paper/draw.ts";
import type { Rect, Shape } from "../../paper/shape.ts";
import { type Block, placeBlock, setLines, words } from "./cell.ts";
import type { Draft } from "./draft.ts";
import { filledShare, LEAST_FILLED } from "./filled.ts";
import { ratioNamed } from "./scale.ts";

/** A drawing, and how the same is drawn in another room: null where that is too small for it. */
export type Movable = Draft & {
  redrawn: (room: Rect) => Draft | null;
  hasHeading?: true; // says itself what it is and its scale, where it shares a drawing
};

/** Null where there is no room: to try is no fault of the file's. */
function drawnOrNull(draw: (room: Rect) => Draft[], room: Rect): Draft | null {
  try {
    const drafts = draw(room);
    return drafts.length === 1 ? drafts[0]! : null;
  } catch (problem) {
    if (problem instanceof ProblemsFound) return null;
    throw problem;
  }
}

/** Drawings in a space; one that is drawn alone may be moved to another room. */
export function movable(space: Rect, draw: (room: Rect) => Draft[]): Movable[] {
  const drafts = draw(space);
  const redrawn = (room: Rect): Draft | null => (drafts.length === 1 ? drawnOrNull(draw, room) : null);
  return drafts.map((draft) => ({ ...draft, redrawn }));
}

const MOST_FILLED = 0.95; // two drawings together, or they are sure to have no room on one
const LEAST_SHARE = 0.5; // of the scale that a drawing has alone, as parts that share one
const HEADING: Mm = 3.5;
const HEADING_AIR: Mm = 3;
const BETWEEN: Mm = 8; // two drawings on one

/** The first one's share of the room, the even ones first. */
const SHARES = [10, 9, 11, 8, 12, 7, 13, 6, 14, 5, 15].map((twentieths) => twentieths / 20);

type Parted = { rooms: readonly [Rect, Rect]; between: Shape };

/** A room in two, with a line between them. */
function parted(room: Rect, share: number, isOver: boolean): Parted {
  const { x, y, width, height } = room;
  if (isOver) {
    const at = y + share * height;
    return {
      rooms: [
        { ...room, height: at - y - BETWEEN / 2 },
        { ...room, y: at + BETWEEN / 2, height: y + height - at - BETWEEN / 2 },
      ],
      between: line("outline", [x, at], [x + width, at]),
    };
  }
  const at = x + share * width;
  return {
    rooms: [
      { ...room, width: at - x - BETWEEN / 2 },
      { ...room, x: at + BETWEEN / 2, width: x + width - at - BETWEEN / 2 },
    ],
    between: line("outline", [at, y], [at, y + height]),
  };
}

/** A drawing in a room; `share`: so large, of what it is alone. */
type Scaled = { draft: Draft; share: number };

/** `area`: what it fills of the paper, in square millimetres; `drawnIn`: null where it has no room, or is drawn smaller than such a share of its scale. */
type Shareable = Movable & { area: number; drawnIn: (room: Rect, least: number) => Scaled | null };

/** Of what it is alone; 1 where no scale applies. */
const shareOfScale = (drawn: Draft, alone: Draft): number =>
  (ratioNamed(drawn.scale) ?? 1) / (ratioNamed(alone.scale) ?? 1);

/** Tried in no room twice, nor in one that lies within another that was too small, whatever is tried beside it. */
function shareable(one: Movable, area: number): Shareable {
  const known = new Map<string, Scaled | null>();
  const tried: { room: Rect; share: number }[] = [];
  const drawnIn = (room: Rect, least: number): Scaled | null => {
    const isHopeless = tried.some(
      (other) => other.share < least - 1e-9 && room.width <= other.room.width && room.height <= other.room.height,
    );
    if (isHopeless) return null;
    const key = [room.x, room.y, room.width, room.height].join();
    if (!known.has(key)) {
      const draft = one.redrawn(room);
      const share = draft === null ? 0 : shareOfScale(draft, one);
      known.set(key, draft && { draft, share });
      tried.push({ room, share });
    }
    const made = known.get(key)!;
    return made !== null && made.share >= least - 1e-9 ? made : null;
  };
  return { ...one, area, drawnIn };
}

const headingOf = ({ name, scale }: Draft, width: Mm): Block =>
  setLines([...words(scale === null ? name : `${name},`, HEADING, "bold"), ...words(scale ?? "", HEADING)], width);

/** One of the two, by its name and its scale, in the room below these (ISO 5455, clause 5.3: the main scale stands in the title block, others beside what they are of). */
function headed(drawing: Shareable, room: Rect, least: number): Scaled | null {
  if (drawing.hasHeading) return drawing.drawnIn(room, least);
  const down = headingOf(drawing, room.width).height + HEADING_AIR;
  const drawn = drawing.drawnIn({ ...room, y: room.y + down, height: room.height - down }, least);
  if (drawn === null) return null;
  const { draft, share } = drawn;
  const heading = placeBlock(headingOf(draft, room.width), [room.x, room.y]);
  return { draft: { ...draft, shapes: [heading, ...draft.shapes] }, share };
}

/** The first and the other in two rooms, as one drawing; `least`: the smaller share of the scale that each has alone. */
type Together = { draft: Draft; least: number };

/** Both in a room, neither drawn smaller than such a share of its scale; null where they have no room there. */
function togetherIn(first: Shareable, second: Shareable, room: Rect, least: number): Together | null {
  const isUpright = room.height > room.width;
  let best: Together | null = null;
  for (const isOver of [isUpright, !isUpright]) {
    for (const share of SHARES) {
      const { rooms, between } = parted(room, share, isOver);
      if (rooms.some((one, i) => one.width * one.height < least ** 2 * [first, second][i]!.area)) continue;
      const one = headed(first, rooms[0], least);
      const other = one && headed(second, rooms[1], least);
      if (one === null || other === null) continue;
      const smaller = Math.min(one.share, other.share);
      if (best !== null && smaller <= best.least + 1e-9) continue;
      const name = `${first.name}; ${second.name}`;
      const draft: Draft = {
        key: first.key,
        also: [...(first.also ?? []), second.key, ...(second.also ?? [])],
        name,
        bookmark: [first.bookmark[0]!, name],
        scale: one.draft.scale ?? other.draft.scale,
        ...(first.projected || second.projected ? { projected: true } : {}),
        shapes: [...one.draft.shapes, between, ...other.draft.shapes],
      };
      best = { draft, least: smaller };
      if (smaller >= 1 - 1e-9) return best;
    }
  }
  return best;
}

type Joined = { made: Shareable; least: number };

function joined(first: Shareable, second: Shareable, space: Rect, least: number): Joined | null {
  const together = togetherIn(first, second, space, least);
  if (together === null) return null;
  const redrawn = (room: Rect): Draft | null => togetherIn(first, second, room, least)?.draft ?? null;
  const made: Movable = { ...together.draft, hasHeading: true, redrawn };
  return { made: shareable(made, first.area + second.area), least: together.least };
}

/**
 * Each nearly blank drawing, the emptiest first, with the nearest that it has room beside, one that is nearly blank itself before others; where
 * it has room beside none, with the one beside which neither is drawn much smaller for it.
 */
export function shareSparse(drawings: readonly Movable[], space: Rect): Draft[] {
  const whole = space.width * space.height;
  const isSparse = ({ area }: Shareable): boolean => area < LEAST_FILLED * whole;
  let all = drawings.map((one) => shareable(one, filledShare(one.shapes, space) * whole));
  const join = (least: number): void => {
    for (const sparse of [...all].filter(isSparse).sort((a, b) => a.area - b.area)) {
      if (all.includes(sparse)) all = withMate(sparse, least) ?? all;
    }
  };
  const withMate = (sparse: Shareable, least: number): Shareable[] | null => {
    const at = all.indexOf(sparse);
    const mates = all
      .map((mate, i) => ({ mate, far: Math.abs(i - at), i }))
      .filter(({ mate }) => mate !== sparse && (least < 1 || mate.area + sparse.area < MOST_FILLED * whole))
      .sort((a, b) => Number(isSparse(b.mate)) - Number(isSparse(a.mate)) || a.far - b.far || b.i - a.i);
    let best: (Joined & { i: number }) | null = null;
    for (const { mate, i } of mates) {
      const both = i < at ? joined(mate, sparse, space, least) : joined(sparse, mate, space, least);
      if (both !== null && (best === null || both.least > best.least + 1e-9)) best = { ...both, i };
      if (best !== null && best.least >= 1 - 1e-9) break;
    }
    if (best === null) return null;
    const { made, i: other } = best;
    return all.flatMap((one, n) => (n === Math.min(other, at) ? [made] : n === other || n === at ? [] : [one]));
  };
  join(1);
  join(LEAST_SHARE);
  return all;
}

/** Which parts share a drawing, where each stands on it, and at what scale. */
import { isSame } from "../../base/length.ts";
import type { Rect, Shape } from "../../paper/shape.ts";
import type { DryfitSet, SetPart } from "../../set/schema.ts";
import { AIR, type Block, placeBlock } from "../draughting/block.ts";
import { filledShare, LEAST_FILLED } from "../draughting/filled.ts";
import { freeRooms } from "../draughting/free-room.ts";
import type { Earlier } from "../draughting/revised.ts";
import { largestScale, type Scale, scalesOf } from "../draughting/scale.ts";
import { tooSmall } from "../draughting/too-small.ts";
import {
  type DrawnUnit,
  detailsElsewhere,
  detailsOf,
  drawnUnit,
  isIn,
  largestAlone,
  type Unit,
} from "./part-blocks.ts";
import { patternsOf } from "./part-caption.ts";

const isMirrored = (a: SetPart, b: SetPart): boolean =>
  a.hand !== null &&
  b.hand !== null &&
  a.hand !== b.hand &&
  a.role === b.role &&
  a.case === b.case &&
  a.role === "side" &&
  isSame(a.length, b.length) &&
  isSame(a.width, b.width);

export function unitsOf(set: DryfitSet, earlier: Earlier | null): Unit[] {
  const units: Unit[] = [];
  for (const pattern of patternsOf(set, earlier)) {
    const mate = units.find((unit) => unit.length === 1 && isMirrored(unit[0]!.part, pattern.part));
    if (mate === undefined) units.push([pattern]);
    else mate.push(pattern);
  }
  // The left one of a pair first: it lies above, or on the left.
  return units.map((unit) =>
    [...unit].sort((a, b) => (a.part.hand === "right" ? 1 : 0) - (b.part.hand === "right" ? 1 : 0)),
  );
}

/** To share a drawing no part is drawn at less than half the scale it would have alone. */
const LEAST_SHARE = 0.5;
/** No sharing of a drawing, by a pair or by others, takes a part below this: a groove's walls still stand apart on paper. */
const LEAST_TOGETHER = 1 / 16;
const MOST_TOGETHER = 6;

/** A unit, how it is drawn at a scale, the largest scale at which it has a drawing to itself, and its details where these do not stand with it. */
export type Alone = { unit: Unit; drawn: DrawnUnit; scale: Scale; moved: Block[] };

type Standing = { block: Block; box: Rect };

/** `details`: of its own parts, or of others, in the room that is left; `isMixed`: parts of it have scales of their own. */
export type Sharing = {
  all: Alone[];
  blocks: Standing[];
  scale: Scale;
  details: Standing[];
  detailed: Alone[];
  isMixed: boolean;
};

/** The highest place that is free for one of the blocks, then the block that takes least, then the leftmost; null where there is none. */
function placeIn(blocks: readonly Block[], taken: readonly Rect[], room: Rect): Standing | null {
  const rooms = freeRooms(room, taken, AIR - 1e-6);
  const places = blocks.flatMap((block) =>
    rooms
      .filter((free) => isIn(block, free))
      .map(({ x, y }) => ({ block, box: { x, y, width: block.box.width, height: block.box.height } })),
  );
  const isBefore = (a: Rect, b: Rect): boolean => {
    const by = [a.y - b.y, a.width * a.height - b.width * b.height, a.x - b.x].find((one) => Math.abs(one) > 1e-6);
    return by !== undefined && by < 0;
  };
  const [first, ...others] = places;
  return first === undefined ? null : others.reduce((best, one) => (isBefore(one.box, best.box) ? one : best), first);
}

/** `share`: of the scale it would have alone; `tight`: its words in a narrow column too. */
type How = { share: number; tight: boolean };

const FREELY: How = { share: LEAST_SHARE, tight: false };
const SQUEEZED: How = { share: 0, tight: true };

const leastFor = ({ scale }: Alone, { share }: How): number =>
  Math.max(share * scale.ratio, Math.min(scale.ratio, LEAST_TOGETHER));

/** With one more unit on it at its own scale; null where that has no room, or would be drawn too small. */
function addTo(sharing: Sharing, one: Alone, room: Rect, how = FREELY): Sharing | null {
  const { all, blocks, scale } = sharing;
  if (all.length >= MOST_TOGETHER || scale.ratio > one.scale.ratio + 1e-9 || scale.ratio < leastFor(one, how) - 1e-9)
    return null;
  const place = placeIn(
    one.drawn(scale.ratio, { tight: how.tight, scale: null }),
    blocks.map(({ box }) => box),
    room,
  );
  return place === null ? null : { ...sharing, all: [...all, one], blocks: [...blocks, place] };
}

/** All on one drawing at a scale; null where they have no room, or one would be too small. */
const togetherAt = (all: readonly Alone[], scale: Scale, room: Rect, how: How): Sharing | null =>
  all.reduce<Sharing | null>((sharing, one) => sharing && addTo(sharing, one, room, how), {
    all: [],
    blocks: [],
    scale,
    details: [],
    detailed: [],
    isMixed: false,
  });

/** At the largest scale that none of them is too small at; null where there is none. */
const together = (set: DryfitSet, all: readonly Alone[], room: Rect, how = FREELY): Sharing | null =>
  largestScale(
    set.job.unit,
    (scale) => togetherAt(all, scale, room, how),
    Math.min(...all.map((one) => one.scale.ratio)),
  );

/** Every unit at the largest scale it can have, where there is room beside others at that scale; a drawing that stays mostly blank is joined to another at a lower one. */
export function shareDrawings(set: DryfitSet, units: readonly Unit[], room: Rect): Sharing[] {
  let drawings: Sharing[] = [];
  for (const one of alonesOf(set, units, room)) {
    const at = drawings.findIndex(
      (sharing) => sharing.scale.ratio >= one.scale.ratio - 1e-9 && addTo(sharing, one, room) !== null,
    );
    if (at === -1) drawings.push(together(set, [one], room)!);
    else drawings[at] = addTo(drawings[at]!, one, room)!;
  }
  const join = (isLess: (sharing: Sharing, room: Rect) => boolean, joined: Join): void => {
    for (const sparse of drawings.filter((sharing) => isLess(sharing, room))) {
      const found = drawings.includes(sparse) ? joined(set, sparse, drawings, room) : null;
      if (found === null) continue;
      const { mate, made } = found;
      drawings = drawings.flatMap((one) => (one === mate ? [made] : one === sparse ? [] : [one]));
    }
  };
  join(isSparse, atOneScale(FREELY));
  join(isNearlyBlank, atTheirOwnScale);
  join((one, space) => !one.isMixed && isNearlyBlank(one, space), atOneScale(SQUEEZED));
  return helped(drawings, room).map((sharing) => withDetails(set, sharing, room));
}

/** What can be joined to no other takes a part over from one that has enough of them, where neither is drawn smaller for it. */
function helped(drawings: readonly Sharing[], room: Rect): Sharing[] {
  let made = [...drawings];
  for (const sparse of drawings.filter((one) => !one.isMixed && isNearlyBlank(one, room))) {
    const found = takenOver(sparse, made, room);
    if (found === null) continue;
    const { mate, rest, full } = found;
    made = made.map((one) => (one === mate ? rest : one === sparse ? full : one));
  }
  return made;
}

/** `rest`: the drawing that a part is taken from, without it; `full`: the one that gets it. */
type TakenOver = { mate: Sharing; rest: Sharing; full: Sharing };

function takenOver(sparse: Sharing, drawings: readonly Sharing[], room: Rect): TakenOver | null {
  const isFilled = (sharing: Sharing): boolean => !isNearlyBlank(sharing, room);
  for (const mate of drawings.filter((one) => one !== sparse && !one.isMixed && one.all.length > 1)) {
    for (const one of mate.all) {
      const full = addTo(sparse, one, room);
      if (full === null || !isFilled(full)) continue;
      const others = mate.all.filter((other) => other !== one);
      const rest = togetherAt(others, mate.scale, room, FREELY);
      if (rest !== null && isFilled(rest)) return { mate, rest, full };
    }
  }
  return null;
}

/** What stands on the drawing. */
export const shapesOf = ({ blocks, details }: Sharing): Shape[] =>
  [...blocks, ...details].map(({ block, box }) => placeBlock(block, [box.x, box.y]));

const filledBy = (sharing: Sharing, room: Rect): number => filledShare(shapesOf(sharing), room);

/** Much of it free: better joined to another, if its parts are drawn at no less than so much of their scale alone. */
const isSparse = ({ blocks }: Sharing, room: Rect): boolean =>
  blocks.reduce((sum, { box }) => sum + box.width * box.height, 0) < 0.4 * room.width * room.height;

/** It goes with others at scales that differ, or at whatever scale they share. */
const isNearlyBlank = (sharing: Sharing, room: Rect): boolean => filledBy(sharing, room) < LEAST_FILLED;

type Joined = { mate: Sharing; made: Sharing };
type Join = (set: DryfitSet, sparse: Sharing, drawings: readonly Sharing[], room: Rect) => Joined | null;

const matesOf = (sparse: Sharing, drawings: readonly Sharing[]): Sharing[] =>
  drawings.filter((mate) => mate !== sparse && !mate.isMixed && mate.all.length + sparse.all.length <= MOST_TOGETHER);

/** The drawing that it can be joined to at the largest scale. */
const atOneScale =
  (how: How): Join =>
  (set, sparse, drawings, room) => {
    let best: Joined | null = null;
    for (const mate of matesOf(sparse, drawings)) {
      const made = together(set, [...mate.all, ...sparse.all], room, how);
      if (made !== null && (best === null || made.scale.ratio > best.made.scale.ratio + 1e-9)) best = { mate, made };
    }
    return best;
  };

/** In the room that the emptiest other drawing has left, its own scale told with each part (ISO 5455, clause 5.3: the main scale stands in the title block, others beside what they are of). */
const atTheirOwnScale: Join = (_, sparse, drawings, room) => {
  const squeezed = { tight: true, scale: sparse.scale.name };
  const mates = matesOf(sparse, drawings).sort((a, b) => filledBy(a, room) - filledBy(b, room));
  for (const mate of mates) {
    const blocks = [...mate.blocks];
    const isPlaced = sparse.all.every((one) => {
      const place = placeIn(
        one.drawn(sparse.scale.ratio, squeezed),
        blocks.map(({ box }) => box),
        room,
      );
      if (place !== null) blocks.push(place);
      return place !== null;
    });
    if (isPlaced) return { mate, made: { ...mate, all: [...mate.all, ...sparse.all], blocks, isMixed: true } };
  }
  return null;
};

function alonesOf(set: DryfitSet, units: readonly Unit[], room: Rect): Alone[] {
  return units.flatMap((unit) => {
    const drawn = drawnUnit(set, unit, room);
    const scale = largestAlone(set, drawn, room);
    const whole: Alone | null = scale === null ? null : { unit, drawn, scale, moved: [] };
    if (unit.length === 1) return [largerOf(set, whole, unit, room)];
    // Too large for one drawing, a pair takes two.
    return whole === null || isBetterApart(set, unit, whole.scale.ratio, room)
      ? alonesOf(set, apart(unit), room)
      : [whole];
  });
}

export const firstMark = ({ unit }: Alone): string => unit[0]!.marks[0]!;

/** What has no room beside its details at full size, or is small there, leaves these to a drawing of their own; what has none even so goes without titles of its sections. */
function largerOf(set: DryfitSet, whole: Alone | null, unit: Unit, room: Rect): Alone {
  if (whole !== null && whole.scale.ratio >= LEAST_TOGETHER - 1e-9) return whole;
  const moved = detailsOf(set, unit);
  const elsewhere = [detailsElsewhere(unit[0]!.marks[0]!)];
  const drawn = drawnUnit(set, unit, room, elsewhere);
  const scale = moved.length === 0 ? null : largestAlone(set, drawn, room);
  if (scale !== null && (whole === null || scale.ratio > whole.scale.ratio)) return { unit, drawn, scale, moved };
  if (whole !== null) return whole;
  const bare = (details: Block[], left: Block[]): Alone | null => {
    const plain = drawnUnit(set, unit, room, details, false);
    const fitting = largestAlone(set, plain, room);
    return fitting === null ? null : { unit, drawn: plain, scale: fitting, moved: left };
  };
  const fitted = bare(moved, []) ?? (moved.length === 0 ? null : bare(elsewhere, moved));
  if (fitted !== null) return fitted;
  throw tooSmall(
    `part ${unit[0]!.part.mark}, which does not fit the paper for drawings, ${set.paper.drawings.name}, with its dimensions`,
    "parts that fit at some scale",
  );
}

/** A pair that is small on one drawing is drawn apart where that is what makes it larger. */
function isBetterApart(set: DryfitSet, unit: Unit, together: number, room: Rect): boolean {
  if (unit.length === 1 || together >= LEAST_TOGETHER) return false;
  const alone = unit.map((pattern) => largestAlone(set, drawnUnit(set, [pattern], room), room)?.ratio ?? 0);
  return Math.min(...alone) > together;
}

const apart = (unit: Unit): Unit[] => unit.map((pattern) => [pattern]);

/** The details of a part placed where others leave room; null where that does not hold all of them. */
function placeDetails(sharing: Sharing, one: Alone, room: Rect): Sharing | null {
  const details = [...sharing.details];
  for (const detail of one.moved) {
    const taken = [...sharing.blocks, ...details].map(({ box }) => box);
    const place = placeIn([detail], taken, room);
    if (place === null) return null;
    details.push(place);
  }
  return { ...sharing, details, detailed: [...sharing.detailed, one] };
}

/** Details that were parted from their part stand in the room that its drawing has left, if it has any. */
function withDetails(set: DryfitSet, sharing: Sharing, room: Rect): Sharing {
  let made = sharing;
  if (sharing.isMixed) return sharing;
  for (const one of sharing.all.filter(({ moved }) => moved.length > 0)) {
    // Nothing says there that they stand elsewhere.
    const bare: Alone = { unit: one.unit, drawn: drawnUnit(set, one.unit, room, []), scale: one.scale, moved: [] };
    const all = made.all.map((other) => (other === one ? bare : other));
    const again = togetherAt(all, made.scale, room, SQUEEZED);
    if (again === null) continue;
    const { details, detailed } = made;
    made = placeDetails({ ...again, details, detailed }, one, room) ?? made;
  }
  return made;
}

/** Its parts at the next smaller scale that none of them is too small at, so that there is room beside them. */
function roomier(set: DryfitSet, sharing: Sharing, room: Rect): Sharing | null {
  if (sharing.isMixed || sharing.details.length > 0) return null;
  const smaller = scalesOf(set.job.unit).find(({ ratio }) => ratio < sharing.scale.ratio - 1e-9);
  return smaller === undefined ? null : togetherAt(sharing.all, smaller, room, FREELY);
}

/** Details each in the room that the drawing of some other part has left, the emptiest first, or has at the next smaller scale; `left`: parts with those that have none. */
export function detailsAmong(
  set: DryfitSet,
  drawings: readonly Sharing[],
  moved: readonly Alone[],
  room: Rect,
): { drawings: Sharing[]; left: Alone[] } {
  const made = [...drawings];
  const placedOn = (one: Alone, relaid: (sharing: Sharing) => Sharing | null): boolean => {
    const emptiest = made
      .map((sharing, at) => {
        const again = relaid(sharing);
        return { at, with: again && placeDetails(again, one, room), filled: filledBy(sharing, room) };
      })
      .filter((tried) => tried.with !== null)
      .sort((a, b) => a.filled - b.filled)[0];
    if (emptiest === undefined) return false;
    made[emptiest.at] = emptiest.with!;
    return true;
  };
  const left = moved.flatMap((one): Alone[] => {
    const unplaced = one.moved.filter((detail) => {
      const alone: Alone = { ...one, moved: [detail] };
      return !placedOn(alone, (sharing) => sharing) && !placedOn(alone, (sharing) => roomier(set, sharing, room));
    });
    return unplaced.length === 0 ? [] : [{ ...one, moved: unplaced }];
  });
  return { drawings: made, left };
}

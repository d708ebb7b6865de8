/** Part drawings: one for each pattern; a left and a right side together, as an open book with the inside faces up. */

import { isSame } from "../../base/length.ts";
import { listInWords } from "../../base/words.ts";
import type { Rect } from "../../paper/shape.ts";
import type { DryfitSet, SetPart } from "../../set/schema.ts";
import { byMark } from "../../set/words.ts";
import { AIR, type Block, placeBlock } from "../draughting/block.ts";
import type { Draft } from "../draughting/draft.ts";
import { drawingSpace } from "../draughting/frame.ts";
import { freeRooms } from "../draughting/free-room.ts";
import { type Earlier, earlierOf } from "../draughting/revised.ts";
import { largestScale, type Scale, scalesOf } from "../draughting/scale.ts";
import { tooSmall } from "../draughting/too-small.ts";
import {
  detailsElsewhere,
  detailsOf,
  drawnUnit,
  inDrawings,
  inkOf,
  isIn,
  type Laid,
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

function unitsOf(set: DryfitSet, earlier: Earlier | null): Unit[] {
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

/** The largest scale that helps: bigger, a part only spreads its figures apart. */
const MOST = 1 / 4;
/** To share a drawing no part is drawn at less than half the scale it would have alone. */
const LEAST_SHARE = 0.5;
/** No sharing of a drawing, by a pair or by others, takes a part below this: a groove's walls still stand apart on paper. */
const LEAST_TOGETHER = 1 / 16;
const MOST_TOGETHER = 6;

type Drawn = ReturnType<typeof drawnUnit>;

/** A unit, how it is drawn at a scale, the largest scale at which it has a drawing to itself, and its details where these have one of their own. */
type Alone = { unit: Unit; drawn: Drawn; scale: Scale; moved: Block[] };

type Sharing = { all: Alone[]; blocks: { block: Laid; box: Rect }[]; scale: Scale };

const largestAlone = (set: DryfitSet, drawn: Drawn, room: Rect): Scale | null =>
  largestScale(set.job.unit, (scale) => (drawn(scale.ratio).some((block) => isIn(block, room)) ? scale : null), MOST);

/** The highest place that is free for one of the unit's layouts, then the layout that takes least, then the leftmost; null where there is none. */
function placeIn(
  { drawn }: Alone,
  ratio: number,
  taken: readonly Rect[],
  room: Rect,
): Sharing["blocks"][number] | null {
  const rooms = freeRooms(room, taken, AIR - 1e-6);
  const places = drawn(ratio).flatMap((block) =>
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

/** `share`: of the scale it would have alone. */
const leastFor = ({ scale }: Alone, share: number): number =>
  Math.max(share * scale.ratio, Math.min(scale.ratio, LEAST_TOGETHER));

/** With one more unit on it at its own scale; null where that has no room, or would be drawn too small. */
function addTo(sharing: Sharing, one: Alone, room: Rect, share = LEAST_SHARE): Sharing | null {
  const { all, blocks, scale } = sharing;
  if (all.length >= MOST_TOGETHER || scale.ratio > one.scale.ratio + 1e-9 || scale.ratio < leastFor(one, share) - 1e-9)
    return null;
  const place = placeIn(
    one,
    scale.ratio,
    blocks.map(({ box }) => box),
    room,
  );
  return place === null ? null : { all: [...all, one], blocks: [...blocks, place], scale };
}

/** All on one drawing at the largest scale that none of them is too small at; null where there is none. */
const together = (set: DryfitSet, all: readonly Alone[], room: Rect, share = LEAST_SHARE): Sharing | null =>
  largestScale(
    set.job.unit,
    (scale) =>
      all.reduce<Sharing | null>((sharing, one) => sharing && addTo(sharing, one, room, share), {
        all: [],
        blocks: [],
        scale,
      }),
    Math.min(...all.map((one) => one.scale.ratio)),
  );

/** Every unit at the largest scale it can have, where there is room beside others at that scale; a drawing that stays mostly blank is joined to another at a lower one. */
function shareDrawings(set: DryfitSet, units: readonly Unit[], room: Rect): Sharing[] {
  let drawings: Sharing[] = [];
  for (const one of alonesOf(set, units, room)) {
    const at = drawings.findIndex(
      (sharing) => sharing.scale.ratio >= one.scale.ratio - 1e-9 && addTo(sharing, one, room) !== null,
    );
    if (at === -1) drawings.push(together(set, [one], room)!);
    else drawings[at] = addTo(drawings[at]!, one, room)!;
  }
  // What is nearly blank goes with others at whatever scale they share.
  for (const least of [SPARSE, NEARLY_BLANK]) {
    for (const sparse of drawings.filter((sharing) => isLess(least, sharing, room))) {
      if (!drawings.includes(sparse)) continue;
      const joined = joinedWith(set, sparse, drawings, room, least.share);
      if (joined === null) continue;
      const { mate, made } = joined;
      drawings = drawings.flatMap((one) => (one === mate ? [made] : one === sparse ? [] : [one]));
    }
  }
  return drawings;
}

type Least = { filled: number; share: number; of: (block: Laid) => number };

/** Of a drawing filled, by blocks or by what stands in them: less, and it is better joined to another, its parts at no less than so much of their scale alone. */
const SPARSE: Least = { filled: 0.4, share: LEAST_SHARE, of: ({ box }) => box.width * box.height };
const NEARLY_BLANK: Least = { filled: 0.3, share: 0, of: inkOf };

const isLess = ({ filled, of }: Least, { blocks }: Sharing, room: Rect): boolean =>
  blocks.reduce((sum, { block }) => sum + of(block), 0) < filled * room.width * room.height;

/** The drawing that it can be joined to at the largest scale. */
function joinedWith(
  set: DryfitSet,
  sparse: Sharing,
  drawings: readonly Sharing[],
  room: Rect,
  share: number,
): { mate: Sharing; made: Sharing } | null {
  let best: { mate: Sharing; made: Sharing } | null = null;
  for (const mate of drawings) {
    if (mate === sparse || mate.all.length + sparse.all.length > MOST_TOGETHER) continue;
    const made = together(set, [...mate.all, ...sparse.all], room, share);
    if (made !== null && (best === null || made.scale.ratio > best.made.scale.ratio + 1e-9)) best = { mate, made };
  }
  return best;
}

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

/** What has no room beside its details at full size, or is small there, leaves these to a drawing of their own. */
function largerOf(set: DryfitSet, whole: Alone | null, unit: Unit, room: Rect): Alone {
  if (whole !== null && whole.scale.ratio >= LEAST_TOGETHER - 1e-9) return whole;
  const moved = detailsOf(set, unit);
  const drawn = drawnUnit(set, unit, room, [detailsElsewhere()]);
  const scale = moved.length === 0 ? null : largestAlone(set, drawn, room);
  if (scale !== null && (whole === null || scale.ratio > whole.scale.ratio)) return { unit, drawn, scale, moved };
  if (whole !== null) return whole;
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

const byFirstMark = (a: Sharing, b: Sharing): number => {
  const first = ({ all }: Sharing): string =>
    [...all.flatMap(({ unit }) => unit).map(({ marks }) => marks[0]!)].sort(byMark)[0]!;
  return byMark(first(a), first(b));
};

/** Details that their parts' drawings have no room for. */
function drawDetails(set: DryfitSet, all: readonly Alone[], room: Rect): Draft[] {
  const moved = all.filter((one) => one.moved.length > 0);
  const marks = moved.map(({ unit }) => unit[0]!.marks[0]!).sort(byMark);
  const drawings = inDrawings(
    moved.flatMap((one) => one.moved),
    room,
  );
  return drawings.map((block, i): Draft => {
    const nth = drawings.length === 1 ? "" : `, ${i + 1} of ${drawings.length}`;
    const name = `Details of ${marks.length === 1 ? "part" : "parts"} ${listInWords(marks)}${nth}`;
    return {
      key: i === 0 ? "part-details" : `part-details-${i + 1}`,
      name,
      bookmark: ["Part drawings", name],
      scale: scalesOf(set.job.unit)[0]!.name,
      shapes: [placeBlock(block, [room.x, room.y])],
    };
  });
}

/** `older`: the set whose figures these are laid beside; what changed stands in clouds. */
export function drawParts(set: DryfitSet, older: DryfitSet | null = null): Draft[] {
  const room = drawingSpace(set);
  const drawings = shareDrawings(set, unitsOf(set, earlierOf(set, older)), room).sort(byFirstMark);
  const details = drawDetails(
    set,
    drawings.flatMap(({ all }) => all),
    room,
  );
  const drafts = drawings.map(({ all, blocks, scale }): Draft => {
    const patterns = all.flatMap(({ unit }) => unit);
    const marks = patterns.flatMap((pattern) => pattern.marks).sort(byMark);
    // One mark for each pattern: all the marks of a large job would make too long a file name.
    const firsts = patterns.map((pattern) => pattern.marks[0]!).sort(byMark);
    const name = marks.length === 1 ? `Part ${marks[0]}, ${patterns[0]!.part.name}` : `Parts ${listInWords(marks)}`;
    return {
      key: `part-${firsts.join("-")}`,
      name,
      bookmark: ["Part drawings", name],
      scale: scale.name,
      parts: marks,
      projected: true,
      shapes: blocks.map(({ block, box }) => placeBlock(block, [box.x, box.y])),
    };
  });
  return [...drafts, ...details];
}

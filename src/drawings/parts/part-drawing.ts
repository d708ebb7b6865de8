/** Part drawings: one for each pattern; a left and a right side together, as an open book with the inside faces up. */

import { isSame, type Mm } from "../../base/length.ts";
import { listInWords } from "../../base/words.ts";
import type { Rect, Shape } from "../../paper/shape.ts";
import type { DryfitSet, SetPart } from "../../set/schema.ts";
import { byMark } from "../../set/words.ts";
import { AIR, type Block, placeBlock, unionOf } from "../draughting/block.ts";
import type { Block as Lettering } from "../draughting/cell.ts";
import type { Draft } from "../draughting/draft.ts";
import { drawingSpace } from "../draughting/frame.ts";
import { freeRooms } from "../draughting/free-room.ts";
import { type Earlier, earlierOf } from "../draughting/revised.ts";
import { largestScale, type Scale } from "../draughting/scale.ts";
import { tooSmall } from "../draughting/too-small.ts";
import { facesOf, type Lie } from "./part-axes.ts";
import { captionOf, type Pattern, patternsOf } from "./part-caption.ts";
import { notesOf } from "./part-notes.ts";
import { drawFace, type FaceViews, faceViews } from "./part-view.ts";
import { webDetails } from "./web-detail.ts";

/** Patterns drawn as one block: a mirrored pair, or one alone. */
type Unit = Pattern[];

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

const CAPTION_AIR: Mm = 3;
const VIEW_AIR: Mm = 4;
const LEAST_CAPTION: Mm = 78; // narrower, its sizes would wrap three times

const asBlock = (lettering: Lettering): Block => ({
  shapes: lettering.shapes,
  box: { x: 0, y: 0, width: lettering.width, height: lettering.height },
});

/** Blocks under each other, their left edges (or, for views, their parts' corners) in line. */
function stackUp(blocks: readonly { block: Block; above: Mm; x: Mm }[]): Block {
  const shapes: Shape[] = [];
  const boxes: Rect[] = [];
  let y = 0;
  blocks.forEach(({ block, above, x }, i) => {
    if (block.box.height === 0) return;
    y += i === 0 ? 0 : above;
    shapes.push(placeBlock(block, [x, y]));
    boxes.push({ x, y, width: block.box.width, height: block.box.height });
    y += block.box.height;
  });
  return { shapes, box: unionOf(boxes) };
}

type Size = { width: Mm; height: Mm };

/** How a unit is laid out: whether the words stand under the views or beside them, and where the details do. */
type Layout = { words: keyof typeof BESIDE | "below"; details: "below" | "beside" };

/** The width of a column of words beside the views: what has much to say takes the wide one. */
const BESIDE = { beside: 74, wide: 125 } as const;

/** Blocks side by side, their tops level. */
function setBeside(blocks: readonly Block[]): Block {
  const shapes: Shape[] = [];
  const boxes: Rect[] = [];
  let x = 0;
  for (const block of blocks) {
    shapes.push(placeBlock(block, [x, 0]));
    boxes.push({ x, y: 0, width: block.box.width, height: block.box.height });
    x += block.box.width + AIR;
  }
  return { shapes, box: unionOf(boxes) };
}

/** Blocks one after the other, a new run begun where the next would reach past the room. */
function runsOf(blocks: readonly Block[], room: Mm, extent: "width" | "height", air: Mm): Block[][] {
  const runs: Block[][] = [];
  let used = 0;
  for (const block of blocks) {
    const more = block.box[extent];
    if (runs.length > 0 && used + air + more <= room + 1e-9) {
      runs.at(-1)!.push(block);
      used += air + more;
    } else {
      runs.push([block]);
      used = more;
    }
  }
  return runs;
}

const inRows = (blocks: readonly Block[], width: Mm): Block[] => runsOf(blocks, width, "width", AIR).map(setBeside);

const inColumns = (blocks: readonly Block[], height: Mm): Block[] =>
  runsOf(blocks, height, "height", VIEW_AIR).map((run) =>
    stackUp(run.map((block) => ({ block, above: VIEW_AIR, x: 0 }))),
  );

/** Every face that is drawn, the parts' corners in line however far dimensions reach out beside one of them. */
function drawFaces(set: DryfitSet, views: readonly FaceViews[], lie: Lie, ratio: number): Block {
  const faces = views.map((view) => drawFace(set, view, ratio));
  if (lie === "standing") {
    const top = Math.min(...faces.map(({ box }) => box.y));
    const foot = Math.max(...faces.map(({ box }) => box.y + box.height));
    return setBeside(faces.map(({ shapes, box }) => ({ shapes, box: { ...box, y: top, height: foot - top } })));
  }
  const reach = Math.max(...faces.map((face) => -face.box.x));
  return stackUp(faces.map((block) => ({ block, above: VIEW_AIR, x: reach + block.box.x })));
}

/** The views with their details at full size: under them in rows as wide as the room, or beside them in columns as high. */
function addDetails(views: Block, details: readonly Block[], where: Layout["details"], room: Size): Block {
  if (details.length === 0) return views;
  if (where === "beside") return setBeside([views, ...inColumns(details, room.height)]);
  const rows = inRows(details, room.width);
  return stackUp([views, ...rows].map((block) => ({ block, above: VIEW_AIR, x: 0 })));
}

/** Notes that are the same for both of a pair are said once. */
function sharedNotes(set: DryfitSet, unit: Unit, width: Mm): Block | null {
  const notes = unit.map((pattern) => notesOf(set, pattern, width));
  const [first] = notes;
  const isSaidOnce = notes.every((other) => JSON.stringify(other) === JSON.stringify(first));
  return first !== undefined && isSaidOnce ? asBlock(first) : null;
}

/** Words beside the views, in a column, or over and under them, the two of a pair side by side. */
function addWords(set: DryfitSet, unit: Unit, views: Block, where: Layout["words"], room: Mm): Block {
  if (where !== "below") {
    const wide = BESIDE[where];
    const shared = sharedNotes(set, unit, wide);
    const column = unit.flatMap((pattern, i) => [
      { block: asBlock(captionOf(set, pattern, wide)), above: i === 0 ? 0 : VIEW_AIR, x: 0 },
      ...(shared === null
        ? [{ block: asBlock(notesOf(set, pattern, wide)), above: CAPTION_AIR, x: 0 }]
        : i === unit.length - 1
          ? [{ block: shared, above: CAPTION_AIR, x: 0 }]
          : []),
    ]);
    return setBeside([views, stackUp(column)]);
  }
  const air = AIR * (unit.length - 1);
  // A pair has a drawing nearly to itself: its words may be as wide as the paper.
  const wide = unit.length > 1 ? room : Math.min(room, Math.max(LEAST_CAPTION, views.box.width));
  const width = (wide - air) / unit.length;
  const inRow = (blocks: readonly Lettering[]): Block =>
    setBeside(blocks.map((block) => ({ ...asBlock(block), box: { x: 0, y: 0, width, height: block.height } })));
  return stackUp([
    { block: inRow(unit.map((pattern) => captionOf(set, pattern, width))), above: 0, x: 0 },
    { block: views, above: CAPTION_AIR, x: 0 },
    { block: sharedNotes(set, unit, wide) ?? inRow(unit.map((p) => notesOf(set, p, width))), above: CAPTION_AIR, x: 0 },
  ]);
}

/** The largest scale that helps: bigger, a part only spreads its figures apart. */
const MOST = 1 / 4;
/** To share a drawing no part is drawn at less than half the scale it would have alone. */
const LEAST_SHARE = 0.5;
/** No sharing of a drawing, by a pair or by others, takes a part below this: a groove's walls still stand apart on paper. */
const LEAST_TOGETHER = 1 / 16;
const MOST_TOGETHER = 6;

const LIES: readonly Lie[] = ["lying", "standing"];
const WORDS: readonly Layout["words"][] = ["below", "beside", "wide"];
const DETAILS: readonly Layout["details"][] = ["below", "beside"];

/** A part that is level in the case is drawn level; an upright one either way, and so is any on paper held upright. */
const liesOf = (unit: Unit, room: Rect): readonly Lie[] =>
  unit[0]!.part.place?.l[1] === "z" || room.height > room.width ? LIES : LIES.slice(0, 1);

/** What the views and details may take up, the words beside them. */
const roomForViews = ({ width, height }: Rect, words: Layout["words"]): Size => ({
  width: words === "below" ? width : width - BESIDE[words] - AIR,
  height,
});

/** A unit's blocks, one for each layout, drawn once for each scale they are tried at. */
function drawnUnit(set: DryfitSet, unit: Unit, room: Rect): (ratio: number) => Block[] {
  const views = liesOf(unit, room).map((lie) => ({
    lie,
    list: unit.flatMap(({ part, before }) => facesOf(set, part).map((face) => faceViews(part, face, lie, before))),
  }));
  const details = unit.flatMap(({ part, before }) => webDetails(set, part, before));
  const layouts = WORDS.flatMap((where) =>
    DETAILS.slice(0, details.length === 0 ? 1 : 2).map((detailsAt) => ({ words: where, details: detailsAt })),
  );
  const drawn = new Map<number, Block[]>();
  return (ratio) => {
    const known = drawn.get(ratio);
    if (known !== undefined) return known;
    const blocks = views.flatMap(({ lie, list }) => {
      const faces = drawFaces(set, list, lie, ratio);
      if (!isIn(faces, room)) return [];
      return layouts.flatMap((layout) => {
        const all = addDetails(faces, details, layout.details, roomForViews(room, layout.words));
        return isIn(all, room) ? [addWords(set, unit, all, layout.words, room.width)] : [];
      });
    });
    drawn.set(ratio, blocks);
    return blocks;
  };
}

type Drawn = ReturnType<typeof drawnUnit>;

/** A unit, how it is drawn at a scale, and the largest scale at which it has a drawing to itself. */
type Alone = { unit: Unit; drawn: Drawn; scale: Scale };

type Sharing = { all: Alone[]; blocks: { block: Block; box: Rect }[]; scale: Scale };

const isIn = ({ box }: Block, room: Size): boolean =>
  box.width <= room.width + 1e-9 && box.height <= room.height + 1e-9;

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

const leastFor = ({ scale }: Alone): number =>
  Math.max(LEAST_SHARE * scale.ratio, Math.min(scale.ratio, LEAST_TOGETHER));

/** With one more unit on it at its own scale; null where that has no room, or would be drawn too small. */
function addTo(sharing: Sharing, one: Alone, room: Rect): Sharing | null {
  const { all, blocks, scale } = sharing;
  if (all.length >= MOST_TOGETHER || scale.ratio > one.scale.ratio + 1e-9 || scale.ratio < leastFor(one) - 1e-9)
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
const together = (set: DryfitSet, all: readonly Alone[], room: Rect): Sharing | null =>
  largestScale(
    set.job.unit,
    (scale) =>
      all.reduce<Sharing | null>((sharing, one) => sharing && addTo(sharing, one, room), {
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
  for (const sparse of drawings.filter((sharing) => isSparse(sharing, room))) {
    if (!drawings.includes(sparse)) continue;
    const joined = joinedWith(set, sparse, drawings, room);
    if (joined !== null) {
      const { mate, made } = joined;
      drawings = drawings.flatMap((one) => (one === mate ? [made] : one === sparse ? [] : [one]));
    }
  }
  return drawings;
}

const LEAST_FILLED = 0.4; // of a drawing: less, and it is better joined to another

const isSparse = ({ blocks }: Sharing, room: Rect): boolean =>
  blocks.reduce((sum, { box }) => sum + box.width * box.height, 0) < LEAST_FILLED * room.width * room.height;

/** The drawing that it can be joined to at the largest scale. */
function joinedWith(
  set: DryfitSet,
  sparse: Sharing,
  drawings: readonly Sharing[],
  room: Rect,
): { mate: Sharing; made: Sharing } | null {
  let best: { mate: Sharing; made: Sharing } | null = null;
  for (const mate of drawings) {
    if (mate === sparse || mate.all.length + sparse.all.length > MOST_TOGETHER) continue;
    const made = together(set, [...mate.all, ...sparse.all], room);
    if (made !== null && (best === null || made.scale.ratio > best.made.scale.ratio + 1e-9)) best = { mate, made };
  }
  return best;
}

function alonesOf(set: DryfitSet, units: readonly Unit[], room: Rect): Alone[] {
  return units.flatMap((unit) => {
    const drawn = drawnUnit(set, unit, room);
    const scale = largestAlone(set, drawn, room);
    return scale === null || isBetterApart(set, unit, scale.ratio, room)
      ? alonesOf(set, apart(set, unit), room)
      : [{ unit, drawn, scale }];
  });
}

/** A pair that is small on one drawing is drawn apart where that is what makes it larger. */
function isBetterApart(set: DryfitSet, unit: Unit, together: number, room: Rect): boolean {
  if (unit.length === 1 || together >= LEAST_TOGETHER) return false;
  const alone = unit.map((pattern) => largestAlone(set, drawnUnit(set, [pattern], room), room)?.ratio ?? 0);
  return Math.min(...alone) > together;
}

/** A pair too large for one drawing takes two. */
function apart(set: DryfitSet, unit: Unit): Unit[] {
  if (unit.length > 1) return unit.map((pattern) => [pattern]);
  throw tooSmall(
    `part ${unit[0]!.part.mark}, which does not fit the paper for drawings, ${set.paper.drawings.name}, with its dimensions`,
    "parts that fit at some scale",
  );
}

const byFirstMark = (a: Sharing, b: Sharing): number => {
  const first = ({ all }: Sharing): string =>
    [...all.flatMap(({ unit }) => unit).map(({ marks }) => marks[0]!)].sort(byMark)[0]!;
  return byMark(first(a), first(b));
};

/** `older`: the set whose figures these are laid beside; what changed stands in clouds. */
export function drawParts(set: DryfitSet, older: DryfitSet | null = null): Draft[] {
  const room = drawingSpace(set);
  const drawings = shareDrawings(set, unitsOf(set, earlierOf(set, older)), room).sort(byFirstMark);
  return drawings.map(({ all, blocks, scale }) => {
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
}

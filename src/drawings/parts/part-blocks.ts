/** A part's views, its details and its words as one block, in each of the ways they can be laid out. */
import type { Mm } from "../../base/length.ts";
import type { Rect, Shape } from "../../paper/shape.ts";
import type { DryfitSet } from "../../set/schema.ts";
import { AIR, type Block, placeBlock, unionOf } from "../draughting/block.ts";
import { type Block as Lettering, setLines, words } from "../draughting/cell.ts";
import { largestScale, type Scale } from "../draughting/scale.ts";
import { facesOf, type Lie } from "./part-axes.ts";
import { captionOf, type Pattern } from "./part-caption.ts";
import { notesOf } from "./part-notes.ts";
import { drawFace, type FaceViews, faceViews } from "./part-view.ts";
import { hasPlacedScrews, isCrowdedBy } from "./screw-table.ts";
import { webDetails } from "./web-detail.ts";

/** Patterns drawn as one block: a mirrored pair, or one alone. */
export type Unit = Pattern[];

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

export type Size = { width: Mm; height: Mm };

/** How a unit is laid out: whether the words stand under the views or beside them, and where the details do. */
type Layout = { words: keyof typeof BESIDE | "below"; details: "below" | "beside" };

/** The width of a column of words beside the views: what has much to say takes the wide one, what else has no room beside others the narrow one. */
const BESIDE = { narrow: 54, beside: 74, wide: 125 } as const;

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
function drawFaces(
  set: DryfitSet,
  views: readonly FaceViews[],
  lie: Lie,
  ratio: number,
  { isTabled, isTitled }: { isTabled: boolean; isTitled: boolean },
): Block {
  const faces = views.map((view) => drawFace(set, view, ratio, isTabled, isTitled));
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
function sharedNotes(set: DryfitSet, unit: Unit, width: Mm, isTabled: boolean): Block | null {
  const notes = unit.map((pattern) => notesOf(set, pattern, width, isTabled));
  const [first] = notes;
  const isSaidOnce = notes.every((other) => JSON.stringify(other) === JSON.stringify(first));
  return first !== undefined && isSaidOnce ? asBlock(first) : null;
}

/** Words beside the views, in a column, or over and under them, the two of a pair side by side. */
function addWords(
  set: DryfitSet,
  unit: Unit,
  views: Block,
  { where, scale, isTabled }: { where: Layout["words"]; scale: string | null; isTabled: boolean },
  room: Mm,
): Block {
  if (where !== "below") {
    const wide = BESIDE[where];
    const shared = sharedNotes(set, unit, wide, isTabled);
    const column = unit.flatMap((pattern, i) => [
      { block: asBlock(captionOf(set, pattern, wide, scale)), above: i === 0 ? 0 : VIEW_AIR, x: 0 },
      ...(shared === null
        ? [{ block: asBlock(notesOf(set, pattern, wide, isTabled)), above: CAPTION_AIR, x: 0 }]
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
    { block: inRow(unit.map((pattern) => captionOf(set, pattern, width, scale))), above: 0, x: 0 },
    { block: views, above: CAPTION_AIR, x: 0 },
    {
      block: sharedNotes(set, unit, wide, isTabled) ?? inRow(unit.map((p) => notesOf(set, p, width, isTabled))),
      above: CAPTION_AIR,
      x: 0,
    },
  ]);
}

const LIES: readonly Lie[] = ["lying", "standing"];
const WORDS: readonly Layout["words"][] = ["below", "beside", "wide"];
const TIGHT: readonly Layout["words"][] = [...WORDS, "narrow"];
const DETAILS: readonly Layout["details"][] = ["below", "beside"];

/** A part that is level in the case is drawn level; one that stands, by its longer side, either way, and so is any on paper held upright. */
function isEitherWay(unit: Unit, room: Rect): boolean {
  const { part } = unit[0]!;
  const upright = part.length >= part.width ? part.place?.l : part.place?.w;
  return upright?.[1] === "z" || room.height > room.width;
}

/** What the views and details may take up, the words beside them. */
const roomForViews = ({ width, height }: Rect, words: Layout["words"]): Size => ({
  width: words === "below" ? width : width - BESIDE[words] - AIR,
  height,
});

export const isIn = ({ box }: Block, room: Size): boolean =>
  box.width <= room.width + 1e-9 && box.height <= room.height + 1e-9;

/** Its details at full size. */
export const detailsOf = (set: DryfitSet, unit: Unit): Block[] =>
  unit.flatMap(({ part, before }) => webDetails(set, part, before));

/** What stands in their place where they are on another drawing. */
export const detailsElsewhere = (mark: string): Block =>
  asBlock(setLines(words(`Details at full size: on the drawing with details of part ${mark}.`), LEAST_CAPTION));

/** Blocks in rows under each other on as many drawings as they need. */
export const inDrawings = (blocks: readonly Block[], room: Rect): Block[] =>
  inColumns(inRows(blocks, room.width), room.height);

/** To find room beside others: `tight`, its words in a narrow column too, and either way up; `scale` by name, where it is not that of the drawing. */
export type Squeezed = { tight: boolean; scale: string | null };

/** A unit's blocks at a scale, one for each layout. */
export type DrawnUnit = (ratio: number, squeezed?: Squeezed) => Block[];

/** The largest scale that helps: bigger, a part only spreads its figures apart. */
const MOST = 1 / 4;

/** The largest scale at which it has a drawing to itself. */
export const largestAlone = (set: DryfitSet, drawn: DrawnUnit, room: Rect): Scale | null =>
  largestScale(set.job.unit, (scale) => (drawn(scale.ratio).some((block) => isIn(block, room)) ? scale : null), MOST);

/** The ways of one lie: with the figures of screws round the views, whether all of these stand near their lines. */
type Laid = { block: Block; where: Layout["words"]; isClear: boolean };

/**
 * With its screws told round the views, as long as their figures stand near their lines; in a table where they do not, or where
 * they would leave the views no room at any scale. `isTitled`: a section under its view's name has a title of its own.
 */
export function drawnUnit(
  set: DryfitSet,
  unit: Unit,
  room: Rect,
  details = detailsOf(set, unit),
  isTitled = true,
): DrawnUnit {
  const laid = laidUnit("figures", set, unit, room, details, isTitled);
  const figures: DrawnUnit = (...at) => laid(...at).map(({ block }) => block);
  if (!unit.some(({ part }) => hasPlacedScrews(set, part))) return figures;
  const inTable = laidUnit("table", set, unit, room, details, isTitled);
  const table: DrawnUnit = (...at) => inTable(...at).map(({ block }) => block);
  const hasRoom = (blocks: readonly Block[]): boolean => blocks.some((block) => isIn(block, room));
  return (...at) => {
    const clear = laid(...at).flatMap(({ block, isClear }) => (isClear ? [block] : []));
    if (hasRoom(clear)) return clear;
    const all = figures(...at);
    const most = hasRoom(all) ? null : largestAlone(set, figures, room);
    if (most !== null && at[0] > most.ratio) return all;
    const tabled = table(...at);
    return hasRoom(tabled) || largestAlone(set, table, room) !== null ? tabled : all;
  };
}

/** Drawn once for each scale they are tried at. */
function laidUnit(
  screws: "figures" | "table",
  set: DryfitSet,
  unit: Unit,
  room: Rect,
  details: readonly Block[],
  isTitled: boolean,
): (...at: Parameters<DrawnUnit>) => Laid[] {
  const isTabled = screws === "table";
  const viewsOf = (lie: Lie): FaceViews[] =>
    unit.flatMap(({ part, before }) =>
      facesOf(set, part).map((face) => faceViews(part, face, lie, before, set.job.projection)),
    );
  const drawn = new Map<string, Laid[]>();
  return (ratio, { tight, scale } = { tight: false, scale: null }) => {
    const key = `${ratio} ${tight} ${scale}`;
    const known = drawn.get(key);
    if (known !== undefined) return known;
    const layouts = (tight ? TIGHT : WORDS).flatMap((where) =>
      DETAILS.slice(0, details.length === 0 ? 1 : 2).map((detailsAt) => ({ where, detailsAt })),
    );
    const lies = tight || isEitherWay(unit, room) ? LIES : LIES.slice(0, 1);
    const blocks = lies.flatMap((lie) => {
      const faces = drawFaces(set, viewsOf(lie), lie, ratio, { isTabled, isTitled });
      if (!isIn(faces, room)) return [];
      const isClear = isTabled || !unit.some(({ part }) => isCrowdedBy(set, part, lie, ratio));
      return layouts.flatMap(({ where, detailsAt }) => {
        const all = addDetails(faces, details, detailsAt, roomForViews(room, where));
        if (!isIn(all, room)) return [];
        return [{ block: addWords(set, unit, all, { where, scale, isTabled }, room.width), where, isClear }];
      });
    });
    // Wide enough, most rows of the table stay on one line.
    const wide = blocks.filter(({ where, block }) => where !== "beside" && isIn(block, room));
    const kept = isTabled && !tight && wide.length > 0 ? wide : blocks;
    drawn.set(key, kept);
    return kept;
  };
}

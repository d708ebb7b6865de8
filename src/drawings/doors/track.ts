/** A track on one drawing: its bolts and what they go into, its stops and guides, and each door closed and at both ends of its way; then a section. */
import { formatLengthWithUnit, type Mm } from "../../base/length.ts";
import { group } from "../../paper/draw.ts";
import type { Rect } from "../../paper/shape.ts";
import type { DryfitSet, SetTrack } from "../../set/schema.ts";
import { partOf } from "../../set/words.ts";
import { groupsOf } from "../cases/case-group.ts";
import { arrange, fitAllOrNone, noRoomFor } from "../draughting/block.ts";
import { type Atom, type Block as Lettering, setLines, stackBlocks, words } from "../draughting/cell.ts";
import type { Draft } from "../draughting/draft.ts";
import { figuresInWords } from "../draughting/figures-in-words.ts";
import { filledShare } from "../draughting/filled.ts";
import { flow } from "../draughting/flow.ts";
import { drawingSpace } from "../draughting/frame.ts";
import { type Movable, movable } from "../draughting/sharing.ts";
import { type Column, setTable, type Row as TableRow } from "../draughting/table.ts";
import { alongBlock } from "./track-along.ts";
import { drawSlidingDoor, slidingDoor } from "./track-door.ts";
import { drawTrackSection } from "./track-section.ts";
import { drawTrackViews, waysInWords } from "./track-views.ts";

const AIR: Mm = 3;
const NOTE_GAP: Mm = 1.2;
const LEAST_FILLED = 1 / 3; // of a drawing, or it is nearly blank

/** The case with its doors at three places, the doors themselves, the track and sections of it. */
export const drawTracks = (set: DryfitSet): Movable[] => [
  ...set.tracks.flatMap((track) => drawTrackViews(set, track)),
  ...groupsOf(set, "door")
    .filter(({ drawn }) => slidingDoor(set, drawn.name) !== null)
    .flatMap((group, i) => movable(drawingSpace(set), (space) => drawSlidingDoor(set, group, i, space))),
  ...set.tracks.flatMap((track) => drawTrack(set, track)),
];

/**
 * The table stands under the view; where that leaves the view no room at any scale, or the sections nearly blank, under the sections; and where
 * these have no room over it either, on a drawing of its own.
 */
function drawTrack(set: DryfitSet, track: SetTrack): Movable[] {
  const name = set.tracks.length === 1 ? "Track" : `Track in front of ${track.case}`;
  const key = `track-${set.tracks.indexOf(track) + 1}`;
  const space = drawingSpace(set);
  const along = (withTable: boolean): Movable[] =>
    movable(space, (room) => alongDrafts(set, track, { key, name }, room, withTable));
  const sections = (withTable: boolean): Movable[] =>
    movable(space, (room) =>
      drawTrackSection(set, track, { key, name }, room, withTable ? tableOf(set, track, room.width) : null),
    );
  const [[bare], [over], [alone], [under]] = [along(false), along(true), sections(false), sections(true)];
  if (bare === undefined || alone === undefined) throw noRoomFor(space);
  const isBlank = ({ shapes }: Draft): boolean => filledShare(shapes, space) < LEAST_FILLED;
  const isUnderBetter = over === undefined || (isBlank(alone) && !isBlank(bare));
  if (under !== undefined && isUnderBetter && under.scale === alone.scale) return [bare, under];
  if (over !== undefined) return [over, alone];
  const fixed = movable(space, (room) => fixedDrafts(set, track, { key, name }, room));
  if (fixed.length === 0) throw noRoomFor(space);
  return [bare, ...fixed, alone];
}

type Named = { key: string; name: string };

/** The view along the track over its notes, the table between them; none where it has no room over these at any scale. */
function alongDrafts(set: DryfitSet, track: SetTrack, { key, name }: Named, space: Rect, withTable: boolean): Draft[] {
  const own = stackBlocks(
    notesOf(set, track).map((atoms) => setLines(atoms, space.width)),
    NOTE_GAP,
  );
  const note = withTable ? stackBlocks([tableOf(set, track, space.width), own], AIR) : own;
  const room: Rect = { ...space, height: space.height - note.height - AIR };
  const fitted = fitAllOrNone(set.job.unit, room, (ratio) => [alongBlock(set, track, ratio)], arrange);
  if (fitted === null) return [];
  const { shapes, scale } = fitted;
  const foot = group(note.shapes, { move: [space.x, space.y + space.height - note.height] });
  return [{ key, name, bookmark: ["Views", name], scale: scale.name, shapes: [...shapes, foot] }];
}

/** The table by itself; none where the room is too low for it. */
function fixedDrafts(set: DryfitSet, track: SetTrack, { key, name }: Named, { x, y, width, height }: Rect): Draft[] {
  const table = tableOf(set, track, width);
  if (table.height > height) return [];
  const fixed = `${name}, what it is fixed to`;
  const shapes = [group(table.shapes, { move: [x, y] })];
  return [{ key: `${key}-fixed`, name: fixed, bookmark: ["Views", fixed], scale: null, shapes }];
}

const COLUMNS: Column[] = [
  { head: "What" },
  { head: "Into" },
  { head: "From the left end of the track", grow: 1 },
  { head: "Deep", firm: true },
];

function tableOf(set: DryfitSet, track: SetTrack, width: Mm): Lettering {
  const rows = setTable(COLUMNS, rowsOf(set, track), width);
  const height = rows.reduce((sum, { block, above }) => sum + block.height + above, 0);
  const shapes = flow([rows], () => [{ x: 0, y: 0, width, height: height + 1 }])[0] ?? [];
  return { shapes, width, height, baseline: 0 };
}

type Fixed = { at: Mm; mark: string | null };

/** Part by part: what each bolt goes into, and each guide. */
function rowsOf(set: DryfitSet, { bolts, guides, tracks }: SetTrack): TableRow[] {
  const { unit } = set.job;
  const rows = (what: string, all: readonly Fixed[], deep: Atom[]): TableRow[] =>
    [...new Set(all.map(({ mark }) => mark))].map((mark): TableRow => {
      const own = all.filter((one) => one.mark === mark);
      const into = mark === null ? "nothing: see the checks" : `${partOf(set, mark).name} ${mark}`;
      return {
        cells: [
          words(`${own.length} ${what}`),
          words(into),
          figuresInWords(
            own.map(({ at }) => at),
            unit,
          ),
          deep,
        ],
      };
    });
  const tracked = ([1, 2] as const).flatMap((n) =>
    rows(
      tracks === 1 ? "guides" : `guides, track ${n}`,
      guides.at.filter((one) => one.track === n),
      words("\u2013"),
    ),
  );
  return [...rows("bolts", bolts.at, figuresInWords([bolts.into], unit)), ...tracked];
}

function notesOf(set: DryfitSet, track: SetTrack): Atom[][] {
  const { unit } = set.job;
  const show = (length: Mm): string => formatLengthWithUnit(length, unit);
  const { doors, tracks, length, needed } = track;
  const named = doors.map(({ assembly, track: n }, i) => `${i + 1} ${assembly}${tracks === 2 ? ` on track ${n}` : ""}`);
  return [
    words(
      `Doors: ${named.join("; ")}. Their way needs a track of ${show(needed)}; it is ${show(length)} long. ${waysInWords(track, unit)}`,
    ),
  ];
}

/** The views of each case on as few drawings as show them at the scale of its front view; a base is drawn with the case that stands on it. */
import type { Mm } from "../../base/length.ts";
import { listInWords } from "../../base/words.ts";
import { group as groupShapes } from "../../paper/draw.ts";
import type { Rect, Shape } from "../../paper/shape.ts";
import type { DryfitSet, SetAssembly } from "../../set/schema.ts";
import { AIR, type Block, noRoomFor, type Placed } from "../draughting/block.ts";
import { type Block as Lettering, setLines, stackBlocks, words } from "../draughting/cell.ts";
import type { Draft } from "../draughting/draft.ts";
import { filledShare, LEAST_FILLED } from "../draughting/filled.ts";
import { drawingSpace } from "../draughting/frame.ts";
import { freeRooms } from "../draughting/free-room.ts";
import { arrangeViews } from "../draughting/projection.ts";
import { largestScale, type Scale } from "../draughting/scale.ts";
import { type CaseGroup, groupsOf, keyOfCase, nameOfCase } from "./case-group.ts";
import type { CaseView, ViewKind } from "./case-view.ts";
import { frontOf, makeWords } from "./elevation.ts";
import { type Exploded, explodedOf, standingOf } from "./exploded.ts";
import { looseNotes } from "./loose-shelves.ts";
import { baseViewsOf, sectionViewsOf } from "./section.ts";
import { sideAndPlanOf } from "./side-and-plan.ts";

/** In the order of their names. */
const NAMES: readonly { kinds: readonly ViewKind[]; name: string; key: string }[] = [
  { kinds: ["front"], name: "Front view", key: "front-view" },
  { kinds: ["side"], name: "Side view", key: "side-view" },
  { kinds: ["plan"], name: "Plan", key: "plan" },
  { kinds: ["upright section", "level section"], name: "Sections", key: "sections" },
  { kinds: ["upright section"], name: "Upright section", key: "upright-section" },
  { kinds: ["level section"], name: "Level section", key: "level-section" },
  { kinds: ["plinth"], name: "Plinth", key: "plinth" },
];

type Page = { views: CaseView[]; room: Rect; shapes: Shape[]; boxes: Rect[]; scale: Scale };

const NOTE_AIR: Mm = 3;
const NOTE_GAP: Mm = 1.2;

/** What is said under the front view. */
function noteOf(set: DryfitSet, group: CaseGroup, width: Mm): Lettering {
  const notes = [...looseNotes(set, group.drawn), words(makeWords(group))].filter((atoms) => atoms.length > 0);
  return stackBlocks(
    notes.map((atoms) => setLines(atoms, width)),
    NOTE_GAP,
  );
}

/** What is known of a view at a scale, drawn once for all that is tried with it. */
function drawnOnce({ draw, ...view }: CaseView): CaseView {
  const known = new Map<string, Block>();
  return {
    ...view,
    draw: (ratio, withMarks) => {
      const key = `${ratio} ${withMarks}`;
      if (!known.has(key)) known.set(key, draw(ratio, withMarks));
      return known.get(key)!;
    },
  };
}

type Placing = (views: readonly CaseView[], room: Rect, ratio: number, withMarks: boolean) => Placed | null;

const placing =
  ({ job }: DryfitSet): Placing =>
  (views, room, ratio, withMarks) =>
    arrangeViews(
      views.map(({ stands, draw }) => ({ stands, block: draw(ratio, withMarks) })),
      room,
      job.projection,
    );

/** Every way to share drawings: each kind on a drawing with kinds before it, or on one of its own. */
const sharingsOf = (kinds: readonly ViewKind[]): ViewKind[][][] =>
  kinds.reduce<ViewKind[][][]>(
    (sharings, kind) =>
      sharings.flatMap((pages) => [
        ...pages.map((_, i) => pages.map((page, j) => (i === j ? [...page, kind] : page))),
        [...pages, [kind]],
      ]),
    [[]],
  );

/**
 * One scale for all that is seen of a case: the largest that its front view has room for, or less where some other view
 * needs it. Of the ways to share drawings at that scale the one with the fewest, and of these the one whose emptiest
 * drawing is the fullest.
 */
function pagesOf(set: DryfitSet, all: readonly CaseView[], roomOf: (views: readonly CaseView[]) => Rect): Page[] {
  const views = all.map(drawnOnce);
  const placed = placing(set);
  const kinds = [...new Set(views.map(({ kind }) => kind))];
  const ofKinds = (some: readonly ViewKind[]): CaseView[] => views.filter(({ kind }) => some.includes(kind));
  const fitted = largestScale(set.job.unit, (scale) => {
    const areaOf = ({ draw }: CaseView): number => {
      const { box } = draw(scale.ratio, false);
      return box.width * box.height;
    };
    const known = new Map<string, boolean>();
    const fits = (some: readonly ViewKind[]): boolean => {
      const key = some.join();
      const shown = ofKinds(some);
      if (!known.has(key)) known.set(key, placed(shown, roomOf(shown), scale.ratio, false) !== null);
      return known.get(key)!;
    };
    if (!kinds.every((kind) => fits([kind]))) return null;
    const emptiest = (pages: readonly ViewKind[][]): number =>
      Math.min(...pages.map((some) => ofKinds(some).reduce((total, view) => total + areaOf(view), 0)));
    const sharings = sharingsOf(kinds)
      .filter((pages) => pages.every(fits))
      .map((pages) => ({ pages, least: emptiest(pages) }))
      .sort((a, b) => a.pages.length - b.pages.length || b.least - a.least);
    for (const { pages } of sharings) {
      const drawn = pages.map((some): Page | null => {
        const shown = ofKinds(some);
        const room = roomOf(shown);
        const all = placed(shown, room, scale.ratio, true);
        return all === null ? null : { views: shown, room, ...all, scale };
      });
      if (drawn.every((page) => page !== null)) return drawn;
    }
    return null;
  });
  if (fitted === null) throw noRoomFor(roomOf([]));
  return fitted;
}

/** "Front view, side view and plan", and the first of them as a key. */
function namedBy(views: readonly CaseView[]): { name: string; key: string } {
  const left = new Set(views.map(({ kind }) => kind));
  const named = NAMES.filter(({ kinds }) => {
    if (!kinds.every((kind) => left.has(kind))) return false;
    for (const kind of kinds) left.delete(kind);
    return true;
  });
  const name = listInWords(named.map((one, i) => (i === 0 ? one.name : one.name.toLowerCase())));
  return { name, key: named[0]!.key };
}

export const viewsOf = (set: DryfitSet, drawn: SetAssembly): CaseView[] => [
  frontOf(set, drawn),
  ...sideAndPlanOf(set, drawn),
  ...sectionViewsOf(set, drawn),
  ...baseViewsOf(set, drawn),
];

function drawCase(set: DryfitSet, group: CaseGroup): Draft[] {
  const { drawn } = group;
  const space = drawingSpace(set);
  const note = noteOf(set, group, space.width);
  const withNote: Rect = { ...space, height: space.height - (note.height === 0 ? 0 : note.height + NOTE_AIR) };
  const isFront = ({ kind }: CaseView): boolean => kind === "front";
  const pages = pagesOf(set, viewsOf(set, drawn), (some) => (some.some(isFront) ? withNote : space));
  const [front, behind] = (["front", "behind"] as const).map((from) => explodedOf(set, drawn, from)) as [
    Exploded,
    Exploded,
  ];
  const hosted = new Map<Page, Shape[]>();
  const shapesWith = (picture: Exploded, place: Place): Shape[] | null =>
    picture.isLarge(place.ratio) ? [...place.shapes, ...picture.draw(place.room)] : null;
  const places = pages.map((page) => ({ page, place: placeFor(set, front, page) }));
  const roomiest = places.reduce((a, b) => (b.place.ratio > a.place.ratio ? b : a), places[0]!);
  const withFront = shapesWith(front, roomiest.place);
  if (withFront !== null) hosted.set(roomiest.page, withFront);
  // From behind, too, where a drawing has room for little else; where that would be too small, as it stands. Each picture once.
  const left = [behind, ...standingOf(set, drawn)];
  for (const page of pages) {
    if (!isSparse(page) || hosted.has(page)) continue;
    const held = left.flatMap((picture) => {
      const shapes = shapesWith(picture, placeFor(set, picture, page));
      return shapes === null ? [] : [{ picture, shapes, filled: filledShare(shapes, space) }];
    });
    // The first that leaves less than two thirds blank, else the one that leaves least.
    const kept =
      held.find(({ filled }) => filled >= LEAST_FILLED) ?? held.toSorted((one, other) => other.filled - one.filled)[0];
    if (kept === undefined) continue;
    hosted.set(page, kept.shapes);
    left.splice(left.indexOf(kept.picture), 1);
  }
  const drafts = pages.map((page): Draft => {
    const { views: shown, shapes, scale } = page;
    const named = namedBy(shown);
    const name = nameOfCase(set, named.name, drawn);
    const noted = shown.some(isFront)
      ? [groupShapes(note.shapes, { move: [space.x, space.y + space.height - note.height] })]
      : [];
    return {
      key: keyOfCase(set, named.key, drawn),
      name,
      bookmark: ["Views", name],
      scale: scale.name,
      projected: true,
      shapes: [...(hosted.get(page) ?? shapes), ...noted],
    };
  });
  if (withFront !== null) return drafts;
  const name = nameOfCase(set, "Taken apart", drawn);
  const halves = halvesOf(space, front);
  const isOneLarger = front.ratioIn(space) ** 2 > 2 * ratioInAll(halves, front) ** 2;
  const own: Draft = {
    key: keyOfCase(set, "taken-apart", drawn),
    name,
    bookmark: ["Views", name],
    scale: null,
    shapes: isOneLarger ? front.draw(space) : halves.flatMap((half, i) => [front, behind][i]!.draw(half)),
  };
  return [...drafts, own];
}

const SPARSE = 0.45; // of the room that blocks and the air about them take

const isSparse = ({ boxes, room }: Page): boolean =>
  boxes.reduce((sum, { width, height }) => sum + width * height, 0) < SPARSE * room.width * room.height;

const ratioInAll = (rooms: readonly Rect[], picture: Exploded): number =>
  Math.min(...rooms.map((room) => picture.ratioIn(room)));

/** Beside each other or over each other, whichever the picture has more room in. */
function halvesOf(space: Rect, picture: Exploded): Rect[] {
  const beside = { ...space, width: space.width / 2 };
  const over = { ...space, height: space.height / 2 };
  const ways = [
    [beside, { ...beside, x: space.x + beside.width }],
    [over, { ...over, y: space.y + over.height }],
  ];
  return ways.reduce((best, way) => (ratioInAll(way, picture) > ratioInAll(best, picture) ? way : best));
}

/** Where a picture stands on a drawing with views, and the views as they then stand. */
type Place = { ratio: number; room: Rect; shapes: Shape[] };

const SHARES = [0.4, 0.45, 0.5, 0.55, 0.6, 0.65, 0.7, 0.75, 0.8];

/** Between the views as they stand, or beside or under them once they have moved together, wherever it is largest. */
function placeFor(set: DryfitSet, apart: Exploded, { views, room, shapes, boxes, scale }: Page): Place {
  const placed = placing(set);
  const places = freeRooms(room, boxes, AIR).map((free): Place => ({ ratio: apart.ratioIn(free), room: free, shapes }));
  for (const share of SHARES) {
    for (const [own, rest] of [
      [
        { ...room, width: room.width * share },
        { ...room, x: room.x + room.width * share, width: room.width * (1 - share) },
      ],
      [
        { ...room, height: room.height * share },
        { ...room, y: room.y + room.height * share, height: room.height * (1 - share) },
      ],
    ] as const) {
      const all = placed(views, own, scale.ratio, true);
      if (all !== null) places.push({ ratio: apart.ratioIn(rest), room: rest, shapes: all.shapes });
    }
  }
  const none: Place = { ratio: 0, room, shapes };
  return places.reduce((best, place) => (place.ratio > best.ratio + 1e-9 ? place : best), none);
}

export const drawCases = (set: DryfitSet): Draft[] => groupsOf(set, "case").flatMap((group) => drawCase(set, group));

/** Upright sections through a door at its hanger, from the right, the front at the left: the track above, the guide below. */
import { type Box, boxToOuter, type Place } from "../../base/geometry.ts";
import { formatLengthWithUnit, type Mm } from "../../base/length.ts";
import { fill, group, line, rect, rectSteps } from "../../paper/draw.ts";
import type { Rect, Shape } from "../../paper/shape.ts";
import type { DryfitSet, SetAssembly, SetTrack, SetTrackDoor } from "../../set/schema.ts";
import { markView, NO_MARKS, withAside } from "../cases/marking.ts";
import { arrange, type Block, fitAllOrNone, unionOf } from "../draughting/block.ts";
import { type Atom, type Block as Lettering, setLines, stackBlocks, words } from "../draughting/cell.ts";
import { type DimensionStyle, drawDimensions } from "../draughting/dimension.ts";
import type { Draft } from "../draughting/draft.ts";
import { hatch } from "../draughting/hatch.ts";
import { drawView, type Picture, VIEW_FIGURE } from "../draughting/picture.ts";
import { captioned } from "../draughting/view-title.ts";
import { type Solid, solidsOf } from "../solids/solid.ts";
import { FROM_RIGHT, type View, viewOf } from "../solids/view.ts";
import { barDepth } from "./track-views.ts";

const AIR: Mm = 3;
const NOTE_GAP: Mm = 1.2;
const BEHIND: Mm = 70; // of what stands behind the face
const BESIDE: Mm = 10; // above and below what is shown
const INTO_BAY: Mm = 50;

/** `foot`: what else stands at the foot of the drawing, over its notes. None where the sections have no room over it. */
export function drawTrackSection(
  set: DryfitSet,
  track: SetTrack,
  { key, name: title }: { key: string; name: string },
  space: Rect,
  foot: Lettering | null,
): Draft[] {
  const own = stackBlocks(
    notesOf(set, track).map((atoms) => setLines(atoms, space.width)),
    NOTE_GAP,
  );
  const note = foot === null ? own : stackBlocks([foot, own], AIR);
  const room: Rect = { ...space, height: space.height - note.height - AIR };
  const draw = (ratio: number, withMarks: boolean): Block[] => [
    upperBlock(set, track, ratio, withMarks),
    lowerBlock(set, track, ratio, withMarks),
  ];
  const fitted = fitAllOrNone(set.job.unit, room, draw, arrange);
  if (fitted === null) return [];
  const { shapes, scale } = fitted;
  const name = `${title}, sections`;
  return [
    {
      key: `${key}-sections`,
      name,
      bookmark: ["Views", name],
      scale: scale.name,
      projected: true,
      shapes: [...shapes, group(note.shapes, { move: [space.x, space.y + space.height - note.height] })],
    },
  ];
}

type Shown = { door: SetTrackDoor; assembly: SetAssembly; n: 1 | 2 };

/** One door of each track, the first, closed. */
const doorsOf = (set: DryfitSet, track: SetTrack): Shown[] =>
  ([1, 2] as const).flatMap((n) => {
    const door = track.doors.find((one) => one.track === n);
    const assembly = set.assemblies.find(({ name }) => name === door?.assembly);
    return door === undefined || assembly === undefined ? [] : [{ door, assembly, n }];
  });

type Section = { picture: Picture; view: View };
type Window = { y: [Mm, Mm]; z: [Mm, Mm] };

/** What is cut, and what lies behind, within a window: each track's door at its own hanger, all else at that of the first. */
function sectionOf(set: DryfitSet, track: SetTrack, window: Window, ratio: number): Section {
  const shown = doorsOf(set, track);
  const cut = shown[0]!.assembly.place.at[0] + shown[0]!.door.hangers[0];
  const clipped = ([lo, hi]: Box): Box[] => {
    const box: Box = [
      [lo[0], Math.max(lo[1], window.y[0]), Math.max(lo[2], window.z[0])],
      [hi[0], Math.min(hi[1], window.y[1]), Math.min(hi[2], window.z[1])],
    ];
    return box[0][1] < box[1][1] && box[0][2] < box[1][2] ? [box] : [];
  };
  const hung = new Set(set.assemblies.filter(({ kind }) => kind === "door").map(({ name }) => name));
  const solids = set.assemblies.flatMap((one): Solid[] => {
    const own = shown.find(({ assembly }) => assembly === one);
    if (hung.has(one.name) && own === undefined) return [];
    // A door of the second track is drawn as if it hung beside the first.
    const by = own === undefined ? 0 : cut - (one.place.at[0] + own.door.hangers[0]);
    return solidsOf(set, one).map((solid) => ({
      ...solid,
      boxes: solid.boxes
        .map((box) => boxToOuter(one.place as Place, box))
        .map(
          ([lo, hi]): Box => [
            [lo[0] + by, lo[1], lo[2]],
            [hi[0] + by, hi[1], hi[2]],
          ],
        )
        // Only what the plane goes through: what lies behind tells nothing here.
        .filter(([lo, hi]) => lo[0] < cut && cut < hi[0])
        .flatMap(clipped),
    }));
  });
  const view = viewOf(
    solids.filter(({ boxes }) => boxes.length > 0),
    FROM_RIGHT,
    -cut,
  );
  return { picture: drawView(view, ratio), view };
}

const rectAt = (picture: Picture, y: readonly [Mm, Mm], z: readonly [Mm, Mm]): Rect => ({
  x: picture.x(y[0]),
  y: picture.y(z[1]),
  width: picture.x(y[1]) - picture.x(y[0]),
  height: picture.y(z[0]) - picture.y(z[1]),
});

type Places = readonly Mm[];

/** Spans between one place and the next, on paper. */
const spansOf = (places: Places, on: (at: Mm) => Mm): [Mm, Mm][] =>
  places.slice(1).map((place, i) => [on(places[i]!), on(place)].sort((a, b) => a - b) as [Mm, Mm]);

type Side = "above" | "below" | "left" | "right";

/** The section with what is no wood drawn on it, dimensioned round all of it. */
function dimensioned(
  { picture, view }: Section,
  fixtures: { shapes: Shape[]; boxes: Rect[] },
  rows: Partial<Record<Side, Places>>,
  style: DimensionStyle,
  withMarks: boolean,
  title: [string, string],
): Block {
  const box = unionOf([picture.box, ...fixtures.boxes]);
  const edge: Record<Side, Mm> = { above: box.y, below: box.y + box.height, left: box.x, right: box.x + box.width };
  const dimensions = (Object.entries(rows) as [Side, Places][]).map(([side, places]) =>
    drawDimensions(
      side,
      edge[side],
      [{ kind: "spans", spans: spansOf(places, side === "above" || side === "below" ? picture.x : picture.y) }],
      style,
    ),
  );
  const boxes = dimensions.flatMap((one) => one.boxes);
  const marking = withMarks ? markView(view.cut, picture, [...boxes, ...fixtures.boxes], withAside(box)) : NO_MARKS;
  return captioned(
    {
      shapes: [...picture.shapes, ...fixtures.shapes, ...dimensions.flatMap((one) => one.shapes), ...marking.shapes],
      box: unionOf([box, ...boxes, ...marking.boxes]),
    },
    ...title,
    box,
  );
}

/** Front and back of the door of each track, the front one first. */
const doorDepths = (shown: readonly Shown[]): [Mm, Mm][] =>
  shown
    .map(({ assembly }): [Mm, Mm] => [assembly.place.at[1], assembly.place.at[1] + assembly.size[1]])
    .sort((a, b) => a[0] - b[0]);

/** As high as the section is to be, or as a worktop that it would cut off at less than its thickness. */
function wholeWorktop(set: DryfitSet, high: Mm): Mm {
  const tops = set.assemblies
    .filter(({ kind }) => kind === "worktop")
    .flatMap((one) =>
      solidsOf(set, one).flatMap(({ boxes }) => boxes.map((box) => boxToOuter(one.place as Place, box))),
    )
    .filter(([lo, hi]) => lo[2] < high && high < hi[2])
    .map(([, hi]) => hi[2]);
  return Math.max(high, ...tops);
}

function upperBlock(set: DryfitSet, track: SetTrack, ratio: number, withMarks: boolean): Block {
  const { at, bar, hangers, bolts } = track;
  const shown = doorsOf(set, track);
  const doors = doorDepths(shown);
  const front = doors[0]![0] - hangers.projection;
  const rear = doors.at(-1)![1];
  const [lower, upper] = [at[2] - bar.height / 2, at[2] + bar.height / 2];
  const doorTop = lower - hangers.drop;
  const top = upper + hangers.above;
  const lifted = top + hangers.lift;
  const strap = doorTop - Math.max(...hangers.holes) - 2 * hangers.hole;
  const ceiling = wholeWorktop(set, lifted + BESIDE);
  const section = sectionOf(set, track, { y: [front, at[1] + BEHIND], z: [strap - BESIDE, ceiling] }, ratio);
  const { picture } = section;
  const straps = doors.flatMap(([face, back]) => [
    rectAt(picture, [face - hangers.projection, face], [strap, doorTop]),
    rectAt(picture, [face - hangers.projection, back], [doorTop, top]),
  ]);
  const depths = shown.map(({ n }) => barDepth(track, n)).sort((a, b) => a[0] - b[0]);
  const bars = depths.map((depth) => rectAt(picture, depth, [lower, upper]));
  const end = at[1] + bolts.into;
  const half = bolts.diameter / 2;
  const bolt = rectAt(picture, [depths[0]![0], end], [at[2] - half, at[2] + half]);
  const over = rectAt(picture, [front, rear], [top, lifted]);
  const shapes = [
    ...straps.map((one) => rect("neighbour", one)),
    ...bars.flatMap((one) => [fill(1, rectSteps(one)), hatch([one], "falling", 0.8), rect("outline", one)]),
    rect("hidden", bolt),
    line("hidden", [over.x, over.y], [over.x + over.width, over.y]),
    ...hangers.holes.map((down) =>
      line(
        "centre",
        [picture.x(front) - 2, picture.y(doorTop - down)],
        [picture.x(rear) + 2, picture.y(doorTop - down)],
      ),
    ),
  ];
  const holes = [...hangers.holes].sort((a, b) => b - a).map((down) => doorTop - down);
  return dimensioned(
    section,
    { shapes, boxes: [...straps, ...bars, bolt, over] },
    {
      above: [...depths.flat(), at[1], end],
      below: [front, ...doors.flat(), at[1]],
      left: [doorTop, lower, upper, top, lifted],
      right: [...holes, doorTop, at[2]],
    },
    { unit: set.job.unit, ratio, size: VIEW_FIGURE },
    withMarks,
    ["At a hanger", "cut upright, from the right: the front at the left"],
  );
}

function lowerBlock(set: DryfitSet, track: SetTrack, ratio: number, withMarks: boolean): Block {
  const { at, guides } = track;
  const shown = doorsOf(set, track);
  const doors = doorDepths(shown);
  const under = shown[0]!.assembly.place.at[2];
  const sill = Math.min(...track.openings.map((opening) => opening.at[2]));
  const floor = Math.min(...set.assemblies.map(({ place }) => place.at[2]));
  const low = Math.max(floor, under - guides.height - BESIDE);
  const section = sectionOf(set, track, { y: [doors[0]![0], at[1] + BEHIND], z: [low, sill + INTO_BAY] }, ratio);
  const { picture } = section;
  const cheeks = doors.flatMap(([face, back]) => [
    rectAt(picture, [face - guides.cheek, face], [under, under + guides.reach]),
    rectAt(picture, [back, back + guides.cheek], [under, under + guides.reach]),
  ]);
  const base = rectAt(picture, [doors[0]![0] - guides.cheek, at[1]], [under - guides.cheek, under]);
  const plate = rectAt(picture, [at[1] - guides.cheek, at[1]], [under - guides.height, under]);
  const boxes = [...cheeks, base, plate];
  return dimensioned(
    section,
    { shapes: boxes.map((one) => fill(0.7, rectSteps(one))), boxes },
    {
      below: [...doors.flat(), at[1]],
      left: [under - guides.height, under, under + guides.reach],
      right: low > floor + 1e-6 ? [under, sill] : [floor, under, sill],
    },
    { unit: set.job.unit, ratio, size: VIEW_FIGURE },
    withMarks,
    ["At a guide", "the same, at the doors' lower edge"],
  );
}

/** Where the track goes, what the thin broken outlines are, and the figures that no picture shows. */
function notesOf(set: DryfitSet, track: SetTrack): Atom[][] {
  const show = (length: Mm): string => formatLengthWithUnit(length, set.job.unit);
  const { hangers, guides, bar, bolts, stops } = track;
  const home = set.assemblies.find(({ name }) => name === track.on)!;
  const beside = track.at[0] - home.place.at[0];
  return [
    words(
      `${track.tracks === 1 ? "Bar" : "Two bars, each"} ${show(bar.height)} x ${show(bar.thickness)}, ${show(track.length)} long. Its middle is ${show(track.at[2] - home.place.at[2])} above the lower end of ${track.on}, its left end ${show(Math.abs(beside))} to the ${beside >= 0 ? "right" : "left"} of that of ${track.on}. Bolts ${show(bolts.diameter)} x ${show(bolts.length)}, ${show(bolts.into)} of it in the wood; bumpers ${show(stops.bumper)} long.`,
    ),
    words(
      `Broken outlines: the hanger, ${show(hangers.width)} wide, strap and wheel; grey: the guide, ${show(guides.width)} along the door. A door is hung lifted by ${show(hangers.lift)}, to the broken line. Measure all hardware first.`,
    ),
  ];
}

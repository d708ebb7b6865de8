/** A case with its sliding doors from the front: closed, and pushed to either end. */
import { type Box, boxToInner, boxToOuter, type Place } from "../../base/geometry.ts";
import { formatLengthWithUnit, isSame, type Mm, type Unit } from "../../base/length.ts";
import { listInWords } from "../../base/words.ts";
import { circleSteps, group, stroke } from "../../paper/draw.ts";
import type { DryfitSet, SetAssembly, SetTrack, SetTrackDoor } from "../../set/schema.ts";
import { keyOfCase, nameOfCase, standingSolids } from "../cases/case-group.ts";
import { markView, NO_MARKS, withAbove } from "../cases/marking.ts";
import { arrange, type Block, fitAllOrNone, noRoomFor, unionOf } from "../draughting/block.ts";
import { setLines, words } from "../draughting/cell.ts";
import { type DimensionStyle, drawDimensions } from "../draughting/dimension.ts";
import { drawingSpace } from "../draughting/frame.ts";
import { drawView, VIEW_FIGURE } from "../draughting/picture.ts";
import { type Movable, movable } from "../draughting/sharing.ts";
import { captioned } from "../draughting/view-title.ts";
import { type Solid, solidsOf } from "../solids/solid.ts";
import { FROM_FRONT, viewOf } from "../solids/view.ts";

const AIR: Mm = 3;

/** Doors of two tracks may stand at one place. */
export const distinct = (places: readonly Mm[]): Mm[] =>
  places.filter((at, i) => !places.slice(0, i).some((other) => isSame(other, at)));

type Where = "closed" | "from" | "to";

const TITLES: Record<Where, string> = {
  closed: "Front view, doors closed",
  from: "Doors pushed to the left",
  to: "Doors pushed to the right",
};

export function drawTrackViews(set: DryfitSet, track: SetTrack): Movable[] {
  const one = set.assemblies.find(({ name }) => name === track.case)!;
  const space = drawingSpace(set);
  const drawnIfItFits = (key: string, title: string, views: readonly Where[], note: string): Movable[] =>
    movable(space, (around) => {
      const words_ = setLines(words(note), around.width);
      const room = { ...around, height: around.height - words_.height - AIR };
      const draw = (ratio: number, withMarks: boolean): Block[] =>
        views.map((where) => viewBlock(set, one, track, where, ratio, withMarks));
      const fitted = fitAllOrNone(set.job.unit, room, draw, arrange);
      if (fitted === null) return [];
      const name = nameOfCase(set, title, one);
      const foot = group(words_.shapes, { move: [around.x, around.y + around.height - words_.height] });
      return [
        {
          key: keyOfCase(set, key, one),
          name,
          bookmark: ["Views", name],
          scale: fitted.scale.name,
          projected: true,
          shapes: [...fitted.shapes, foot],
        },
      ];
    });
  const figures = "Figures below run from the left end of the track to the left edges of the doors.";
  const ways = `${figures} ${waysInWords(track, set.job.unit)}`;
  const closed = drawnIfItFits("front-view-with-doors", "Front view with doors", ["closed"], figures);
  const open = drawnIfItFits("front-view-doors-open", "Front view, doors open", ["from", "to"], ways);
  if (closed.length === 0 || open.length === 0) throw noRoomFor(space);
  // High paper has room for all three one under the other.
  const all = drawnIfItFits("front-view-with-doors", "Front views with doors", ["closed", "from", "to"], ways);
  return all[0]?.scale === closed[0]!.scale ? all : [...closed, ...open];
}

/** Which bays can be clear at once, or what is clear where none can. */
export function waysInWords({ together, openings, clear }: SetTrack, unit: Unit): string {
  const name = (i: number): string => `"${openings[i]!.name}"`;
  const show = (length: Mm): string => formatLengthWithUnit(length, unit);
  if (together.length === 0)
    return `With all doors pushed to one end ${show(clear.right)} is clear at the right, or ${show(clear.left)} at the left.`;
  const choices = together.map(({ open }) => listInWords(open.map(name)));
  return `What can be open at one time: ${choices.join("; or ")}.`;
}

/** The case with its frame, what lies on it, the track, and its doors at some place of their way; all in the case's own axes. */
function solidsAt(set: DryfitSet, one: SetAssembly, track: SetTrack, where: Where): Solid[] {
  const own = one.place as Place;
  const tops = set.worktops.filter(({ over }) => over.includes(one.name)).map(({ assembly }) => assembly);
  const moved = (assembly: SetAssembly, by: Mm): Solid[] =>
    solidsOf(set, assembly).map((solid) => ({
      ...solid,
      boxes: solid.boxes.map((box) => shifted(boxToInner(own, boxToOuter(assembly.place as Place, box)), by)),
    }));
  const doors = track.doors.flatMap((door) => moved(assemblyOf(set, door.assembly), door[where] - door.closed));
  return [
    ...standingSolids(set, one, "any"),
    ...tops.flatMap((name) => moved(assemblyOf(set, name), 0)),
    ...doors,
    ...barSolids(own, track),
    ...track.doors.flatMap((door) => hangerSolids(set, own, track, door, where)),
  ];
}

const assemblyOf = (set: DryfitSet, name: string): SetAssembly => set.assemblies.find((one) => one.name === name)!;

const shifted = ([lo, hi]: Box, by: Mm): Box => [
  [lo[0] + by, lo[1], lo[2]],
  [hi[0] + by, hi[1], hi[2]],
];

/** Front to back in the room: of one track's bar. */
export const barDepth = ({ at, bar }: SetTrack, n: number): [Mm, Mm] => {
  const rear = at[1] - bar.standOff - (n - 1) * bar.apart;
  return [rear - bar.thickness, rear];
};

const barSolids = (own: Place, track: SetTrack): Solid[] =>
  Array.from({ length: track.tracks }, (_, i): Solid => {
    const { at, length, bar } = track;
    const [front, rear] = barDepth(track, i + 1);
    const box: Box = [
      [at[0], front, at[2] - bar.height / 2],
      [at[0] + length, rear, at[2] + bar.height / 2],
    ];
    return { mark: `track ${i + 1}`, boxes: [boxToInner(own, box)] };
  });

/** Straps before the doors and over the bar. */
function hangerSolids(set: DryfitSet, own: Place, track: SetTrack, door: SetTrackDoor, where: Where): Solid[] {
  const { place, size } = assemblyOf(set, door.assembly);
  const { hangers, bar, at } = track;
  const front = place.at[1];
  const top = place.at[2] + size[2];
  return door.hangers.map((x, i): Solid => {
    const middle = at[0] + door[where] + x;
    const box: Box = [
      [middle - hangers.width / 2, front - hangers.projection, top - Math.max(...hangers.holes) - 2 * hangers.hole],
      [middle + hangers.width / 2, front, top + hangers.drop + bar.height + hangers.above],
    ];
    return { mark: `hanger ${door.assembly} ${i}`, boxes: [boxToInner(own, box)] };
  });
}

function viewBlock(
  set: DryfitSet,
  one: SetAssembly,
  track: SetTrack,
  where: Where,
  ratio: number,
  withMarks: boolean,
): Block {
  const view = viewOf(solidsAt(set, one, track, where), FROM_FRONT);
  const style: DimensionStyle = { unit: set.job.unit, ratio, size: VIEW_FIGURE };
  const picture = drawView(view, ratio);
  const { box } = picture;
  const start = track.at[0] - one.place.at[0];
  const edges = distinct(track.doors.map((door) => door[where])).map((at) => picture.x(start + at));
  const widths = track.doors.map((door): [Mm, Mm] => {
    const { size } = assemblyOf(set, door.assembly);
    return [picture.x(start + door.closed), picture.x(start + door.closed + size[0])];
  });
  // By-passing doors lie over each other: each width then stands in a row of its own.
  const rows = track.passing ? widths.map((span) => [span]) : [widths];
  const dimensions = [
    drawDimensions(
      "below",
      0,
      [
        ...(where === "closed" ? rows.map((spans) => ({ kind: "spans" as const, spans })) : []),
        { kind: "running", datum: picture.x(start), at: edges },
      ],
      style,
    ),
    ...(where === "closed" ? [heights(set, one, track, picture.y, style)] : []),
  ];
  const boxes = dimensions.flatMap((each) => each.boxes);
  const isOfDoor = (mark: string): boolean =>
    set.parts.some((part) => part.mark === mark && track.doors.some(({ assembly }) => assembly === part.assembly));
  const seen = new Map([...view.seen].filter(([mark]) => isOfDoor(mark)));
  const marking = withMarks && where === "closed" ? markView(seen, picture, boxes, withAbove(box)) : NO_MARKS;
  const knobs = track.doors.flatMap((door) => {
    const { place } = assemblyOf(set, door.assembly);
    return door.knobs.map(([x, z]) =>
      stroke(
        "outline",
        circleSteps(
          [picture.x(start + door[where] + x), picture.y(place.at[2] - one.place.at[2] + z)],
          Math.max(0.7, (track.knob!.diameter / 2) * ratio),
        ),
      ),
    );
  });
  return captioned(
    {
      shapes: [...picture.shapes, ...knobs, ...dimensions.flatMap((each) => each.shapes), ...marking.shapes],
      box: unionOf([box, ...boxes, ...marking.boxes]),
    },
    TITLES[where],
    where === "closed" ? marking.note : "",
    box,
  );
}

/** The doors' own height, and from where it begins. */
function heights(
  set: DryfitSet,
  one: SetAssembly,
  track: SetTrack,
  y: (z: Mm) => Mm,
  style: DimensionStyle,
): ReturnType<typeof drawDimensions> {
  const { place, size } = assemblyOf(set, track.doors[0]!.assembly);
  const under = place.at[2] - one.place.at[2];
  return drawDimensions(
    "left",
    0,
    [
      {
        kind: "spans",
        spans: [
          [y(under), y(0)],
          [y(under + size[2]), y(under)],
        ],
      },
    ],
    style,
  );
}

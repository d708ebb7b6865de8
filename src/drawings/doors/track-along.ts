/** A track from the front along its length: its bolts and what they go into, its stops and guides, and each door closed and at both ends of its way. */
import type { Mm } from "../../base/length.ts";
import { circleSteps, fill, lines, rect, rectSteps, stroke, text } from "../../paper/draw.ts";
import { measureText } from "../../paper/lettering.ts";
import type { Point, Rect, Shape } from "../../paper/shape.ts";
import type { DryfitSet, SetAssembly, SetTrack } from "../../set/schema.ts";
import { partOf } from "../../set/words.ts";
import { type Block, unionOf } from "../draughting/block.ts";
import { SMALL } from "../draughting/cell.ts";
import { type DimensionStyle, drawDimensions } from "../draughting/dimension.ts";
import { hatch } from "../draughting/hatch.ts";
import { captioned } from "../draughting/view-title.ts";
import { distinct } from "./track-views.ts";

const DIMENSION: Mm = 3.5; // its fraction digits are then the least that is lettered
const DOOR: Mm = 7; // a door's height in the rows of its places
const ROW_AIR: Mm = 3; // between such rows, figures and all
const LABEL_AIR: Mm = 2;
const WOOD: Mm = 5; // of what the track is bolted to, above and below the bar

const assemblyOf = (set: DryfitSet, name: string): SetAssembly => set.assemblies.find((one) => one.name === name)!;

/** Along the track to scale; up and down only the bar's own height is. */
export function alongBlock(set: DryfitSet, track: SetTrack, ratio: number): Block {
  const style: DimensionStyle = { unit: set.job.unit, ratio, size: DIMENSION };
  const x = (at: Mm): Mm => at * ratio;
  const bar: Rect = { x: 0, y: 0, width: x(track.length), height: Math.max(4, track.bar.height * ratio) };
  const bolts = drawDimensions(
    "above",
    -WOOD,
    [{ kind: "running", datum: 0, at: track.bolts.at.map(({ at }) => x(at)) }],
    style,
  );
  const whole = drawDimensions(
    "below",
    bar.height + WOOD,
    [{ kind: "running", datum: 0, at: [...track.stops.at.map(x), bar.width] }],
    style,
  );
  const first = bar.height + WOOD + whole.depth + ROW_AIR;
  const places: Block[] = [];
  let y = first;
  for (const where of ["closed", "from", "to"] as const) {
    places.push(placesRow(set, track, where, y, style));
    y = Math.max(...places.map(({ box }) => box.y + box.height)) + ROW_AIR;
  }
  const bottom = y - ROW_AIR;
  const last = places.at(-1)!.box.y + DOOR;
  return captioned(
    {
      shapes: [
        ...woodBehind(set, track, bar, ratio),
        fill(1, rectSteps(bar)),
        rect("outline", bar),
        ...track.bolts.at.flatMap(({ at }) => boltMark([x(at), bar.height / 2], track.bolts.diameter * ratio)),
        ...track.stops.at.map((at) => stopMark(x(at), x(track.stops.bumper), bar)),
        ...places.flatMap(({ box }) => openingLines(track, x, box.y - 1.5, box.y + DOOR + 1.5)),
        ...bolts.shapes,
        ...whole.shapes,
        ...places.flatMap(({ shapes }) => shapes),
        ...guideMarks(track, ratio, last),
      ],
      box: unionOf([
        bar,
        { x: 0, y: 0, width: bar.width, height: bottom },
        ...bolts.boxes,
        ...whole.boxes,
        ...places.map(({ box }) => box),
      ]),
    },
    "Along the track, from the front",
    "figures from its left end; broken lines: the bays; grey: stops, guides; heights not to scale",
  );
}

/** What the bolts go into, hatched: the parts that the set names, as far as the track reaches. */
function woodBehind(set: DryfitSet, track: SetTrack, bar: Rect, ratio: number): Shape[] {
  const marks = [...new Set(track.bolts.at.flatMap(({ mark }) => mark ?? []))];
  return marks.flatMap((mark, i): Shape[] => {
    const part = partOf(set, mark);
    const home = assemblyOf(set, part.assembly);
    const [low, high] = alongX(part);
    const from = Math.max(0, (home.place.at[0] + low - track.at[0]) * ratio);
    const to = Math.min(bar.width, (home.place.at[0] + high - track.at[0]) * ratio);
    const boxes: Rect[] = [
      { x: from, y: -WOOD, width: to - from, height: WOOD },
      { x: from, y: bar.height, width: to - from, height: WOOD },
    ];
    return [hatch(boxes, i % 2 === 0 ? "rising" : "falling", 1.6), ...boxes.map((box) => rect("thin", box))];
  });
}

/** From where to where a part reaches across its assembly. */
function alongX({ place, length, width, thickness }: ReturnType<typeof partOf>): [Mm, Mm] {
  const sizes = { l: length, w: width, t: thickness };
  const axis = (["l", "w", "t"] as const).find((one) => place![one][1] === "x")!;
  const end = place!.at[0] + (place![axis][0] === "+" ? sizes[axis] : -sizes[axis]);
  return [Math.min(place!.at[0], end), Math.max(place!.at[0], end)];
}

function boltMark([x, y]: Point, diameter: Mm): Shape[] {
  const radius = Math.max(0.8, diameter / 2);
  const arm = radius + 1;
  return [
    stroke("outline", circleSteps([x, y], radius)),
    lines("thin", [
      [
        [x - arm, y],
        [x + arm, y],
      ],
      [
        [x, y - arm],
        [x, y + arm],
      ],
    ]),
  ];
}

/** On top of the bar, as long as its bumper. */
const stopMark = (x: Mm, long: Mm, { y }: Rect): Shape => {
  const width = Math.max(2, long);
  return fill(0.35, rectSteps({ x: x - width / 2, y: y - 2.4, width, height: 2.4 }));
};

/** The bays, as broken lines through a row of doors. */
const openingLines = (track: SetTrack, x: (at: Mm) => Mm, from: Mm, to: Mm): Shape[] => [
  lines(
    "hidden",
    track.openings.flatMap(({ at, width }) =>
      [at[0] - track.at[0], at[0] - track.at[0] + width].map((edge): [Point, Point] => [
        [x(edge), from],
        [x(edge), to],
      ]),
    ),
  ),
];

const PLACES = { closed: "closed", from: "all pushed left", to: "all pushed right" } as const;

/** The doors in plan, those of a second track a little lower, with their left edges. */
function placesRow(set: DryfitSet, track: SetTrack, where: keyof typeof PLACES, y: Mm, style: DimensionStyle): Block {
  const { ratio } = style;
  const x = (at: Mm): Mm => at * ratio;
  const each = DOOR / track.tracks;
  const boxes = track.doors.map(
    (door): Rect => ({
      x: door[where] * ratio,
      y: y + (door.track - 1) * each,
      width: assemblyOf(set, door.assembly).size[0] * ratio,
      height: each,
    }),
  );
  const edges = drawDimensions(
    "below",
    y + DOOR,
    [{ kind: "running", datum: 0, at: distinct(track.doors.map((door) => door[where])).map(x) }],
    style,
  );
  const size = Math.min(SMALL + 0.4, each - 1);
  const right = track.length * ratio + LABEL_AIR;
  return {
    shapes: [
      ...boxes.flatMap((box, i) => [
        fill(1, rectSteps(box)),
        rect("outline", box),
        text([box.x + box.width / 2, box.y + (each + size) / 2], `${i + 1}`, size, {
          anchor: "middle",
          weight: "bold",
        }),
      ]),
      text([right, y + (DOOR + SMALL) / 2], PLACES[where], SMALL),
      ...edges.shapes,
    ],
    box: unionOf([
      ...boxes,
      ...edges.boxes,
      { x: 0, y, width: right + measureText(PLACES[where], SMALL, "regular"), height: DOOR },
    ]),
  };
}

/** On the lower edges of the doors in the last row; where they are stands in the table. */
function guideMarks({ guides, tracks }: SetTrack, ratio: number, y: Mm): Shape[] {
  const half = Math.max(1.2, (guides.width / 2) * ratio);
  const each = DOOR / tracks;
  return guides.at.map(({ at, track: n }) =>
    fill(0.35, rectSteps({ x: at * ratio - half, y: y - (tracks - n) * each - 1.2, width: 2 * half, height: 1.2 })),
  );
}

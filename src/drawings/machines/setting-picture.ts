/** A small picture of a part under the cutter, from where the operator stands. Not to scale: a help to the eye, no more. */
import type { Mm, Unit } from "../../base/length.ts";
import { circleSteps, fill, group, lines, polygonSteps, rect, rectSteps, stroke, text } from "../../paper/draw.ts";
import type { Point, Rect, Shape } from "../../paper/shape.ts";
import { faceWords } from "../../set/facing.ts";
import type { SetPart, SetSetting } from "../../set/schema.ts";
import { meets } from "../draughting/block.ts";
import {
  type Atom,
  type Block,
  FIGURE,
  figure,
  mostWidth,
  placeBlock,
  SMALL,
  setLines,
  word,
  words,
} from "../draughting/cell.ts";
import { guideDistance, isNearSide, type Lie, lieOf } from "./lie.ts";
import type { Pass } from "./passes.ts";

/** At the least; where its drawing has room to spare, a picture is as much larger as that allows. */
export const PICTURE_HEIGHT: Mm = 38;
export const PICTURE_WIDTH: { least: Mm; most: Mm } = { least: 35, most: 57 };

const TOP: Mm = 8.5; // the end that goes first, then the cutter
const BOTTOM: Mm = 8.5; // sled, dimension
const FEED: Mm = 5; // the feed arrow, left
const GUIDE: Mm = 4; // fence, stop
const LETTERED: Mm = 4; // a word turned along the fence
const SLED: Mm = 3;
const LEAST_SEEN: { across: Mm; along: Mm } = { across: 15, along: 11 };
const LEAST_BAND: Mm = 1.3;
const BAR: Mm = 4; // the straightedge
const BLOCK = { thick: 2, most: 9, off: 0.5, farOff: 1.2 }; // the stop block, and how far off the part's edge it is shown
const ROW: Record<Unit, Mm> = { in: 6.4, mm: 4 }; // between two distances: a fraction stands two figures high
const FIGURES_BELOW: Mm = 38; // what the lines of a distance may cross
const HATCH_STEP: Mm = 1.5;

/** Slanting lines across a narrow upright bar. */
function hatchBar(box: Rect): Shape {
  const slants: [Point, Point][] = [];
  for (let y = box.y + box.width; y <= box.y + box.height; y += HATCH_STEP) {
    slants.push([
      [box.x, y],
      [box.x + box.width, y - box.width],
    ]);
  }
  return lines("hatch", slants);
}

const arrowUp = ([x, y]: Point, length: Mm): Shape[] => [
  lines("outline", [
    [
      [x, y],
      [x, y - length + 2],
    ],
  ]),
  fill(
    0,
    polygonSteps([
      [x, y - length],
      [x - 1, y - length + 2.6],
      [x + 1, y - length + 2.6],
    ]),
  ),
];

/** What a picture may take. */
export type Frame = { wide: Mm; high: Mm };

type Seen = { lie: Lie; part: Rect; band: Rect; ratio: number; datumX: Mm; sign: 1 | -1 };

/** Everything as it lies on the paper; a stop block takes its room from the part. */
function layOut(setting: SetSetting, lie: Lie, stops: Pass["stops"], { wide, high }: Frame): Seen {
  const isSaw = setting.tool === "table saw";
  const top = TOP + (stops.some(({ edge }) => isSaw || edge === lie.away) ? BLOCK.thick : 0);
  const foot = BOTTOM + (stops.some(({ edge }) => !isSaw && edge !== lie.away) ? BLOCK.thick + 1 : 0);
  const room = { width: wide - FEED - GUIDE - LETTERED - 1, height: high - top - foot };
  const ratio = Math.min(room.width / lie.across, room.height / lie.along);
  const width = Math.min(room.width, Math.max(LEAST_SEEN.across, lie.across * ratio));
  const height = Math.min(room.height, Math.max(LEAST_SEEN.along, lie.along * ratio));
  const isRight = lie.datumSide === "right";
  const left = FEED + (isRight ? 0 : GUIDE + LETTERED) + (room.width - width) / 2;
  const part = { x: left, y: top, width, height };
  const across = width / lie.across;
  const along = height / lie.along;
  const bandWidth = Math.max(LEAST_BAND, setting.width * across);
  // A cut that opens to the datum lies there itself: the figure is to its inner wall.
  const distance = setting.sacrificial ? 0 : Math.min(setting.fence * across, width - bandWidth);
  const datumX = isRight ? left + width : left;
  const from = top + Math.max(0, lie.from) * along;
  const to = top + Math.min(lie.along, lie.to) * along;
  const band = {
    x: isRight ? datumX - distance - bandWidth : datumX + distance,
    y: from,
    width: bandWidth,
    height: to - from,
  };
  return { lie, part, band, ratio: across, datumX, sign: isRight ? 1 : -1 };
}

/** Fence or stop, outside the part on the datum's side. */
function drawGuide(setting: SetSetting, seen: Seen, datumWord: string): Shape[] {
  const { part, datumX, sign } = seen;
  const isStop = setting.carrier === "sled";
  const height = isStop ? 9 : part.height + 6;
  const y = isStop ? part.y + part.height - height + SLED : part.y - 3;
  const box = { x: sign === 1 ? datumX : datumX - GUIDE, y, width: GUIDE, height };
  const guide = setting.tool === "router" ? [] : [rect("outline", box), hatchBar(box)];
  const x = datumWordX(setting, seen);
  return [...guide, text([x, part.y + part.height / 2], datumWord, SMALL, { anchor: "middle", turn: 90 })];
}

/** The baseline of the datum's name, which is turned upright. */
function datumWordX(setting: SetSetting, seen: Seen): Mm {
  if (setting.tool === "router") return clearOfBar(setting, seen);
  return seen.sign === 1 ? seen.datumX + GUIDE + 1 + SMALL : seen.datumX - GUIDE - 1.2;
}

/** The room that the name takes. */
function datumWordBox(setting: SetSetting, seen: Seen, datumWord: string): Rect {
  const long = mostWidth(words(datumWord, SMALL));
  const { y, height } = seen.part;
  return { x: datumWordX(setting, seen) - SMALL, y: y + height / 2 - long / 2, width: SMALL, height: long };
}

/** Beside the datum; beyond the straightedge or the router's base where these hang over the part's end. */
function clearOfBar(setting: SetSetting, seen: Seen): Mm {
  const { datumX, sign, band } = seen;
  const outward = (x: Mm): Mm => (x - datumX) * sign;
  const { straightedge } = setting;
  if (straightedge === null) return sign === 1 ? datumX + 1 + SMALL : datumX - 1.2;
  const { barEdge, toGroove } = barOf(setting, straightedge, seen);
  const radius = baseRadius(setting, straightedge, seen);
  const reached = [barEdge, barEdge - toGroove * BAR, band.x + band.width / 2 + sign * radius].map(outward);
  const beyond = Math.max(0, ...reached);
  return datumX + sign * beyond + (sign === 1 ? 1 + SMALL : -1.2);
}

/** Where the straightedge stands: nearer to the groove than true where the base would leave the picture. */
function barOf(setting: SetSetting, edge: NonNullable<SetSetting["straightedge"]>, seen: Seen) {
  const { band } = seen;
  const near = isNearSide(setting);
  const inward = seen.sign === 1 ? -1 : 1; // from the datum into the part
  const toGroove = near ? inward : -inward;
  const wall = near === (seen.sign === 1) ? band.x + band.width : band.x;
  // On the datum's side it keeps off the datum's name.
  const most = near ? Math.max(3, Math.abs(seen.datumX - wall) - BAR) : 12;
  const offset = Math.min(12, most, Math.max(3, Math.abs(edge.near - setting.fence) * seen.ratio));
  return { barEdge: wall - toGroove * offset, toGroove, offset };
}

/** The straightedge as it is drawn. */
function barBox(setting: SetSetting, edge: NonNullable<SetSetting["straightedge"]>, seen: Seen): Rect {
  const { barEdge, toGroove } = barOf(setting, edge, seen);
  const { y, height } = seen.part;
  return { x: toGroove === 1 ? barEdge - BAR : barEdge, y: y - 2, width: BAR, height: height + 2.4 };
}

function drawCutter(setting: SetSetting, seen: Seen): Shape[] {
  const { part, band } = seen;
  const middle = band.x + band.width / 2;
  if (setting.tool === "table saw") {
    const cutter = { x: band.x, y: part.y - 3.6, width: band.width, height: 3.6 };
    const isRoomLeft = band.x - 2 > 10;
    return [
      fill(0.25, rectSteps(cutter)),
      text([isRoomLeft ? band.x - 1 : band.x + band.width + 1, part.y - 0.9], "cutter", SMALL, {
        anchor: isRoomLeft ? "end" : "start",
      }),
    ];
  }
  const edge = setting.straightedge;
  if (edge === null) return [];
  const bar = barBox(setting, edge, seen);
  const radius = baseRadius(setting, edge, seen);
  return [
    fill(1, rectSteps(bar)),
    rect("outline", bar),
    hatchBar(bar),
    stroke("thin", circleSteps([middle, part.y + part.height / 2], radius)),
    fill(0.25, circleSteps([middle, part.y + part.height / 2], band.width / 2)),
  ];
}

/** Half of the base as it is shown. */
function baseRadius(setting: SetSetting, edge: NonNullable<SetSetting["straightedge"]>, seen: Seen): Mm {
  return Math.min(barOf(setting, edge, seen).offset + seen.band.width / 2, seen.part.height / 2);
}

/** The straightedge and the router's base, and the lines of the distance under the part. */
function drawnIn(setting: SetSetting, seen: Seen): Rect[] {
  const { part, band, datumX } = seen;
  const below = (x: Mm): Rect => ({ x: x - 0.3, y: part.y + part.height, width: 0.6, height: FIGURES_BELOW });
  const lines = [datumX, band.x, band.x + band.width].map(below);
  const edge = setting.straightedge;
  if (edge === null) return lines;
  const radius = baseRadius(setting, edge, seen);
  const [x, y] = [band.x + band.width / 2, part.y + part.height / 2];
  return [
    barBox(setting, edge, seen),
    { x: x - radius, y: y - radius, width: 2 * radius, height: 2 * radius },
    ...lines,
  ];
}

/** How wide the picture is, and what its datum is called. */
type Words = { wide: Mm; datumWord: string };

/** Where the router's base, or the part's leading end at the saw, is stopped: outside the part or inside it, as its figure says. */
function drawBlocks(setting: SetSetting, seen: Seen, stops: Pass["stops"], { wide, datumWord }: Words): Shape[] {
  const taken = [datumWordBox(setting, seen, datumWord), ...drawnIn(setting, seen)];
  const { part, band, lie, datumX, sign } = seen;
  const edge = setting.straightedge;
  if (edge === null) {
    if (stops.length === 0) return [];
    const box = { x: sign === 1 ? datumX - GUIDE : datumX, y: part.y - 5.6, width: GUIDE, height: BLOCK.thick };
    return blockIn(box, part, { wide, taken });
  }
  const radius = baseRadius(setting, edge, seen);
  const width = Math.min(BLOCK.most, 2 * radius);
  return stops.flatMap(({ edge: at, block }) => {
    const isAway = at === lie.away;
    const outward = isAway ? -1 : 1;
    const [rim, partEnd] = isAway ? [band.y, part.y] : [band.y + band.height, part.y + part.height];
    // From the part's edge outwards to the base's edge, as these are drawn.
    const reach = (rim - partEnd) * outward + radius - band.width / 2;
    const off =
      block < 0 ? Math.min(BLOCK.farOff, Math.max(BLOCK.off, reach)) : Math.min(reach, -BLOCK.off - BLOCK.thick);
    const y = partEnd + outward * off - (isAway ? BLOCK.thick : 0);
    return blockIn({ x: band.x + band.width / 2 - width / 2, y, width, height: BLOCK.thick }, part, { wide, taken });
  });
}

/** Named on its right, beyond the part's own edge where that would run through the name, unless it then leaves the picture or meets what stands there. */
function blockIn(box: Rect, part: Rect, { wide, taken }: { wide: Mm; taken: readonly Rect[] }): Shape[] {
  const width = mostWidth(words("block", SMALL));
  const beside = box.x + box.width + 0.8;
  const edge = part.x + part.width;
  const isByPart = box.y + box.height > part.y && box.y < part.y + part.height;
  const named = isByPart && beside - 0.8 < edge && edge < beside + width + 0.8 ? edge + 0.8 : beside;
  const name: Rect = { x: named, y: box.y + box.height - SMALL, width, height: SMALL };
  return [
    fill(0.25, rectSteps(box)),
    ...(named + width <= wide && !taken.some((one) => meets(name, one))
      ? [text([named, box.y + box.height], "block", SMALL, { anchor: "start" })]
      : []),
  ];
}

type Distance = { length: Mm; x: Mm };

/** From the datum to the near wall; where both find room, to the straightedge as well, the shorter one nearer to the part. */
function distancesOf(setting: SetSetting, seen: Seen, unit: Unit): Distance[] {
  const { band, datumX, sign } = seen;
  const nearX = sign === 1 ? band.x + band.width : band.x;
  const wall = { length: setting.fence, x: setting.sacrificial ? nearX - sign * band.width : nearX };
  if (setting.straightedge === null) return [wall];
  const edge = { length: guideDistance(setting), x: barOf(setting, setting.straightedge, seen).barEdge };
  const both = [wall, edge].sort((a, b) => Math.abs(a.x - datumX) - Math.abs(b.x - datumX));
  return both.every((one) => (datumX - one.x) * sign > 0 && isRoomInside(one, datumX, unit)) ? both : [wall];
}

const figureWidth = (length: Mm, unit: Unit): Mm => mostWidth([figure(length, unit, SMALL)]);

const isRoomInside = ({ length, x }: Distance, datumX: Mm, unit: Unit): boolean =>
  Math.abs(datumX - x) > figureWidth(length, unit) + 5;

/** What a distance keeps clear of: the picture's end, and a fence, which reaches down beside the datum. */
type Round = { wide: Mm; hasFence: boolean };

/**
 * Where a figure stands that has no room between wall and datum: beside the groove; beyond the datum where it would leave
 * the picture there; and where it has no room there either, under its line.
 */
function outsidePlace(
  wall: Mm,
  { datumX, sign }: Seen,
  long: Mm,
  { wide, hasFence }: Round,
): { x: Mm; isUnder: boolean } {
  const [beside, beyond] = sign === 1 ? [wall - long - 2, datumX + 2] : [wall + 2, datumX - long - 2];
  const x = [beside, ...(hasFence ? [] : [beyond])].find((one) => one >= 0 && one + long <= wide);
  const middle = (wall + datumX - long) / 2;
  return x === undefined ? { x: Math.max(0, Math.min(wide - long, middle)), isUnder: true } : { x, isUnder: false };
}

const UNDER: Mm = 2.2; // a figure's top, under its line: past the ends of the lines that run down to it

function drawDistance(one: Distance, seen: Seen, unit: Unit, y: Mm, round: Round): Shape[] {
  const { part, datumX } = seen;
  const wall = one.x;
  const distance = setLines([figure(one.length, unit, SMALL)], 0);
  const wide = figureWidth(one.length, unit);
  const bottom = part.y + part.height;
  const isInside = isRoomInside(one, datumX, unit);
  const { x, isUnder } = isInside
    ? { x: (wall + datumX - wide) / 2, isUnder: false }
    : outsidePlace(wall, seen, wide, round);
  const [a, b] = [Math.min(wall, datumX), Math.max(wall, datumX)];
  const arrows = (tip: Mm, into: 1 | -1): Shape =>
    fill(
      0,
      polygonSteps([
        [tip, y],
        [tip + into * 1.8, y - 0.5],
        [tip + into * 1.8, y + 0.5],
      ]),
    );
  const gap: [Point, Point][] = isInside
    ? [
        [
          [a, y],
          [x - 0.8, y],
        ],
        [
          [x + wide + 0.8, y],
          [b, y],
        ],
      ]
    : [
        [
          [a, y],
          [b, y],
        ],
      ];
  return [
    lines("thin", [
      ...gap,
      [
        [wall, bottom + 0.6],
        [wall, y + 1.2],
      ],
      [
        [datumX, bottom + 0.6],
        [datumX, y + 1.2],
      ],
    ]),
    ...(isInside ? [arrows(a, 1), arrows(b, -1)] : []),
    placeBlock(distance, [x, isUnder ? y + UNDER : y + SMALL / 2 - distance.baseline]),
  ];
}

/** What figures take that stand under the last line. */
const roomUnder = (distances: readonly Distance[], seen: Seen, unit: Unit, round: Round): Mm =>
  distances.some(
    (one) =>
      !isRoomInside(one, seen.datumX, unit) && outsidePlace(one.x, seen, figureWidth(one.length, unit), round).isUnder,
  )
    ? ROW[unit]
    : 0;

export function drawSettingPicture(
  setting: SetSetting,
  part: SetPart,
  run: Pass,
  unit: Unit,
  { wide, high }: Frame,
): Block {
  const lie = lieOf(part, setting, run);
  const seen = layOut(setting, lie, run.stops, { wide, high });
  const { part: box, band } = seen;
  const isSled = setting.carrier === "sled";
  const bottom = box.y + box.height;
  const isBlocked = setting.tool === "router" && run.stops.some(({ edge }) => edge !== lie.away);
  const y = bottom + (isSled ? SLED : isBlocked ? BLOCK.thick + 1 : 0) + 3.6;
  const distances = distancesOf(setting, seen, unit);
  const isHidden = setting.tool === "table saw";
  const round = { wide, hasFence: isHidden && !isSled };
  const caption: Atom[] = [
    word(part.mark, FIGURE, "bold"),
    ...words(`${faceWords(part, lie.away)} ${isHidden ? "first" : "far"}`, SMALL),
  ];
  const drawn: Shape[] = [
    rect("outline", box),
    fill(0.85, rectSteps(band)),
    rect(isHidden ? "hidden" : "thin", band),
    ...(isSled ? [rect("outline", { x: box.x - 1, y: bottom, width: box.width + 2, height: SLED })] : []),
    ...drawGuide(setting, seen, faceWords(part, run.datum)),
    ...drawCutter(setting, seen),
    ...drawBlocks(setting, seen, run.stops, { wide, datumWord: faceWords(part, run.datum) }),
    ...distances.flatMap((one, i) => drawDistance(one, seen, unit, y + i * ROW[unit], round)),
    ...arrowUp([FEED - 2.5, bottom], Math.min(14, box.height)),
  ];
  const named = setLines(caption, wide - FEED, "middle");
  const lower = Math.max(0, named.height - setLines([word(part.mark, FIGURE, "bold")], wide).height);
  return {
    width: wide,
    height: high + (distances.length - 1) * ROW[unit] + roomUnder(distances, seen, unit, round) + lower,
    baseline: SMALL,
    shapes: [
      placeBlock(named, [FEED, 0]),
      // A name in two lines moves what stands under it.
      ...(lower === 0 ? drawn : [group(drawn, { move: [0, lower] })]),
    ],
  };
}

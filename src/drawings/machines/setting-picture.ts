/** A small picture of a part under the cutter, from where the operator stands. Not to scale: a help to the eye, no more. */
import type { Mm, Unit } from "../../base/length.ts";
import { circleSteps, fill, group, lines, polygonSteps, rect, rectSteps, stroke, text } from "../../paper/draw.ts";
import type { Point, Rect, Shape } from "../../paper/shape.ts";
import { faceWords } from "../../set/facing.ts";
import type { SetPart, SetSetting } from "../../set/schema.ts";
import {
  type Atom,
  type Block,
  FIGURE,
  mostWidth,
  placeBlock,
  SMALL,
  setLines,
  word,
  words,
} from "../draughting/cell.ts";
import { lieOf } from "./lie.ts";
import type { Pass } from "./passes.ts";
import { blocksOf, drawBlocks, endOfBlocks, nameBlocks } from "./setting-block.ts";
import { type Distance, distancesOf, drawDistance, endOfDistances, linesUnder } from "./setting-distances.ts";
import { BAR, BAR_PAST, barBox, barOf, baseRadius, FEED, type Frame, GUIDE, layOut, type Seen } from "./setting-lay.ts";

/** At the least; where its drawing has room to spare, a picture is as much larger as that allows. */
export const PICTURE_HEIGHT: Mm = 38;
/** `abreast`: as narrow as four may be to stand in one row. */
export const PICTURE_WIDTH: { abreast: Mm; least: Mm; most: Mm } = { abreast: 32.5, least: 35, most: 57 };

const SLED: Mm = 3;
const FOOT: Mm = 1; // under the lowest figure
const FIGURES_BELOW: Mm = 38; // what the lines of a distance may cross
const FEED_ARROW: Mm = 14;
const ARROW: Mm = 1.3; // its middle: as far left as it goes, clear of the datum's name
const WORD_PAST: Mm = 2; // of the datum's name, past what a distance is drawn under: its line's stroke stays clear
const NAME_OFF: Mm = 1.45; // the baseline of the datum's name, of which a "g" hangs down, from an outline
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

/** Fence or stop, outside the part on the datum's side. */
function drawGuide(setting: SetSetting, seen: Seen, datumWord: string, wordX: Mm): Shape[] {
  const { part, datumX, sign } = seen;
  const isStop = setting.carrier === "sled";
  const height = isStop ? 9 : part.height + 6;
  const y = isStop ? part.y + part.height - height + SLED : part.y - 3;
  const box = { x: sign === 1 ? datumX : datumX - GUIDE, y, width: GUIDE, height };
  const guide = setting.tool === "router" ? [] : [rect("outline", box), hatchBar(box)];
  return [...guide, text([wordX, part.y + part.height / 2], datumWord, SMALL, { anchor: "middle", turn: 90 })];
}

/** The baseline of the datum's name, which is turned upright. */
function datumWordX(setting: SetSetting, seen: Seen, blocks: readonly Rect[]): Mm {
  if (setting.tool === "router") return clearOfBar(setting, seen, blocks);
  return seen.sign === 1 ? seen.datumX + GUIDE + 1 + SMALL : seen.datumX - GUIDE - NAME_OFF;
}

/** The room that the name takes. */
function datumWordBox(wordX: Mm, seen: Seen, datumWord: string): Rect {
  const long = mostWidth(words(datumWord, SMALL));
  const { y, height } = seen.part;
  return { x: wordX - SMALL, y: y + height / 2 - long / 2, width: SMALL, height: long };
}

/** Beside the datum; beyond the straightedge, the router's base or a stop block where these hang over the part's end. */
function clearOfBar(setting: SetSetting, seen: Seen, blocks: readonly Rect[]): Mm {
  const { datumX, sign, band } = seen;
  const outward = (x: Mm): Mm => (x - datumX) * sign;
  const { straightedge } = setting;
  if (straightedge === null) return sign === 1 ? datumX + 1 + SMALL : datumX - NAME_OFF;
  const { barEdge, toGroove } = barOf(setting, straightedge, seen);
  const radius = baseRadius(setting, straightedge, seen);
  const ends = blocks.flatMap(({ x, width }) => [x, x + width]);
  const reached = [barEdge, barEdge - toGroove * BAR, band.x + band.width / 2 + sign * radius, ...ends].map(outward);
  const beyond = Math.max(0, ...reached);
  return datumX + sign * beyond + (sign === 1 ? 1 + SMALL : -NAME_OFF);
}

function drawCutter(setting: SetSetting, seen: Seen): Shape[] {
  const { part, band } = seen;
  const middle = band.x + band.width / 2;
  if (setting.tool === "table saw") {
    const cutter = { x: band.x, y: part.y - 3.6, width: band.width, height: 3.6 };
    const isRoomLeft = band.x - 1 >= mostWidth(words("cutter", SMALL));
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

/** The feed arrow, the straightedge and the router's base, and the lines of the distance under the part. */
function drawnIn(setting: SetSetting, seen: Seen, distances: readonly Distance[]): Rect[] {
  const { part, band, datumX } = seen;
  const arrow = { x: ARROW - 1, y: part.y + part.height - FEED_ARROW, width: 2, height: FEED_ARROW };
  const below = (x: Mm): Rect => ({ x: x - 0.3, y: part.y + part.height, width: 0.6, height: FIGURES_BELOW });
  const lines = [arrow, ...[datumX, ...distances.map(({ x }) => x)].map(below)];
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
  const datumWord = faceWords(part, run.datum);
  const distances = distancesOf(setting, seen, unit);
  const bare = blocksOf(setting, seen, run.stops);
  const wordX = datumWordX(setting, seen, bare);
  const datumBox = datumWordBox(wordX, seen, datumWord);
  const blocks = nameBlocks(bare, seen, [datumBox, ...drawnIn(setting, seen, distances)]);
  const foot = bottom + (isSled ? SLED : setting.straightedge === null ? 0 : BAR_PAST);
  const isHidden = setting.tool === "table saw";
  const wordEnd = datumBox.y + datumBox.height - WORD_PAST;
  const ys = linesUnder(distances, Math.max(endOfBlocks(blocks, bottom) ?? foot, wordEnd), unit);
  const round = { wide, datumWord: datumBox };
  const caption: Atom[] = [
    word(part.mark, FIGURE, "bold"),
    ...words(`${faceWords(part, lie.away)} ${isHidden ? "first" : "far"}`, SMALL),
  ];
  const drawn: Shape[] = [
    rect("outline", box),
    fill(0.85, rectSteps(band)),
    rect(isHidden ? "hidden" : "thin", band),
    ...(isSled ? [rect("outline", { x: box.x - 1, y: bottom, width: box.width + 2, height: SLED })] : []),
    ...drawGuide(setting, seen, datumWord, wordX),
    ...drawCutter(setting, seen),
    ...drawBlocks(blocks),
    ...distances.flatMap((one, i) => drawDistance(one, seen, unit, ys[i]!, round)),
    ...arrowUp([ARROW, bottom], Math.min(FEED_ARROW, box.height)),
  ];
  const named = setLines(caption, wide - FEED, "middle");
  const lower = Math.max(0, named.height - setLines([word(part.mark, FIGURE, "bold")], wide).height);
  return {
    width: wide,
    height: Math.max(endOfDistances(distances, ys, seen, unit, round), datumBox.y + datumBox.height) + FOOT + lower,
    baseline: SMALL,
    shapes: [
      placeBlock(named, [FEED, 0]),
      // A name in two lines moves what stands under it.
      ...(lower === 0 ? drawn : [group(drawn, { move: [0, lower] })]),
    ],
  };
}

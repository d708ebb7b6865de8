/** Distances under the picture of a setting: from the datum to the groove, and to the straightedge. */
import type { Mm, Unit } from "../../base/length.ts";
import { lines } from "../../paper/draw.ts";
import type { Point, Rect, Shape } from "../../paper/shape.ts";
import type { SetSetting } from "../../set/schema.ts";
import { meets } from "../draughting/block.ts";
import { figure, mostWidth, placeBlock, SMALL, setLines } from "../draughting/cell.ts";
import { obliqueStroke } from "../draughting/dimension.ts";
import { guideDistance } from "./lie.ts";
import { barOf, type Seen } from "./setting-lay.ts";

const ROW: Mm = 4; // between two distances, at the least
const FIRST: Mm = 3.6; // from what stands under the part to the first distance, at the least
const PAST: Mm = 1.2; // of the lines that run down to a distance
const STROKE: Mm = 0.8; // half an oblique stroke, each way
const AIR: Mm = 1; // between a figure and what stands over it

export type Distance = { length: Mm; x: Mm };

/** From the datum to the near wall; where both find room, to the straightedge as well, the shorter one nearer to the part. */
export function distancesOf(setting: SetSetting, seen: Seen, unit: Unit): Distance[] {
  const { band, datumX, sign } = seen;
  const nearX = sign === 1 ? band.x + band.width : band.x;
  const wall = { length: setting.fence, x: setting.sacrificial ? nearX - sign * band.width : nearX };
  if (setting.straightedge === null) return [wall];
  const edge = { length: guideDistance(setting), x: barOf(setting, setting.straightedge, seen).barEdge };
  const both = [wall, edge].sort((a, b) => Math.abs(a.x - datumX) - Math.abs(b.x - datumX));
  return both.every((one) => (datumX - one.x) * sign > 0 && isRoomInside(one, datumX, unit)) ? both : [wall];
}

/** Half the height of a figure, which stands half way up its line: a fraction stands two figures high. */
const halfHigh = (length: Mm, unit: Unit): Mm => setLines([figure(length, unit, SMALL)], 0).baseline - SMALL / 2;

/** Where the lines of the distances lie, below `from`: each figure clear of what stands over it. */
export function linesUnder(distances: readonly Distance[], from: Mm, unit: Unit): Mm[] {
  let over = from;
  let least = from + FIRST;
  return distances.map(({ length }) => {
    const half = halfHigh(length, unit);
    const y = Math.max(least, over + AIR + half);
    over = y + half;
    least = y + ROW;
    return y;
  });
}

const figureWidth = (length: Mm, unit: Unit): Mm => mostWidth([figure(length, unit, SMALL)]);

const isRoomInside = ({ length, x }: Distance, datumX: Mm, unit: Unit): boolean =>
  Math.abs(datumX - x) > figureWidth(length, unit) + 2 * (STROKE + 0.8);

/** What a distance keeps clear of: the picture's end, and the datum's name. */
type Round = { wide: Mm; datumWord: Rect };

/** Where a figure stands that has no room between wall and datum: beside the groove, or where that has none either, under its line. */
function outsidePlace(
  wall: Mm,
  { datumX, sign }: Seen,
  long: Mm,
  y: Mm,
  { wide, datumWord }: Round,
): { x: Mm; isUnder: boolean } {
  const beside = sign === 1 ? wall - long - 2 : wall + 2;
  const isFree =
    beside >= 0 &&
    beside + long <= wide &&
    !meets({ x: beside, y: y - SMALL / 2, width: long, height: SMALL }, datumWord);
  if (isFree) return { x: beside, isUnder: false };
  const middle = (wall + datumX - long) / 2;
  return { x: Math.max(0, Math.min(wide - long, middle)), isUnder: true };
}

const UNDER: Mm = 2.2; // a figure's top, under its line: past the ends of the lines that run down to it

export function drawDistance(one: Distance, seen: Seen, unit: Unit, y: Mm, round: Round): Shape[] {
  const { part, datumX } = seen;
  const wall = one.x;
  const distance = setLines([figure(one.length, unit, SMALL)], 0);
  const wide = figureWidth(one.length, unit);
  const bottom = part.y + part.height;
  const isInside = isRoomInside(one, datumX, unit);
  const { x, isUnder } = isInside
    ? { x: (wall + datumX - wide) / 2, isUnder: false }
    : outsidePlace(wall, seen, wide, y, round);
  const [a, b] = [Math.min(wall, datumX), Math.max(wall, datumX)];
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
        [wall, y + PAST],
      ],
      [
        [datumX, bottom + 0.6],
        [datumX, y + PAST],
      ],
    ]),
    // As on every other drawing: a stroke marks a line's end however narrow the span is, where arrows would meet.
    obliqueStroke([a, y], STROKE),
    obliqueStroke([b, y], STROKE),
    placeBlock(distance, [x, isUnder ? y + UNDER : y + SMALL / 2 - distance.baseline]),
  ];
}

/** Where the lowest of them ends; `ys`: where the lines are. */
export const endOfDistances = (
  distances: readonly Distance[],
  ys: readonly Mm[],
  seen: Seen,
  unit: Unit,
  round: Round,
): Mm =>
  Math.max(
    ...distances.map((one, i) => {
      const half = halfHigh(one.length, unit);
      const isUnder =
        !isRoomInside(one, seen.datumX, unit) &&
        outsidePlace(one.x, seen, figureWidth(one.length, unit), ys[i]!, round).isUnder;
      return ys[i]! + (isUnder ? UNDER + 2 * half : Math.max(half, PAST));
    }),
  );

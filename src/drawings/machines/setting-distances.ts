/** Distances under the picture of a setting: from the datum to the groove, and to the straightedge. */
import type { Mm, Unit } from "../../base/length.ts";
import { fill, lines, polygonSteps } from "../../paper/draw.ts";
import type { Point, Rect, Shape } from "../../paper/shape.ts";
import type { SetSetting } from "../../set/schema.ts";
import { meets } from "../draughting/block.ts";
import { figure, mostWidth, placeBlock, SMALL, setLines } from "../draughting/cell.ts";
import { guideDistance } from "./lie.ts";
import { barOf, type Seen } from "./setting-lay.ts";

export const ROW: Record<Unit, Mm> = { in: 6.4, mm: 4 }; // between two distances: a fraction stands two figures high

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

const figureWidth = (length: Mm, unit: Unit): Mm => mostWidth([figure(length, unit, SMALL)]);

const isRoomInside = ({ length, x }: Distance, datumX: Mm, unit: Unit): boolean =>
  Math.abs(datumX - x) > figureWidth(length, unit) + 5;

/** What a distance keeps clear of: the picture's end, a fence, which reaches down beside the datum, and the datum's name. */
type Round = { wide: Mm; hasFence: boolean; datumWord: Rect };

/**
 * Where a figure stands that has no room between wall and datum: beside the groove; beyond the datum where it would leave
 * the picture there; and where it has no room there either, under its line.
 */
function outsidePlace(
  wall: Mm,
  { datumX, sign }: Seen,
  long: Mm,
  y: Mm,
  { wide, hasFence, datumWord }: Round,
): { x: Mm; isUnder: boolean } {
  const [beside, beyond] = sign === 1 ? [wall - long - 2, datumX + 2] : [wall + 2, datumX - long - 2];
  const isFree = (at: Mm): boolean => !meets({ x: at, y: y - SMALL / 2, width: long, height: SMALL }, datumWord);
  const x = [beside, ...(hasFence ? [] : [beyond])].find((one) => one >= 0 && one + long <= wide && isFree(one));
  const middle = (wall + datumX - long) / 2;
  return x === undefined ? { x: Math.max(0, Math.min(wide - long, middle)), isUnder: true } : { x, isUnder: false };
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

/** What figures take that stand under the last line; `ys`: where the lines are. */
export const roomUnder = (
  distances: readonly Distance[],
  ys: readonly Mm[],
  seen: Seen,
  unit: Unit,
  round: Round,
): Mm =>
  distances.some(
    (one, i) =>
      !isRoomInside(one, seen.datumX, unit) &&
      outsidePlace(one.x, seen, figureWidth(one.length, unit), ys[i]!, round).isUnder,
  )
    ? ROW[unit]
    : 0;

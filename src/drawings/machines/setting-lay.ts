/** Where part, groove, fence and straightedge of a setting stand in its small picture. */
import type { Mm } from "../../base/length.ts";
import type { Rect } from "../../paper/shape.ts";
import type { SetSetting } from "../../set/schema.ts";
import { isNearSide, type Lie } from "./lie.ts";
import type { Pass } from "./passes.ts";

const TOP: Mm = 8.5; // the end that goes first, then the cutter
const BOTTOM: Mm = 8.5; // sled, dimension
export const FEED: Mm = 5; // the feed arrow, left
export const GUIDE: Mm = 4; // fence, stop
const LETTERED: Mm = 4; // a word turned along the fence
const LEAST_SEEN: { across: Mm; along: Mm } = { across: 15, along: 11 };
const LEAST_BAND: Mm = 1.3;
export const BAR: Mm = 4; // the straightedge
export const BAR_PAST: Mm = 0.4; // beyond the part's near edge
export const BLOCK = { thick: 2, most: 9, off: 0.5, farOff: 1.2 }; // the stop block, and how far off the part's edge it is shown

/** What a picture may take. */
export type Frame = { wide: Mm; high: Mm };

/** `wide`: the picture's own width. */
export type Seen = { lie: Lie; part: Rect; band: Rect; ratio: number; datumX: Mm; sign: 1 | -1; wide: Mm };

/** Everything as it lies on the paper; a stop block takes its room from the part. */
export function layOut(setting: SetSetting, lie: Lie, stops: Pass["stops"], { wide, high }: Frame): Seen {
  const isSaw = setting.tool === "table saw";
  const top = TOP + (stops.some(({ edge }) => isSaw || edge === lie.away) ? BLOCK.thick + 1 : 0);
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
  return { lie, part, band, ratio: across, datumX, sign: isRight ? 1 : -1, wide };
}

/** Where the straightedge stands: nearer to the groove than true where the base would leave the picture. */
export function barOf(setting: SetSetting, edge: NonNullable<SetSetting["straightedge"]>, seen: Seen) {
  const { band } = seen;
  const near = isNearSide(setting);
  const inward = seen.sign === 1 ? -1 : 1; // from the datum into the part
  const toGroove = near ? inward : -inward;
  const wall = near === (seen.sign === 1) ? band.x + band.width : band.x;
  // On the datum's side it keeps off the datum's name.
  const most = near ? Math.max(3, Math.abs(seen.datumX - wall) - BAR) : 12;
  // Beyond the groove the base stays in the picture.
  const beyond = (toGroove === 1 ? seen.wide - band.x - band.width : band.x) - LEAST_BAND;
  const offset = Math.min(12, most, Math.max(3, Math.min(beyond, Math.abs(edge.near - setting.fence) * seen.ratio)));
  return { barEdge: wall - toGroove * offset, toGroove, offset };
}

/** The straightedge as it is drawn. */
export function barBox(setting: SetSetting, edge: NonNullable<SetSetting["straightedge"]>, seen: Seen): Rect {
  const { barEdge, toGroove } = barOf(setting, edge, seen);
  const { y, height } = seen.part;
  return { x: toGroove === 1 ? barEdge - BAR : barEdge, y: y - 2, width: BAR, height: height + 2 + BAR_PAST };
}

/** Half of the base as it is shown. */
export function baseRadius(setting: SetSetting, edge: NonNullable<SetSetting["straightedge"]>, seen: Seen): Mm {
  return Math.min(barOf(setting, edge, seen).offset + seen.band.width / 2, seen.part.height / 2);
}

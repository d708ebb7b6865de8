/** The stop block in the small picture of a setting: outside the part or inside it, as its figure says, and named where there is room. */
import type { Mm } from "../../base/length.ts";
import { fill, rectSteps, text } from "../../paper/draw.ts";
import type { Rect, Shape } from "../../paper/shape.ts";
import type { SetSetting } from "../../set/schema.ts";
import { grow, meets } from "../draughting/block.ts";
import { mostWidth, SMALL, words } from "../draughting/cell.ts";
import type { Pass } from "./passes.ts";
import { BAR_PAST, BLOCK, baseRadius, GUIDE, type Seen } from "./setting-lay.ts";

const NAME = "block";
const BESIDE: Mm = 0.8; // from a block to its name
const FAR: Mm = 7; // from a block to its name, where something else is between
const ROW_COST: Mm = 2; // a name above or below a block, as if it stood so much farther off
const AIR: Mm = 0.5; // between a name and what stands beside it
const SPILL: Mm = 2; // past the picture's end: less than lies between two

/** Where the router's base, or the part's leading end at the saw, is stopped. */
export function blocksOf(setting: SetSetting, seen: Seen, stops: Pass["stops"]): Rect[] {
  const { part, band, lie, datumX, sign } = seen;
  const edge = setting.straightedge;
  if (edge === null) {
    if (stops.length === 0) return [];
    return [{ x: sign === 1 ? datumX - GUIDE : datumX, y: part.y - 5.6, width: GUIDE, height: BLOCK.thick }];
  }
  const radius = baseRadius(setting, edge, seen);
  const width = Math.min(BLOCK.most, 2 * radius);
  return stops.map(({ edge: at, block }) => {
    const isAway = at === lie.away;
    const outward = isAway ? -1 : 1;
    const [rim, partEnd] = isAway ? [band.y, part.y] : [band.y + band.height, part.y + part.height];
    // From the part's edge outwards to the base's edge, as these are drawn.
    const reach = (rim - partEnd) * outward + radius - band.width / 2;
    const off =
      block < 0 ? Math.min(BLOCK.farOff, Math.max(BLOCK.off, reach)) : Math.min(reach, -BLOCK.off - BLOCK.thick);
    const y = partEnd + outward * off - (isAway ? BLOCK.thick : 0);
    return { x: band.x + band.width / 2 - width / 2, y, width, height: BLOCK.thick };
  });
}

/**
 * Beside the block; where the part's own edge, a straightedge or a distance's line is in the way, beyond that; and where
 * this has no room either, over it or under it:
 *
 *      block =====            ===== block
 *   +--------[ ]----------------------+
 */
function nameOf(box: Rect, { part, wide }: Seen, taken: readonly Rect[]): Rect | null {
  const width = mostWidth(words(NAME, SMALL));
  const isAbove = box.y + box.height <= part.y;
  const isBelow = box.y >= part.y + part.height;
  const low = box.y + box.height - SMALL;
  const ys = isBelow
    ? [part.y + part.height + BAR_PAST + AIR, box.y + box.height + AIR]
    : isAbove
      ? [low, part.y - 2 - AIR - SMALL, box.y - AIR - SMALL]
      : [low, low - 1, low + 1, low + 2];
  const end = box.x + box.width;
  const from = (x: Mm): Mm => Math.max(0, x - end, box.x - x - width);
  const xs = [
    (box.x + end - width) / 2,
    box.x,
    end - width,
    ...[...taken, box, part].flatMap((one) => [one.x + one.width + BESIDE, one.x - BESIDE - width]),
  ].filter((x) => from(x) <= FAR);
  const places = xs
    .flatMap((x) => ys.map((y, i) => ({ x, y, width, height: SMALL, cost: from(x) + ROW_COST * i })))
    .sort((a, b) => a.cost - b.cost);
  const edges: Rect[] = [
    ...[part.x, part.x + part.width].map((x) => ({ x, y: part.y, width: 0, height: part.height })),
    ...[part.y, part.y + part.height].map((y) => ({ x: part.x, y, width: part.width, height: 0 })),
  ];
  const isFree = (name: Rect): boolean =>
    name.x >= 0 &&
    name.x + width <= wide + SPILL &&
    ![...taken, box, ...edges].some((one) => meets(grow(name, AIR - 0.01), one));
  return places.find(isFree) ?? null;
}

/** A block, and where its name stands. */
export type NamedBlock = { box: Rect; name: Rect | null };

/** `taken`: what stands in the picture already. */
export const nameBlocks = (boxes: readonly Rect[], seen: Seen, taken: readonly Rect[]): NamedBlock[] =>
  boxes.map((box) => ({ box, name: nameOf(box, seen, [...taken, ...boxes.filter((other) => other !== box)]) }));

/** Where the lowest block that stands under the part ends, with its name; null where none does. */
export function endOfBlocks(blocks: readonly NamedBlock[], bottom: Mm): Mm | null {
  const under = blocks.filter(({ box }) => box.y >= bottom);
  const ends = under
    .flatMap(({ box, name }) => [box, ...(name === null ? [] : [name])])
    .map((one) => one.y + one.height);
  return ends.length === 0 ? null : Math.max(...ends);
}

export const drawBlocks = (blocks: readonly NamedBlock[]): Shape[] =>
  blocks.flatMap(({ box, name }) => [
    fill(0.25, rectSteps(box)),
    ...(name === null ? [] : [text([name.x, name.y + SMALL], NAME, SMALL, { anchor: "start" })]),
  ]);

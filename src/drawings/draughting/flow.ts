/** Blocks poured into the columns of as many drawings as they need; no block is ever cut. */
import type { Mm } from "../../base/length.ts";
import type { Rect, Shape } from "../../paper/shape.ts";
import { type Block, placeBlock } from "./cell.ts";
import { tooSmall } from "./too-small.ts";

export type FlowItem = {
  block: Block;
  above: Mm; // clear of what stands over it, unless it begins a column
  head: Block | null; // drawn again over it where it begins a column
  keep: boolean; // stays with the next item
};

/** Items that belong together. A group moves to the next column whole where one can take it whole. */
export type FlowGroup = FlowItem[];

export const flowItem = (block: Block, options: Partial<Omit<FlowItem, "block">> = {}): FlowItem => ({
  block,
  above: 0,
  head: null,
  keep: false,
  ...options,
});

/** Height of a run of items, the first of them at a column's top or not. */
export function heightOf(items: readonly FlowItem[], isFirst: boolean): Mm {
  return items.reduce((sum, item, i) => {
    const above = isFirst && i === 0 ? (item.head?.height ?? 0) : item.above;
    return sum + above + item.block.height;
  }, 0);
}

/** A group broken wherever `keep` does not hold it together: it fills the column it begins in. */
export function loosely(group: FlowGroup): FlowGroup[] {
  const units: FlowItem[][] = [];
  let unit: FlowItem[] = [];
  for (const item of group) {
    unit.push(item);
    if (item.keep) continue;
    units.push(unit);
    unit = [];
  }
  return unit.length > 0 ? [...units, unit] : units;
}

/** Columns of one width on the first, second, ... drawing; from some drawing on they are alike. */
export type Columns = (drawing: number) => Rect[];

/** How many drawings are looked at for a column high enough: those after the second are alike. */
const LOOK_AHEAD = 3;

/** `null` where something stands in no column that is only `share` of its height, though it does in a whole one. */
function pour(groups: readonly FlowGroup[], whole: Columns, share: number): Shape[][] | null {
  const columns: Columns = (drawing) => whole(drawing).map((one) => ({ ...one, height: one.height * share }));
  const drawings: Shape[][] = [[]];
  let column = 0;
  let used = 0;
  const here = (): Rect => columns(drawings.length - 1)[column]!;
  const advance = () => {
    column += 1;
    used = 0;
    if (column < columns(drawings.length - 1).length) return;
    column = 0;
    drawings.push([]);
  };
  const fits = (items: readonly FlowItem[]) => used + heightOf(items, used === 0) <= here().height + 1e-6;
  const hasColumnFor = (items: readonly FlowItem[], among: Columns = columns) => {
    const ahead = Array.from({ length: LOOK_AHEAD }, (_, i) => among(drawings.length + i)).flat();
    return [...among(drawings.length - 1).slice(column + 1), ...ahead].some(
      (one) => heightOf(items, true) <= one.height + 1e-6,
    );
  };
  const put = (block: Block) => {
    drawings[drawings.length - 1]!.push(placeBlock(block, [here().x, here().y + used]));
    used += block.height;
  };
  for (const group of groups) {
    const isWhole = fits(group) || hasColumnFor(group);
    if (!isWhole && hasColumnFor(group, whole)) return null;
    for (const unit of isWhole ? [group] : loosely(group)) {
      // What cannot stand together in any column stands apart.
      const isTogether = fits(unit) || hasColumnFor(unit);
      if (!isTogether && hasColumnFor(unit, whole)) return null;
      for (const part of isTogether ? [unit] : unit.map((item) => [item])) {
        if (!fits(part) && !hasColumnFor(part)) {
          if (share < 1) return null;
          const height = heightOf(part, true).toFixed(0);
          const most = Math.max(...columns(drawings.length).map((one) => one.height)).toFixed(0);
          throw tooSmall(
            `a block of the drawings ${height} mm high`,
            `at most the ${most} mm the paper for drawings leaves it`,
          );
        }
        while (!fits(part)) advance();
        part.forEach((item, i) => {
          if (used > 0) used += item.above;
          else if (i === 0 && item.head !== null) put(item.head);
          put(item.block);
        });
      }
    }
  }
  return drawings;
}

/** Each column filled to its foot before the next is begun. */
export const flow = (groups: readonly FlowGroup[], columns: Columns): Shape[][] => pour(groups, columns, 1)!;

const HALVINGS = 7;

/**
 * As many drawings as `flow` needs, filled alike: columns end as high as they can without a further drawing, so that a
 * list does not end in two lines on a drawing of their own.
 */
export function flowEvenly(groups: readonly FlowGroup[], columns: Columns): Shape[][] {
  let best = flow(groups, columns);
  if (best.length === 1 && columns(0).length === 1) return best;
  let [low, high] = [0, 1];
  for (let i = 0; i < HALVINGS; i++) {
    const share = (low + high) / 2;
    const drawings = pour(groups, columns, share);
    if (drawings === null || drawings.length > best.length) low = share;
    else [best, high] = [drawings, share];
  }
  return best;
}

/** A space as `count` columns of one width. */
export function columnsOf(space: Rect, count: number, gap: Mm): Rect[] {
  const width = (space.width - (count - 1) * gap) / count;
  return Array.from({ length: count }, (_, i) => ({ ...space, x: space.x + i * (width + gap), width }));
}

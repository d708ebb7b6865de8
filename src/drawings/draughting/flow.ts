/** Blocks poured into the columns of as many drawings as they need; no block is ever cut. */
import type { Mm } from "../../base/length.ts";
import { line } from "../../paper/draw.ts";
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

/** `used`: how much of each drawing's columns is, 0 to 1; `ends`: how far down each column goes. */
type Poured = { drawings: Shape[][]; used: number[]; ends: Mm[][] };

/** Of each drawing, how much of its columns' height may be used. */
type ShareOf = (drawing: number) => number;

/** `null` where something stands in no column that is only a share of its height, though it does in a whole one. */
function pour(groups: readonly FlowGroup[], whole: Columns, shareOf: ShareOf): Poured | null {
  const columns: Columns = (drawing) =>
    whole(drawing).map((one) => ({ ...one, height: one.height * shareOf(drawing) }));
  const drawings: Shape[][] = [[]];
  const heights: Mm[] = [0];
  const ends: Mm[][] = [[]];
  let column = 0;
  let used = 0;
  const here = (): Rect => columns(drawings.length - 1)[column]!;
  const advance = () => {
    column += 1;
    used = 0;
    if (column < columns(drawings.length - 1).length) return;
    column = 0;
    drawings.push([]);
    heights.push(0);
    ends.push([]);
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
    heights[heights.length - 1]! += block.height;
    ends[ends.length - 1]![column] = here().y + used;
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
          if (shareOf(drawings.length) < 1) return null;
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
  const room = (drawing: number): Mm => whole(drawing).reduce((sum, one) => sum + one.height, 0);
  return { drawings, used: heights.map((height, i) => height / room(i)), ends };
}

/** Lines between columns, as far down as the longer of the two. */
const ruledBetween = ({ drawings, ends }: Poured, columns: Columns): Shape[][] =>
  drawings.map((shapes, n) => {
    const own = columns(n);
    return [
      ...shapes,
      ...own.slice(1).flatMap((right, i): Shape[] => {
        const [left, end] = [own[i]!, ends[n]![i + 1]];
        if (end === undefined) return [];
        const x = (left.x + left.width + right.x) / 2;
        return [line("thin", [x, right.y], [x, Math.max(ends[n]![i]!, end)])];
      }),
    ];
  });

/** Each column filled to its foot before the next is begun. */
export const flow = (groups: readonly FlowGroup[], columns: Columns): Shape[][] =>
  pour(groups, columns, () => 1)!.drawings;

const HALVINGS = 7;
const SHORTER = 0.04; // so much of its height a drawing ends sooner, time by time
const ENDING = 1 / 4; // a last drawing with less on it is filled from those before it
const HOLLOW = 0.345; // but none of those is left with less than a third, and a little for what rounding makes of it

/**
 * As many drawings as `flow` needs, each filled to its foot but the last, whose columns end alike. Where that would stay
 * nearly blank, the one before it ends as much sooner as it takes, or the two before it: a list does not end in two lines
 * on a drawing of their own.
 */
export const flowEvenly = (groups: readonly FlowGroup[], columns: Columns): Shape[][] =>
  pouredEvenly(groups, columns).drawings;

/** The same with a line between two columns: what is read in one is done before what is read in the next. */
export const flowInRuled = (groups: readonly FlowGroup[], columns: Columns): Shape[][] =>
  ruledBetween(pouredEvenly(groups, columns), columns);

function pouredEvenly(groups: readonly FlowGroup[], columns: Columns): Poured {
  const full = pour(groups, columns, () => 1)!;
  const shares = full.drawings.length === 1 ? [1] : sharesOf(groups, columns, full);
  return endingAlike(groups, columns, ...evened(groups, columns, full, shares));
}

/** Of each drawing's height how much is used: all of it, or so much less before the last that this is no longer nearly blank. */
function sharesOf(groups: readonly FlowGroup[], columns: Columns, full: Poured): number[] {
  const last = full.drawings.length - 1;
  const all = full.drawings.map(() => 1);
  if (full.used[last]! >= ENDING) return all;
  for (let from = last - 1; from >= 0; from--) {
    for (let share = 1 - SHORTER; share > ENDING; share -= SHORTER) {
      const shares = all.map((_, i) => (i < from || i === last ? 1 : share));
      const poured = pour(groups, columns, (drawing) => shares[drawing] ?? 1);
      if (poured === null || poured.drawings.length > all.length) break;
      const isHollowed = poured.used.some((one, i) => i < last && one < HOLLOW && one < full.used[i]!);
      if (poured.used[last]! >= ENDING && !isHollowed) return shares;
    }
  }
  return all;
}

/** The last drawing with its columns as short as they can be. */
function endingAlike(
  groups: readonly FlowGroup[],
  columns: Columns,
  poured: Poured,
  shares: readonly number[],
): Poured {
  const last = shares.length - 1;
  if (columns(last).length === 1) return poured;
  let best = poured;
  let [low, high] = [0, 1];
  for (let i = 0; i < HALVINGS; i++) {
    const share = (low + high) / 2;
    const again = pour(groups, columns, (drawing) => (drawing < last ? shares[drawing]! : share));
    if (again === null || again.drawings.length > shares.length) low = share;
    else [best, high] = [again, share];
  }
  return best;
}

const SPARSE = 0.45; // of the columns' height: of the width, what stands there may take no more than two thirds

/**
 * Where what follows needs a drawing nearly to itself, one before it may stay nearly blank: it is filled from the one before
 * that, or from the two before it.
 */
function evened(
  groups: readonly FlowGroup[],
  columns: Columns,
  full: Poured,
  given: readonly number[],
): readonly [Poured, number[]] {
  let shares = [...given];
  let best = pour(groups, columns, (drawing) => shares[drawing] ?? 1) ?? full;
  for (let i = 1; i < shares.length - 1; i++) {
    const [before, own] = [best.used[i - 1]!, best.used[i]!];
    if (own >= SPARSE || before < 2 * own) continue;
    for (const from of [i - 1, i - 2].filter((one) => one >= 0)) {
      const mean = best.used.slice(from, i + 1).reduce((sum, one) => sum + one, 0) / (i + 1 - from);
      // What begins the first of them may not be parted as low as the mean.
      for (const first of [mean, (mean + shares[from]!) / 2]) {
        const tried = shares.map((one, n) => (n < from || n > i ? one : n === from ? first : n < i ? mean : 1));
        const again = pour(groups, columns, (drawing) => tried[drawing] ?? 1);
        if (again === null || again.drawings.length !== shares.length) continue;
        if (Math.min(...again.used.slice(from, i + 1)) <= Math.min(...best.used.slice(from, i + 1))) continue;
        [best, shares] = [again, tried];
      }
    }
  }
  return [best, shares];
}

/** A space as `count` columns of one width. */
export function columnsOf(space: Rect, count: number, gap: Mm): Rect[] {
  const width = (space.width - (count - 1) * gap) / count;
  return Array.from({ length: count }, (_, i) => ({ ...space, x: space.x + i * (width + gap), width }));
}

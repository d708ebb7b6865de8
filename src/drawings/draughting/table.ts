/** Tables: columns as wide as their content asks, thin rules between rows, heads drawn again on every drawing a table runs on to. */
import type { Mm } from "../../base/length.ts";
import { line } from "../../paper/draw.ts";
import type { Rect, Shape } from "../../paper/shape.ts";
import {
  type Align,
  type Atom,
  type Block,
  floorWidth,
  leastWidth,
  mostWidth,
  placeBlock,
  SMALL,
  setLines,
  stackBlocks,
  words,
} from "./cell.ts";
import { type FlowGroup, type FlowItem, flow, flowItem } from "./flow.ts";
import { tooSmall } from "./too-small.ts";

export type Column = {
  head: string;
  align?: Align;
  most?: Mm; // never wider by content
  grow?: number; // its share of the width that content leaves over
  firm?: true; // keeps its content on one line as long as the other columns can wrap
};

/** A row of cells, with what is said under them from the second column to the last; or a heading over the rows that follow it. */
export type Row = { cells: Atom[][]; under?: Atom[] } | { heading: Atom[] };

const PAD_X: Mm = 1.2;
const TIGHT: Mm = 0.8; // between columns that else find no room: the words still stand clear of each other
const PAD_Y: Mm = 0.8;
const UNDER_AIR: Mm = 1.2; // between a row's cells and what is said under them
const LEAST_ROW: Mm = 6; // a finger's breadth finds the row again

type Ask = { floor: Mm; least: Mm; most: Mm; grow: number; firm: boolean };

const total = (widths: readonly Mm[]): Mm => widths.reduce((sum, one) => sum + one, 0);

/** Widths between two bounds that sum to `width`: what is over the lower bounds raises the narrowest together. */
function fill(bounds: readonly { low: Mm; high: Mm }[], width: Mm): Mm[] {
  const widthsAt = (level: Mm): Mm[] => bounds.map(({ low, high }) => Math.max(low, Math.min(high, level)));
  let [low, high] = [0, width];
  for (let i = 0; i < 60; i++) {
    const level = (low + high) / 2;
    if (total(widthsAt(level)) > width) high = level;
    else low = level;
  }
  return widthsAt(low);
}

/**
 * Widths summing to `width`. Where there is enough, no line wraps and the growing columns take what is over; where there
 * is less, long cells wrap, the widest first; where there is too little even for that, words break.
 */
export function shareWidths(asks: readonly Ask[], width: Mm): Mm[] {
  const spare = width - total(asks.map((ask) => ask.most));
  if (spare >= 0) {
    const shares = asks.reduce((sum, ask) => sum + ask.grow, 0);
    return asks.map((ask) => (shares === 0 ? ask.most : ask.most + (spare * ask.grow) / shares));
  }
  const firm = asks.map((ask) => ({ low: ask.firm ? ask.most : ask.least, high: ask.most }));
  const soft = asks.map((ask) => ({ low: ask.least, high: ask.most }));
  for (const bounds of [firm, soft]) if (total(bounds.map(({ low }) => low)) <= width) return fill(bounds, width);
  const floors = total(asks.map((ask) => ask.floor));
  if (floors > width) {
    throw tooSmall(
      `a table of the drawings ${floors.toFixed(0)} mm wide`,
      `at most the ${width.toFixed(0)} mm the paper for drawings leaves it`,
    );
  }
  return fill(
    asks.map((ask) => ({ low: ask.floor, high: ask.least })),
    width,
  );
}

type Fitted = { widths: Mm[]; pad: Mm };

/** Of each column every cell, its head first. */
const cellsOf = (columns: readonly Column[], rows: readonly Row[]): Atom[][][] =>
  columns.map((column, i) => [
    words(column.head, SMALL),
    ...rows.flatMap((row) => ("cells" in row ? [row.cells[i] ?? []] : [])),
  ]);

/** Narrower a table is refused. */
export const leastTable = (columns: readonly Column[], rows: readonly Row[]): Mm =>
  total(cellsOf(columns, rows).map((own) => Math.max(...own.map(floorWidth)) + 2 * TIGHT));

/** So wide that no line of it wraps. */
export const snugTable = (columns: readonly Column[], rows: readonly Row[]): Mm =>
  total(cellsOf(columns, rows).map((own) => Math.max(...own.map(mostWidth)) + 2 * PAD_X));

/** As wide as their content asks; the space between columns is made less before a table is refused. */
function fitColumns(columns: readonly Column[], rows: readonly Row[], width: Mm): Fitted {
  const cells = cellsOf(columns, rows);
  const floors = cells.map((own) => Math.max(...own.map(floorWidth)));
  const pad = total(floors) + 2 * PAD_X * columns.length > width ? TIGHT : PAD_X;
  const asks = columns.map((column, i) => {
    const least = Math.max(...cells[i]!.map(leastWidth));
    const most = Math.max(
      least,
      Math.min(column.most ?? Number.POSITIVE_INFINITY, Math.max(...cells[i]!.map(mostWidth))),
    );
    return {
      floor: floors[i]! + 2 * pad,
      least: least + 2 * pad,
      most: most + 2 * pad,
      grow: column.grow ?? 0,
      firm: column.firm ?? false,
    };
  });
  return { widths: shareWidths(asks, width), pad };
}

/** Cells side by side on one baseline, what is said under them, and a rule. */
function setRow(
  { cells, under = [] }: Extract<Row, { cells: Atom[][] }>,
  columns: readonly Column[],
  { widths, pad }: Fitted,
  isHead: boolean,
): Block {
  const blocks = cells.map((atoms, i) => setLines(atoms, widths[i]! - 2 * pad, columns[i]!.align));
  const baseline = Math.max(...blocks.map((block) => block.baseline));
  const ofCells = Math.max(...blocks.map((block) => block.height + baseline - block.baseline));
  const said = setLines(under, total(widths.slice(1)) - 2 * pad);
  const content = ofCells + (under.length > 0 ? UNDER_AIR + said.height : 0);
  const height = isHead ? content + PAD_Y : Math.max(LEAST_ROW, content + 2 * PAD_Y);
  const top = isHead ? 0 : (height - content) / 2;
  const width = total(widths);
  const shapes: Shape[] = [];
  let x = 0;
  blocks.forEach((block, i) => {
    // Heads stand on the rule, whatever their number of lines.
    const y = isHead ? content - block.height : top + baseline - block.baseline;
    if (block.shapes.length > 0) shapes.push(placeBlock(block, [x + pad, y]));
    x += widths[i]!;
  });
  if (under.length > 0) shapes.push(placeBlock(said, [widths[0]! + pad, top + ofCells + UNDER_AIR]));
  shapes.push(line(isHead ? "outline" : "thin", [0, height], [width, height]));
  return { width, height, baseline: top + baseline, shapes };
}

function setHeading(atoms: readonly Atom[], width: Mm): Block {
  const block = setLines(atoms, width - 2 * PAD_X);
  const height = block.height + 3 * PAD_Y;
  return {
    width,
    height,
    baseline: block.baseline + 2 * PAD_Y,
    shapes: [placeBlock(block, [PAD_X, 2 * PAD_Y]), line("thin", [0, height], [width, height])],
  };
}

/** The table as items to pour: its rows unbroken, its heads over the first row of every column it reaches. */
export function setTable(columns: readonly Column[], rows: readonly Row[], width: Mm): FlowGroup {
  const fitted = fitColumns(columns, rows, width);
  const whole = total(fitted.widths);
  const head = setRow(
    { cells: columns.map((column) => words(column.head, SMALL, "regular", 0.25)) },
    columns,
    fitted,
    true,
  );
  const items: FlowItem[] = [flowItem(head, { keep: true })];
  let again = head;
  rows.forEach((row, i) => {
    if ("cells" in row) {
      if (row.cells.length !== columns.length) {
        throw new Error(`Internal error: a row of ${row.cells.length} cells in a table of ${columns.length} columns`);
      }
      items.push(flowItem(setRow(row, columns, fitted, false), { head: again, keep: isKept(rows, i) }));
    } else {
      items.push(flowItem(setHeading(row.heading, whole), { head, keep: true }));
      again = stackBlocks([head, setHeading([...row.heading, ...words("(continued)")], whole)], 0);
    }
  });
  return items;
}

/** With the next, so that no row stands alone: the first row under a head, and the last but one over the next. */
function isKept(rows: readonly Row[], i: number): boolean {
  const isRow = (n: number): boolean => rows[n] !== undefined && "cells" in rows[n];
  return isRow(i + 1) && (!isRow(i - 1) || !isRow(i + 2));
}

/** A table alone on as many drawings as it needs. */
export const drawTable = (columns: readonly Column[], rows: readonly Row[], space: Rect): Shape[][] =>
  flow([setTable(columns, rows, space.width)], () => [space]);

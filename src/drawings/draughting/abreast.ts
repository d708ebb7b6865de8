/** Tables beside each other, and how a table breaks. */
import { chunks } from "../../base/chunks.ts";
import type { Mm } from "../../base/length.ts";
import { type Block, besideBlocks } from "./cell.ts";
import type { FlowGroup, FlowItem } from "./flow.ts";
import { type Column, type Row, setTable } from "./table.ts";

export const GUTTER: Mm = 9;

/** Tables in step, row beside row, so that they break together. */
export function abreast(tables: readonly FlowGroup[], wide: Mm): FlowGroup {
  const [first, ...others] = tables as [FlowGroup, ...FlowGroup[]];
  const inRow = (blocks: readonly (Block | null | undefined)[]): Block =>
    besideBlocks(
      blocks.flatMap((block) => (block ? [{ ...block, width: wide }] : [])),
      GUTTER,
    );
  return first.map((item, i): FlowItem => {
    const beside = others.map((table) => table[i]);
    return {
      ...item,
      block: inRow([item.block, ...beside.map((one) => one?.block)]),
      head: item.head === null ? null : inRow([item.head, ...beside.map((one) => one?.head)]),
    };
  });
}

/** One table as so many, their rows in order down the first of them, then down the next. */
export function setAbreast(columns: readonly Column[], rows: readonly Row[], width: Mm, count: number): FlowGroup {
  if (count === 1) return setTable(columns, rows, width);
  const wide = (width - (count - 1) * GUTTER) / count;
  const each = chunks(rows, Math.ceil(rows.length / count)).map((some) => setTable(columns, some, wide));
  return abreast(each, wide);
}

const LEAST_ROWS = 3; // of a table, over a break and under it

/** A row or two do not stand apart from the rest of their table; `table`: its heads first. */
export const unspilt = (table: FlowGroup): FlowGroup =>
  table.map((item, i) => {
    const last = table.length - 1;
    return i < last && (i < LEAST_ROWS || i > last - LEAST_ROWS) ? { ...item, keep: true } : item;
  });

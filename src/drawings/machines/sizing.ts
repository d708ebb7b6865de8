/** Sizing: the fence distances of the sheet layouts, from wide to narrow, each with the cuts that are made at it. */
import type { Mm, Unit } from "../../base/length.ts";
import type { Rect } from "../../paper/shape.ts";
import type { DryfitSet } from "../../set/schema.ts";
import {
  type Atom,
  type Block,
  besideBlocks,
  FIGURE,
  figureTwice,
  glue,
  SMALL,
  setLines,
  tick,
  word,
  words,
} from "../draughting/cell.ts";
import { type FlowGroup, type FlowItem, flowItem, loosely } from "../draughting/flow.ts";
import { type Column, type Row, setTable } from "../draughting/table.ts";

type Sizing = DryfitSet["sizing"][number];

const TITLE: Mm = 4.5;
const GAP: Mm = 3;
const BETWEEN: Mm = 4;
const HALVES: Mm = 220; // in two columns from here on
const GUTTER: Mm = 9;

const GUIDES: Record<Sizing["guide"], string> = {
  fence: "fence",
  stop: "sled, stop",
  straightedge: "straightedge",
};

/** "1: 5, 6; 3: 8" */
const cutsOf = ({ cuts }: Sizing): Atom[] =>
  cuts.flatMap(({ sheet, cuts: numbers }, i) => [
    word(`${sheet}:`, SMALL),
    ...words(`${numbers.join(", ")}${i < cuts.length - 1 ? ";" : ""}`),
  ]);

function setSizing({ sizing, sheets, job }: DryfitSet, width: Mm): FlowGroup {
  const cuts = sheets.reduce((sum, sheet) => sum + sheet.cuts.length, 0);
  const title = setLines(
    [
      ...words(`${sizing.length} sizing settings`, TITLE, "bold"),
      ...words(
        `for the ${cuts} cuts of the sheet layouts, counted apart from those for grooves. Each sheet is cut in the order of its own numbers; where several sheets are cut together, all cuts of one distance are made before the fence moves.`,
      ),
    ],
    width,
  );
  const rows = sizing.map((one): Row => ({ cells: rowOf(one, job.unit) }));
  const half = Math.ceil(rows.length / 2);
  const columns: Column[] = [{ head: "Distance", firm: true }, { head: "Guide" }, { head: "Sheet: its cuts", grow: 1 }];
  if (width < HALVES || rows.length < 4) {
    const table = setTable(columns, rows, width);
    return [flowItem(title, { above: BETWEEN, keep: true }), ...table.map(under)];
  }
  const wide = (width - GUTTER) / 2;
  const [left, right] = [rows.slice(0, half), rows.slice(half)].map((some) => setTable(columns, some, wide));
  return [flowItem(title, { above: BETWEEN, keep: true }), ...beside(left!, right!, wide).map(under)];
}

const under = (item: FlowItem, i: number): FlowItem => (i === 0 ? { ...item, above: GAP } : item);

const rowOf = (one: Sizing, unit: Unit): Atom[][] => [
  [glue([tick(), ...figureTwice(one.fence, unit, FIGURE, "bold")])],
  words(GUIDES[one.guide]),
  cutsOf(one),
];

/** Two tables in step, row beside row, so that they break together. */
function beside(left: FlowGroup, right: FlowGroup, wide: Mm): FlowGroup {
  const pair = (a: Block, b: Block | null | undefined): Block =>
    besideBlocks([{ ...a, width: wide }, ...(b ? [b] : [])], GUTTER);
  return left.map((item, i): FlowItem => {
    const other = right[i];
    return {
      ...item,
      block: pair(item.block, other?.block),
      head: item.head === null ? null : pair(item.head, other?.head),
    };
  });
}

export const sizingGroups = (set: DryfitSet, { width }: Rect): FlowGroup[] =>
  set.sizing.length === 0 ? [] : loosely(setSizing(set, width));

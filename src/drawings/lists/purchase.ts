/** What to buy, the stock as it was measured, and the finished mass. */
import { formatLengthWithUnit, type Unit } from "../../base/length.ts";
import type { DryfitSet, SetStock } from "../../set/schema.ts";
import { formatMass } from "../../set/words.ts";
import {
  type Atom,
  type Block,
  BREAK,
  FIGURE,
  figure,
  glue,
  setLines,
  stackBlocks,
  tick,
  word,
  words,
} from "../draughting/cell.ts";
import type { Draft } from "../draughting/draft.ts";
import { type FlowGroup, flowEvenly, flowItem, loosely } from "../draughting/flow.ts";
import { drawingSpace } from "../draughting/frame.ts";
import { numberDrafts } from "../draughting/numbered.ts";
import { type Column, type Row, setTable } from "../draughting/table.ts";

const TITLE = 3.5;
const BETWEEN = 8;

const title = (content: string, width: number): Block => setLines(words(content, TITLE, "bold"), width);

const numberText = (n: number): string => String(Math.round(n * 100) / 100);

function buyingList({ purchase }: DryfitSet): { columns: Column[]; rows: Row[] } {
  const hasPrices = purchase.some((line) => line.price !== null);
  const columns: Column[] = [
    { head: "" },
    { head: "What", most: 80 },
    { head: "Size" },
    { head: "Quantity" },
    ...(hasPrices ? [{ head: "Price", align: "end" as const }] : []),
    { head: "Note", grow: 1 },
  ];
  const rows = purchase.map(
    (line): Row => ({
      cells: [
        [tick()],
        words(line.what, 3),
        words(line.size, 3),
        [glue([word(numberText(line.quantity), FIGURE, "bold"), word(line.unit)])],
        ...(hasPrices ? [line.price === null ? [] : [word(line.price.toFixed(2))]] : []),
        words(line.note),
      ],
    }),
  );
  return { columns, rows };
}

/** Every reading, so that a doubtful one is found again. */
function stockRow(stock: SetStock, unit: Unit): Row {
  const readings = stock.readings.map((reading) => figure(reading, unit, 3));
  // Boards are told by the longest and widest to be had.
  const { length, width } = stock.sheet ?? stock.boards!;
  const size: Atom[] = [figure(length, unit, 3), word("\u00d7"), figure(width, unit, 3)];
  return {
    cells: [
      words(stock.name, 3),
      [figure(stock.nominal, unit, 3)],
      readings,
      [figure(stock.thickness, unit, FIGURE, "bold")],
      [figure(stock.thickest, unit, FIGURE, "bold")],
      size,
      words(
        `${stock.goodFaces === 2 ? "both faces good" : "one good face"}, ${stock.grain ? "grain along the length" : "no grain"}`,
      ),
    ],
  };
}

const STOCK_COLUMNS: readonly Column[] = [
  { head: "Stock", most: 60 },
  { head: "Nominal" },
  { head: "Readings", most: 60 },
  { head: "Lengths follow" },
  { head: "Grooves follow" },
  { head: "Sheet or board" },
  { head: "Faces", grow: 1 },
];

export function drawPurchase(set: DryfitSet): Draft[] {
  const space = drawingSpace(set);
  const { unit } = set.job;
  const { columns, rows } = buyingList(set);
  const mass: Atom[] = [
    ...words(`Finished mass ${formatMass(set.mass, unit)}`, FIGURE, "bold"),
    BREAK,
    ...words(`${set.parts.length} parts; rounding step ${formatLengthWithUnit(set.job.step, unit)}.`),
  ];
  const measured = words(
    "Check each sheet with a calliper before it is cut: where it differs, enter the reading and build the set again.",
  );
  const groups = [
    [
      flowItem(title(rows.length > 0 ? "To buy" : "Nothing to buy", space.width), { keep: rows.length > 0 }),
      ...(rows.length > 0 ? spaced(goingOn("To buy", setTable(columns, rows, space.width), space.width), 2) : []),
    ],
    [
      flowItem(title("Stock as measured", space.width), { above: BETWEEN, keep: true }),
      ...spaced(
        goingOn(
          "Stock as measured",
          setTable(
            STOCK_COLUMNS,
            set.stock.map((stock) => stockRow(stock, unit)),
            space.width,
          ),
          space.width,
        ),
        2,
      ),
      flowItem(setLines(measured, space.width), { above: 3 }),
    ],
    [flowItem(setLines(mass, space.width), { above: BETWEEN })],
  ];
  return numberDrafts(
    "purchase",
    "Purchase list",
    flowEvenly(loosely(groups.flat()), () => [space]),
  );
}

/** Where a table runs on to the next drawing its name stands over its heads again. */
const goingOn = (name: string, table: FlowGroup, width: number): FlowGroup =>
  table.map((item) => ({
    ...item,
    head: item.head === null ? null : stackBlocks([title(`${name} (continued)`, width), item.head], 2),
  }));

const spaced = <Item extends { above: number }>(items: Item[], above: number): Item[] =>
  items.map((item, i) => (i === 0 ? { ...item, above } : item));

/** Sizing: the fence distances of a group, from wide to narrow, each with the cuts that are made at it. */
import type { Mm, Unit } from "../../base/length.ts";
import type { Rect } from "../../paper/shape.ts";
import type { DryfitSet, SetGroup } from "../../set/schema.ts";
import { SIZING_GUIDES } from "../../set/words.ts";
import { setCaution } from "../draughting/caution.ts";
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
export const HALVES: Mm = 220; // in two columns from here on
export const GUTTER: Mm = 9;

/** "Sheet 1: 5, 6; sheet 3: 8", then what is ripped and what is cut to length. */
function cutsOf({ cuts, rips, crosscuts, trim }: Sizing): Atom[] {
  const told: ((end: string) => Atom[])[] = [
    ...cuts.map(({ sheet, cuts: numbers }) => (end: string) => [
      word(`sheet ${sheet}:`, SMALL),
      ...words(`${numbers.join(", ")}${end}`),
    ]),
    ...(
      [
        ["rip", rips],
        ["crosscut", crosscuts],
      ] as const
    )
      .filter(([, marks]) => marks.length > 0)
      .map(([how, marks]) => (end: string) => [
        ...words(trim ? `trim, ${how}` : how, SMALL),
        ...words(`${marks.join(", ")}${end}`, undefined, "bold"),
      ]),
  ];
  return told.flatMap((atoms, i) => atoms(i < told.length - 1 ? ";" : ""));
}

function setSizing(sizing: readonly Sizing[], { job }: DryfitSet, width: Mm): FlowGroup {
  const isOfSheets = sizing.some(({ cuts }) => cuts.length > 0);
  const isOfBoards = sizing.some(({ rips, crosscuts, trim }) => !trim && rips.length + crosscuts.length > 0);
  const isTrimmed = sizing.some(({ trim }) => trim);
  const title = setLines(
    [
      ...words("Sizing", TITLE, "bold"),
      ...words(
        [
          ...(isOfSheets
            ? [
                "Each sheet is cut in the order of its own numbers; where several sheets are cut together, all cuts of one distance are made before the fence moves.",
              ]
            : []),
          ...(isOfBoards
            ? ["What is milled from boards: all rips first, one edge jointed, then one end square, then the lengths."]
            : []),
          ...(isTrimmed
            ? [
                "Panels cut oversize are trimmed last, before any groove: skim one long edge and rip from it, square one end and cut to length from that.",
              ]
            : []),
        ].join(" "),
      ),
    ],
    width,
  );
  const rows = sizing.map((one): Row => ({ cells: rowOf(one, job.unit) }));
  const cautions = [...new Set(sizing.map(({ caution }) => caution))];
  const half = Math.ceil(rows.length / 2);
  const columns: Column[] = [{ head: "Distance", firm: true }, { head: "Guide" }, { head: "Cuts", grow: 1 }];
  const head = [
    flowItem(title, { above: BETWEEN, keep: true }),
    ...cautions.map((one) => flowItem(setCaution(one, width, SMALL), { above: 1.8, keep: true })),
  ];
  if (width < HALVES || rows.length < 4) {
    const table = setTable(columns, rows, width);
    return [...head, ...table.map(under)];
  }
  const wide = (width - GUTTER) / 2;
  const [left, right] = [rows.slice(0, half), rows.slice(half)].map((some) => setTable(columns, some, wide));
  return [...head, ...beside(left!, right!, wide).map(under)];
}

const under = (item: FlowItem, i: number): FlowItem => (i === 0 ? { ...item, above: GAP } : item);

const rowOf = (one: Sizing, unit: Unit): Atom[][] => [
  [glue([tick(), ...figureTwice(one.fence, unit, FIGURE, "bold")])],
  words(SIZING_GUIDES[one.guide]),
  cutsOf(one),
];

/** Two tables in step, row beside row, so that they break together. */
export function beside(left: FlowGroup, right: FlowGroup, wide: Mm): FlowGroup {
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

export function sizingGroups(set: DryfitSet, group: SetGroup, { width }: Rect): FlowGroup[] {
  const own = set.sizing.filter((one) => one.group === group.n);
  return own.length === 0 ? [] : loosely(setSizing(own, set, width));
}

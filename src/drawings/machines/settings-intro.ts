/** Before the first setting: how many there are, the gate that every part is at its size, and the fence distances of the sheet layouts. */
import type { Mm, Unit } from "../../base/length.ts";
import type { Rect } from "../../paper/shape.ts";
import type { DryfitSet } from "../../set/schema.ts";
import {
  type Atom,
  type Block,
  besideBlocks,
  FIGURE,
  figure,
  figureTwice,
  glue,
  SMALL,
  setLines,
  stackBlocks,
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
const HALVES: Mm = 220; // sizing in two columns from here on
const GUTTER: Mm = 9;

/** "14 settings are the fewest that ... With every groove measured from its low end there would be 19." */
function countAtoms({ settings, settingsCount }: DryfitSet): Atom[] {
  const { count, least, proved, fromLowEnds } = settingsCount;
  const [are, they] = count === 1 ? ["is", "it"] : ["are", "they"];
  const few = proved
    ? `${are} the fewest that cut every groove, rabbet and shoulder, if whatever holds one part is to be measured from one end.`
    : `cut every groove, rabbet and shoulder; whatever datums were chosen, there could not be fewer than ${least}.`;
  const isAllLow = settings.every(
    ({ operation, runs }) => operation === "shoulder" || runs.every(({ datum }) => datum.endsWith("0")),
  );
  const before = isAllLow
    ? `In ${they === "it" ? "it" : "all of them"} the low end or front edge is the datum.`
    : `With every groove measured from its low end or front edge there would be ${fromLowEnds}.`;
  return [...words(`${count} ${count === 1 ? "setting" : "settings"}`, TITLE, "bold"), ...words(`${few} ${before}`)];
}

const GATE: Atom[] = [
  word("Gate.", FIGURE, "bold"),
  ...words(
    "Every part of the case is at its final length and width, ticked on the cut list, before setting 1.",
    FIGURE,
  ),
  glue([word("All at size", FIGURE, "bold"), tick()]),
];

/** What holds for every setting of the router, told once. */
function routerAtoms({ settings, job }: DryfitSet): Atom[] {
  const routed = settings.flatMap(({ straightedge }) => (straightedge === null ? [] : [straightedge]));
  if (routed.length === 0) return [];
  const { base, ahead } = routed[0]!;
  return [
    word("Router.", undefined, "bold"),
    ...words("Reckoned for a base whose riding side is"),
    glue([figure(base / 2, job.unit), word("from")]),
    ...words("the bit's middle, its leading edge"),
    glue([figure(ahead, job.unit), word(":")], 0),
    ...words(
      "measure yours; the same side rides always. A strip as wide as the straightedge's figure, butted to the datum, sets it without a tape. At a stop the leading edge of the base meets a block.",
    ),
  ];
}

function setCount(set: DryfitSet, width: Mm): Block {
  const router = routerAtoms(set);
  const parts = [countAtoms(set), GATE, ...(router.length === 0 ? [] : [router])];
  return stackBlocks(
    parts.map((atoms) => setLines(atoms, width)),
    1.8,
  );
}

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
      ...words("Sizing", TITLE, "bold"),
      ...words(
        `the ${cuts} cuts of the sheet layouts stand at ${sizing.length} distances. Each sheet is cut in the order of its own numbers; where several sheets are cut together, all cuts of one distance are made before the fence moves.`,
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

export const setIntro = (set: DryfitSet, { width }: Rect): FlowGroup[] =>
  set.settings.length === 0 && set.sizing.length === 0
    ? []
    : [
        ...(set.sizing.length === 0 ? [] : loosely(setSizing(set, width))),
        ...(set.settings.length === 0 ? [] : [[flowItem(setCount(set, width), { above: BETWEEN })]]),
      ];

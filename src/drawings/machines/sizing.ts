/** Sizing: the fence distances of a group, from wide to narrow, each with the cuts that are made at it. */
import type { Mm, Unit } from "../../base/length.ts";
import type { Rect } from "../../paper/shape.ts";
import type { DryfitSet, SetGroup } from "../../set/schema.ts";
import { SIZING_GUIDES } from "../../set/words.ts";
import { GUTTER, setAbreast, unspilt } from "../draughting/abreast.ts";
import { setCaution } from "../draughting/caution.ts";
import { type Atom, FIGURE, figureTwice, glue, SMALL, setLines, tick, word, words } from "../draughting/cell.ts";
import { type FlowGroup, type FlowItem, flowItem, heightOf, loosely } from "../draughting/flow.ts";
import type { Column, Row } from "../draughting/table.ts";

type Sizing = DryfitSet["sizing"][number];

const TITLE: Mm = 4.5;
const GAP: Mm = 3;
const BETWEEN: Mm = 4;
const LEAST_TABLE: Mm = 82; // distance, guide, and the cuts of two sheets

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
  const columns: Column[] = [{ head: "Distance", firm: true }, { head: "Guide" }, { head: "Cuts", grow: 1 }];
  const head = [
    flowItem(title, { above: BETWEEN, keep: true }),
    ...cautions.map((one) => flowItem(setCaution(one, width, SMALL), { above: 1.8, keep: true })),
  ];
  return [...head, ...unspilt(lowest(columns, rows, width)).map(under)];
}

/** In as many tables abreast as make it lowest: where distances have few cuts, narrow ones. */
function lowest(columns: readonly Column[], rows: readonly Row[], width: Mm): FlowGroup {
  const ways = [1, 2, 3].flatMap((count): FlowGroup[] => {
    const wide = (width - (count - 1) * GUTTER) / count;
    if (count > 1 && (wide < LEAST_TABLE || rows.length < 2 * count)) return [];
    return [setAbreast(columns, rows, width, count)];
  });
  return ways.reduce((best, one) => (heightOf(one, true) < 0.9 * heightOf(best, true) ? one : best));
}

const under = (item: FlowItem, i: number): FlowItem => (i === 0 ? { ...item, above: GAP } : item);

const rowOf = (one: Sizing, unit: Unit): Atom[][] => [
  [glue([tick(), ...figureTwice(one.fence, unit, FIGURE, "bold")])],
  words(SIZING_GUIDES[one.guide]),
  cutsOf(one),
];

export function sizingGroups(set: DryfitSet, group: SetGroup, { width }: Rect): FlowGroup[] {
  const own = set.sizing.filter((one) => one.group === group.n);
  return own.length === 0 ? [] : loosely(setSizing(own, set, width));
}

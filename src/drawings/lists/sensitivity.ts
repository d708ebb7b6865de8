/** If a sheet measures otherwise: the figures that change with its thickness; and what rounding leaves at each joint. */
import { formatDecimal, formatLengthWithUnit, isSame, type Mm, type Unit } from "../../base/length.ts";
import { listInWords } from "../../base/words.ts";
import type { DryfitSet, SetSensitivity } from "../../set/schema.ts";
import { byMark } from "../../set/words.ts";
import {
  type Atom,
  FIGURE,
  figureTwice,
  setLines,
  stackBlocks,
  tick,
  word,
  words,
  writeIn,
} from "../draughting/cell.ts";
import type { Draft } from "../draughting/draft.ts";
import { type FlowGroup, flowEvenly, flowItem, loosely } from "../draughting/flow.ts";
import { drawingSpace } from "../draughting/frame.ts";
import { numberDrafts } from "../draughting/numbered.ts";
import { type Column, type Row, setTable } from "../draughting/table.ts";

const BETWEEN = 8;
const TITLE = 3.5;
const WRITE_IN: Mm = 26;
const DRAWN = "as drawn";

/** In inches the decimal stands beside the fraction, as a calliper's dial and a rule both read. */
function tableOf(one: SetSensitivity, set: DryfitSet, width: Mm): FlowGroup {
  const { unit } = set.job;
  const stock = set.stock.find(({ id }) => id === one.stock)!;
  const isDrawn = (i: number): boolean => isSame(one.thicknesses[i]!, stock.thickness);
  const lettered = (value: Mm, i: number): Atom[] => figureTwice(value, unit, FIGURE, isDrawn(i) ? "bold" : "regular");
  const columns: Column[] = [
    { head: "Parts", most: 32 },
    { head: "Figure" },
    ...one.thicknesses.map((_, i): Column => ({ head: isDrawn(i) ? DRAWN : "", grow: 1 })),
    { head: `each ${formatLengthWithUnit(one.tick, unit)} more`, grow: 1 },
  ];
  const heads: Row = {
    cells: [words("measured", 3, "bold"), words("thickness"), ...one.thicknesses.map(lettered), []],
  };
  // A box over each thickness: the column that is gone by is ticked, and not mistaken for its neighbour.
  const ticks: Row = { cells: [words("go by"), [], ...one.thicknesses.map(() => [tick()]), []] };
  const rows = one.rows.map(
    ({ marks, what, values, each }): Row => ({
      cells: [
        words([...marks].sort(byMark).join(", "), FIGURE, "bold"),
        words(what),
        ...values.map((value, i) => (value === null ? words("cannot be made") : lettered(value, i))),
        words(each === null ? "by column" : signed(each, unit), FIGURE),
      ],
    }),
  );
  const reading: Atom[] = [
    ...words(stock.name, TITLE, "bold"),
    ...words("drawn as", TITLE),
    ...figureTwice(stock.thickness, unit, FIGURE, "bold"),
    ...words("measured at the yard: mean", TITLE),
    writeIn(WRITE_IN),
    ...words("thickest", TITLE),
    writeIn(WRITE_IN),
  ];
  const impossible = one.impossible.map((thickness) => formatLengthWithUnit(thickness, unit));
  const warned =
    impossible.length === 0
      ? []
      : [
          flowItem(
            setLines(
              words(
                `With ${listInWords(impossible)} it cannot be made as it is designed: sizes that are given no longer add up. Change the project file first.`,
                3,
                "bold",
              ),
              width,
            ),
            { above: 2, keep: one.rows.length > 0 },
          ),
        ];
  if (one.rows.length === 0) return [flowItem(setLines(reading, width), { above: BETWEEN, keep: true }), ...warned];
  return [
    flowItem(setLines(reading, width), { above: BETWEEN, keep: true }),
    ...warned,
    ...withThicknesses(
      setTable(columns, [heads, ticks, ...rows], width),
      [...words(stock.name, 3, "bold"), ...words("(continued)", 3)],
      width,
    ),
  ];
}

/** "+0.2", "-0.005": in decimals, as it is added up. */
function signed(length: Mm, unit: Unit): string {
  if (isSame(length, 0)) return "0";
  return `${length > 0 ? "+" : "\u2212"}${formatDecimal(Math.abs(length), unit)}`;
}

/** Where the table breaks, its stock and thicknesses stand over the figures again: a column without its thickness would be misread. */
function withThicknesses([head, thicknesses, ticks, ...figures]: FlowGroup, continued: Atom[], width: Mm): FlowGroup {
  const again = stackBlocks([setLines(continued, width), head!.block, thicknesses!.block], 1);
  return [
    { ...head!, above: 2 },
    { ...thicknesses!, keep: true },
    { ...ticks!, keep: true },
    ...figures.map((item) => ({ ...item, head: again })),
  ];
}

const HOW = [
  "Measure in several places, away from the edges. Find the column of the mean reading, tick it, and pencil its figures over those of the cut list, the part drawings, the sheet layouts and the settings; a groove's width goes by the thickest reading.",
  "Between two columns: from the nearer one, add what the last column gives for each step of the reading. Figures that are not listed stay; the sticks of parts that are listed do not: build the set again, or mark a new one. If a second stock measures otherwise too, enter the readings and build again.",
];

/** What rounding adds to the gap at each seat, joints that agree in one row. */
function roundingRows(set: DryfitSet): Row[] {
  const { unit } = set.job;
  const heaps: { kind: string; rounding: Mm; gap: Mm; loose: Mm; pairs: string[] }[] = [];
  for (const { entering, receiving, kind, fit, rounding, gap, loose } of set.joints) {
    const name = fit === "slip" ? `${kind}, slip` : kind;
    const heap = heaps.find(
      (one) =>
        one.kind === name && isSame(one.rounding, rounding) && isSame(one.gap, gap[1]) && isSame(one.loose, loose),
    );
    const pair = `${entering} in ${receiving}`;
    if (heap) heap.pairs.push(pair);
    else heaps.push({ kind: name, rounding, gap: gap[1], loose, pairs: [pair] });
  }
  return heaps
    .sort((a, b) => b.rounding - a.rounding || b.gap - a.gap || b.loose - a.loose)
    .map(({ kind, rounding, gap, loose, pairs }) => ({
      cells: [
        words(kind),
        figureTwice(rounding, unit, 3),
        figureTwice(gap, unit, 3),
        figureTwice(loose, unit, 3),
        words(pairs.join(", ")),
      ],
    }));
}

const ROUNDING_COLUMNS: readonly Column[] = [
  { head: "Joint" },
  { head: "Rounding opens" },
  { head: "Gap at the seat" },
  { head: "Play across" },
  { head: "Part in part", grow: 1 },
];

function roundingGroup(set: DryfitSet, width: Mm): FlowGroup {
  const { job, rounding } = set;
  const where = rounding.mark === null ? rounding.what : `${rounding.what.replace(/\bit\b/, `part ${rounding.mark}`)}`;
  const length = (mm: Mm): string => formatLengthWithUnit(mm, job.unit);
  const said = words(
    `Lengths are printed to ${length(job.step)}; the largest rounding is ${length(rounding.largest)}: ${where}. Thicknesses and the widths of grooves are never rounded.`,
    3,
  );
  return [
    flowItem(setLines([word("What rounding does to each joint", TITLE, "bold")], width), {
      above: BETWEEN,
      keep: true,
    }),
    flowItem(setLines(said, width), { above: 2, keep: true }),
    ...setTable(ROUNDING_COLUMNS, roundingRows(set), width).map((item, i) => (i === 0 ? { ...item, above: 2 } : item)),
  ];
}

export function drawSensitivity(set: DryfitSet): Draft[] {
  const space = drawingSpace(set);
  const tables = set.sensitivity
    .filter(({ rows, impossible }) => rows.length > 0 || impossible.length > 0)
    .map((one) => tableOf(one, set, space.width));
  const groups: FlowGroup[] = [
    HOW.map((paragraph, i) =>
      flowItem(setLines(words(paragraph, 3), space.width), { above: i === 0 ? 0 : 1.5, keep: tables.length > 0 }),
    ),
    ...tables,
    ...(set.joints.length > 0 ? [roundingGroup(set, space.width)] : []),
  ];
  return numberDrafts(
    "thickness",
    "Thickness and rounding",
    flowEvenly(loosely(groups.flat()), () => [space]),
  );
}

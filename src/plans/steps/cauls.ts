/** Cauls where no clamp reaches: a clamp reaches in from an edge as far as its throat is deep, and what is farther in is pressed by a batten clamped at its ends. */
import { AXES, type AxisIndex, type Box } from "../../base/geometry.ts";
import { formatLengthWithUnit, type Mm, SAME } from "../../base/length.ts";
import type { SetAssembly } from "../../set/schema.ts";
import { paced } from "./paced.ts";
import { type ByMark, namesOf, type StepsInput } from "./step.ts";

/** One clamp to a joint no longer than `single`; else one near each end, and no two farther apart than `apart` (common practice, no source). */
const SPACING = { single: 120, nearEnd: 40, apart: 300 };

/** What lies in one row of clamps, seen along them. */
export type Row = { axis: AxisIndex; rect: Box; marks: string[] };

const across = ({ axis }: Pick<Row, "axis">): [AxisIndex, AxisIndex] => {
  const [a, b] = AXES.filter((one) => one !== axis);
  return [a!, b!];
};
const sizeOf = ({ rect }: Pick<Row, "rect">, axis: AxisIndex): Mm => rect[1][axis] - rect[0][axis];

/** The way a row runs, and the one across it. */
const runOf = (row: Pick<Row, "axis" | "rect">): [AxisIndex, AxisIndex] => {
  const [a, b] = across(row);
  return sizeOf(row, a) >= sizeOf(row, b) ? [a, b] : [b, a];
};

/** Where the clamps of a row would stand, along it. */
export function placesOn(row: Pick<Row, "axis" | "rect">): Mm[] {
  const [run] = runOf(row);
  const [from, to] = [row.rect[0][run], row.rect[1][run]];
  if (to - from <= SPACING.single) return [(from + to) / 2];
  const gaps = Math.max(1, Math.ceil((to - from - 2 * SPACING.nearEnd) / SPACING.apart));
  const first = from + SPACING.nearEnd;
  const each = (to - from - 2 * SPACING.nearEnd) / gaps;
  return Array.from({ length: gaps + 1 }, (_, i) => first + i * each);
}

/** How far in from the nearest edge of the assembly a clamp would have to reach, at a place of a row. */
function reachTo(row: Pick<Row, "axis" | "rect">, place: Mm, { size }: Pick<SetAssembly, "size">): Mm {
  const [run, other] = runOf(row);
  const middle = (row.rect[0][other] + row.rect[1][other]) / 2;
  return Math.min(place, size[run] - place, middle, size[other] - middle);
}

const isReached = (row: Row, place: Mm, assembly: Pick<SetAssembly, "size">, throat: Mm): boolean =>
  reachTo(row, place, assembly) <= throat + SAME;

/** How many clamps of a row reach. */
export const within = (row: Row, assembly: Pick<SetAssembly, "size">, throat: Mm): number =>
  placesOn(row).filter((place) => isReached(row, place, assembly, throat)).length;

/** Of a member of a frame, seen from the front: at which heights something has to press it that lies across the frame. */
export function beyondReach(row: Row, assembly: Pick<SetAssembly, "size">, throat: Mm): Mm[] {
  const far = placesOn(row).filter((place) => !isReached(row, place, assembly, throat));
  const [run] = runOf(row);
  // What is level is pressed all along by one.
  return run === 2 ? far : far.slice(0, 1).map(() => (row.rect[0][2] + row.rect[1][2]) / 2);
}

/** Along it, in the assembly: how many, each how long, over what, and how far in from an edge what they press is at the most. */
export type Cauls = { count: number; length: Mm; marks: string[]; reach: Mm };

/** Clamps that reach, and the pair of cauls over a row that some do not reach: null where all do. */
export type Reached = { clamps: number; cauls: Cauls | null };

export function reachedOn(row: Row, assembly: Pick<SetAssembly, "size">, throat: Mm): Reached {
  const places = placesOn(row);
  const reaches = places.map((place) => reachTo(row, place, assembly));
  const most = Math.max(...reaches);
  if (most <= throat + SAME) return { clamps: places.length, cauls: null };
  const [run] = runOf(row);
  return {
    // At the ends of the cauls, whatever reaches beside.
    clamps: Math.max(2, within(row, assembly, throat)),
    cauls: { count: 2, length: assembly.size[run], marks: row.marks, reach: most },
  };
}

/** Common practice, no source. */
export const CAUL =
  "a stiff straight batten on edge, with two or three strips of card under its middle so that it presses there first, and a clamp at each end";

/**
 * "No clamp with a throat of 100 mm reaches the middle of these joints ...", then a line for each glue-up: a part that one joins at one end, and a
 * later one at the other, has a row in both. Rows that are alike are told together. Empty where every clamp reaches.
 */
export function caulsInWords(
  glueUps: ReadonlyMap<number, readonly Cauls[]>,
  { throat, unit }: Pick<StepsInput, "throat" | "unit">,
  byMark: ByMark,
): string[] {
  const show = (length: Mm): string => formatLengthWithUnit(length, unit);
  const lines = [...glueUps].flatMap(([n, cauls]) => {
    if (cauls.length === 0) return [];
    const alike = new Map<string, string[][]>();
    for (const { marks, reach, length } of cauls) {
      const key = `${show(paced(reach, unit))} from the nearest edge, cauls of ${show(length)}`;
      alike.set(key, [...(alike.get(key) ?? []), marks]);
    }
    const told = [...alike].map(([how, rows]) => `${rowsInWords(rows, byMark)} (${how})`).join("; ");
    return [`${glueUps.size === 1 ? "Over" : `In glue-up ${n} over`} ${told}.`];
  });
  if (lines.length === 0) return [];
  return [
    `No clamp with a throat of ${show(throat)} reaches the middle of these joints. Over each row lay a pair of cauls, one outside at either end. A caul is ${CAUL}.`,
    ...lines,
  ];
}

/** "shelves 5 and 7, divider 6, and shelf 10 in line with shelf 12". */
function rowsInWords(rows: readonly string[][], byMark: ByMark): string {
  const alone = rows.flatMap((marks) => (marks.length === 1 ? marks : []));
  const inLine = rows.flatMap((marks) =>
    marks.length === 1 ? [] : [marks.map((mark) => namesOf([mark], byMark)).join(" in line with ")],
  );
  return [...(alone.length === 0 ? [] : [namesOf([...new Set(alone)], byMark)]), ...new Set(inLine)].join(", and ");
}

/** Of each length the most that lie at once, in any of the glue-ups. */
export function caulsReady(glueUps: readonly (readonly Cauls[])[]): { count: number; length: Mm }[] {
  const lengths = [...new Set(glueUps.flat().map(({ length }) => length))].sort((a, b) => b - a);
  return lengths.map((length) => ({
    length,
    count: Math.max(
      ...glueUps.map((cauls) => cauls.reduce((sum, one) => sum + (one.length === length ? one.count : 0), 0)),
    ),
  }));
}

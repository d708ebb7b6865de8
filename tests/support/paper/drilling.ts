/** Holes by the drilling tables alone: each row bored into the parts that it lists, and held against the holes that their drawings show. */
import type { Vec } from "../../../src/base/geometry.ts";
import type { Face } from "../../../src/set/schema.ts";
import { leastFaults } from "./alike.ts";
import { faceCalled } from "./called.ts";
import { ROUNDED, saidBy, soldBore, strayBore } from "./figure.ts";
import type { SeenPage } from "./page.ts";
import type { ReadHole, ReadPart } from "./part/part.ts";
import { proseOf } from "./prose.ts";
import { type Cell, type Row, tablesWith, textOfCell } from "./table.ts";

const HEADS = ["Parts", "Into", "First hole from", "Distance", "Then", "In from", "Distance", "Row"];

/** `depth`: null right through. Distances from the datum, and from the edge across the row. */
export type DrilledRow = {
  marks: string[];
  /** By the unit of its bit first, which is not the page's. */
  isSold: boolean;
  diameter: number;
  depth: number | null;
  into: string;
  datum: string;
  first: number;
  count: number;
  pitch: number;
  edge: string;
  distance: number;
  beforeLipping: boolean;
};

const F = "<([^>]+)>(?: (\\d+\\.\\d+))?";
const SOLD = "(?: (mm|in) \\(<([^>]+)>\\))?";
const HEADING = new RegExp(`^Holes of ${F}${SOLD} for (.+?), (?:right through|${F} deep)$`);

type Bit = { y: number; isSold: boolean; diameter: number; depth: number | null };

/** A fraction and the decimal beside it say one thing. */
function twice(value: string, again: string | undefined): number {
  const read = saidBy(value);
  if (read === null) throw new Error(`no figure: ${value}`);
  if (again !== undefined && Math.abs(read - Number(again)) > ROUNDED.in) throw new Error(`${value} is not ${again}`);
  return read;
}

const figureIn = (cell: Cell): number => {
  const [value, again] = cell.flat().map(({ text }) => text);
  return twice(value!, again);
};

const bitsOn = (page: SeenPage): Bit[] =>
  proseOf(page.words)
    .flatMap(({ lines }) => lines)
    .flatMap(({ text, y }) => {
      const match = HEADING.exec(text);
      if (match === null) return [];
      const [, figure, again, sold, own, , depth, deep] = match;
      const bore = twice(figure!, again);
      const diameter = sold === undefined ? bore : soldBore(bore, sold as "mm" | "in", saidBy(own!)!);
      return [{ y, isSold: sold !== undefined, diameter, depth: depth === undefined ? null : twice(depth, deep) }];
    });

function rowOf(row: Row, { isSold, diameter, depth }: Bit): DrilledRow {
  if ("heading" in row) throw new Error(`not a row of holes: ${row.heading}`);
  const [marks, into, datum, first, then, edge, distance, note] = row.cells as [
    Cell,
    Cell,
    Cell,
    Cell,
    Cell,
    Cell,
    Cell,
    Cell,
  ];
  const [more, ...pitch] = then.flat().map(({ text }) => text);
  const isOne = textOfCell(then) === "no more";
  const count = isOne ? 1 : Number(more!.replace(" ×", "")) + 1;
  const said = /^(\d+) holes?(?:, into the (?:end|edge))?\.( Measured before lipping\.)?$/.exec(textOfCell(note));
  if (said === null || Number(said[1]) !== count) throw new Error(`${count} holes, and ${textOfCell(note)}`);
  return {
    marks: textOfCell(marks).match(/\d+/g) ?? [],
    isSold,
    diameter,
    depth,
    into: textOfCell(into),
    datum: textOfCell(datum),
    first: figureIn(first),
    count,
    pitch: isOne ? 0 : twice(pitch[0]!, pitch[1]),
    edge: textOfCell(edge),
    distance: figureIn(distance),
    beforeLipping: said[2] !== undefined,
  };
}

/** A table that is broken goes on with the bit of the page before. */
export function readDrilling(pages: readonly SeenPage[]): DrilledRow[] {
  let last: Bit | null = null;
  return pages.flatMap((page) => {
    const bits = bitsOn(page);
    const rows = tablesWith(page, HEADS)
      .sort((a, b) => a.y0 - b.y0)
      .flatMap((table) => {
        last = bits.filter(({ y }) => y < table.y0).at(-1) ?? last;
        const bit = last;
        if (bit === null) throw new Error("a row of holes for no bit");
        return table.rows.map((row) => rowOf(row, bit));
      });
    last = bits.at(-1) ?? last;
    return rows;
  });
}

const LOCAL = { l: 0, w: 1, t: 2 } as const;

type Bored = Omit<ReadHole, "at"> & { at: number[] };

/** `within`: of each hole along its row, as figures before it were rounded. */
function holesOf(read: ReadPart, row: DrilledRow): Bored[] {
  const { length, width, thickness } = read.caption;
  const size: Vec = [length, width, thickness];
  const face = faceCalled(read, row.into);
  const place = (called: string, by: number): { i: 0 | 1 | 2; at: number } => {
    const from = faceCalled(read, called);
    const lipping = read.notes.find((note) => note.kind === "lipping" && note.when === "after" && note.edge === called);
    const inset = row.beforeLipping && lipping?.kind === "lipping" ? lipping.thickness : 0;
    const i = LOCAL[from[0] as "l"];
    return { i, at: from[1] === "0" ? inset + by : size[i] - inset - by };
  };
  return Array.from({ length: row.count }, (_, n): Bored => {
    const [along, across] = [place(row.datum, row.first + n * row.pitch), place(row.edge, row.distance)];
    const at: number[] = [0, 0, 0];
    const into = LOCAL[face[0] as "l"];
    const depth = row.depth ?? size[into];
    at[into] = face[1] === "0" ? depth / 2 : size[into] - depth / 2;
    at[along.i] = along.at;
    at[across.i] = across.at;
    return { face, at, diameter: row.diameter, depth };
  });
}

function flipped(hole: Bored, flips: readonly number[], size: Vec): Bored {
  const i = LOCAL[hole.face[0] as "l"];
  const face = flips.includes(i) ? `${hole.face[0]}${hole.face[1] === "0" ? "1" : "0"}` : hole.face;
  return {
    ...hole,
    face: face as Face,
    at: hole.at.map((one, axis) => (flips.includes(axis) ? size[axis]! - one : one)),
  };
}

/** A hole that only the table has, or only the drawing. */
export function drillingFaults(rows: readonly DrilledRow[], parts: readonly ReadPart[], unit: "mm" | "in"): string[] {
  const within = 3.8 * ROUNDED[unit]; // less than two of the last digit: three figures, each rounded for itself
  const isOne = (a: Bored, b: Bored): boolean =>
    a.face === b.face &&
    Math.abs(a.diameter - b.diameter) <= ROUNDED[unit] &&
    Math.abs(a.depth - b.depth) <= ROUNDED[unit] &&
    a.at.every((at, i) => Math.abs(at - b.at[i]!) <= within);
  const stray = rows.filter(({ isSold, diameter }) => !isSold && strayBore(diameter, unit));
  return [
    ...stray.map(({ marks, diameter }) => `parts ${marks}: no rack has a bit of ${diameter} ${unit}`),
    ...parts.flatMap((read) => partFaults(read, rows, isOne)),
  ];
}

function partFaults(read: ReadPart, rows: readonly DrilledRow[], isOne: (a: Bored, b: Bored) => boolean): string[] {
  return read.caption.marks.flatMap((mark, i) => {
    const { length, width, thickness } = read.caption;
    const bored = rows.filter(({ marks }) => marks.includes(mark)).flatMap((row) => holesOf(read, row));
    const drawn = read.holes.map((hole): Bored => hole);
    return leastFaults(i, (flips) => {
      const told = bored.map((hole) => flipped(hole, flips, [length, width, thickness]));
      return [
        ...told
          .filter((hole) => !drawn.some((one) => isOne(one, hole)))
          .map(({ face, at }) => `part ${mark}: drilled in ${face} at ${at}, and not drawn there`),
        ...drawn
          .filter((hole) => !told.some((one) => isOne(one, hole)))
          .map(({ face, at }) => `part ${mark}: a hole is drawn in ${face} at ${at}, and drilled nowhere`),
      ];
    }).slice(0, 2);
  });
}

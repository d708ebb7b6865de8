/** The table of a part's screws, where its drawing has one: each row as what the notes say of a fixing, and where its screws stand. */

import { linesOf } from "../pages/read-figures.ts";
import { figureOf, isSawFigure, ROUNDED } from "./figure.ts";
import type { Note } from "./notes.ts";
import type { SeenPage } from "./page.ts";
import { type Cell, type Row, tablesWith, textOfCell } from "./table.ts";

type Word = SeenPage["words"][number];
type Fixed = Extract<Note, { kind: "fixed" }>;

/** `words`: all that stand in it, its heads too. */
export type ScrewTable = { x0: number; y0: number; notes: Fixed[]; words: Word[] };

const HEADS = ["Into", "Near face", "Line", "Screws, right through"];
const HEAD = 12; // at most, of the heads' height
const HEAD_TEXT = 2.6;

const HEADING =
  /^([A-Z][a-z ]+?)(?: to the ([a-z]+ face))?: faces and lines from the ([a-z]+ (?:end|edge)(?: before lipping)?), screws from the ([a-z]+ (?:end|edge)(?: before lipping)?)$/;

type Heading = { how: string; face: string | null; edge: string; end: string };

export function screwTablesOn(page: SeenPage, unit: "mm" | "in"): ScrewTable[] {
  return tablesWith(page, HEADS).map(({ x0, x1, y0, y1, rows }) => {
    const inTable = page.words.filter(
      (one) =>
        one.x0 > x0 - 0.1 &&
        one.x1 < x1 + 0.1 &&
        one.y1 < y1 &&
        (one.y1 > y0 || (one.y1 > y0 - HEAD && one.size < HEAD_TEXT && HEADS.some((head) => head.includes(one.text)))),
    );
    let heading: Heading | null = null;
    const notes = rows.flatMap((row): Fixed[] => {
      const read = headingIn(row);
      if (read !== null) {
        heading = read;
        return [];
      }
      if (heading === null || "heading" in row) throw new Error("a row of screws under no heading");
      return [rowOf(page, row.cells, heading, unit)];
    });
    return { x0, y0, notes, words: inTable };
  });
}

/** It runs on over the columns, on as many lines as it needs. */
function headingIn(row: Row): Heading | null {
  const text =
    "heading" in row
      ? row.heading
      : linesOf(row.cells.flat(2))
          .flat()
          .map(({ text: said }) => said)
          .join(" ");
  const match = HEADING.exec(text);
  if (match === null) return null;
  const [, how, face, edge, end] = match;
  return { how: how!.charAt(0).toLowerCase() + how!.slice(1), face: face ?? null, edge: edge!, end: end! };
}

const valueIn = (page: SeenPage, line: Cell[number]): number => {
  const figures = line.filter(isSawFigure);
  if (figures.length !== 1) throw new Error(`no one figure: ${textOfCell([line])}`);
  return figureOf(page.words, figures[0]!).value;
};

function rowOf(page: SeenPage, cells: readonly Cell[], { how, face, edge, end }: Heading, unit: "mm" | "in"): Fixed {
  const [into, faces, lines, screws] = cells as [Cell, Cell, Cell, Cell];
  const marks = into.map((line) => textOfCell([line]));
  if (faces.length !== marks.length || lines.length !== marks.length || marks.some((mark) => !/^\d+$/.test(mark)))
    throw new Error(`a row of screws into ${marks}, with ${faces.length} faces and ${lines.length} lines`);
  const told = screws.flat().filter(isSawFigure);
  const figures = told.map((word) => figureOf(page.words, word));
  const places = figures.filter(({ check }) => !check).map(({ value }) => value);
  const [apart, ...more] = figures.filter(({ check }) => check);
  const rest = textOfCell([screws.flat().filter((word) => !told.includes(word))]);
  if (more.length > 0 || rest !== (apart === undefined ? "" : "( ) apart"))
    throw new Error(`not read among screws: ${rest}`);
  const isEven = (by: number): boolean =>
    places.every((place, i) => i === 0 || Math.abs(place - places[i - 1]! - by) < 4 * ROUNDED[unit]);
  if (apart !== undefined && !isEven(apart.value)) throw new Error(`screws at ${places} are not ${apart.value} apart`);
  const far = faces.map((line) => textOfCell([line.filter((word) => !isSawFigure(word))]));
  if (new Set(far).size !== 1 || !["", "far"].includes(far[0]!)) throw new Error(`not read by faces: ${far}`);
  return {
    kind: "fixed",
    marks,
    how,
    face,
    screws: places.length,
    apart: null,
    row: { places, end },
    near: faces.map((line) => valueIn(page, line)),
    lines: lines.map((line) => valueIn(page, line)),
    isFar: far[0] === "far",
    edge,
    isTabled: true,
  };
}

/** The same from the edges as they are in the end, where a lipping is still to come when the table is used. */
export function fromFinishedEdges(notes: readonly Note[]): Note[] {
  const lipped = (called: string): { edge: string; by: number } => {
    const edge = called.replace(" before lipping", "");
    const lipping = notes.find((note) => note.kind === "lipping" && note.when === "after" && note.edge === edge);
    return { edge, by: edge !== called && lipping?.kind === "lipping" ? lipping.thickness : 0 };
  };
  return notes.map((note): Note => {
    if (note.kind !== "fixed" || !note.isTabled || note.row === null || note.lines === null) return note;
    const [beside, along] = [lipped(note.edge), lipped(note.row.end)];
    return {
      ...note,
      edge: beside.edge,
      near: note.near.map((one) => one + beside.by),
      lines: note.lines.map((one) => one + beside.by),
      row: { end: along.edge, places: note.row.places.map((one) => one + along.by) },
    };
  });
}

/** The reference layout jobs of tests/reference/bench. */
import { readFileSync } from "node:fs";
import type { LayoutPiece } from "../../../src/plans/sheets/index.ts";
import type { SetStock } from "../../../src/set/schema.ts";

const read = (name: string): string => readFileSync(new URL(`../../reference/bench/${name}`, import.meta.url), "utf8");

export const stockOf = (length: number, width: number, trim: number, grain: boolean): SetStock => ({
  id: "ply",
  name: "Plywood 18",
  nominal: 18,
  thickness: 17.6,
  thickest: 17.6,
  readings: [17.6],
  sheet: { length, width },
  boards: null,
  trim,
  grain,
  goodFaces: 2,
  density: 600,
  stiffness: { along: 9000, across: 5000, source: "no load is reckoned here" },
  solid: false,
  species: null,
  limits: null,
  price: null,
  count: null,
  sizes: [],
  offcuts: [],
});

export type ReferenceJob = { id: string; kerf: number; stock: SetStock; pieces: (LayoutPiece & { turn: boolean })[] };

type CaseworkFile = {
  instances: {
    id: string;
    sheet: [number, number];
    kerf: number;
    trim: number;
    parts: [length: number, width: number, copies: number, grain: 0 | 1][];
  }[];
};

export const caseworkJobs = (): ReferenceJob[] =>
  (JSON.parse(read("casework-sheets.json")) as CaseworkFile).instances.map(({ id, sheet, kerf, trim, parts }) => {
    const sizes = parts.flatMap(([length, width, copies, grain]) =>
      Array.from({ length: copies }, () => ({ length, width, turn: grain === 0 })),
    );
    const pieces = sizes.map((size, i) => ({ id: `${i + 1}`, mark: `${i + 1}`, stock: "ply", ...size }));
    return { id, kerf, stock: stockOf(sheet[0], sheet[1], trim, true), pieces };
  });

export type ClassicJob = { id: string; sheet: [number, number]; items: [number, number][] };

export const classicJobs = (): ClassicJob[] =>
  (
    JSON.parse(read("2bp.json")) as { instances: { id: string; w: number; h: number; items: [number, number][] }[] }
  ).instances.map(({ id, w, h, items }) => ({ id, sheet: [w, h], items }));

/** Per job, the figures by column name. */
export function known(name: "casework-known.csv" | "2bp-known.csv"): Map<string, Record<string, number>> {
  const [head, ...rows] = read(name).trim().split("\n");
  const columns = head!.split(",");
  return new Map(
    rows.map((row) => {
      const cells = row.split(",");
      return [cells[0]!, Object.fromEntries(columns.map((column, i) => [column, Number(cells[i])]))];
    }),
  );
}

/** The dry fit's work grows with the parts, not with their square: pairs tried, counted. */
import { describe, expect, it } from "vitest";
import { checkOverlaps } from "../../src/audit/joints/overlaps.ts";
import { Neighbours } from "../../src/audit/solids/neighbours.ts";
import { solidsOf } from "../../src/audit/solids/solid.ts";
import { planAssemblies, planOpenings } from "../../src/plans/assemblies.ts";
import { planParts } from "../../src/plans/parts.ts";
import { planModels } from "../../src/plans/set.ts";
import { readProjectText } from "../../src/project/read.ts";

const MOST = 40; // pairs tried a part

type Bays = { columns: Bays[] } | { rows: Bays[] } | Record<string, never>;

/** A list takes sixty bays at most: more are put in two lists. */
const open = (count: number): Bays[] => Array.from({ length: count }, () => ({}));
const halved = (count: number, list: (bays: Bays[]) => Bays): Bays =>
  count <= 40 ? list(open(count)) : list([list(open(count / 2)), list(open(count / 2))]);

/** So many bays as one row of columns, as one column of rows, and as columns each with rows. */
const SHAPES: Record<string, (count: number) => Bays> = {
  columns: (count) => halved(count, (columns) => ({ columns })),
  rows: (count) => halved(count, (rows) => ({ rows })),
  "columns of rows": (count) => {
    const columns = Math.round(Math.sqrt(count));
    return { columns: Array.from({ length: columns }, (_, i) => ({ rows: open(rowsOf(count, columns, i)) })) };
  },
  "rows of columns": (count) => {
    const rows = Math.round(Math.sqrt(count));
    return { rows: Array.from({ length: rows }, (_, i) => ({ columns: open(rowsOf(count, rows, i)) })) };
  },
};

/** Of `count` in so many lots, how many are in lot i: they add up, and no lot has only one. */
const rowsOf = (count: number, lots: number, i: number): number =>
  Math.floor(((i + 1) * count) / lots) - Math.floor((i * count) / lots);

const caseOf = (bays: Bays): string =>
  JSON.stringify({
    job: { number: "P-1", title: "Many bays", date: "2026-11-20", revision: "A" },
    unit: "mm",
    stock: {
      panel: { name: "18 mm plywood", nominal: 18, measured: 17.6, sheet: { length: 30000, width: 15000 }, trim: 5 },
      back: { name: "6 mm plywood", nominal: 6, measured: 5.7, sheet: { length: 30000, width: 15000 }, trim: 5 },
    },
    cases: [{ name: "case", width: 14000, height: 14000, depth: 400, stock: { all: "panel", back: "back" }, bays }],
  });

describe.each(Object.keys(SHAPES))("%s", (shape) => {
  it.each([10, 20, 40, 80])("%i bays", (count) => {
    const { project } = readProjectText(caseOf(SHAPES[shape]!(count)), "many.json");
    const { printed, marks } = planModels(project, null);
    expect(planOpenings(printed)).toHaveLength(count);
    const { stock, step, unit } = project;
    const assemblies = planAssemblies(printed, marks);
    const solids = solidsOf({ parts: planParts(printed, marks, stock, step), stock, assemblies });
    const job = {
      ...project.job,
      name: project.name,
      unit,
      step,
      draft: false,
      moisture: { made: null, driest: 6, wettest: 12 },
      doorway: null,
      walls: { left: null, right: null, back: null, scribe: { left: 0, right: 0, back: 0 } },
      floorOut: null,
    };
    const tried = new Neighbours(solids, step).tried + checkOverlaps({ job, assemblies }, solids).tried;
    expect(tried / solids.length).toBeLessThanOrEqual(MOST);
    expect(tried).toBeGreaterThan(solids.length);
  });
});

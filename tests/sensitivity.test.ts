/** The table of thicknesses, held against sets built anew with each thickness, and against a formula of the trade. */
import { describe, expect, it } from "vitest";
import { MM_PER_INCH } from "../src/base/length.ts";
import { makeSet } from "../src/build.ts";
import { likelyThicknesses } from "../src/plans/sensitivity.ts";
import type { Project } from "../src/project/project.ts";
import { readProjectText } from "../src/project/read.ts";
import type { DryfitSet } from "../src/set/schema.ts";
import { EXAMPLES, exampleFile, projectOf } from "./support/examples.ts";
import { joinerySet } from "./support/outcome.ts";

const withThickness = (project: Project, id: string, thickness: number): Project => ({
  ...project,
  stock: project.stock.map((one) =>
    one.id === id ? { ...one, thickness, thickest: thickness, readings: [thickness] } : one,
  ),
});

/** What a row of the table says, looked up in a set. */
function figureIn(set: DryfitSet, mark: string, what: string): number {
  const part = set.parts.find((one) => one.mark === mark)!;
  if (what === "length" || what === "width") return part[what];
  const holds = / to the groove for (\S+)$/.exec(what)?.[1];
  const walls = part.features.filter(
    (feature) => (feature.kind === "groove" || feature.kind === "rabbet") && feature.holds === holds,
  );
  expect(walls).toHaveLength(1);
  return walls[0]!.at;
}

describe("the table of thicknesses", () => {
  it.each(EXAMPLES)("of %s says what a set built with each thickness says", (name) => {
    const project = projectOf(exampleFile(name));
    const { sensitivity } = makeSet(project, { draft: false, olderSet: null });
    expect(sensitivity.map(({ stock }) => stock)).toEqual(project.stock.map(({ id }) => id));
    for (const { stock, thicknesses, rows } of sensitivity) {
      thicknesses.forEach((thickness, i) => {
        const built = joinerySet(withThickness(project, stock, thickness));
        for (const { marks, what, values } of rows) {
          for (const mark of marks) expect(figureIn(built, mark, what)).toBeCloseTo(values[i]!, 5);
        }
      });
      // What is not listed is the same at both ends of the table.
      const [thin, thick] = [thicknesses[0]!, thicknesses.at(-1)!].map((one) =>
        joinerySet(withThickness(project, stock, one)),
      );
      const listed = new Set(rows.flatMap(({ marks, what }) => marks.map((mark) => `${mark} ${what}`)));
      for (const part of thin!.parts) {
        for (const what of ["length", "width"] as const) {
          const other = thick!.parts.find(({ mark }) => mark === part.mark)!;
          if (!listed.has(`${part.mark} ${what}`)) expect(other[what]).toBeCloseTo(part[what], 5);
        }
      }
    }
  });

  it("gives the length between two sides by the trade's formula, W - 2 (t - d)", () => {
    // W 26, d 3/8: 25 7/16 with 21/32 (WOOD magazine, Precise Layout for Plywood Projects); 25 5/16 with 23/32 and 25 1/4 with 3/4 follow.
    const text = JSON.stringify({
      job: { number: "F-1", title: "Formula", date: "2026-11-20", revision: "A" },
      unit: "in",
      step: "1/64",
      stock: { ply: { name: "plywood", nominal: "3/4", measured: "3/4", sheet: { length: 96, width: 48 } } },
      joinery: { depth: "3/8", allowance: 0 },
      cases: [{ name: "box", width: 26, height: 30, depth: 12, stock: "ply", back: { fit: "none" } }],
    });
    const { project } = readProjectText(text, "formula.json");
    const [table] = makeSet(project, { draft: false, olderSet: null }).sensitivity;
    const row = table!.rows.find(({ what }) => what === "length")!;
    const at = (inches: number): number => {
      const column = table!.thicknesses.findIndex((one) => Math.abs(one - inches * MM_PER_INCH) < 1e-6);
      return row.values[column]! / MM_PER_INCH;
    };
    expect(at(23 / 32)).toBeCloseTo(25 + 5 / 16, 6);
    expect(at(3 / 4)).toBeCloseTo(25.25, 6);
    const thin = joinerySet(withThickness(project, "ply", (21 / 32) * MM_PER_INCH));
    expect(thin.parts.find(({ role }) => role === "bottom")!.length / MM_PER_INCH).toBeCloseTo(25 + 7 / 16, 6);
  });

  it("says where the piece could not be made of such a sheet", () => {
    const text = JSON.stringify({
      job: { number: "F-2", title: "Fixed bays", date: "2026-11-20", revision: "A" },
      unit: "mm",
      stock: { ply: { name: "plywood", nominal: 18, measured: 18, sheet: { length: 2440, width: 1220 } } },
      cases: [
        {
          name: "box",
          width: 636,
          height: 700,
          depth: 300,
          stock: "ply",
          back: { fit: "none" },
          bays: { columns: [{ size: 291 }, { size: 291 }] },
        },
      ],
    });
    const { project } = readProjectText(text, "fixed.json");
    const [table] = makeSet(project, { draft: false, olderSet: null }).sensitivity;
    expect(table!.impossible).toEqual(table!.thicknesses.slice(0, -1));
  });

  it("has five columns up to the nominal thickness, in the job's own steps", () => {
    expect(likelyThicknesses({ nominal: 18 }, "mm")).toEqual(
      [17.2, 17.4, 17.6, 17.8, 18].map((one) => expect.closeTo(one)),
    );
    const inches = likelyThicknesses({ nominal: 0.75 * MM_PER_INCH }, "in").map((one) => (one / MM_PER_INCH) * 64);
    expect(inches).toEqual([44, 45, 46, 47, 48].map((one) => expect.closeTo(one)));
  });
});

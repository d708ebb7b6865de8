/** The table of thicknesses, held against sets built anew with each thickness, and against a formula of the trade. */
import { readFileSync } from "node:fs";
import { parse } from "jsonc-parser";
import { describe, expect, it } from "vitest";
import { MM_PER_INCH, type Unit } from "../../src/base/length.ts";
import { ProblemsFound } from "../../src/base/problem.ts";
import { makeSet } from "../../src/build.ts";
import { likelyThicknesses } from "../../src/plans/likely-thicknesses.ts";
import { planParts } from "../../src/plans/parts.ts";
import { planSensitivity } from "../../src/plans/sensitivity.ts";
import { planModels } from "../../src/plans/set.ts";
import { tidy } from "../../src/plans/tidy.ts";
import type { Project } from "../../src/project/project.ts";
import { readProjectText } from "../../src/project/read.ts";
import { faceWords } from "../../src/set/facing.ts";
import type { DryfitSet, Face, SetFeature, SetPart, SetSensitivity } from "../../src/set/schema.ts";
import birch from "../reference/panel-thickness-birch.json" with { type: "json" };
import ps1 from "../reference/panel-thickness-ps1.json" with { type: "json" };
import { EXAMPLES, exampleFile, projectOf, testFile } from "../support/jobs/examples.ts";

/** The file read anew with one measured thickness written into it, as a maker would. */
function withThickness(text: string, id: string, thickness: number): Project {
  const job = parse(text);
  job.stock = { ...job.stock, [id]: { ...job.stock?.[id], measured: `${thickness} mm` } };
  return readProjectText(JSON.stringify(job), "measured.json").project;
}

/** Panels whose thinnest and thickest are published. */
const published = (): {
  name: string;
  unit: Unit;
  nominal: number;
  limits: { least: number; most: number; source: string };
}[] => [
  ...birch.rows.map(({ nominal_mm, min_mm, max_mm }) => ({
    name: `birch plywood ${nominal_mm} mm`,
    unit: "mm" as const,
    nominal: nominal_mm,
    limits: { least: min_mm, most: max_mm, source: birch.source },
  })),
  ...ps1.rows.map(({ performance_category, min_in, max_in, label_in }) => ({
    name: `structural plywood ${performance_category} in`,
    unit: "in" as const,
    nominal: label_in * MM_PER_INCH,
    limits: { least: min_in * MM_PER_INCH, most: max_in * MM_PER_INCH, source: ps1.source },
  })),
];

const isCut = (feature: SetFeature): boolean => feature.kind === "groove" || feature.kind === "rabbet";
const faceOf = (part: SetPart, words: string): Face =>
  (["l0", "l1", "w0", "w1", "t0", "t1"] as const).find((face) => faceWords(part, face) === words)!;

type Parts = Pick<DryfitSet, "parts">;

/** The parts alone: settings, orders and proof have no say in what is looked at here. */
function partsOf(project: Project): Parts {
  const { printed, marks } = planModels(project, null);
  return tidy({ parts: planParts(printed, marks, project.stock, project.step) });
}

const planned = new Map<string, Pick<DryfitSet, "parts" | "sensitivity">>();

/** A job's parts and its table. */
function planOf(file: string): Pick<DryfitSet, "parts" | "sensitivity"> {
  const known = planned.get(file);
  if (known) return known;
  const project = projectOf(file);
  const { parts } = partsOf(project);
  const plan = tidy({ parts, sensitivity: planSensitivity(project, planModels(project, null), parts) });
  planned.set(file, plan);
  return plan;
}

const CUT =
  "(?:the )?(groove|rabbet|stub mortise|mortise|slot|shoulder|lap)(?: (\\d+) of (\\d+))? for (\\S+)(?: on the (.+))?";

/** The one cut that is meant: "the groove for 5", "slot 2 of 6 for 33", "the shoulder for 34 on the front face". */
function cutMeant(part: SetPart, [kind, nth, of, holds, face]: readonly (string | undefined)[]): SetFeature {
  const alike = part.features
    .filter((one) => one.kind === kind && one.holds === holds && !one.lipping)
    .filter((one) => face === undefined || one.face === faceOf(part, face))
    .sort((a, b) => a.at - b.at || a.from - b.from);
  expect(alike.length, `${part.mark} ${kind} for ${holds}`).toBe(Number(of ?? 1));
  return alike[Number(nth ?? 1) - 1]!;
}

/** What a row of the table says, looked up in a set. */
function figureIn(set: Parts, mark: string, what: string): number {
  const part = set.parts.find((one) => one.mark === mark)!;
  const only = (features: SetFeature[]): SetFeature => {
    expect(features.length, `${mark} ${what}`).toBeGreaterThan(0);
    return features[0]!;
  };
  const lippingOn = (edge: string): number => part.lippings.find((one) => one.edge === faceOf(part, edge))!.thickness;
  const [, sized] = /^(length|width)$/.exec(what) ?? [];
  if (sized) return part[sized as "length" | "width"];
  const [, panel] = /^(length|width) of the panel$/.exec(what) ?? [];
  if (panel) return part.cut[panel as "length" | "width"];
  const [, edge, lipped, to, ...wall] =
    new RegExp(`^(.+?)( before lipping)? to (the middle of |the first end of )?${CUT}$`).exec(what) ?? [];
  if (edge) {
    const { kind, at, from, width } = cutMeant(part, wall);
    // A slot begins and ends at the middle of the round that the bit leaves.
    const middle = kind === "slot" ? width / 2 : 0;
    const along = to === "the first end of " ? from + middle : to === undefined ? at : at + width / 2;
    return along - (lipped === undefined ? 0 : lippingOn(edge));
  }
  const [, size, ...cut] = new RegExp(`^(length|width|depth) of ${CUT}$`).exec(what) ?? [];
  if (size) {
    const meant = cutMeant(part, cut);
    return size === "length" ? meant.to - meant.from : meant[size as "width" | "depth"];
  }
  const [, stopEdge, ...stopped] = new RegExp(`^(.+?) to the end of ${CUT}$`).exec(what) ?? [];
  if (stopEdge) {
    const { from, to: end, along } = cutMeant(part, stopped);
    const face = faceOf(part, stopEdge);
    return face.endsWith("0") ? from : (along === "l" ? part.length : part.width) - end;
  }
  const [, notched, notchFor, notchEnd] = /^(width|depth) of the notch(?: for (\S+))? at the (.+)$/.exec(what) ?? [];
  if (notched) {
    const notches = part.features.filter(
      (one) => one.kind === "notch" && one.holds === (notchFor ?? null) && one.face === faceOf(part, notchEnd!),
    );
    return only(notches)[notched as "width" | "depth"];
  }
  const [, shaped] = /^(width|height) of what is cut out between the feet$/.exec(what) ?? [];
  if (shaped) {
    const shape = only(part.features.filter(({ kind }) => kind === "shape"));
    return shaped === "height" ? shape.depth : shape.to - shape.from;
  }
  const [, across, row] =
    /^(.+? to the middle|.+? to the first|depth) of (?:the row of|the holes for) (.+)$/.exec(what) ?? [];
  if (across) {
    const isMeant = (hole: SetFeature): boolean =>
      hole.holds === null ? `/${hole.row}`.endsWith(`/${row}`) : hole.holds === row;
    const hole = only(part.features.filter((one) => one.kind === "hole" && isMeant(one)));
    if (across === "depth") return hole.depth;
    return (across.endsWith("middle") ? hole.at : hole.from) + hole.width / 2;
  }
  throw new Error(`a row of the table that this test cannot look up: ${what}`);
}

const jobs = [
  ...EXAMPLES.map(exampleFile),
  ...[
    "shared-side",
    "tongue",
    "lipping-strip",
    "loose-shelves",
    "worktop-panel",
    "doors-track",
    "drawers-undermount",
  ].map(testFile),
];

describe("the table of thicknesses", () => {
  it.each(jobs)("of %s says what a set built with each thickness says", (file) => {
    const project = projectOf(file);
    const drawn = planOf(file);
    expect(drawn.sensitivity.map(({ stock }) => stock)).toEqual(project.stock.map(({ id }) => id));
    for (const { stock, thicknesses, impossible, rows } of drawn.sensitivity) {
      const builtWith = (thickness: number): Parts =>
        partsOf(withThickness(readFileSync(file, "utf8"), stock, thickness));
      for (const thickness of impossible) expect(() => builtWith(thickness)).toThrow(ProblemsFound);
      const isPossible = (i: number): boolean => !impossible.includes(thicknesses[i]!);
      const sets: Parts[] = thicknesses
        .filter((_, i) => isPossible(i))
        .map((thickness) =>
          Math.abs(thickness - project.stock.find(({ id }) => id === stock)!.thickness) < 1e-6
            ? drawn
            : builtWith(thickness),
        );
      expect(sets).toContain(drawn);
      sets.forEach((built, i) => {
        for (const { marks, what, values: all } of rows) {
          const values = all.filter((_, column) => isPossible(column));
          if (what === "width of the groove") continue; // of several grooves: held below
          for (const mark of marks) expect(figureIn(built, mark, what), `${mark} ${what}`).toBeCloseTo(values[i]!, 5);
        }
      });
      // What is not listed is the same at both ends of the table.
      const [thin, thick] = [sets[0]!, sets.at(-1)!];
      for (const part of thin.parts) {
        const other = thick.parts.find(({ mark }) => mark === part.mark)!;
        const listed = (what: RegExp): boolean =>
          rows.some((row) => row.marks.includes(part.mark) && what.test(row.what));
        for (const what of ["length", "width"] as const) {
          if (!listed(new RegExp(`^${what}( of the panel)?$`))) expect(other[what]).toBeCloseTo(part[what], 5);
        }
        part.features.forEach((feature, i) => {
          const now = other.features[i]!;
          if (!isCut(feature)) return;
          if (!listed(new RegExp(` to the ${feature.kind} for ${feature.holds}$`))) {
            expect(now.at).toBeCloseTo(feature.at, 5);
          }
          if (!listed(new RegExp(`^depth of the ${feature.kind} for ${feature.holds}$`))) {
            expect(now.depth).toBeCloseTo(feature.depth, 5);
          }
          if (!listed(/^width of the (groove$|rabbet)/)) expect(now.width).toBeCloseTo(feature.width, 5);
        });
      }
    }
  });

  it("says how wide each groove becomes: the thickest reading and the allowance", () => {
    const project = projectOf(exampleFile("ware-bookcase"));
    const { sensitivity, parts } = planOf(exampleFile("ware-bookcase"));
    const [{ thicknesses, rows }] = sensitivity as [SetSensitivity];
    const widths = rows.filter(({ what }) => what === "width of the groove");
    expect(widths).toHaveLength(1);
    expect(widths[0]!.marks).toEqual(parts.filter(({ role }) => role === "side").map(({ mark }) => mark));
    const { thickness, thickest } = project.stock[0]!;
    const { allowance } = project.cases[0]!.joinery;
    thicknesses.forEach((one, i) => {
      const reading = Math.abs(one - thickness) < 1e-6 ? thickest : one;
      expect(widths[0]!.values[i]).toBeCloseTo(reading + allowance, 6);
    });
  });

  it("says what a tenth of a millimetre more does, before rounding", () => {
    const [table] = planOf(exampleFile("ware-bookcase")).sensitivity;
    expect(table!.tick).toBe(0.1);
    const each = (mark: string, what: string): number | null =>
      table!.rows.find((row) => row.marks.includes(mark) && row.what === what)!.each;
    // Between two sides, each as much thicker; the walls of five rows move by one shelf more from each to the next.
    expect(each("3", "length")).toBeCloseTo(-0.2, 6);
    expect(["5", "6", "7", "8"].map((shelf) => each("1", `bottom end to the groove for ${shelf}`))).toEqual(
      [0.1, 0.2, 0.3, 0.4].map((one) => expect.closeTo(one, 6)),
    );
    // In opposite grooves the depth is cut down to a third of a thin side alone.
    const shared = planOf(testFile("shared-side")).sensitivity[0]!;
    expect(shared.rows.find(({ marks, what }) => marks.includes("6") && what === "width")!.each).toBeNull();
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
    const drawn = table!.thicknesses.findIndex((one) => Math.abs(one - 0.75 * MM_PER_INCH) < 1e-5);
    expect(row.values[drawn]! / MM_PER_INCH).toBeCloseTo(25.25, 5);
    // With a pencil, from the column as drawn: a thirty-second thinner, two of them longer.
    const at = (inches: number): number =>
      row.values[drawn]! / MM_PER_INCH + ((inches - 0.75) / 0.005) * (row.each! / MM_PER_INCH);
    expect(at(23 / 32)).toBeCloseTo(25 + 5 / 16, 4);
    expect(at(21 / 32)).toBeCloseTo(25 + 7 / 16, 4);
    const thin = partsOf(withThickness(text, "ply", (11 / 16) * MM_PER_INCH));
    expect(thin.parts.find(({ role }) => role === "bottom")!.length / MM_PER_INCH).toBeCloseTo(25 + 3 / 8, 6);
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
    // Bays that are given leave room for the sides, and for none thinner or thicker.
    expect(table!.impossible).toEqual(table!.thicknesses.filter((one) => one !== 18));
  });

  it("has a column for the thickness it is drawn with, and never one of nothing", () => {
    for (const name of EXAMPLES) {
      for (const { stock, thicknesses } of planOf(exampleFile(name)).sensitivity) {
        const { thickness } = projectOf(exampleFile(name)).stock.find(({ id }) => id === stock)!;
        expect(thicknesses.some((one) => Math.abs(one - thickness) < 1e-5)).toBe(true);
        expect(thicknesses.length - 5).toBeOneOf([0, 1]);
      }
    }
  });
});

describe("likely thicknesses", () => {
  const likely = (more: Partial<Parameters<typeof likelyThicknesses>[0]>, unit: Unit): number[] => {
    const stock = { nominal: 18, thickness: more.nominal ?? 18, readings: [], limits: null, ...more };
    return likelyThicknesses(stock, unit);
  };
  const near = (all: readonly number[]): unknown[] => all.map((one) => expect.closeTo(one, 6));

  it("are even, in the steps of a calliper, over what the standard allows", () => {
    const birch = { least: 17.1, most: 18.1, source: "" };
    expect(likely({ limits: birch }, "mm")).toEqual(near([17.1, 17.4, 17.7, 18, 18.3]));
    const inches = likely(
      {
        nominal: 0.75 * MM_PER_INCH,
        thickness: 0.704 * MM_PER_INCH,
        limits: { least: 0.703 * MM_PER_INCH, most: 0.781 * MM_PER_INCH, source: "" },
      },
      "in",
    );
    expect(inches.map((one) => one / MM_PER_INCH)).toEqual(near([0.7, 0.725, 0.75, 0.775, 0.8]));
  });

  it.each([...published()])("of $name reach from the thinnest to the thickest that it allows", (stock) => {
    const all = likely(stock, stock.unit);
    expect(all).toHaveLength(5);
    expect(all[0]).toBeLessThan(stock.limits.least + 1e-6);
    expect(all[4]).toBeGreaterThan(stock.limits.most - 1e-6);
    // No coarser than it takes: one tick less between columns would not reach.
    const tick = stock.unit === "mm" ? 0.1 : MM_PER_INCH / 200;
    const apart = all[1]! - all[0]!;
    expect(apart / tick).toBeCloseTo(Math.round(apart / tick), 6);
    expect(4 * (apart - tick)).toBeLessThan(stock.limits.most - stock.limits.least + 2 * tick);
  });

  it("stand on both sides of every reading, however far from nominal", () => {
    for (const readings of [[15.2], [17.05, 17.9], [19.3, 19.6], [18]]) {
      const all = likely({ readings, thickness: readings.reduce((sum, one) => sum + one, 0) / readings.length }, "mm");
      for (const one of readings) {
        expect(all[0]).toBeLessThan(one - 1e-6);
        expect(all[4]).toBeGreaterThan(one + 1e-6);
      }
    }
  });

  it("are thicker than nothing, of the thinnest veneer too", () => {
    for (const nominal of [0.1, 0.3, 0.5, 0.8, 1, 3]) {
      for (const unit of ["mm", "in"] as const) expect(Math.min(...likely({ nominal }, unit))).toBeGreaterThan(0.09);
    }
  });
});

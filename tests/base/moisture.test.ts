/** Moisture of wood, and how much it moves, against the published table, equation and coefficients. */
import { readFileSync } from "node:fs";
import { parse } from "jsonc-parser";
import { describe, expect, it } from "vitest";
import { moistureIn, movementOf } from "../../src/base/moisture.ts";
import emcEquation from "../reference/emc-equation.json" with { type: "json" };
import emcTable from "../reference/emc-table.json" with { type: "json" };
import change from "../reference/wood-dimensional-change.json" with { type: "json" };
import shrinkage from "../reference/wood-shrinkage.json" with { type: "json" };
import { printed, problemsIn, readText, withJob } from "../support/jobs/project-file.ts";

describe("moisture in still air", () => {
  // Wood Handbook 2010, table 4-2: 18 temperatures, 19 humidities.
  const entries = emcTable.rows.flatMap(({ F, emc }) =>
    emc.map((points, i) => ({ F, humidity: emcTable.relative_humidity_percent[i]!, points })),
  );

  it("is within 0.07 of the whole published table, by the equation in either scale", () => {
    expect(entries.length).toBe(342);
    for (const { F, humidity, points } of entries) {
      const inF = moistureIn({ humidity, temperature: F, scale: "F" });
      const inC = moistureIn({ humidity, temperature: (F - 32) / 1.8, scale: "C" });
      expect(Math.abs(inF - points), `${humidity} % at ${F} F`).toBeLessThan(emcTable.tolerance);
      expect(Math.abs(inC - points), `${humidity} % at ${F} F, in C`).toBeLessThan(emcTable.tolerance);
    }
  });

  it("comes out at the equation's check values", () => {
    for (const { T_C, RH, EMC } of emcEquation.checks) {
      expect(moistureIn({ humidity: RH, temperature: T_C, scale: "C" })).toBeCloseTo(EMC, 2);
    }
  });
});

describe("movement across the grain", () => {
  it("is what the trade and the handbook reckon", () => {
    // WOOD magazine: red alder, 8 in, 6 points. A turners' example in mesquite: 5 in, 3 points.
    expect(movementOf(8, 0.0026, 6)).toBeCloseTo(0.1248, 9);
    expect(movementOf(5, 0.00129, 3)).toBeCloseTo(0.019, 3);
    const { D_I_mm, C, M_I, M_F, delta_mm } = change.worked_example;
    expect(movementOf(D_I_mm, C, M_F - M_I)).toBeCloseTo(delta_mm, 9);
    expect(movementOf(D_I_mm, C, M_I - M_F)).toBeCloseTo(-delta_mm, 9);
  });

  it("follows coefficients that the table of shrinkage bears out", () => {
    // Shrinkage S from green, straight from 30 % down, on the size at 10 %: C = S/30 / (1 - 20 S/30). Species that both tables name alike.
    const pairs = change.rows.flatMap((row) => {
      const other = shrinkage.rows.find(({ species }) => species === row.species);
      return other === undefined ? [] : [{ row, other }];
    });
    const fromShrinkage = (percent: number): number => percent / 3000 / (1 - (20 * percent) / 3000);
    const near = pairs.filter(
      ({ row, other }) =>
        other.tangential !== null &&
        other.radial !== null &&
        Math.abs(row.CT - fromShrinkage(other.tangential)) < 0.00002 &&
        Math.abs(row.CR - fromShrinkage(other.radial)) < 0.00002,
    );
    expect(near.length).toBeGreaterThan(30);
    expect(near.length / pairs.length).toBeGreaterThan(0.85);
  });

  it("of the shop's stock is the table's", () => {
    const NAMES: Record<string, string> = {
      "sugar maple": "Maple, sugar",
      "red oak": "Red oak, commercial",
      "black cherry": "Cherry, black",
      "American beech": "Beech, American",
    };
    const { stock } = parse(readFileSync(new URL("../../shared/stock.json", import.meta.url), "utf8")) as {
      stock: Record<string, { species?: { name: string; tangential: number; radial: number } }>;
    };
    const species = Object.values(stock).flatMap((one) => one.species ?? []);
    expect(species.length).toBeGreaterThan(3);
    for (const { name, tangential, radial } of species) {
      expect(change.rows.find((row) => row.species === NAMES[name])).toMatchObject({ CT: tangential, CR: radial });
    }
  });
});

describe("moisture of the job", () => {
  const moistureOf = (text: string) => readText(withJob(`"moisture": ${text}`)).project.moisture;

  it("is in percent, or that of the air", () => {
    expect(moistureOf('{ "made": 8, "driest": 6.5, "wettest": 11 }')).toEqual({ made: 8, driest: 6.5, wettest: 11 });
    const air = moistureOf(
      '{ "driest": { "humidity": 30, "temperature": "20 C" }, "wettest": { "humidity": 65, "temperature": "20 C" } }',
    );
    expect(air.made).toBeNull();
    expect([air.driest, air.wettest].map((points) => points.toFixed(2))).toEqual(["6.19", "12.00"]);
    const { driest } = moistureOf('{ "driest": { "humidity": 50, "temperature": "70 F" } }');
    expect(Math.abs(driest - 9.2)).toBeLessThan(0.07);
    expect(readText(withJob('"notes": 1').replace('"notes": 1,', "")).project.moisture).toEqual({
      made: null,
      driest: 6,
      wettest: 12,
    });
  });

  it("that is none is an error in words", () => {
    expect(printed(problemsIn(withJob('"moisture": { "driest": 12, "wettest": 8 }')))).toBe(`job.json:4:15  moisture
  error: solid wood at 12 % in the driest season and at 8 % in the wettest
  expected: more moisture in "wettest" than in "driest"
  try: change them over, or measure again`);
    expect(
      printed(problemsIn(withJob('"moisture": { "made": { "humidity": 45, "temperature": "68" } }'))),
    ).toBe(`job.json:4:58  moisture.made.temperature
  error: found "68"
  expected: a temperature from 30 to 200 F or from 0 to 95 C
  try: write it like "68 F" or "20 C"`);
    expect(printed(problemsIn(withJob('"moisture": { "made": 40 }')))).toBe(`job.json:4:25  moisture.made
  error: found 40
  expected: moisture content in percent from 2 to 25, or the air it comes from
  try: write it like 8, or { "humidity": 45, "temperature": "68 F" }`);
  });
});

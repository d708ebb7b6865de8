import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { formatLength, formatLengthWithUnit, type Unit } from "../../src/base/length.ts";
import { parseLength } from "../../src/base/parse-length.ts";
import inchFractions from "../reference/inch-fractions.json" with { type: "json" };

const mmOf = (value: number | string, unit: Unit = "in"): number | null => {
  const parsed = parseLength(value, unit);
  return parsed.ok ? parsed.mm : null;
};

describe("lengths as a maker writes them", () => {
  test.each<[number | string, Unit, number]>([
    [30, "in", 762],
    [30, "mm", 30],
    [0.375, "in", 9.525],
    [0.703, "in", 17.8562],
    [0, "in", 0],
    ["3 1/4", "in", 82.55],
    ["3-1/4", "in", 82.55],
    ["3 - 1/4", "in", 82.55],
    ["3–1/4", "in", 82.55],
    ["23/32", "in", 18.25625],
    ["3/8", "in", 9.525],
    ["18 mm", "in", 18],
    ["18mm", "in", 18],
    ["0.75 in", "mm", 19.05],
    [".75 in", "mm", 19.05],
    ["3/4 in", "mm", 19.05],
    ["1 1/2 inches", "mm", 38.1],
    ['30 1/4"', "mm", 768.35],
    ["30 1/4”", "mm", 768.35],
    ["30 1/4″", "mm", 768.35],
    ["30 1/4''", "mm", 768.35],
    ["5'2 1/2\"", "mm", 1587.5],
    ["5' 2 1/2\"", "in", 1587.5],
    ["5’2 ½”", "in", 1587.5],
    ["5′-2 1/2″", "in", 1587.5],
    ["5 ft 2 1/2 in", "mm", 1587.5],
    ["5'2", "mm", 1574.8],
    ["5'", "mm", 1524],
    ["5 1/2 ft", "mm", 1676.4],
    ["3½", "in", 88.9],
    ["⅞", "in", 22.225],
    ["23⁄32", "in", 18.25625],
    ["  18  ", "mm", 18],
    ["18 mm", "in", 18],
    ["18 MM", "in", 18],
    ["60 cm", "in", 600],
    ["1.2 m", "in", 1200],
    ["1/16 in", "mm", 1.5875],
    ["0.1 mm", "in", 0.1],
    ["-2 1/2", "in", -63.5],
    ["−5", "mm", -5],
    [-5, "mm", -5],
    ["1/2 mm", "mm", 0.5],
  ])("%j in a job in %s is %f mm", (value, unit, mm) => {
    expect(mmOf(value, unit)).toBe(mm);
  });

  test("each 64th of an inch is the very number of the reference table", () => {
    for (const row of inchFractions.rows) {
      expect(mmOf(row.fraction)).toBe(row.mm);
      expect(mmOf(row.inch)).toBe(row.mm);
    }
    expect(inchFractions.rows).toHaveLength(64);
  });
});

describe("what is not a length", () => {
  const plain = 'write it like 30, "30 1/4", "23/32", "18 mm" or "0.75 in"';
  test.each<[number | string, Unit, string]>([
    ["30 ells", "in", plain],
    ["", "in", plain],
    ["mm", "in", plain],
    ["3 5/4", "in", plain],
    ["1/0", "in", plain],
    ["3.5 1/4", "in", plain],
    ["1e3", "in", plain],
    ["0x10", "in", plain],
    ["5'14\"", "in", plain],
    ["3 1/4 1/8", "in", plain],
    ["--3", "in", plain],
    ["18 mm in", "in", plain],
    [Number.NaN, "mm", plain],
    [Number.POSITIVE_INFINITY, "mm", plain],
    ["1".repeat(41), "mm", plain],
    ["12,5", "mm", 'write a decimal with a point: "12.5"'],
    ["12,5 mm", "in", 'write a decimal with a point: "12.5 mm"'],
    ["23/32", "mm", 'name its unit: "23/32 in"'],
    ["3 1/4", "mm", 'name its unit: "3 1/4 in"'],
  ])("%j in a job in %s", (value, unit, remedy) => {
    expect(parseLength(value, unit)).toEqual({ ok: false, remedy });
  });

  test("any text at all is answered, never thrown at", () => {
    fc.assert(
      fc.property(fc.string({ unit: "grapheme", maxLength: 60 }), fc.constantFrom<Unit>("in", "mm"), (text, unit) => {
        const parsed = parseLength(text, unit);
        expect(parsed.ok ? Number.isFinite(parsed.mm) : parsed.remedy.length > 0).toBe(true);
      }),
    );
  });
});

describe("reading back what is written", () => {
  const sixtyFourths = fc.integer({ min: -64 * 400, max: 64 * 400 });

  test("inch fractions", () => {
    fc.assert(
      fc.property(sixtyFourths, (n) => {
        const mm = (n * 396875) / 1e6; // 1/64 in is 396,875 nanometres
        expect(mmOf(formatLength(mm, "in"), "in")).toBeCloseTo(mm, 9);
        expect(mmOf(formatLengthWithUnit(mm, "in"), "mm")).toBeCloseTo(mm, 9);
      }),
    );
  });

  test("millimetres to 0.05", () => {
    fc.assert(
      fc.property(fc.integer({ min: -200_000, max: 200_000 }), (n) => {
        const mm = (n * 5) / 100;
        expect(mmOf(formatLength(mm, "mm"), "mm")).toBeCloseTo(mm, 9);
        expect(mmOf(formatLengthWithUnit(mm, "mm"), "in")).toBeCloseTo(mm, 9);
      }),
    );
  });

  test("a number and the same digits as text are one length", () => {
    fc.assert(
      fc.property(fc.integer({ min: 0, max: 10_000_000 }), fc.integer({ min: 0, max: 6 }), (n, places) => {
        const value = n / 10 ** places;
        fc.pre(!String(value).includes("e"));
        for (const unit of ["in", "mm"] as const) expect(mmOf(value, unit)).toBe(mmOf(String(value), unit));
      }),
    );
  });
});

/** Standing, carrying and lifting: tipping, tall pieces, the doorway, weight, and what diagonals say of a lean. */
import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { toOuter, type Vec } from "../../src/base/geometry.ts";
import { CLEAR, checkDoorway, fitsTilted, wayThrough } from "../../src/plans/checks/doorway.ts";
import type { CheckInput } from "../../src/plans/checks/input.ts";
import { standingPieces } from "../../src/plans/checks/piece.ts";
import { checkSquare, leanOf } from "../../src/plans/checks/square.ts";
import { checkTipping, staticsOf } from "../../src/plans/checks/tipping.ts";
import { checkWeight } from "../../src/plans/checks/weight.ts";
import { isTall } from "../../src/set/standing.ts";
import safety from "../reference/clothing-storage-safety.json" with { type: "json" };
import { caseJob, checkInputOf } from "../support/jobs/check-input.ts";

const INCH = 25.4;

/** Middle of mass by counting points of a lattice that lie in wood: slow, and unlike adding boxes up. */
function byLattice({ parts, assemblies, stock }: CheckInput, step: number): Vec {
  const sum: [number, number, number, number] = [0, 0, 0, 0];
  for (const part of parts) {
    const { density } = stock.find(({ id }) => id === part.material)!;
    const { at } = assemblies.find(({ name }) => name === part.assembly)!.place;
    const counts = [part.length, part.width, part.thickness].map((size) => Math.max(2, Math.round(size / step)));
    const cell = [part.length, part.width, part.thickness].map((size, i) => size / counts[i]!);
    const weight = density * cell[0]! * cell[1]! * cell[2]!;
    for (let i = 0; i < counts[0]!; i++)
      for (let j = 0; j < counts[1]!; j++)
        for (let k = 0; k < counts[2]!; k++) {
          const point: Vec = [(i + 0.5) * cell[0]!, (j + 0.5) * cell[1]!, (k + 0.5) * cell[2]!];
          const isCut = part.features.some(({ box }) =>
            point.every((x, axis) => x > box[0][axis]! && x < box[1][axis]!),
          );
          if (isCut) continue;
          const [x, y, z] = toOuter(part.place!, point);
          sum[0] += weight * (x + at[0]);
          sum[1] += weight * (y + at[1]);
          sum[2] += weight * (z + at[2]);
          sum[3] += weight;
        }
  }
  return [sum[0] / sum[3], sum[1] / sum[3], sum[2] / sum[3]];
}

describe("tipping", () => {
  const jobs: [string, string][] = [
    ["plain box", caseJob([600, 800, 300])],
    [
      "kick, shelves and a divider",
      caseJob([900, 1500, 350], {
        bottom: { up: 80 },
        kick: {},
        bays: { columns: [{ size: 200 }, { rows: [{}, {}, {}] }] },
      }),
    ],
    ["on a plinth", caseJob([800, 600, 300], { plinth: { height: 100 } })],
  ];

  it.each(jobs)("finds the middle of mass of a case: %s", (_, job) => {
    const input = checkInputOf(job);
    const [piece] = standingPieces(input);
    const { centre, mass } = staticsOf(piece!);
    const lattice = byLattice(input, 6);
    expect(mass).toBeCloseTo(input.mass, 9);
    centre.forEach((x, i) => {
      expect(Math.abs(x + piece!.at[i]! - lattice[i]!)).toBeLessThan(0.6);
    });
  });

  it("reckons angle and pull about the front feet", () => {
    const [piece] = standingPieces(checkInputOf(jobs[0]![1]));
    const { centre, feet, angle, pull, mass } = staticsOf(piece!);
    expect(feet).toBe(0);
    // Leaning so far, the middle of mass stands right over the feet.
    const lean = (angle * Math.PI) / 180;
    expect(centre[1] * Math.cos(lean) - centre[2] * Math.sin(lean)).toBeCloseTo(0, 6);
    // The pull's moment about the feet is the weight's.
    expect(pull * 800).toBeCloseTo(mass * 9.81 * centre[1], 6);
  });

  it("puts the feet behind toe space, and before an applied kick or a plinth's front board", () => {
    const feetOf = (more: Record<string, unknown>): number =>
      staticsOf(standingPieces(checkInputOf(caseJob([600, 800, 300], more)))[0]!).feet;
    const up = { bottom: { up: 80 } };
    expect(feetOf(up)).toBe(0);
    expect(feetOf({ ...up, kick: { setBack: 45 } })).toBeCloseTo(45, 6);
    expect(feetOf({ ...up, kick: { fit: "applied", setBack: 45 } })).toBeCloseTo(45, 6);
    expect(feetOf({ plinth: { height: 80, setBack: 30 } })).toBeCloseTo(30, 6);
  });

  it("says so of a piece that falls by itself, and does not of one that stands", () => {
    const up = { bottom: { up: 80 } };
    const [falls] = checkTipping(checkInputOf(caseJob([600, 500, 300], { ...up, kick: { setBack: 200 } })));
    expect([falls!.level, falls!.text]).toEqual(["warning", expect.stringContaining("falls forward by itself")]);
    const [stands] = checkTipping(checkInputOf(caseJob([600, 500, 300], { ...up, kick: { setBack: 40 } })));
    expect(stands!.level).toBe("ok");
  });

  it("always asks for anchoring of what is tall, counting the base under it", () => {
    const [row] = safety.rows;
    expect(row!.what).toContain("free-standing");
    const limit = row!.value * INCH;
    const tall = (height: number, depth: number, plinth = 0): boolean => {
      const input = checkInputOf(caseJob([600, height, depth], plinth > 0 ? { plinth: { height: plinth } } : {}));
      const [check] = checkTipping(input);
      const anchors = check!.level === "note" && /Anchor it to the wall/.test(check!.change ?? "");
      expect(input.assemblies.some((one) => isTall(one, input.assemblies))).toBe(anchors);
      expect(check!.rule).toMatch(/27 in \(686 mm\).*ASTM F2057-23, 16 CFR 1261/);
      return anchors;
    };
    expect([tall(limit - 0.2, 400), tall(limit + 0.1, 400)]).toEqual([false, true]);
    expect([tall(599, 200), tall(601, 200)]).toEqual([false, true]);
    expect([tall(600, 400, 80), tall(600, 400, 90)]).toEqual([false, true]);
  });

  it("asks for it of a case that another one lifts, and of two joined by a side as one", () => {
    const stack = JSON.parse(caseJob([600, 500, 400]));
    stack.cases.push({ ...stack.cases[0], name: "upper", height: 300, at: [0, 0, 500] });
    const [lower, upper] = checkTipping(checkInputOf(JSON.stringify(stack)));
    expect([lower!.level, upper!.level]).toEqual(["ok", "note"]);
    expect(upper!.text).toContain("upper: 300 mm high, its upper edge 800 mm above the floor, 400 mm deep");
    const pair = JSON.parse(caseJob([600, 500, 400]));
    pair.cases.push({ ...pair.cases[0], name: "beside", shares: { left: "case" } });
    const input = checkInputOf(JSON.stringify(pair));
    const [joined, ...rest] = checkTipping(input);
    expect(rest).toEqual([]);
    expect(joined!.text).toContain("case and beside: 500 mm high, 400 mm deep");
    expect(standingPieces(input)[0]!.size[0]).toBeCloseTo(1200, 6);
    expect(checkDoorway(input)[0]!.text).toBe(
      "No doorway is given: case and beside need 420 mm by 520 mm at the least.",
    );
  });

  it("looks at cases that stand alone each by itself, and names those built alike once", () => {
    const job = JSON.parse(caseJob([600, 800, 300]));
    job.cases[0].quantity = 3;
    const [check, ...rest] = checkTipping(checkInputOf(JSON.stringify(job)));
    expect(rest).toEqual([]);
    expect(check!.text).toContain("case 1, case 2 and case 3: 800 mm high");
  });
});

describe("doorway", () => {
  /** By turning it, a tenth of a degree at a time. */
  const fitsByTurning = (p: number, q: number, width: number, height: number): boolean =>
    Array.from({ length: 901 }, (_, i) => (i * Math.PI) / 1800).some((angle) => {
      const [c, s] = [Math.cos(angle), Math.sin(angle)];
      return p * c + q * s <= width && p * s + q * c <= height;
    });

  it("a rectangle fits as turning it shows", () => {
    const side = fc.integer({ min: 20, max: 3000 });
    fc.assert(
      fc.property(side, side, side, side, (p, q, width, height) => {
        const fits = fitsTilted(p, q, { width, height });
        if (fitsByTurning(p, q, width, height)) expect(fits).toBe(true);
        // A hair larger than any turn allows is no fit: turned in steps, the best angle is missed by little.
        if (fits) expect(fitsByTurning(p - 3, q - 3, width, height)).toBe(true);
      }),
      { seed: 5, numRuns: 100 },
    );
  });

  it("passes upright, laid down or tilted, and says which", () => {
    const way = (size: Vec, width: number, height: number) => wayThrough(size, { width, height });
    expect(way([800, 300, 1900], 760, 2000)).toMatchObject({ across: 300, up: 1900, tilted: false });
    expect(way([800, 300, 2100], 860, 2000)?.words).toBe("laid on its back, its top first");
    expect(way([1200, 700, 2100], 860, 2000)?.words).toBe("on end, its top first");
    expect(way([1200, 1900, 2100], 860, 2000)).toBeNull();
    // 2050 is longer than the doorway is high, and goes through on the slant as long as it is thin.
    expect(way([2100, 40, 2050], 860, 2000)).toMatchObject({ across: 40, up: 2050, tilted: true });
    expect(way([2100, 400, 2050], 860, 2000)).toBeNull();
  });

  it("is told by how much it needs where none is given", () => {
    const [check] = checkDoorway(checkInputOf(caseJob([600, 800, 300])));
    expect([check!.level, check!.text]).toEqual([
      "note",
      "No doorway is given: case needs 320 mm by 620 mm at the least.",
    ]);
    const narrowest = wayThrough([600, 300, 800], { width: 300 + CLEAR, height: 600 + CLEAR });
    expect(narrowest).not.toBeNull();
    expect(wayThrough([600, 300, 800], { width: 299 + CLEAR, height: 600 + CLEAR })).toBeNull();
  });

  it("warns of a case that does not go through, and passes one that does", () => {
    const at = (width: number, height: number) =>
      checkDoorway({ ...checkInputOf(caseJob([1200, 2100, 900])), doorway: { width, height } })[0]!;
    expect(at(760, 2000)).toMatchObject({ level: "warning", change: expect.stringContaining("made in two") });
    expect(at(960, 2000)).toMatchObject({
      level: "ok",
      text: expect.stringContaining("on end, its top first: 900 mm by 1200 mm"),
    });
    // Stood up again over an end's lower edge: the diagonal of its front.
    expect(at(960, 2000).text).toContain(`${Math.ceil(Math.hypot(1200, 2100))} mm under the ceiling`);
    // A doorway wide enough to have it on its back asks for no more than the diagonal of its side.
    expect(at(1230, 1000).text).toContain(`${Math.ceil(Math.hypot(900, 2100))} mm under the ceiling`);
  });
});

describe("weight", () => {
  it("is the parts', piece by piece, and asks for two from 25 kg on", () => {
    const input = checkInputOf(caseJob([600, 800, 300], { plinth: { height: 80 } }));
    const [check] = checkWeight(input);
    const of = (name: string): string =>
      `${input.parts
        .filter(({ assembly }) => assembly === name)
        .reduce((sum, { mass }) => sum + mass, 0)
        .toFixed(1)} kg`;
    expect(check!.text).toContain(
      `weighs ${input.mass.toFixed(1)} kg: case plinth: ${of("case plinth")}, case: ${of("case")}`,
    );
    // A sheet 2440 x 1220 x 17.6 at 560 kg/m3.
    expect([check!.level, check!.text]).toEqual([
      "note",
      expect.stringContaining("Two people for a sheet of 18 mm plywood, 29.3 kg."),
    ]);
    const small = { ...input, stock: input.stock.map((one) => ({ ...one, sheet: { length: 1200, width: 600 } })) };
    expect(checkWeight(small)[0]!.level).toBe("ok");
    const heavy = { ...small, parts: input.parts.map((part) => ({ ...part, mass: part.mass * 4 })) };
    expect(checkWeight(heavy)[0]!.text).toContain("Two people for case.");
  });
});

describe("lean", () => {
  it("is what the trade's rule says: 1/32 in of difference on 30 x 34 leans 0.024", () => {
    // (d1^2 - d2^2) / (4 a): sides 30 and 34, diagonals 1/32 apart about their mean.
    const mean = Math.hypot(30, 34);
    expect(leanOf(mean + 1 / 64, mean - 1 / 64, 30)).toBeCloseTo(0.024, 3);
  });

  it("is the one a leaning case has", () => {
    fc.assert(
      fc.property(
        fc.integer({ min: 100, max: 3000 }),
        fc.integer({ min: 100, max: 3000 }),
        fc.integer({ min: -20, max: 20 }),
        (width, height, by) => {
          expect(leanOf(Math.hypot(width + by, height), Math.hypot(width - by, height), width)).toBeCloseTo(by, 6);
        },
      ),
      { seed: 6 },
    );
  });

  it("stands on the checks page with the target diagonal", () => {
    const [check] = checkSquare(checkInputOf(caseJob([600, 800, 300])));
    const lean = (2 * 1000 * 1.6) / (4 * 600);
    expect(check!.text).toBe(
      `case: square with both outside diagonals at 1000 mm. At the limit, 1.6 mm between them, the top leans ${lean.toFixed(2)} mm to one side of the bottom.`,
    );
  });
});

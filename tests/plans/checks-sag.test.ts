/** Sag: the formula against published coefficients and spans, the stiffness table, and what the checks make of it. */
import { describe, expect, it } from "vitest";
import { CREEP, checkSag, FIRST_LIMIT, INDUSTRY_LIMIT, inertiaOf, sagOf, spanAt } from "../../src/plans/checks/sag.ts";
import { SHELF_LOAD } from "../../src/project/defaults.ts";
import { readShop } from "../../src/project/shop/shop.ts";
import type { SetCheck } from "../../src/set/schema.ts";
import beams from "../reference/beam-coefficients.json" with { type: "json" };
import stiffness from "../reference/panel-stiffness.json" with { type: "json" };
import limits from "../reference/shelf-loads-and-limits.json" with { type: "json" };
import spans from "../reference/shelf-span-aws.json" with { type: "json" };
import { caseJob, checkInputOf } from "../support/jobs/check-input.ts";

const INCH = 25.4;
const POUND_FORCE = 4.4482216152605; // N
const PSI = POUND_FORCE / INCH ** 2; // N/mm2

/** The check's own figures, read back from its words. */
function figuresOf({ text }: SetCheck): {
  span: number;
  first: number;
  creep: number;
  limit: number;
  industry: number;
} {
  const found =
    /: ([\d.]+) mm clear.* first sags ([\d.]+) mm .* in time ([\d.]+) mm .* is ([\d.]+) mm, L\/144 is ([\d.]+) mm/.exec(
      text,
    );
  if (found === null) throw new Error(text);
  const [span, first, creep, limit, industry] = found.slice(1).map(Number) as [number, number, number, number, number];
  return { span, first, creep, limit, industry };
}

/** The check on the parts of one role alone: whatever else carries is taken for something that carries nothing. */
function sagOfRole(job: string, role: string): SetCheck[] {
  const input = checkInputOf(job);
  const carries = ["shelf", "looseShelf", "bottom", "top"].filter((one) => one !== role);
  const parts = input.parts.map((part) =>
    carries.includes(part.role) ? { ...part, role: "stretcher" as const } : part,
  );
  return checkSag({ ...input, parts });
}

describe("formula", () => {
  it("gives the handbook's deflections of a simply supported beam under an even load", () => {
    const worked = beams.checks.filter(
      ({ ends, load, bending_deflection }) =>
        ends === "simple" && load === "uniform" && bending_deflection !== undefined,
    );
    expect(worked.length).toBeGreaterThan(0);
    for (const { b, h, L, E, W, I, bending_deflection } of worked) {
      if (I !== undefined) expect(inertiaOf(b, h)).toBeCloseTo(I, 9);
      expect(sagOf({ load: W / L, modulus: E!, inertia: inertiaOf(b, h) }, L)).toBeCloseTo(bending_deflection!, 9);
    }
    const row = beams.rows.find(
      ({ loading, ends }) => loading === "uniformly distributed" && ends === "both simply supported",
    )!;
    const [over, under] = row.kb.split("/").map(Number);
    expect(sagOf({ load: 1, modulus: 1, inertia: 1 }, 1)).toBeCloseTo(over! / under!, 15);
  });

  it("agrees with the panel industry's form of it in kilograms", () => {
    // d = 5 W L3 / (32 E b t3) x 9.81, W in kg over the shelf (beam-coefficients.json).
    const [mass, span, modulus, width, thickness] = [25, 800, 2500, 300, 18];
    const printed = ((5 * mass * span ** 3) / (32 * modulus * width * thickness ** 3)) * 9.81;
    const beam = { load: (mass * 9.81) / span, modulus, inertia: inertiaOf(width, thickness) };
    expect(sagOf(beam, span)).toBeCloseTo(printed, 9);
  });

  it("gives the shelf lengths that the architectural woodwork standards print", () => {
    // Shelves 12 in deep at L/144; printed lengths are rounded down to the inch, but for one of 45.98 (shelf-span-aws.json).
    for (const row of spans.rows) {
      for (const load of [40, 50] as const) {
        const beam = {
          load: (load * POUND_FORCE) / (12 * INCH),
          modulus: row.moe_psi * PSI,
          inertia: inertiaOf(12 * INCH, row.thickness_in * INCH),
        };
        const span = spanAt(beam, INDUSTRY_LIMIT) / INCH;
        expect(span).toBeCloseTo(row[`computed_length_in_at_${load}_psf`], 1);
        expect(Math.floor(span + 0.03)).toBe(row[`max_length_in_at_${load}_psf`]);
        expect(sagOf(beam, span * INCH) * INDUSTRY_LIMIT).toBeCloseTo(span * INCH, 6);
      }
    }
  });

  it("takes load, limits and creep as they are published", () => {
    const value = (what: string): string => limits.rows.find((row) => row.what === what)!.value;
    expect(value("average books")).toContain(`(${SHELF_LOAD} kg/m)`);
    expect(value("deflection limit")).toBe(`L/${INDUSTRY_LIMIT}`);
    expect(value("design limit for first sag")).toContain(`(L/${FIRST_LIMIT})`);
    expect(value("creep")).toContain(`${(CREEP - 1) * 100}%`);
    // With creep, what the first limit allows stays below what the eye notices.
    const noticed = Number(/L\/(\d+)/.exec(value("sag the eye does not notice"))![1]);
    expect(FIRST_LIMIT / CREEP).toBeGreaterThanOrEqual(noticed);
  });
});

describe("stiffness of the shop's stock", () => {
  const { entries } = readShop("shared").stock;

  it("is the published one of birch plywood, ply for ply", () => {
    const listed = Object.entries(entries).filter(
      ([id, { stiffness: own }]) => id.startsWith("birch") && own !== undefined,
    );
    expect(listed.length).toBe(4);
    for (const [id, entry] of listed) {
      const row = stiffness.rows.find(({ material }) => material.startsWith(`Birch plywood ${entry.nominal} mm`))!;
      expect([id, entry.stiffness!.along, entry.stiffness!.across]).toEqual([
        id,
        row.moe_mpa_along,
        row.moe_mpa_across,
      ]);
    }
  });

  it("is the least published of veneer core for all other plywood", () => {
    const along = stiffness.rows.flatMap(({ moe_mpa }) => (moe_mpa === undefined ? [] : [moe_mpa]));
    const ordinary = Object.entries(entries).filter(
      ([id, { sheet }]) => sheet !== undefined && !id.startsWith("birch"),
    );
    expect(ordinary.length).toBe(7);
    for (const [id, entry] of ordinary) {
      expect([id, entry.stiffness!.along]).toEqual([id, Math.min(...along)]);
      expect(entry.stiffness!.across).toBeLessThan(entry.stiffness!.along);
    }
  });
});

describe("shelves of a case", () => {
  const twoRows = { bays: { rows: [{}, {}] } };

  /** Deflection by adding up curvature twice along the span: another route than the formula's. */
  function byIntegration(load: number, span: number, modulus: number, inertia: number): number {
    const n = 4000;
    const dx = span / n;
    let [slope, sag] = [0, 0];
    // From the middle, where the slope is nothing, to a support.
    for (let i = 0; i < n / 2; i++) {
      const x = span / 2 + (i + 0.5) * dx;
      const moment = (load * x * (span - x)) / 2;
      const next = slope + (moment / (modulus * inertia)) * dx;
      sag += ((slope + next) / 2) * dx;
      slope = next;
    }
    return sag;
  }

  it("span what is clear, and sag by load and own weight", () => {
    const job = caseJob([800, 700, 300], twoRows);
    const { parts } = checkInputOf(job);
    const shelf = parts.find(({ role }) => role === "shelf")!;
    const [check] = sagOfRole(job, "shelf");
    const { span, first, creep, limit, industry } = figuresOf(check!);
    expect(span).toBeCloseTo(800 - 2 * 17.6, 2);
    const load = ((SHELF_LOAD + shelf.width * 17.6 * 560e-6) * 9.81) / 1000;
    expect(first).toBeCloseTo(byIntegration(load, span, 6550, (shelf.width * 17.6 ** 3) / 12), 2);
    expect(creep).toBeCloseTo(1.5 * first, 1);
    expect([limit, industry]).toEqual([Number((span / 600).toFixed(2)), Number((span / 144).toFixed(2))]);
    expect(check!.level).toBe("warning");
    expect(check!.text).toContain("29.8 kg/m (20.0 lb/ft)");
    expect(check!.rule).toMatch(/Wood Handbook 2010.*Architectural Woodwork Standards 2009/);
  });

  it("pass at the span the warning names, and not at two millimetres more", () => {
    const [warning] = sagOfRole(caseJob([1000, 700, 300], twoRows), "shelf");
    const longest = Number(/may span ([\d.]+) mm clear/.exec(warning!.change!)![1]);
    const at = (clear: number): SetCheck["level"] =>
      sagOfRole(caseJob([clear + 2 * 17.6, 700, 300], twoRows), "shelf")[0]!.level;
    expect([at(longest), at(longest + 2)]).toEqual(["ok", "warning"]);
  });

  it("pass at the thickness the warning names, and not at half a millimetre less", () => {
    const wide = (measured: number): SetCheck => {
      const job = {
        stock: {
          "ply-18mm": { measured, nominal: measured, stiffness: { along: 6550, across: 3500, source: "test" } },
          "ply-6mm": { measured: 5.7 },
        },
      };
      // The clear span stays what it is while the sides grow with the stock.
      return sagOfRole(caseJob([800 + 2 * measured, 700, 300], twoRows, job), "shelf")[0]!;
    };
    const thickness = Number(/stock ([\d.]+) mm thick/.exec(wide(17.6).change!)![1]);
    expect([wide(thickness + 0.01).level, wide(thickness - 0.5).level]).toEqual(["ok", "warning"]);
  });

  it("are stiffer along their grain, by the stock's own figures", () => {
    const birch = { stock: { all: "birch-18mm", back: "ply-6mm" }, ...twoRows };
    const job = (measured: number): string =>
      caseJob([800, 700, 300], birch, { stock: { "birch-18mm": { measured }, "ply-6mm": { measured: 5.7 } } });
    const [check] = sagOfRole(job(17.6), "shelf");
    expect(check!.rule).toContain("E 10048 N/mm2: birch plywood of 13 plies");
  });

  it("are halved by a divider under them, and the load is the case's", () => {
    const under = { bays: { rows: [{ columns: [{}, {}] }, {}] } };
    const [check] = sagOfRole(caseJob([1200, 700, 300], under), "shelf");
    expect(figuresOf(check!).span).toBeCloseTo((1200 - 3 * 17.6) / 2, 1);
    // What stands on a shelf holds it up in no way.
    const over = { bays: { rows: [{}, { columns: [{}, {}] }] } };
    expect(figuresOf(sagOfRole(caseJob([1200, 700, 300], over), "shelf")[0]!).span).toBeCloseTo(1200 - 2 * 17.6, 1);
    const [light] = sagOfRole(caseJob([1200, 700, 300], { ...over, shelfLoad: "2 kg/m" }), "shelf");
    expect(light!.text).toContain("under 2.0 kg/m (1.3 lb/ft)");
    expect(figuresOf(light!).first).toBeLessThan(
      figuresOf(sagOfRole(caseJob([1200, 700, 300], over), "shelf")[0]!).first,
    );
  });

  it("on pins are looked at too", () => {
    const [check] = sagOfRole(caseJob([900, 700, 300], { bays: { loose: 1 } }), "looseShelf");
    expect(figuresOf(check!).span).toBeCloseTo(900 - 2 * 17.6, 1);
  });
});

describe("bottoms and top panels", () => {
  it("carry nothing where they lie on the floor or under filler strips", () => {
    const floor = sagOfRole(caseJob([900, 700, 300]), "bottom");
    expect(floor).toEqual([]);
    const strips = caseJob([900, 700, 300], { top: { fillers: 60 } });
    const input = checkInputOf(strips);
    const top = input.parts.find(({ role }) => role === "top")!;
    expect(checkSag(input).some(({ parts }) => parts.includes(top.mark))).toBe(false);
  });

  it("of a raised case span from side to side, and a kick holds one edge alone", () => {
    const up = { bottom: { up: 80 } };
    expect(figuresOf(sagOfRole(caseJob([900, 700, 300], up), "bottom")[0]!).span).toBeCloseTo(864.8, 1);
    const input = checkInputOf(caseJob([900, 700, 300], { ...up, kick: {} }));
    const bottom = input.parts.find(({ role }) => role === "bottom")!;
    const check = checkSag(input).find(({ parts }) => parts.includes(bottom.mark))!;
    expect(check.text).toMatch(/The kick \d+ holds one long edge: the other sags so/);
    // With the back screwed to its rear edge both are held, and nothing is left to sag.
    const held = checkInputOf(caseJob([900, 700, 300], { ...up, kick: {}, back: { fit: "applied" } }));
    expect(checkSag(held).some(({ parts }) => parts.includes(bottom.mark))).toBe(false);
  });

  it("of a case on a plinth span from rib to rib", () => {
    const job = caseJob([1300, 700, 300], { plinth: { height: 80 } });
    const input = checkInputOf(job);
    const ribs = input.parts.filter(({ role, name }) => role === "plinth" && /rib|end/.test(name)).length;
    expect(ribs).toBe(4);
    const [check] = sagOfRole(job, "bottom");
    expect(figuresOf(check!).span).toBeCloseTo((1300 - 17.6) / 3 - 17.6, 1);
  });

  it("of a plinth bear the bottom alone: a loose shelf over it spans its bay, be it never so much narrower than they are apart", () => {
    const job = caseJob([1300, 700, 300], { plinth: { height: 80 }, bays: { columns: [{ loose: 1, size: 430 }, {}] } });
    const [check] = sagOfRole(job, "looseShelf");
    expect(figuresOf(check!).span).toBeCloseTo(430, 1);
  });

  it("have a rail that is glued to the whole of their front edge counted in, where it is lowest", () => {
    const sag = (frame: Record<string, unknown>): SetCheck => {
      const stock = { "maple-4q": { measured: 19 } };
      const up = { bottom: { up: 80 }, frame: { stock: "maple-4q", stile: 45, topRail: 45, ...frame } };
      const job = JSON.parse(caseJob([1200, 700, 300], up)) as { stock: Record<string, unknown> };
      return sagOfRole(JSON.stringify({ ...job, stock: { ...job.stock, ...stock } }), "bottom")[0]!;
    };
    const [none] = sagOfRole(caseJob([1200, 700, 300], { bottom: { up: 80 } }), "bottom");
    const straight = sag({});
    const shaped = sag({ lower: { form: "feet", foot: 120, rise: 40, relief: 20 } });
    expect(straight.text).toMatch(/^Bottom 3: 1164.8 mm clear, the rail \d+ glued to its front edge counted in, under/);
    // The rail ends at the bottom's upper face: 97.6, and 57.6 over the feet's arch.
    const width = 300;
    const stiffer = (height: number): number => 1 + (19 * height ** 3) / (width * 17.6 ** 3);
    for (const [check, height] of [
      [straight, 97.6],
      [shaped, 57.6],
    ] as const) {
      expect(figuresOf(none!).first / stiffer(height)).toBeCloseTo(figuresOf(check).first, 1);
    }
  });
});

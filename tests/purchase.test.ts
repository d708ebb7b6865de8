import { describe, expect, it } from "vitest";
import { planPurchase } from "../src/plans/purchase.ts";
import { planSheets } from "../src/plans/sheets.ts";
import type { SetJoint, SetPart } from "../src/set/schema.ts";
import { stockOf } from "./support/reference-jobs.ts";

const part = (mark: string, length: number, width: number, thickness: number): SetPart => ({
  mark,
  key: mark,
  pattern: mark,
  name: mark,
  role: "shelf",
  assembly: "case",
  case: "case",
  hand: null,
  material: "ply",
  length,
  width,
  thickness,
  grain: "length",
  mass: 1,
  place: null,
  inside: null,
  show: [],
  edges: [],
  features: [],
  lippings: [],
  cut: { length, width },
  sums: [],
  alike: [],
  same: [],
});
const joint = (more: Partial<SetJoint>): SetJoint => ({
  entering: "2",
  receiving: "1",
  kind: "butt",
  fit: "seated",
  depth: 0,
  gap: [0, 0],
  rounding: 0,
  fasteners: null,
  loose: 0,
  fixings: "glue and screws",
  receivingFace: "t0",
  enteringEnd: "l0",
  ...more,
});

const base = { stock: [], sheets: [], parts: [], joints: [], pieces: [], drilling: [], unit: "mm" as const };

describe("sheets", () => {
  const stock = { ...stockOf(1000, 600, 0, true), price: 41.35 };
  const pieces = Array.from({ length: 3 }, (_, i) => ({
    id: `${i}`,
    mark: `${i}`,
    stock: "ply",
    length: 900,
    width: 500,
  }));
  const { sheets } = planSheets({ pieces, stock: [stock], kerf: 3, unit: "mm" });

  it("are counted by stock, with the shop's price for all of them", () => {
    const spare = { ...stock, id: "thin" };
    expect(planPurchase({ ...base, stock: [stock, spare], sheets })).toEqual([
      {
        what: "Plywood 18",
        size: "1000 x 600 x 18 mm",
        quantity: 3,
        unit: "sheets",
        price: 124.05,
        note: "3 sheets: proved the least; 2 cannot hold them; parts take 75 %; 41.35 each",
      },
    ]);
  });

  it("have no price where the shop gives none", () => {
    const [line] = planPurchase({
      ...base,
      stock: [{ ...stock, price: null }],
      sheets: sheets.slice(0, 1),
      parts: [],
      joints: [],
      unit: "in",
    });
    expect(line!.price).toBeNull();
    expect(line!.unit).toBe("sheet");
  });
});

describe("screws", () => {
  it("follow the run of the joint and the thickness they go through", () => {
    const parts = [part("1", 1900, 300, 18), part("2", 800, 100, 18), part("3", 1850, 880, 6), part("4", 864, 290, 18)];
    const lines = planPurchase({
      ...base,
      parts,
      joints: [
        joint({}), // end of 2, 100 long: two screws, 18 + 25 = 43, sold as 45
        joint({ entering: "4", receiving: "3", enteringEnd: "w1" }), // edge of 4, 864 long, through 6: 6 screws of 35
        joint({ entering: "3", receiving: "1", kind: "face", receivingFace: "w1", enteringEnd: "t1" }), // 1900 through 6: 13 screws
        joint({ kind: "housed", fixings: "glue" }),
      ],
    });
    expect(lines.map(({ size, quantity, note }) => ({ size, quantity, note }))).toEqual([
      { size: "35 mm", quantity: 19, note: "2 joints, a screw about every 150 mm; drill for the shank and the thread" },
      { size: "45 mm", quantity: 2, note: "one joint, a screw about every 150 mm; drill for the shank and the thread" },
    ]);
  });

  it("come in quarters of an inch", () => {
    const inch = 25.4;
    const parts = [part("1", 72 * inch, 12 * inch, (23 / 32) * inch), part("2", 30 * inch, 4 * inch, (23 / 32) * inch)];
    const [line] = planPurchase({ ...base, unit: "in", parts, joints: [joint({ enteringEnd: "w0" })] });
    expect(line).toMatchObject({
      size: "1 3/4 in",
      quantity: 6,
      note: "one joint, a screw about every 6 in; drill for the shank and the thread",
    });
  });

  it("are left out where no joint takes any", () => {
    expect(
      planPurchase({
        ...base,
        parts: [part("1", 10, 10, 1), part("2", 10, 10, 1)],
        joints: [joint({ fixings: "glue" })],
      }),
    ).toEqual([]);
  });
});

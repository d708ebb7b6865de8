/** Board feet, quarters and dressed sizes, against the trade's figures. */
import { describe, expect, it } from "vitest";
import { MM_PER_INCH } from "../../src/base/length.ts";
import { boardFeet, quartersOf } from "../../src/base/lumber.ts";
import reference from "../reference/board-foot.json" with { type: "json" };
import hardwood from "../reference/lumber-hardwood-thickness.json" with { type: "json" };

const feetOf = (thickness: number, width: number, length: number): number =>
  boardFeet({ thickness: thickness * MM_PER_INCH, width: width * MM_PER_INCH, length: length * MM_PER_INCH });

describe("board feet", () => {
  it("are those of the trade's examples", () => {
    for (const { thickness_in, width_in, length_in, board_feet } of reference.rows) {
      expect(feetOf(thickness_in, width_in, length_in)).toBeCloseTo(board_feet, 6);
    }
    // 2 x 9 in x 4 ft = 6; 1 x 6 x 120 in = 5.
    expect([feetOf(2, 9, 48), feetOf(1, 6, 120)].map((feet) => feet.toFixed(9))).toEqual([
      "6.000000000",
      "5.000000000",
    ]);
  });

  it("count stock under an inch as an inch", () => {
    expect(feetOf(0.5, 6, 120)).toBeCloseTo(5, 9);
  });
});

describe("hardwood by the quarter", () => {
  const value = (text: string): number =>
    text.split(" ").reduce((sum, part) => {
      const [over = 0, under = 1] = part.split("/").map(Number);
      return sum + over / under;
    }, 0);

  it("is named and surfaced as the grading rules have it", () => {
    for (const { rough_in, quarters, s2s_in } of hardwood.rows) {
      const found = quartersOf(value(rough_in) * MM_PER_INCH);
      if (quarters === null) expect(found).toBeNull();
      else {
        expect(found!.quarters).toBe(quarters);
        expect(found!.surfaced).toBeCloseTo(value(s2s_in) * MM_PER_INCH, 9);
      }
    }
    expect(quartersOf(26)).toBeNull();
  });
});

/** The audit's own box arithmetic, against volumes and places reckoned by hand. */
import { describe, expect, it } from "vitest";
import { cutAway, volumeOf } from "../../src/audit/solids/boxes.ts";
import { nearPairs } from "../../src/audit/solids/pairs.ts";
import { isRightHanded, placeBox } from "../../src/audit/solids/solid.ts";
import type { Box } from "../../src/base/geometry.ts";

describe("the audit's own geometry", () => {
  const cube: Box = [
    [0, 0, 0],
    [10, 10, 10],
  ];

  it("cuts boxes without losing or doubling volume", () => {
    const tool: Box = [
      [2, -5, 4],
      [5, 6, 20],
    ];
    const left = cutAway(cube, tool);
    // 1000 less the 3 x 6 x 6 that the two share.
    expect(left.reduce((sum, box) => sum + volumeOf(box), 0)).toBeCloseTo(1000 - 108, 9);
  });

  it("places a part by its axes", () => {
    // A side: l up, w to the back, t to the left of its origin.
    const box: Box = [
      [1, 2, 3],
      [4, 5, 6],
    ];
    expect(placeBox({ at: [100, 0, 0], l: "+z", w: "+y", t: "-x" }, box)).toEqual([
      [94, 2, 1],
      [97, 5, 4],
    ]);
  });

  it("tells a right hand from a left one", () => {
    expect(isRightHanded({ at: [0, 0, 0], l: "+z", w: "+y", t: "-x" })).toBe(true);
    expect(isRightHanded({ at: [0, 0, 0], l: "+x", w: "+z", t: "-y" })).toBe(true);
    expect(isRightHanded({ at: [0, 0, 0], l: "+z", w: "+x", t: "+y" })).toBe(true);
    expect(isRightHanded({ at: [0, 0, 0], l: "+z", w: "+y", t: "+x" })).toBe(false);
    expect(isRightHanded({ at: [0, 0, 0], l: "+z", w: "+z", t: "+x" })).toBe(false);
  });

  it("compares neighbours only: a row of 80 bays needs at most 40 pairs a part", () => {
    const bays = 80;
    const wide = (bays + 1) * 20 + bays * 300;
    const uprights = Array.from(
      { length: bays + 1 },
      (_, i): Box => [
        [i * 320, 0, 0],
        [i * 320 + 20, 400, 900],
      ],
    );
    const lying = [0, 880].map(
      (z): Box => [
        [0, 0, z],
        [wide, 400, z + 20],
      ],
    );
    const shelves = Array.from(
      { length: bays },
      (_, i): Box => [
        [i * 320 + 10, 0, 400],
        [i * 320 + 330, 400, 420],
      ],
    );
    const boxes = [...uprights, ...lying, ...shelves];
    const { pairs } = nearPairs(boxes, 1);
    // Each upright meets both panels and its shelves (two, or one at the ends); each shelf its neighbours' tongues only where they overlap.
    const byHand = boxes.flatMap((a, i) =>
      boxes
        .slice(i + 1)
        .filter((b) => [0, 1, 2].every((k) => a[0][k as 0] <= b[1][k as 0] + 1 && b[0][k as 0] <= a[1][k as 0] + 1)),
    );
    expect(pairs).toHaveLength(byHand.length);
    expect(pairs.length).toBeLessThan(40 * boxes.length);
  });
});

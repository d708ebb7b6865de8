import { describe, expect, it } from "vitest";
import type { Box, Vec } from "../../src/base/geometry.ts";
import type { Line } from "../../src/drawings/draughting/clip.ts";
import type { Eye } from "../../src/drawings/solids/hidden-line.ts";
import {
  BACK_LEFT,
  BACK_RIGHT,
  type Body,
  bodyOf,
  FRONT_LEFT,
  FRONT_RIGHT,
  inkOf,
  isometric,
  isometricShapes,
  joinLines,
} from "../../src/drawings/solids/isometric.ts";
import { subtractBoxes } from "../../src/drawings/solids/solid.ts";

const EYES: readonly Eye[] = [FRONT_RIGHT, FRONT_LEFT, BACK_RIGHT, BACK_LEFT];
const box = (lo: Vec, hi: Vec): Box => [lo, hi];
const visibleIn = (bodies: readonly Body[], eye: Eye = FRONT_RIGHT): Line[] =>
  isometric(bodies, eye, 1).drawn.flatMap(({ visible }) => visible);
const hiddenIn = (bodies: readonly Body[], eye: Eye = FRONT_RIGHT): Line[] =>
  isometric(bodies, eye, 1).drawn.flatMap(({ hidden }) => hidden);

/** Whole numbers below `below`, the same each time: a linear congruential generator (figures of Numerical Recipes). */
function dice(seed: number): (below: number) => number {
  let state = seed;
  return (below) => {
    state = (Math.imul(state, 1664525) + 1013904223) >>> 0;
    return Math.floor((state / 2 ** 32) * below);
  };
}

describe("an isometric drawing", () => {
  const cube = bodyOf({ mark: "1", boxes: [box([0, 0, 0], [10, 10, 10])] });

  it("shows nine edges of a cube's twelve, from each of the four corners", () => {
    for (const eye of EYES) {
      expect(visibleIn([cube], eye)).toHaveLength(9);
      expect(hiddenIn([cube], eye)).toHaveLength(3);
    }
  });

  it("draws all three axes at one scale, 30 degrees to the level and upright", () => {
    for (const [a, b] of visibleIn([cube])) {
      const angle = (Math.atan2(b[1] - a[1], b[0] - a[0]) * 180) / Math.PI;
      expect(Math.hypot(b[0] - a[0], b[1] - a[1])).toBeCloseTo(10, 9);
      expect(
        [-150, -90, -30, 30, 90, 150].some((one) => Math.abs(one - angle) < 1e-9),
        `${angle}`,
      ).toBe(true);
    }
  });

  it("draws no seam where two boxes of one part meet", () => {
    const halves = bodyOf({ mark: "1", boxes: [box([0, 0, 0], [4, 10, 10]), box([4, 0, 0], [10, 10, 10])] });
    expect(isometricShapes(isometric([halves], FRONT_LEFT, 1).drawn)).toEqual(
      isometricShapes(isometric([cube], FRONT_LEFT, 1).drawn),
    );
  });

  it("shows the floor and one wall of a groove in an upper face, and hides the other wall", () => {
    // Along y, 30 wide and 10 deep, so that from the right its floor is seen past the lip.
    const blank = box([0, 0, 0], [100, 50, 40]);
    const grooved = bodyOf({ mark: "1", boxes: subtractBoxes(blank, [box([40, 0, 30], [70, 50, 40])]) });
    const ink = inkOf(visibleIn([grooved]));
    // The blank's nine edges; less the stretch of the front upper edge that is cut away and of the rear one; three new
    // lips and walls at the front (10 + 10 + 30); both lips (50 each); the floor's inner edge at the left wall, of which
    // the right lip hides none from the front right but for what lies under it: it is worked out by hand below.
    const outline = 2 * (100 + 50 + 40) + 100 + 50 + 40;
    const front = outline - 2 * 30 + 10 + 10 + 30 + 50 + 50;
    // The right wall is seen from the left alone. Rays to the viewer rise one for each one to the right: over the
    // floor's left corner, 30 from the right wall, the ray is 30 up there, clear of the lip. Left floor edge: all 50.
    // At the rear: the left wall's upright edge (10) is seen over the floor, and the floor's rear edge, 30, of which
    // the 10 next to the right wall lie behind it.
    expect(ink).toBeCloseTo(front + 50 + 10 + 20, 3);
  });

  it("hides of a far box what a near one covers, and dashes it where that is asked for", () => {
    // Straight behind, on the line of sight, and of the same size: nothing of it is left but what lies on the near one's outline.
    const far = bodyOf({ mark: "2", boxes: [box([-20, 20, -20], [-10, 30, -10])] });
    const both = isometric([far, cube], FRONT_RIGHT, 1);
    expect(both.drawn[0]!.visible).toEqual([]);
    expect(both.drawn[1]!.visible).toHaveLength(9);
    expect(isometricShapes(both.drawn).map((shape) => shape.kind === "path" && shape.pen)).toEqual(["thin"]);
    expect(isometricShapes(both.drawn, true).map((shape) => shape.kind === "path" && shape.pen)).toEqual([
      "hidden",
      "thin",
    ]);
    // Seen from the other corner it is the near one.
    expect(isometric([far, cube], BACK_LEFT, 1).drawn[0]!.visible.length).toBeGreaterThan(0);
  });

  it("leaves a part whole where another is moved out of its way", () => {
    const behind = { mark: "2", boxes: [box([0, 10, 0], [10, 12, 10])] };
    const seated = inkOf(isometric([bodyOf(behind), cube], FRONT_RIGHT, 1).drawn[0]!.visible);
    const drawnOut = inkOf(isometric([bodyOf(behind, [0, 400, 0], true), cube], FRONT_RIGHT, 1).drawn[0]!.visible);
    expect(drawnOut).toBeCloseTo(10 * 6 + 2 * 3, 6);
    expect(seated).toBeLessThan(drawnOut);
  });

  it("is mirrored when the parts are mirrored and looked at from the other side", () => {
    const roll = dice(7);
    for (let n = 0; n < 20; n++) {
      const boxes = randomBoxes(roll, 6);
      const mirrored = boxes.map(([lo, hi]) => box([-hi[0], lo[1], lo[2]], [-lo[0], hi[1], hi[2]]));
      const inkBy = (all: readonly Box[], eye: Eye): number[] =>
        isometric(
          all.map((one, i) => bodyOf({ mark: `${i}`, boxes: [one] })),
          eye,
          1,
        ).drawn.map(({ visible }) => inkOf(visible));
      const [here, there] = [inkBy(boxes, FRONT_RIGHT), inkBy(mirrored, FRONT_LEFT)];
      here.forEach((ink, i) => {
        expect(there[i]).toBeCloseTo(ink, 6);
      });
    }
  });

  it("joins lines that lie on each other, and those alone", () => {
    expect(
      joinLines([
        [
          [0, 0],
          [0, 5],
        ],
        [
          [0, 3],
          [0, 9],
        ],
        [
          [0.5, 0],
          [0.5, 4],
        ],
      ]),
    ).toEqual([
      [
        [0, 0],
        [0, 9],
      ],
      [
        [0.5, 0],
        [0.5, 4],
      ],
    ]);
  });
});

/** Boxes with sizes and places on a grid of 1, none in another: faces and edges often fall together. */
function randomBoxes(roll: (below: number) => number, count: number): Box[] {
  const boxes: Box[] = [];
  while (boxes.length < count) {
    const lo: Vec = [roll(12), roll(12), roll(12)];
    const one = box(lo, [lo[0] + 1 + roll(7), lo[1] + 1 + roll(7), lo[2] + 1 + roll(7)]);
    const isApart = boxes.every((other) =>
      [0, 1, 2].some((i) => one[1][i]! <= other[0][i]! || other[1][i]! <= one[0][i]!),
    );
    if (isApart) boxes.push(one);
  }
  return boxes;
}

/** Whether the ray from a spot to the viewer passes through the inside of a box: by slabs. */
function isCovered(spot: Vec, eye: Eye, boxes: readonly Box[]): boolean {
  const way = [eye.x, eye.y, 1];
  return boxes.some((one) => {
    let [low, high] = [1e-6, Number.POSITIVE_INFINITY];
    for (const i of [0, 1, 2]) {
      const [f, g] = [(one[0][i]! - spot[i]!) / way[i]!, (one[1][i]! - spot[i]!) / way[i]!];
      low = Math.max(low, Math.min(f, g));
      high = Math.min(high, Math.max(f, g));
    }
    return high - low > 1e-6;
  });
}

describe("against rays cast one by one", () => {
  it("shows of every edge just what no box stands before, over random boxes", () => {
    const roll = dice(20261120);
    let asked = 0;
    for (let n = 0; n < 40; n++) {
      const boxes = randomBoxes(roll, 2 + roll(7));
      const eye = EYES[n % 4]!;
      const picture = isometric(
        boxes.map((one, i) => bodyOf({ mark: `${i}`, boxes: [one] })),
        eye,
        1,
      );
      boxes.forEach((one, i) => {
        const { visible, hidden } = picture.drawn[i]!;
        for (const [a, b] of edgesOf(one)) {
          for (let k = 0; k < 23; k++) {
            // Off the grid, so that no ray runs along a face or through an edge but where the whole edge does.
            const f = (k + 0.37) / 23;
            const spot = [0, 1, 2].map((axis) => a[axis]! + (b[axis]! - a[axis]!) * f) as unknown as Vec;
            const at = paperOf(spot, eye);
            const drawn = visible.some((line) => isOn(at, line));
            const dashed = hidden.some((line) => isOn(at, line));
            asked++;
            expect(drawn || dashed).toBe(true);
            if (isCovered(spot, eye, boxes)) {
              // Another edge of the same box may show at the very place on paper.
              if (visible.some((line) => isOn(at, line, -2e-3)))
                expect(
                  edgesOf(one).some((edge) => showsAt(at, edge, eye, boxes)),
                  JSON.stringify([n, i, boxes, eye, spot, at]),
                ).toBe(true);
            } else if (!drawn) {
              // Taken out only where it runs along the outline of what stands before it, which is drawn there.
              expect(
                boxes.some((other) => edgesOf(other).some((edge) => showsAt(at, edge, eye, boxes))),
                `${n} ${i}`,
              ).toBe(true);
            }
          }
        }
      });
    }
    expect(asked).toBeGreaterThan(20000);
  });
});

const paperOf = ([x, y, z]: Vec, eye: Eye): readonly [number, number] => [
  (eye.x * y - eye.y * x) * (Math.sqrt(3) / 2),
  (eye.x * x + eye.y * y) / 2 - z,
];

/** `beyond` the ends a line is still taken to reach: what is left out as a speck. */
function isOn([x, y]: readonly [number, number], [a, b]: Line, beyond = 0.06): boolean {
  const long = Math.hypot(b[0] - a[0], b[1] - a[1]);
  const along = ((x - a[0]) * (b[0] - a[0]) + (y - a[1]) * (b[1] - a[1])) / long;
  const aside = ((x - a[0]) * (b[1] - a[1]) - (y - a[1]) * (b[0] - a[0])) / long;
  return Math.abs(aside) < 1e-6 && along > -beyond && along < long + beyond;
}

/** An edge passes under this place on paper, and its own spot there is free to the viewer. */
function showsAt(at: readonly [number, number], [a, b]: readonly [Vec, Vec], eye: Eye, boxes: readonly Box[]): boolean {
  const [p, q] = [paperOf(a, eye), paperOf(b, eye)];
  if (!isOn(at, [p, q])) return false;
  const long = Math.hypot(q[0] - p[0], q[1] - p[1]);
  const f = ((at[0] - p[0]) * (q[0] - p[0]) + (at[1] - p[1]) * (q[1] - p[1])) / long ** 2;
  const spot = [0, 1, 2].map((i) => a[i]! + (b[i]! - a[i]!) * f) as unknown as Vec;
  return !isCovered(spot, eye, boxes);
}

/** The twelve edges of a box. */
function edgesOf([lo, hi]: Box): (readonly [Vec, Vec])[] {
  return [0, 1, 2].flatMap((axis) =>
    [0, 1, 2, 3].map((corner) => {
      const a = [0, 1, 2].map((i) => {
        if (i === axis) return lo[i]!;
        const bit = i === (axis + 1) % 3 ? corner & 1 : corner >> 1;
        return (bit === 0 ? lo : hi)[i]!;
      });
      const b = a.map((value, i) => (i === axis ? hi[i]! : value));
      return [a as unknown as Vec, b as unknown as Vec] as const;
    }),
  );
}

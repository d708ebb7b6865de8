/** Mirror a case, left for right, and its drawings mirror: every line of its views, text aside, over random small cases. */
import fc from "fast-check";
import { describe, expect, it } from "vitest";
import type { Mm } from "../../src/base/length.ts";
import { makeSet } from "../../src/build.ts";
import { standingSolids } from "../../src/drawings/cases/case-group.ts";
import { drawView } from "../../src/drawings/draughting/picture.ts";
import { explode } from "../../src/drawings/solids/exploded.ts";
import type { Eye } from "../../src/drawings/solids/hidden-line.ts";
import {
  BACK_LEFT,
  BACK_RIGHT,
  bodyOf,
  FRONT_LEFT,
  FRONT_RIGHT,
  isometric,
  isometricShapes,
} from "../../src/drawings/solids/isometric.ts";
import { type Direction, FROM_ABOVE, FROM_FRONT, FROM_RIGHT, viewOf } from "../../src/drawings/solids/view.ts";
import type { Point, Rect, Shape } from "../../src/paper/shape.ts";
import type { DryfitSet, SetAssembly } from "../../src/set/schema.ts";
import { readText } from "../support/jobs/project-file.ts";
import { segmentsOf } from "../support/pages/lines.ts";
import { runs, SEED } from "../support/runs.ts";

type Bay = { size: number } | { size: number; rows: ({ size: number } | Record<string, never>)[] };

const rows = fc.array(fc.integer({ min: 80, max: 180 }), { minLength: 0, maxLength: 3 });
const column = fc.record({ size: fc.integer({ min: 120, max: 400 }), rows });
const box = fc.record({
  columns: fc.array(column, { minLength: 2, maxLength: 3 }),
  front: fc.constantFrom("shows", "covered"),
  up: fc.constantFrom(0, 40, 75),
  down: fc.constantFrom(0, 20),
  back: fc.constantFrom("captured", "rabbeted", "none"),
  depth: fc.integer({ min: 200, max: 330 }),
});

const THICK = 18;
const HEIGHT = 760;

/**
 * Whole millimetres throughout and no allowance: a groove's exact wall is its left one, so that with an allowance a case
 * and its mirror image differ by so much.
 */
function jobOf(spec: typeof box extends fc.Arbitrary<infer T> ? T : never, isTurned: boolean): string {
  const columns = (isTurned ? [...spec.columns].reverse() : spec.columns).map(({ size, rows: sizes }): Bay => {
    return sizes.length === 0 ? { size } : { size, rows: [...sizes.map((one) => ({ size: one })), {}] };
  });
  const clear = spec.columns.reduce((sum, { size }) => sum + size, 0);
  return JSON.stringify({
    job: { number: "M", title: "Mirrored", date: "2026-11-20", revision: "A" },
    unit: "mm",
    stock: { "ply-18mm": { measured: [THICK] }, "ply-6mm": { measured: [6] } },
    joinery: { depth: 6, backDepth: 6, allowance: 0, slip: 0, setBack: 15 },
    cases: [
      {
        name: "case",
        width: clear + (spec.columns.length + 1) * THICK,
        height: HEIGHT,
        depth: spec.depth,
        stock: { all: "ply-18mm", back: "ply-6mm" },
        edges: { front: spec.front },
        bottom: { up: spec.up },
        top: { down: spec.down },
        back: { fit: spec.back },
        bays: { columns },
      },
    ],
  });
}

const setOf = (text: string): DryfitSet => makeSet(readText(text).project, { draft: false, olderSet: null });
const caseOf = (set: DryfitSet): SetAssembly => set.assemblies.find(({ kind }) => kind === "case")!;

const RATIO = 1 / 10;
/** On paper: lines that are as close are one line to the eye. */
const SAME: Mm = 0.05;

type Ruled = { pen: string; ends: readonly [Point, Point] };

/** Lines, from the middle of the picture's upper edge; of its mirror image where it is turned. */
function linesOf(shapes: readonly Shape[], frame: Rect, isTurned: boolean): Ruled[] {
  const middle = frame.x + frame.width / 2;
  return shapes.flatMap((shape) => {
    if (shape.kind !== "path" || shape.pen === null || shape.pen === "hatch") return []; // hatching leans one way in either
    const { pen } = shape;
    return segmentsOf([shape]).map(({ x0, y0, x1, y1 }): Ruled => {
      const [a, b] = [x0 - middle, x1 - middle].map((x) => (isTurned ? -x : x)) as [number, number];
      return { pen, ends: [[a, y0 - frame.y] as const, [b, y1 - frame.y] as const] };
    });
  });
}

/** How much of a line another lies on, from its first end: null where they run apart. */
function coveredBy(one: Ruled, other: Ruled): [Mm, Mm] | null {
  if (one.pen !== other.pen) return null;
  const [[x, y], [x1, y1]] = one.ends;
  const length = Math.hypot(x1 - x, y1 - y);
  const [du, dv] = length === 0 ? [1, 0] : [(x1 - x) / length, (y1 - y) / length];
  const [a, b] = other.ends
    .map(([ox, oy]) => ({ along: (ox - x) * du + (oy - y) * dv, off: (oy - y) * du - (ox - x) * dv }))
    .sort((p, q) => p.along - q.along) as [{ along: Mm; off: Mm }, { along: Mm; off: Mm }];
  const offAt = (at: Mm): Mm =>
    b.along === a.along ? a.off : a.off + ((b.off - a.off) * (at - a.along)) / (b.along - a.along);
  const [from, to] = [Math.max(0, a.along), Math.min(length, b.along)];
  if (from > to + SAME) return null;
  return Math.abs(offAt(from)) < SAME && Math.abs(offAt(to)) < SAME ? [from, to] : null;
}

/** Whether others lie on all of it: where several run closer than a pen is wide, which of them is drawn does not matter. */
function isCovered(one: Ruled, others: readonly Ruled[]): boolean {
  const [[x, y], [x1, y1]] = one.ends;
  let reached = 0;
  for (const [from, to] of others.flatMap((other) => spansOf(coveredBy(one, other))).sort(([a], [b]) => a - b)) {
    if (from > reached + SAME) return false;
    reached = Math.max(reached, to);
  }
  return reached > Math.hypot(x1 - x, y1 - y) - SAME;
}

const spansOf = (span: [Mm, Mm] | null): [Mm, Mm][] => (span === null ? [] : [span]);

/** What of either is not in the other. */
const differences = (some: readonly Ruled[], others: readonly Ruled[]): Ruled[] => [
  ...some.filter((one) => !isCovered(one, others)),
  ...others.filter((one) => !isCovered(one, some)),
];

function flatLines(set: DryfitSet, direction: Direction, isTurned: boolean, cutAt: number | null = null): Ruled[] {
  const { shapes, box: frame } = drawView(viewOf(standingSolids(set, caseOf(set), "none"), direction, cutAt), RATIO);
  return linesOf(shapes, frame, isTurned);
}

function isometricLines(set: DryfitSet, eye: Eye, isTurned: boolean, isApart: boolean): Ruled[] {
  const solids = standingSolids(set, caseOf(set), "none");
  const bodies = isApart ? explode(solids) : solids.map((solid) => bodyOf(solid));
  const { drawn, box: frame } = isometric(bodies, eye, RATIO);
  return linesOf(isometricShapes(drawn), frame, isTurned);
}

describe("a case and its mirror image", () => {
  it("have drawings that are mirror images, hatching and text aside", () => {
    let handed = 0;
    fc.assert(
      fc.property(box, (spec) => {
        const [straight, turned] = [setOf(jobOf(spec, false)), setOf(jobOf(spec, true))];
        // A case that is its own mirror image tells nothing.
        const [front, image] = [false, true].map((isTurned) => flatLines(straight, FROM_FRONT, isTurned));
        if (differences(front!, image!).length > 0) handed += 1;
        for (const direction of [FROM_FRONT, FROM_ABOVE])
          expect(differences(flatLines(turned, direction, true), flatLines(straight, direction, false))).toEqual([]);
        const level = -(spec.up + THICK + 30);
        expect(
          differences(flatLines(turned, FROM_ABOVE, true, level), flatLines(straight, FROM_ABOVE, false, level)),
        ).toEqual([]);
        // An upright section keeps its own hand: it is cut in the mirrored place and seen from the other side.
        const x = THICK + spec.columns[0]!.size / 2;
        const other = caseOf(turned).size[0] - x;
        const fromLeft: Direction = { u: "-y", v: "+z", away: "+x" };
        expect(
          differences(flatLines(turned, fromLeft, true, other), flatLines(straight, FROM_RIGHT, false, -x)),
        ).toEqual([]);
        for (const isApart of [false, true]) {
          for (const [eye, image] of [
            [FRONT_RIGHT, FRONT_LEFT],
            [BACK_LEFT, BACK_RIGHT],
          ] as const) {
            expect(
              differences(isometricLines(turned, image, true, isApart), isometricLines(straight, eye, false, isApart)),
            ).toEqual([]);
          }
        }
      }),
      { numRuns: runs(30), seed: SEED },
    );
    expect(handed).toBeGreaterThan(0);
  });
});

/**
 * Hidden lines of drawn cases against a slow, exact way: every place where a part's surface turns is found from its
 * blank and its features anew, and a ray from there to the viewer is followed through every part's wood.
 */
import { describe, expect, it } from "vitest";
import { AXES, axesOf, axisOf, type Place, signOf, toOuter, type Vec } from "../../src/base/geometry.ts";
import { standingSolids } from "../../src/drawings/cases/case-group.ts";
import type { Line } from "../../src/drawings/draughting/clip.ts";
import type { Eye } from "../../src/drawings/solids/hidden-line.ts";
import {
  BACK_LEFT,
  bodyOf,
  FRONT_LEFT,
  FRONT_RIGHT,
  isometric,
  isometricShapes,
} from "../../src/drawings/solids/isometric.ts";
import { LEAST_LINE } from "../../src/paper/pen.ts";
import type { DryfitSet, SetPart } from "../../src/set/schema.ts";
import { setOf, testFile } from "../support/jobs/examples.ts";
import { segmentsOf } from "../support/pages/lines.ts";

const EYES: readonly Eye[] = [FRONT_RIGHT, FRONT_LEFT, BACK_LEFT];
const NAMES = ["divider-on-shelf", "stopped-shelves", "shelves-opposite", "rabbeted-back"] as const;
const SAME = 1e-6;

type Interval = readonly [number, number];

/** Where a ray, given in a part's own axes, is inside a box; null nowhere. */
function through(from: Vec, way: Vec, lo: readonly number[], hi: readonly number[]): Interval | null {
  let [near, far] = [0, Number.POSITIVE_INFINITY];
  for (const i of AXES) {
    const [f, g] = [(lo[i]! - from[i]) / way[i], (hi[i]! - from[i]) / way[i]];
    near = Math.max(near, Math.min(f, g));
    far = Math.min(far, Math.max(f, g));
  }
  return far - near > SAME ? [near, far] : null;
}

const cutsOf = (part: SetPart): SetPart["features"] =>
  part.features.filter(({ kind }) => !["hole", "mortise", "stub mortise", "slot", "shape", "edge"].includes(kind));

/** How much wood of a part the ray to the viewer runs through. */
function woodOn(part: SetPart, from: Vec, eye: Eye): number {
  const place = part.place as Place;
  const local = axesOf(place).map(
    (axis) => signOf(axis) * (from[axisOf(axis)] - place.at[axisOf(axis)]),
  ) as unknown as Vec;
  const toViewer: Vec = [eye.x, eye.y, 1];
  const way = axesOf(place).map((axis) => signOf(axis) * toViewer[axisOf(axis)]) as unknown as Vec;
  const whole = through(local, way, [0, 0, 0], [part.length, part.width, part.thickness]);
  if (whole === null) return 0;
  const air = cutsOf(part)
    .map(({ box }) => through(local, way, box[0], box[1]))
    .filter((one) => one !== null)
    .sort((a, b) => a[0] - b[0]);
  let [wood, at] = [0, whole[0]];
  for (const [a, b] of air) {
    wood += Math.max(0, Math.min(a, whole[1]) - at);
    at = Math.max(at, Math.min(b, whole[1]));
  }
  return wood + Math.max(0, whole[1] - at);
}

/** Seen, covered, or too near to an outline to say: its ray grazes an edge. */
function stateOf(parts: readonly SetPart[], spot: Vec, eye: Eye): "seen" | "covered" | "grazed" {
  const wood = Math.max(...parts.map((part) => woodOn(part, spot, eye)));
  return wood < 1e-3 ? "seen" : wood > 0.4 ? "covered" : "grazed";
}

type Turn = { ends: readonly [Vec, Vec] };

/** Every stretch along which a part's surface turns, between neighbouring planes of its blank and its features. */
function turnsOf(part: SetPart): Turn[] {
  const size = [part.length, part.width, part.thickness];
  const cuts = cutsOf(part);
  const planes = AXES.map((i) =>
    [...new Set([0, size[i]!, ...cuts.flatMap(({ box }) => [box[0][i], box[1][i]])].map((v) => Number(v.toFixed(6))))]
      .filter((v) => v >= 0 && v <= size[i]!)
      .sort((a, b) => a - b),
  );
  const isWood = (at: readonly number[]): boolean =>
    AXES.every((i) => at[i]! > 0 && at[i]! < size[i]!) &&
    !cuts.some(({ box }) => AXES.every((i) => at[i]! > box[0][i] && at[i]! < box[1][i]));
  const turns: Turn[] = [];
  for (const axis of AXES) {
    const [u, v] = [(axis + 1) % 3, (axis + 2) % 3] as [0 | 1 | 2, 0 | 1 | 2];
    for (const a of planes[u]!) {
      for (const b of planes[v]!) {
        for (let k = 0; k + 1 < planes[axis]!.length; k++) {
          const [from, to] = [planes[axis]![k]!, planes[axis]![k + 1]!];
          const point = (along: number, du = 0, dv = 0): Vec => {
            const at = [0, 0, 0];
            at[axis] = along;
            at[u] = a + du;
            at[v] = b + dv;
            return at as unknown as Vec;
          };
          const hair = 1e-4;
          const around = [-hair, hair].flatMap((du) =>
            [-hair, hair].map((dv) => isWood(point((from + to) / 2, du, dv))),
          );
          const wood = around.filter(Boolean).length;
          const isTurn = wood === 1 || wood === 3 || (wood === 2 && around[0] === around[3]);
          if (!isTurn) continue;
          const place = part.place as Place;
          turns.push({ ends: [toOuter(place, point(from)), toOuter(place, point(to))] });
        }
      }
    }
  }
  return turns;
}

const paperOf = ([x, y, z]: Vec, eye: Eye): readonly [number, number] => [
  (eye.x * y - eye.y * x) * (Math.sqrt(3) / 2),
  (eye.x * x + eye.y * y) / 2 - z,
];

const between = (a: Vec, b: Vec, f: number): Vec => AXES.map((i) => a[i] + (b[i] - a[i]) * f) as unknown as Vec;

/** How far a place on paper is from a line. */
function apart([x, y]: readonly [number, number], [a, b]: Line): number {
  const [dx, dy] = [b[0] - a[0], b[1] - a[1]];
  const f = Math.max(0, Math.min(1, ((x - a[0]) * dx + (y - a[1]) * dy) / (dx * dx + dy * dy)));
  return Math.hypot(a[0] + f * dx - x, a[1] + f * dy - y);
}

const partsIn = (set: DryfitSet, name: string): SetPart[] =>
  set.parts.filter((part) => part.assembly === name && part.place !== null);

describe.each(NAMES)("the isometric view of %s", (name) => {
  const set = setOf(testFile(name));
  const drawn = set.assemblies.find(({ kind }) => kind === "case")!;
  const parts = partsIn(set, drawn.name);
  const turns = parts.flatMap(turnsOf);
  const bodies = standingSolids(set, drawn, "none")
    .filter(({ mark }) => parts.some((part) => part.mark === mark))
    .map((solid) => bodyOf(solid));

  it.each(EYES)("from %o draws every edge where it is seen and no line where none is", (eye) => {
    const visible = isometric(bodies, eye, 1).drawn.flatMap((one) => one.visible);
    const counts = { seen: 0, covered: 0, grazed: 0 };
    const missed: string[] = [];
    for (const { ends } of turns) {
      for (const f of [0.23, 0.71]) {
        const spot = between(ends[0], ends[1], f);
        const state = stateOf(parts, spot, eye);
        counts[state] += 1;
        const at = paperOf(spot, eye);
        if (state === "seen" && !visible.some((line) => apart(at, line) < 0.06)) missed.push(`${spot}`);
      }
    }
    expect(missed).toEqual([]);
    expect(Math.min(counts.seen, counts.covered)).toBeGreaterThan(20);
    expect(counts.grazed).toBeLessThan(0.03 * (counts.seen + counts.covered));

    const wrong: string[] = [];
    visible.forEach(([a, b], n) => {
      if (n % 3 !== 0) return;
      const at = [a[0] + 0.37 * (b[0] - a[0]), a[1] + 0.37 * (b[1] - a[1])] as const;
      const isDrawnRightly = turns.some(({ ends: [p, q] }) => {
        const line = [paperOf(p, eye), paperOf(q, eye)] as const;
        if (apart(at, line) > 1e-6) return false;
        const long = Math.hypot(line[1][0] - line[0][0], line[1][1] - line[0][1]);
        const f = Math.hypot(at[0] - line[0][0], at[1] - line[0][1]) / long;
        return stateOf(parts, between(p, q, f), eye) !== "covered";
      });
      if (!isDrawnRightly) wrong.push(`${a} to ${b}`);
    });
    expect(wrong).toEqual([]);
  });

  it("has no specks: nothing drawn is shorter on paper than the narrowest pen is wide", () => {
    for (const eye of EYES) {
      for (const ratio of [1 / 5, 1 / 20]) {
        const long = segmentsOf(isometricShapes(isometric(bodies, eye, ratio).drawn, true)).map(({ x0, y0, x1, y1 }) =>
          Math.hypot(x1 - x0, y1 - y0),
        );
        expect(long.length).toBeGreaterThan(20);
        expect(Math.min(...long)).toBeGreaterThanOrEqual(LEAST_LINE - 1e-9);
      }
    }
  });
});

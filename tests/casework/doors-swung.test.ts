/** Doors swung: swept outlines against a look at many angles, clashes planted, walls, knobs, two doors open at once. */
import { readFileSync } from "node:fs";
import fc from "fast-check";
import { parse } from "jsonc-parser";
import { describe, expect, it } from "vitest";
import { clashOf, sweepsMeet } from "../../src/audit/doors/swing.ts";
import { depthOf, type Outline, type Swing, turned } from "../../src/audit/solids/turned.ts";
import { hasFailed } from "../../src/build.ts";
import type { DryfitSet, SetCheck, SetDoor } from "../../src/set/schema.ts";
import { built, made } from "../support/doors/door-jobs.ts";
import { byId } from "../support/jobs/check-input.ts";
import { setOf, testFile } from "../support/jobs/examples.ts";
import { runs, SEED } from "../support/runs.ts";

describe("swung", () => {
  const TURN = Math.PI / 180;
  const corner: fc.Arbitrary<number> = fc.integer({ min: -400, max: 400 });
  const box = fc
    .record({ x: corner, y: corner, w: fc.integer({ min: 5, max: 300 }), h: fc.integer({ min: 5, max: 300 }) })
    .map(
      ({ x, y, w, h }): Outline => [
        [x, y],
        [x + w, y],
        [x + w, y + h],
        [x, y + h],
      ],
    );
  const swing = fc
    .record({ from: fc.integer({ min: -180, max: 0 }), span: fc.integer({ min: 5, max: 180 }) })
    .map(({ from, span }): Swing => ({ pivot: [0, 0], from: from * TURN, to: (from + span) * TURN }));
  const stops = ({ from, to }: Swing, count: number): number[] =>
    Array.from({ length: count + 1 }, (_, i) => from + (i * (to - from)) / count);

  it("finds whatever a look at every half degree finds, and says no more than is so", () => {
    fc.assert(
      fc.property(box, box, swing, (moving, still, way) => {
        const seen = Math.max(...stops(way, 360).map((angle) => depthOf(turned(moving, way.pivot, angle), still)));
        const found = clashOf(moving, still, way);
        if (seen > 1e-3) expect(found?.depth ?? 0).toBeGreaterThanOrEqual(seen - 1e-6);
        if (found !== null) {
          expect(depthOf(turned(moving, way.pivot, found.angle), still)).toBeCloseTo(found.depth, 6);
          expect(found.angle).toBeGreaterThanOrEqual(way.from - 1e-9);
          expect(found.angle).toBeLessThanOrEqual(way.to + 1e-9);
        }
      }),
      { numRuns: runs(2000), seed: SEED },
    );
  });

  it("tells of two that both move whenever some two of their places clash", () => {
    fc.assert(
      fc.property(box, box, swing, swing, corner, corner, (a, b, one, other, x, y) => {
        const moved: Swing = { ...other, pivot: [x, y] };
        const places = stops(moved, 40).map((angle) => turned(b, moved.pivot, angle));
        const clash = stops(one, 40).some((angle) => {
          const at = turned(a, one.pivot, angle);
          return places.some((place) => depthOf(at, place) > 1e-3);
        });
        if (clash) expect(sweepsMeet(a, one, b, moved)).toBe(true);
        // No two sweeps meet that a circle keeps apart.
        const reach = (outline: Outline, [px, py]: readonly [number, number]): number =>
          Math.max(...outline.map(([cx, cy]) => Math.hypot(cx - px, cy - py)));
        if (Math.hypot(x, y) > reach(a, one.pivot) + reach(b, moved.pivot))
          expect(sweepsMeet(a, one, b, moved)).toBe(false);
      }),
      { numRuns: runs(500), seed: SEED },
    );
  });

  /** A post in front of the door of the small project, its near corner so far from the hinges' line at 45 degrees. */
  function withPost(gap: number): SetCheck[] {
    const plain = setOf(testFile("doors-solid"));
    const [door] = plain.doors as [SetDoor];
    const assembly = plain.assemblies.find(({ name }) => name === door.assembly)!;
    const { travel, place, size } = assembly;
    if (travel.kind !== "swing") throw new Error("a door that does not swing");
    const pivot = [place.at[0] + travel.pivot[0], place.at[1] + travel.pivot[1]] as const;
    // The corner that goes farthest: at the front or the back of the edge away from the hinges.
    const reach = Math.max(...[0, size[1]].map((y) => Math.hypot(travel.pivot[0], y - travel.pivot[1])));
    const file = parse(readFileSync(testFile("doors-solid"), "utf8"));
    const at = (reach + gap) * Math.SQRT1_2;
    const post = { name: "post", width: 200, height: 300, depth: 200, stock: "ply", back: { fit: "none" } };
    // Hinged at the right the door swings to the left of that line, and the post's right rear corner is nearest.
    const corner = [pivot[0] - at - 200, pivot[1] - at - 200, 0];
    const set = made(JSON.stringify({ ...file, cases: [...file.cases, { ...post, at: corner }] }));
    return set.checks.filter(({ id, level }) => id === "door-swing" && level === "failure");
  }

  it("finds a clash of 1 mm in the middle of the swing, and none where it passes clear", () => {
    expect(withPost(0.3)).toEqual([]);
    const [found, ...more] = withPost(-1);
    expect(more).toEqual([]);
    expect(found?.text).toMatch(
      /^Box door 1 cannot open: 4\d(\.\d)?° open, left door stile 9 comes 0\.\d+ mm into right side/,
    );
  });

  it("is stopped by a wall beside the hinges, and told how far it gets", () => {
    const set = (left: number): DryfitSet =>
      built("doors-solid", { one: { bays: { door: "left" } }, job: { walls: { left } } });
    expect(hasFailed(set(50))).toBe(false);
    const opens = built("doors-solid", {
      one: { bays: { door: "left" } },
      doors: { hinges: { kind: "butt", opens: 170 } },
      job: { walls: { left: 50 } },
    });
    const [failed] = opens.checks.filter(({ id }) => id === "door-swing");
    expect(failed?.text).toMatch(
      /^Box door 1 cannot open: 170° open, .* into the wall at the left$|into the wall at the left\.$/,
    );
  });

  it("meets a knob beside it", () => {
    const job = (knob: object | undefined): DryfitSet =>
      built("doors-overlay", {
        one: { bays: { columns: [{ door: "left" }, { door: "left" }] } },
        doors: { hinges: { kind: "butt" }, ...(knob === undefined ? {} : { knob }) },
      });
    // The second door turns out over the first, whose knob stands where its edge comes down.
    const failed = job({ height: 300, fromEdge: 16 }).checks.filter(({ id }) => id === "door-swing");
    expect(failed.some(({ text }) => text.includes("the knob of cabinet door 1"))).toBe(true);
  });

  it("warns of two that meet only when both are open", () => {
    const back = built("doors-overlay", { one: { bays: { columns: [{ door: "right" }, { door: "left" }] } } });
    expect(hasFailed(back)).toBe(false);
    expect(byId(back.checks, "doors-meet").map(({ text }) => text)).toEqual([
      "Cabinet door 1 and cabinet door 2 can meet when both are open: each clears the other closed.",
    ]);
    expect(byId(setOf(testFile("doors-overlay")).checks, "doors-meet")).toEqual([]);
  });
});

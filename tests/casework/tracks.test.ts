/** Doors on a track: by the trade's formulas, which bays can be open at once, over random fronts, on paper. */
import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { MM_PER_INCH } from "../../src/base/length.ts";
import { hasFailed } from "../../src/build.ts";
import type { Sliding } from "../../src/model/doors/track-model.ts";
import { guidesAlong, openTogether, placedClear, slidesOf } from "../../src/model/doors/track-sizes.ts";
import { EXACT } from "../../src/model/grid.ts";
import type { DryfitSet, SetTrack } from "../../src/set/schema.ts";
import { frontOf, inch, made, widthOf } from "../support/doors/track-jobs.ts";
import { setOf, testFile } from "../support/jobs/examples.ts";
import { runs, SEED } from "../support/runs.ts";

describe("by the trade's formulas", () => {
  it.each([
    // A door hardware maker's planning sheet: half length = door + stop - hanger + half the bumper.
    [47, { fromEnd: "1 5/8", bumper: "1 1/4" }, "1 1/4", 48],
    [50.75, { fromEnd: "5/8", bumper: "1 1/4" }, 4, 48],
  ])("a track for one door of %d that goes its own width: half of it is 48", (door, stops, fromEdge, half) => {
    const set = frontOf(door - 1.5, {
      doors: [{ covers: [1] }],
      overlap: "3/4",
      reach: { right: door },
      stops,
      hangers: { rating: "200 lb", fromEdge },
    });
    const [track] = set.tracks as [SetTrack];
    expect(widthOf(set, "case door 1")).toBeCloseTo(inch(door), 6);
    expect(track.length).toBeCloseTo(inch(2 * half), 6);
    // Its middle is where the door's inner edge comes to at both ends of its way.
    expect(track.doors[0]!.from + inch(door)).toBeCloseTo(track.length / 2, 6);
    expect(track.doors[0]!.to).toBeCloseTo(track.length / 2, 6);
    expect(track.stops.at[0]).toBeCloseTo(inch(stops.fromEnd === "5/8" ? 5 / 8 : 13 / 8), 6);
  });

  it("by-passing doors: (opening + (n - 1) x overlap) / n; 36, two, 1: 18 1/2", () => {
    // A door hardware maker's rule; the figures by hand.
    const set = frontOf(36, { doors: 2, overlap: 1 });
    const [track] = set.tracks as [SetTrack];
    expect(track.openings[0]!.width).toBeCloseTo(inch(36), 6);
    for (const { assembly } of track.doors) expect(widthOf(set, assembly)).toBeCloseTo(inch(18.5), 6);
    expect(track.clear.left).toBeCloseTo(inch(17.5), 6);
    expect(hasFailed(set)).toBe(false);
  });

  it("a door off the face is wider than what it covers by an overlap on each side", () => {
    // Trade magazines: 3/4 to 1 in in furniture.
    const set = frontOf(40, { doors: [{ covers: [1] }], overlap: 1 });
    expect(widthOf(set, "case door 1")).toBeCloseTo(inch(42), 6);
  });
});

describe("which bays can be open at once", () => {
  const MOST = 40;
  type Front = { bays: [number, number][]; doors: Sliding[]; way: [number, number] };
  const fronts: fc.Arbitrary<Front> = fc
    .record({
      bays: fc.array(fc.integer({ min: 3, max: 7 }), { minLength: 1, maxLength: 4 }),
      doors: fc.array(
        fc.record({ width: fc.integer({ min: 2, max: 9 }), track: fc.constantFrom(1 as const, 2 as const) }),
        { minLength: 1, maxLength: 3 },
      ),
      beyond: fc.integer({ min: 0, max: 6 }),
    })
    .map(({ bays, doors, beyond }) => {
      let at = beyond;
      const placed = bays.map((width): [number, number] => {
        const from = at;
        at += width + 1;
        return [from, from + width];
      });
      return {
        bays: placed,
        way: [0, Math.min(MOST, at - 1 + beyond)],
        doors: doors.map((door) => ({ ...door, covers: null, closed: 0, from: 0, to: 0 })),
      };
    });

  /** Every whole place of every door, one after another. */
  function clearByTrying({ bays, doors, way }: Front, open: readonly number[], between: number): boolean {
    const next = (i: number, ends: readonly number[]): boolean => {
      const door = doors[i];
      if (door === undefined) return true;
      for (let at = Math.max(way[0], ends[door.track - 1]!); at + door.width <= way[1]; at++) {
        const stands = open.some((bay) => at < bays[bay]![1] && at + door.width > bays[bay]![0]);
        if (stands) continue;
        const after = ends.map((end, n) => (n === door.track - 1 ? at + door.width + between : end));
        if (next(i + 1, after)) return true;
      }
      return false;
    };
    return next(0, [way[0], way[0]]);
  }

  it("is what trying every place of every door finds", () => {
    fc.assert(
      fc.property(fronts, fc.integer({ min: 0, max: 2 }), (front, between) => {
        const found = openTogether(front.bays, front.doors, front.way, between, EXACT).map(({ open }) => open);
        const all = Array.from({ length: 2 ** front.bays.length - 1 }, (_, n) =>
          front.bays.map((_bay, i) => i).filter((i) => ((n + 1) >> i) & 1),
        );
        for (const open of all) {
          const can = clearByTrying(front, open, between);
          expect(found.some((one) => open.every((bay) => one.includes(bay)))).toBe(can);
          if (!can) continue;
          const at = placedClear(
            open.map((bay) => front.bays[bay]!),
            front.doors,
            front.way,
            between,
            EXACT,
          );
          expect(at).not.toBeNull();
        }
      }),
      { numRuns: runs(300), seed: SEED },
    );
  });

  it("and every door is over the whole of a guide wherever it stands", () => {
    fc.assert(
      fc.property(fronts, fc.integer({ min: 1, max: 30 }), (front, wide) => {
        const doors = front.doors.map((door) => ({ ...door, width: door.width * 30 + 60, track: 1 as const }));
        const total = doors.reduce((sum, { width }) => sum + width, 0);
        const way = [0, total + front.way[1] * 20] as const;
        const guides = guidesAlong(doors, way, wide, EXACT);
        for (const { from, to, width } of slidesOf(doors, way, 0))
          for (let at = from; at <= to; at += 1)
            expect(guides.some((guide) => guide - wide / 2 >= at - 1e-6 && guide + wide / 2 <= at + width + 1e-6)).toBe(
              true,
            );
      }),
      { numRuns: runs(100), seed: SEED },
    );
  });
});

describe("over random fronts", () => {
  const jobs = fc.record({
    bays: fc.array(fc.integer({ min: 250, max: 600 }), { minLength: 2, maxLength: 4 }),
    height: fc.integer({ min: 5000, max: 8000 }),
    step: fc.constantFrom("0.1 mm", "0.5 mm", "1/32 in"),
    overlap: fc.integer({ min: 5, max: 22 }),
    closed: fc.array(fc.boolean(), { minLength: 4, maxLength: 4 }),
    spacing: fc.integer({ min: 150, max: 500 }),
    fromEnd: fc.integer({ min: 20, max: 120 }),
    passing: fc.boolean(),
  });

  it("doors and laps add up after rounding, the track takes their way, and each bolt is in solid wood or reported", () => {
    let bolts = 0;
    let loose = 0;
    fc.assert(
      fc.property(jobs, ({ bays, height, step, overlap, closed, spacing, fromEnd, passing }) => {
        const covers = bays.flatMap((_, i) => (closed[i] === true || i === 0 ? [{ covers: [i + 1] }] : []));
        const sheet = { length: 2600, width: 1220 };
        const set = made(
          JSON.stringify({
            job: { number: "T", title: "Random", date: "2026-11-20", revision: "A" },
            unit: "mm",
            step,
            stock: {
              ply: { name: "ply", nominal: 18, measured: 17.7, sheet, goodFaces: 2 },
              maple: { name: "maple", nominal: 20, measured: 20, boards: { rough: 26, length: 2600, width: 200 } },
            },
            cases: [
              {
                name: "case",
                width: 36 + bays.reduce((sum, bay) => sum + bay, 0) + (bays.length - 1) * 18,
                height: height / 10,
                depth: 300,
                stock: "ply",
                back: { fit: "none" },
                bottom: { up: 80 },
                frame: { stock: "maple", stile: 50, topRail: 110 },
                bays: { columns: bays.map((bay, i) => (i === 0 ? {} : { size: bay })) },
                track: {
                  kind: "slab",
                  stock: "ply",
                  doors: passing ? 2 : covers,
                  overlap,
                  bolts: { spacing, fromEnd },
                  hangers: { rating: "60 kg" },
                },
              },
            ],
          }),
        );
        const [track] = set.tracks as [SetTrack];
        addsUp(set, track);
        for (const [i, { at }] of track.bolts.at.entries()) {
          const solid = isInOnePart(set, track, at);
          const told = set.checks.some(({ id, text }) => id === "track-bolt" && text.startsWith(`Bolt ${i + 1} of`));
          expect(told).toBe(!solid);
          bolts += 1;
          loose += solid ? 0 : 1;
        }
        const wrong = set.checks.filter(
          ({ level, id }) => level === "failure" && id !== "track-bolt" && id !== "no-tool",
        );
        expect(wrong.map(({ text }) => text)).toEqual([]);
      }),
      { numRuns: runs(60), seed: SEED },
    );
    expect(bolts).toBeGreaterThan(runs(60));
    expect(loose).toBeLessThan(bolts / 2);
  });

  /** Width = what is covered and the overlaps; the way and the stops make the length; all whole steps. */
  function addsUp(set: DryfitSet, track: SetTrack): void {
    const { step } = set.job;
    const whole = (length: number): void =>
      expect(Math.abs(length / step - Math.round(length / step))).toBeLessThan(1e-6);
    for (const door of track.doors) {
      const width = widthOf(set, door.assembly);
      whole(width);
      const bays = door.covers.map((bay) => track.openings[bay]!);
      if (bays.length === 0) continue;
      const span = bays.at(-1)!.at[0] + bays.at(-1)!.width - bays[0]!.at[0];
      expect(width).toBeGreaterThanOrEqual(span + 2 * track.overlap - 1e-6);
      expect(width).toBeLessThan(span + 2 * track.overlap + 5 * step);
    }
    if (track.passing) {
      const [one, other] = track.doors as [SetTrack["doors"][number], SetTrack["doors"][number]];
      const all = other.closed + widthOf(set, other.assembly) - one.closed;
      const front = track.openings.at(-1)!.at[0] + track.openings.at(-1)!.width - track.openings[0]!.at[0];
      expect(all).toBeGreaterThanOrEqual(front - 1e-6);
      expect(all).toBeLessThan(front + 3 * step);
      const lap = one.closed + widthOf(set, one.assembly) - other.closed;
      expect(lap).toBeGreaterThanOrEqual(track.overlap - 1e-6);
      expect(lap).toBeLessThan(track.overlap + 4 * step);
    }
    const low = Math.min(...track.doors.map(({ from }) => from));
    const high = Math.max(...track.doors.map((door) => door.to + widthOf(set, door.assembly)));
    const inset = track.stops.fromEnd + track.stops.bumper / 2 - track.hangers.fromEdge;
    expect(track.length).toBeGreaterThanOrEqual(high - low + 2 * inset - step);
    expect(track.length).toBeLessThan(high - low + 2 * inset + 3 * step);
    whole(track.length);
    for (const { at } of track.bolts.at) whole(at);
  }

  /** Sixteen points round a bolt's middle, and the middle, all within the face of one part. */
  function isInOnePart(set: DryfitSet, track: SetTrack, along: number): boolean {
    const frame = set.assemblies.find(({ name }) => name === track.on)!;
    const radius = 1.5 * track.bolts.diameter;
    const corners = [-1, 1].flatMap((u) => [-1, 1].map((v) => [u * radius, v * radius] as const));
    const members = set.parts.filter(({ assembly }) => assembly === track.on);
    return members.some((part) => {
      const [x, z] = faceOf(part);
      return corners.every(([u, v]) => {
        const [px, pz] = [track.at[0] + along + u - frame.place.at[0], track.at[2] + v - frame.place.at[2]];
        return px >= x[0] - 1e-4 && px <= x[1] + 1e-4 && pz >= z[0] - 1e-4 && pz <= z[1] + 1e-4;
      });
    });
  }

  /** A member's face from the front: stiles stand, rails lie. */
  function faceOf({ place, length, width, role }: DryfitSet["parts"][number]): [[number, number], [number, number]] {
    const [x, , z] = place!.at;
    return role === "stile"
      ? [
          [x, x + width],
          [z, z + length],
        ]
      : [
          [x, x + length],
          [z, z + width],
        ];
  }
});
describe("on paper", () => {
  it("hanger holes are drilled through from the upper end, alike for all doors", () => {
    const set = setOf(testFile("doors-track"));
    const rows = set.drilling.filter(({ holds }) => holds === "hanger bolts");
    expect(rows).toHaveLength(1);
    for (const row of rows[0]!.rows)
      expect([row.first, row.pitch, row.distance].map((one) => Math.round((one / MM_PER_INCH) * 1e6) / 1e6)).toEqual([
        1, 1.5, 1.125,
      ]);
  });

  it("the buying list has the track by its length, bolts, hangers, stops, guides and knobs", () => {
    const set = setOf(testFile("doors-track"));
    const counted = set.purchase
      .filter(({ what }) => /track|guide|knob/.test(what))
      .map(({ what, size, quantity }) => `${quantity} ${what}, ${size}`);
    expect(counted).toEqual([
      "1 flat track, 53 3/8 x 1 1/2 x 1/4 in",
      "4 track bolts with spacers, 1 7/8 x 5/16 in",
      "2 track stops with bumpers, 5/8 in",
      "3 door guides, 1 1/2 x 1 in",
      "4 track hangers with their through bolts, 1 1/4 x 1/4 in",
      "4 knob, 1 1/4 in",
    ]);
  });

  it("steps: the doors made, then the track bolted on, the doors hung and their guides set, last of all", () => {
    const titles = setOf(testFile("doors-track")).steps.map(({ title }) => title);
    expect(titles.slice(-3)).toEqual([
      "Bolt on the track in front of case",
      "Hang the doors of case on the track",
      "Set the guides of case",
    ]);
    expect(titles).toContain("Measure the openings, then cut the doors of case");
  });
});

/** Doors on a track: by the trade's formulas, over random fronts, refused where they cannot be, spoiled and found. */
import { readFileSync } from "node:fs";
import fc from "fast-check";
import { parse } from "jsonc-parser";
import { describe, expect, it } from "vitest";
import { dryFit } from "../../src/audit/dryfit.ts";
import { MM_PER_INCH } from "../../src/base/length.ts";
import { hasFailed } from "../../src/build.ts";
import type { Sliding } from "../../src/model/doors/track-model.ts";
import { guidesAlong, openTogether, placedClear, slidesOf } from "../../src/model/doors/track-sizes.ts";
import { EXACT } from "../../src/model/grid.ts";
import { readProjectText } from "../../src/project/read.ts";
import type { DryfitSet, SetPart, SetTrack } from "../../src/set/schema.ts";
import { byId } from "../support/jobs/check-input.ts";
import { exampleFile, setOf, testFile } from "../support/jobs/examples.ts";
import { joinerySet } from "../support/jobs/outcome.ts";
import { problemsIn } from "../support/jobs/project-file.ts";
import { closePage, partPages } from "../support/paper/part-pages.ts";
import { runs, SEED } from "../support/runs.ts";

const inch = (inches: number): number => inches * MM_PER_INCH;

/** Without its paper, which nothing here looks at. */
function made(text: string): DryfitSet {
  const set = joinerySet(readProjectText(text, "track.json").project);
  return { ...set, checks: [...dryFit(set), ...set.checks] };
}

type Change = { track?: object; one?: object; job?: object };

/** A small project with something of its track, its case or its job changed. */
function textOf(name: string, { track, one, job }: Change): string {
  const file = parse(readFileSync(testFile(name), "utf8"));
  const [first] = file.cases;
  return JSON.stringify({ ...file, ...job, cases: [{ ...first, ...one, track: { ...first.track, ...track } }] });
}
const built = (name: string, change: Change): DryfitSet => made(textOf(name, change));

const widthOf = (set: DryfitSet, assembly: string): number =>
  set.assemblies.find(({ name }) => name === assembly)!.size[0];

/** Before one opening exactly so wide in a face frame; slabs, all in inches. */
function frontOf(opening: number, track: object, more: Change = {}): DryfitSet {
  const ply = { name: "ply", nominal: "3/4", measured: "3/4", sheet: { length: 192, width: 96 }, goodFaces: 2 };
  const oak = { name: "oak", nominal: "3/4", boards: { rough: 1, length: 192, width: 8 } };
  return made(
    JSON.stringify({
      job: { number: "T", title: "Track", date: "2026-11-20", revision: "A" },
      unit: "in",
      step: "1/32",
      stock: { ply, oak },
      ...more.job,
      cases: [
        {
          name: "case",
          // The frame's stiles are 2 in wide and stand 1/8 in beyond the case.
          width: opening + 4 - 1 / 4,
          height: 30,
          depth: 12,
          stock: "ply",
          back: { fit: "none" },
          bottom: { up: 3 },
          frame: { stock: "oak", stile: 2, topRail: 4 },
          track: { kind: "slab", stock: "ply", hangers: { rating: "200 lb" }, ...track },
          ...more.one,
        },
      ],
    }),
  );
}

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

const told = (set: DryfitSet, id: string): string[] =>
  byId(set.checks, id)
    .filter(({ level }) => level === "failure" || level === "warning")
    .map(({ text, change }) => `${text} ${change ?? ""}`.trim());

describe("what does not do is told with its figure and what to change", () => {
  it("a track one inch too short", () => {
    const needed = setOf(testFile("doors-track")).tracks[0]!.length / MM_PER_INCH;
    const set = built("doors-track", { track: { length: needed - 1 } });
    expect(told(set, "track-length")).toEqual([
      "The track before case is 52 3/8 in long; the way of its doors needs 53 3/8 in: 1 in too short. A track of 53 3/8 in or more, stops nearer to its ends, or hangers farther in from the doors' edges.",
    ]);
    expect(told(set, "track-meet")).toContain(
      'Case door 1 cannot be closed: it would stand 1/2 in beyond its way. A longer track, fewer doors on it, or less "overlap".',
    );
    expect(hasFailed(set)).toBe(true);
  });

  it("a bolt without backing, and where there is some", () => {
    const set = built("doors-track", { track: { bolts: { fromEnd: 2 } } });
    expect(told(set, "track-bolt")).toEqual([
      expect.stringMatching(
        /^Bolt 1 of the track before case, 2 in from its left end, has no part with 15\/32 in of solid wood all round its middle behind it\. [\d/.]+ in to the right there is enough: another "spacing" or "fromEnd", or solid wood behind it\.$/,
      ),
      expect.stringMatching(/^Bolt \d of the track .* in to the left there is enough/),
    ]);
  });

  it("a bolt longer than the wood is deep", () => {
    const set = built("doors-track", { track: { bolts: { into: 2 } } });
    expect(told(set, "track-bolt")[0]).toMatch(
      /finds 3\/4 in of solid wood in top rail \d+ and behind it, and goes in 2 in\./,
    );
  });

  it("a hanger over its rating", () => {
    const set = built("doors-track", { track: { hangers: { rating: "2 lb" } } });
    expect(told(set, "track-weight")[0]).toMatch(
      /^Case door 1 weighs \d\.\d lb \(\d\.\d kg\) without its knob; its two hangers are rated for 4\.0 lb \(1\.8 kg\) together, \d\.\d lb \(\d\.\d kg\) less\. Hangers rated for \d\.\d lb/,
    );
  });

  it("a top rail too narrow for the track", () => {
    const set = frontOf(36, { doors: 2 }, { one: { frame: { stock: "oak", stile: 2, topRail: "2 1/2" } } });
    // 3/4 over the opening, 3/8 to the bar of 1 1/2.
    expect(told(set, "track-rail")).toEqual([
      expect.stringMatching(
        /^The track stands 1\/8 in above the upper edge of top rail \d+, which is 2 1\/2 in wide\. A "topRail" of 2 5\/8 in or more/,
      ),
    ]);
  });

  const topped = (front: number | string): DryfitSet =>
    frontOf(
      36,
      { doors: [{ covers: [1] }], overlap: "3/4" },
      {
        job: { worktops: [{ name: "slab top", over: ["case"], stock: "ply", overhang: { front } }] },
        one: { top: { fillers: 3 } },
      },
    );

  it("a worktop that stands out over the hangers, and none that ends behind them", () => {
    expect(told(topped("1/2"), "track-lift")).toEqual([]);
    expect(told(topped("1/2"), "track-way")).toEqual([]);
    const set = topped(1);
    // 3/4 + 3/8 + 1 1/2 + 1 3/4 = 4 3/8 up from the opening, and the rail is 4.
    expect(told(set, "track-way")).toEqual([
      expect.stringMatching(/^Case door 1 cannot slide: the left hanger of case door 1 meets worktop \d+ on its way, /),
    ]);
  });

  it("a worktop too low to lift the doors on under it", () => {
    const set = frontOf(
      36,
      { doors: [{ covers: [1] }], overlap: "3/4", hangers: { rating: "200 lb", above: "1 1/4", lift: "3/8" } },
      {
        job: { worktops: [{ name: "slab top", over: ["case"], stock: "ply", overhang: { front: 2 } }] },
        one: { top: { fillers: 3 } },
      },
    );
    // 3/4 + 3/8 + 1 1/2 + 1 1/4 = 3 7/8: 1/8 under the worktop, and 3/8 are needed.
    expect(told(set, "track-lift")).toEqual([
      expect.stringMatching(
        /^Case door 1 cannot be lifted over its track: the left hanger of case door 1 is raised 3\/8 in, and finds 1\/8 in under worktop \d+\. 1\/4 in more room there, by a wider top rail or a lower track; or worktop \d+ to stand out less, by 1 1\/4 in\.$/,
      ),
    ]);
  });

  it("doors that collide when closed", () => {
    const set = built("doors-track", { track: { doors: [{ covers: [1] }, { covers: [2] }], overlap: 1 } });
    expect(told(set, "track-meet")[1]).toMatch(
      /^Case door 1 and case door 2, closed, (would be|stand) .*; 1\/8 in is the least between two on one track\. Less "overlap", by .* or more, a wider stile between their bays, or one of them on a second track\.$/,
    );
  });

  it("knobs that do not pass the door before them", () => {
    expect(told(built("doors-by-passing", { track: { bar: { apart: 50 } } }), "track-way")).toEqual([]);
    const set = built("doors-by-passing", { track: { bar: { apart: 50 }, knob: { height: 350, projection: 35 } } });
    // 50 apart less a door of 17.65.
    expect(told(set, "track-way")).toEqual([
      'Cabinet door 1 and cabinet door 2 cannot pass each other: the knob of cabinet door 1 comes 2.65 mm into slab 11. Tracks farther "apart", by 2.65 mm or more, or what stands out less.',
    ]);
  });

  it("spacers too short for the doors", () => {
    const set = built("doors-by-passing", { track: { bar: { standOff: 5 } } });
    expect(told(set, "track-way").length).toBeGreaterThan(0);
    expect(told(set, "track-room")).toEqual([
      'The doors of cabinet would stand 0.83 mm in its front and hang 77.7 mm above the floor. A "standOff" longer by 2.83 mm.',
    ]);
    const close = built("doors-by-passing", { track: { bar: { standOff: 7 }, guide: { cheek: 1 } } });
    expect(told(close, "track-room")).toEqual([
      'The doors of cabinet hang 1.18 mm before its front and 77.7 mm above the floor. A "standOff" longer by 0.83 mm.',
    ]);
  });

  it("bays that no door can leave", () => {
    const set = frontOf(36, { doors: [{ covers: [1] }], overlap: "3/4" });
    expect(told(set, "track-open")).toEqual([
      'No bay of case can be all clear: its doors have nowhere to go. Fewer doors, one of them on a second track, or "reach" beyond the bays.',
    ]);
  });

  it("a track on the edge of a worktop, whose bar is too low for the openings", () => {
    const plain = (height: string): DryfitSet =>
      frontOf(
        36,
        { doors: [{ covers: [1] }], on: "worktop", bar: { height } },
        {
          job: {
            stock: {
              ply: { name: "ply", nominal: "3/4", measured: "3/4", sheet: { length: 192, width: 96 }, goodFaces: 2 },
              thick: { name: "thick", nominal: "1 1/2", measured: "1 1/2", sheet: { length: 192, width: 96 } },
            },
            worktops: [{ name: "slab top", over: ["case"], stock: "thick", overhang: { front: 0 } }],
          },
          one: { frame: undefined, top: { down: 0 } },
        },
      );
    expect(told(plain("1 1/2"), "track-lap")).toEqual([
      'Case door 1 laps 3/8 in above; 3/4 in was asked for. A track bolted on higher, a lower bar, or less "drop", by 3/8 in.',
    ]);
  });
});

describe("on the edge of a top panel", () => {
  const panel = { nominal: "3/4", measured: "3/4", sheet: { length: 192, width: 96 }, goodFaces: 2 };
  const thick = { ...panel, name: "glued to 2 1/4", nominal: "2 1/4", measured: "2 1/4" };
  const onTop = (track: object = {}): DryfitSet =>
    frontOf(
      32,
      {
        on: "top",
        doors: [{ covers: [1] }],
        above: "1/4",
        below: "1/4",
        bar: { height: "3/4" },
        bolts: { spacing: 12 },
        guide: { height: "3/8" },
        ...track,
      },
      {
        job: { stock: { ply: { ...panel, name: "ply" }, thick } },
        one: {
          frame: undefined,
          stock: { all: "ply", top: "thick" },
          top: { fit: "over" },
          bays: { columns: [{}, {}] },
        },
      },
    );
  const failed = ({ checks }: DryfitSet): string[] =>
    checks.filter(({ level }) => level === "failure").map(({ id, text }) => `${id}: ${text}`);

  it("stands on the middle of it, the doors hang before the case, and each bolt is in its wood", () => {
    const set = onTop();
    const [track] = set.tracks as [SetTrack];
    const top = set.parts.find(({ role }) => role === "top")!;
    expect(failed(set)).toEqual([]);
    expect(new Set(track.bolts.at.map(({ mark }) => mark))).toEqual(new Set([top.mark]));
    // By hand: the case is 30 high and its top 2 1/4, so the middle of the bar is 28 7/8 up.
    expect(track.at[2]).toBeCloseTo(inch(28.875), 6);
    expect(track.on).toBe("case");
    // In its front edge, 1 1/8 from the lower face: marked there, and the dry fit holds each mark to the track.
    const [line] = top.lines;
    expect([line!.face, line!.at, line!.points.length]).toEqual([
      "w0",
      expect.closeTo(inch(1.125), 6),
      track.bolts.at.length,
    ]);
    // The paper says so too: read back, it is the panel with its bolts.
    const read = partPages(set).map((page) => closePage(set, page));
    expect(read.flatMap(({ faults }) => faults)).toEqual([]);
    expect(read.flatMap(({ marks }) => marks)).toContain(top.mark);
  });

  it("a bolt that comes into the groove of the divider, and doors that lap less than asked for, are told", () => {
    const middle = onTop({ bolts: { spacing: 40, fromEnd: 18 } });
    // The groove begins 1/2 in behind the edge that shows.
    expect(told(middle, "track-bolt")).toEqual([
      expect.stringMatching(
        /^Bolt 2 of the track before case, 19 3\/8 in from its left end, finds 1\/2 in of solid wood in top panel \d+ and behind it, and goes in 5\/8 in\. .* to the right there is enough/,
      ),
    ]);
    expect(told(onTop({ above: "3/4" }), "track-lap")).toEqual([
      expect.stringMatching(/^Case door 1 laps 3\/8 in above; 3\/4 in was asked for\./),
    ]);
  });

  it("a bar that stands lower than the panel's wood is found", () => {
    const set = structuredClone(onTop());
    for (const track of set.tracks) track.at[2] -= inch(1.25);
    const ids = dryFit(set)
      .filter(({ level }) => level === "failure")
      .map(({ id }) => id);
    expect(ids).toContain("track-bolt");
  });
});

describe("what the file cannot ask for is said at its place", () => {
  const said = (name: string, change: Change): string[] =>
    problemsIn(textOf(name, change)).map(({ where, found }) => `${where?.path}: ${found}`);

  it.each<[string, string, Change, string]>([
    [
      "a bay that is not there",
      "doors-track",
      { track: { doors: [{ covers: [3, 4] }] } },
      'cases[0].track.doors[0].covers: a door before bay 4 of "case", which has 3 bays',
    ],
    [
      "bays with another between them",
      "doors-track",
      { track: { doors: [{ covers: [1, 3] }] } },
      "cases[0].track.doors[0].covers: a door before bays 1 and 3",
    ],
    [
      "two doors before one bay",
      "doors-track",
      { track: { doors: [{ covers: [1, 2] }, { covers: [2] }] } },
      'cases[0].track.doors[1].covers: two doors before bay 2 of "case", on one track',
    ],
    [
      "doors out of order",
      "doors-track",
      { track: { doors: [{ covers: [3] }, { covers: [1] }] } },
      'cases[0].track.doors[1].covers: a door before bay 1 of "case" after one before bay 3, on one track',
    ],
    [
      "by-passing doors on one track",
      "doors-by-passing",
      { track: { tracks: 1 } },
      'cases[0].track.tracks: 2 by-passing doors on one track before "cabinet"',
    ],
    [
      "a second track where there is one",
      "doors-track",
      { track: { tracks: 1, doors: [{ covers: [1] }, { covers: [3], track: 2 }] } },
      'cases[0].track.doors[1].track: a door on track 2 of "case", which has one track',
    ],
    [
      "no frame to bolt to",
      "doors-by-passing",
      { one: { frame: undefined }, track: { on: "frame" } },
      'cases[0].track.on: a track on the face frame of "cabinet", which has none',
    ],
    [
      "no worktop to bolt to",
      "doors-by-passing",
      { track: { on: "worktop" } },
      'cases[0].track.on: a track on the worktop over "cabinet", which has none',
    ],
    [
      "the top panel behind a frame",
      "doors-by-passing",
      { track: { on: "top" } },
      'cases[0].track.on: a track on the top panel of "cabinet", behind its face frame',
    ],
    [
      "a hinged door behind it",
      "doors-track",
      { one: { bays: { columns: [{ door: "left" }, {}, {}] } } },
      'cases[0].bays.columns[0].door: a hinged door behind the doors on the track of "case"',
    ],
    [
      "hangers off the stile",
      "doors-track",
      { track: { hangers: { rating: "50 lb", fromEdge: 2 } } },
      'cases[0].track.hangers: hangers whose holes are 2 5/8 in from the edge of doors of "case" with stiles 2 1/4 in wide',
    ],
    ["no rating", "doors-track", { track: { hangers: {} } }, 'cases[0].track.hangers.rating: "rating" is missing'],
    [
      "a key of the other kind",
      "doors-track",
      { track: { beyond: 1 } },
      'cases[0].track.beyond: "beyond" with doors that each cover their bays',
    ],
  ])("%s", (_, name, change, words) => {
    expect(said(name, change)).toContain(words);
  });
});

describe("spoiled, and found", () => {
  const foundBy = (name: string, spoil: (set: DryfitSet) => void): Set<string> => {
    const set = structuredClone(setOf(testFile(name)));
    spoil(set);
    return new Set(
      dryFit(set)
        .filter(({ level }) => level === "failure")
        .map(({ id }) => id),
    );
  };
  const trackIn = (set: DryfitSet): SetTrack => set.tracks[0]!;
  const doorIn = (set: DryfitSet, i: number): DryfitSet["assemblies"][number] =>
    set.assemblies.find(({ name }) => name === trackIn(set).doors[i]!.assembly)!;

  it("nothing, untouched", () => {
    for (const name of ["doors-track", "doors-by-passing"]) expect(foundBy(name, () => {})).toEqual(new Set());
  });

  describe("the console: three doors on one track before four bays", () => {
    const console = setOf(exampleFile("glaze-console"));
    const spoiled = (spoil: (track: SetTrack, set: DryfitSet) => void): Set<string> => {
      const set = structuredClone(console);
      spoil(trackIn(set), set);
      return new Set(
        dryFit(set)
          .filter(({ level }) => level === "failure")
          .map(({ id }) => id),
      );
    };

    const railOf = (track: SetTrack, set: DryfitSet): SetPart =>
      set.parts.find(({ mark }) => mark === track.bolts.at[0]!.mark)!;

    it("has its bolts marked on the rail's stick beside the seats of the stiles under it", () => {
      const track = trackIn(console);
      const rail = railOf(track, console);
      const home = console.assemblies.find(({ name }) => name === rail.assembly)!;
      const stick = console.sticks.find(({ parts }) => parts.some(({ mark }) => mark === rail.mark))!;
      const lines = stick.marks.filter(({ kind, parts }) => kind === "line" && parts.includes(rail.mark));
      // From the rail's left end, by the track's own place in the room.
      const wanted = track.bolts.at.map(({ at }) => track.at[0] + at - home.place.at[0] - rail.place!.at[0]);
      expect(lines.map(({ at }) => at).sort((a, b) => a - b)).toEqual(wanted.map((at) => expect.closeTo(at, 6)));
      expect(stick.marks.some(({ kind }) => kind === "seat")).toBe(true);
    });

    it("fits: closed, at both ends of every door's way, each bolt in the top rail", () => {
      const track = trackIn(console);
      expect([track.doors.length, track.openings.length]).toEqual([3, 4]);
      expect(spoiled(() => {})).toEqual(new Set());
      const rail = console.parts.find(({ key }) => key.endsWith("frame/rail-top"))!;
      expect(new Set(track.bolts.at.map(({ mark }) => mark))).toEqual(new Set([rail.mark]));
      // Every bay can be cleared, and no more of them at once than one fewer than would leave three doors nowhere.
      expect(new Set(track.together.flatMap(({ open }) => open))).toEqual(new Set([0, 1, 2, 3]));
      for (const { open, at } of track.together) {
        const stands = at.map((x, i): [number, number] => [
          track.at[0] + x,
          track.at[0] + x + widthOf(console, track.doors[i]!.assembly),
        ]);
        for (const bay of open) {
          const { at: corner, width } = track.openings[bay]!;
          for (const [low, high] of stands)
            expect(high <= corner[0] + 1e-6 || low >= corner[0] + width - 1e-6).toBe(true);
        }
        for (const [i, [low]] of stands.slice(1).entries()) expect(low).toBeGreaterThanOrEqual(stands[i]![1] - 1e-6);
      }
    });

    it.each<[string, string, (track: SetTrack, set: DryfitSet) => void]>([
      [
        "a bolt beside the rail",
        "track-bolt",
        (track) => {
          track.at[2] += inch(4);
        },
      ],
      [
        "a track one inch shorter",
        "track-length",
        (track) => {
          track.length -= inch(1);
        },
      ],
      [
        "a door told elsewhere",
        "track",
        (track) => {
          track.doors[1]!.closed += 2;
        },
      ],
      [
        "a stop moved inwards",
        "track-stop",
        (track) => {
          track.stops.at[0] += 5;
        },
      ],
      [
        "a bolt marked on the rail a step beside its place",
        "track-bolt",
        (track, set) => {
          railOf(track, set).lines[0]!.points[2]! += set.job.step;
        },
      ],
      [
        "the bolts marked on the rail too high",
        "track-bolt",
        (track, set) => {
          railOf(track, set).lines[0]!.at += 1;
        },
      ],
      ["no bolt marked on the rail", "track-bolt", (track, set) => void railOf(track, set).lines.splice(0, 1)],
      [
        "a bolt marked on the rail that the track has not",
        "track-bolt",
        (track, set) => void railOf(track, set).lines[0]!.points.push(800),
      ],
      [
        "bolts marked thinner than they are",
        "track-bolt",
        (track, set) => {
          railOf(track, set).lines[0]!.bolt!.diameter -= 1;
        },
      ],
      ["a guide left out", "track-guide", (track) => void track.guides.at.splice(0, 1)],
      [
        "more overlap asked for",
        "track-lap",
        (track) => {
          track.overlap += 5;
        },
      ],
      [
        "a worktop over the hangers",
        "track-way",
        (_, set) => {
          const top = set.assemblies.find(({ kind }) => kind === "worktop")!;
          top.place.at[1] -= 60;
          top.place.at[2] -= 25;
        },
      ],
    ])("%s", (_, id, spoil) => expect([...spoiled(spoil)]).toContain(id));
  });

  it.each<[string, string, string, (set: DryfitSet) => void]>([
    [
      "a door told elsewhere",
      "doors-track",
      "track",
      (set) => {
        trackIn(set).doors[0]!.closed += set.job.step;
      },
    ],
    [
      "a door hung beside its bay, and told so",
      "doors-track",
      "track-lap",
      (set) => {
        for (const by of [inch(1)]) {
          const [door] = trackIn(set).doors;
          door!.closed += by;
          const assembly = doorIn(set, 0);
          assembly.place.at[0] += by;
          if (assembly.travel.kind === "slide")
            assembly.travel.range = [door!.from - door!.closed, door!.to - door!.closed];
        }
      },
    ],
    [
      "a door hung too low",
      "doors-track",
      "track",
      (set) => {
        doorIn(set, 1).place.at[2] -= 1;
      },
    ],
    [
      "a door out of line with its bar",
      "doors-by-passing",
      "track",
      (set) => {
        doorIn(set, 1).place.at[1] -= 1;
      },
    ],
    [
      "a travel that ends early",
      "doors-track",
      "track",
      (set) => {
        doorIn(set, 0).travel = { kind: "none" };
      },
    ],
    [
      "more overlap asked for",
      "doors-track",
      "track-lap",
      (set) => {
        trackIn(set).overlap += 2;
      },
    ],
    [
      "by-passing: more overlap",
      "doors-by-passing",
      "track-lap",
      (set) => {
        trackIn(set).overlap += 2;
      },
    ],
    [
      "more lap below asked for",
      "doors-track",
      "track-lap",
      (set) => {
        trackIn(set).below += 2;
      },
    ],
    [
      "a stop moved inwards",
      "doors-track",
      "track-stop",
      (set) => {
        trackIn(set).stops.at[0] += 2;
      },
    ],
    [
      "a stop off the track",
      "doors-track",
      "track-stop",
      (set) => {
        trackIn(set).stops.at[1] += 60;
      },
    ],
    [
      "a door that goes past its stop",
      "doors-track",
      "track-stop",
      (set) => {
        trackIn(set).doors[1]!.to += 5;
      },
    ],
    [
      "a shorter track",
      "doors-track",
      "track-length",
      (set) => {
        trackIn(set).length -= 2;
      },
    ],
    [
      "a need told too small",
      "doors-track",
      "track-length",
      (set) => {
        trackIn(set).needed -= 20;
      },
    ],
    [
      "a bolt moved to a seam",
      "doors-track",
      "track-bolt",
      (set) => {
        trackIn(set).bolts.at[0]!.at = trackIn(set).bolts.at[0]!.at - inch(1.5);
      },
    ],
    [
      "a bolt told in another part",
      "doors-track",
      "track-bolt",
      (set) => {
        trackIn(set).bolts.at[0]!.mark = "1";
      },
    ],
    [
      "a bolt left out",
      "doors-track",
      "track-bolt",
      (set) => {
        trackIn(set).bolts.at.splice(1, 1);
      },
    ],
    [
      "a guide left out",
      "doors-track",
      "track-guide",
      (set) => {
        trackIn(set).guides.at.splice(1, 1);
      },
    ],
    [
      "a guide off the wood",
      "doors-track",
      "track-guide",
      (set) => {
        trackIn(set).guides.height += inch(9);
      },
    ],
    [
      "an opening told wider",
      "doors-track",
      "track-opening",
      (set) => {
        trackIn(set).openings[0]!.width += 5;
      },
    ],
    [
      "pushed together too far",
      "doors-track",
      "track-meet",
      (set) => {
        trackIn(set).doors[1]!.from -= inch(1);
      },
    ],
    [
      "a hanger told elsewhere",
      "doors-track",
      "track",
      (set) => {
        trackIn(set).doors[0]!.hangers[0] += 1;
      },
    ],
    [
      "a knob in the other door's way",
      "doors-by-passing",
      "track-way",
      (set) => {
        trackIn(set).knob!.projection = 60;
      },
    ],
    [
      "something in the way",
      "doors-track",
      "track-way",
      (set) => {
        set.assemblies.find(({ kind }) => kind === "frame")!.place.at[1] -= inch(1);
      },
    ],
    [
      "more to lift",
      "doors-by-passing",
      "track-bolt",
      (set) => {
        trackIn(set).bolts.into += 60;
      },
    ],
    [
      "a door that is not there",
      "doors-track",
      "track",
      (set) => {
        trackIn(set).doors[0]!.assembly = "no door";
      },
    ],
    [
      "no track told",
      "doors-track",
      "door",
      (set) => {
        set.tracks = [];
      },
    ],
    [
      "a hanger's hole left out",
      "doors-by-passing",
      "track",
      (set) => {
        const slab = set.parts.find(({ role }) => role === "slab")!;
        slab.features.splice(0, 1);
      },
    ],
  ])("%s", (_, name, id, spoil) => {
    expect(foundBy(name, spoil)).toContain(id);
  });
});

describe("on paper", () => {
  it("hanger holes are drilled through from the upper end, alike for all doors", () => {
    const set = setOf(testFile("doors-track"));
    const rows = set.drilling.filter(({ holds }) => holds === "hanger holes");
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
      "4 track hanger with its through bolts, 1 1/4 x 1/4 in",
      "4 knob, 1 1/4 in",
    ]);
  });

  it("steps: the doors made, then the track bolted on, the doors hung and their guides set, last of all", () => {
    const titles = setOf(testFile("doors-track")).steps.map(({ title }) => title);
    expect(titles.slice(-3)).toEqual([
      "Bolt the track on before case",
      "Hang the doors of case on the track",
      "Set the guides of case",
    ]);
    expect(titles).toContain("Measure the openings, then cut the doors of case");
  });
});

/** What doors on a track cannot be asked for, and what does not do, told with its figure and what to change. */
import { describe, expect, it } from "vitest";
import { MM_PER_INCH } from "../../src/base/length.ts";
import { hasFailed } from "../../src/build.ts";
import type { DryfitSet } from "../../src/set/schema.ts";
import { built, type Change, frontOf, textOf, told } from "../support/doors/track-jobs.ts";
import { setOf, testFile } from "../support/jobs/examples.ts";
import { problemsIn } from "../support/jobs/project-file.ts";

describe("what does not do is told with its figure and what to change", () => {
  it("a track one inch too short", () => {
    const needed = setOf(testFile("doors-track")).tracks[0]!.length / MM_PER_INCH;
    const set = built("doors-track", { track: { length: needed - 1 } });
    expect(told(set, "track-length")).toEqual([
      "The track in front of case is 52 3/8 in long; the way of its doors needs 53 3/8 in: 1 in too short. A track of 53 3/8 in or more, stops nearer to its ends, or hangers farther in from the doors' edges.",
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
        /^Bolt 1 of the track in front of case, 2 in from its left end, has no part with 15\/32 in of solid wood all round its middle behind it\. [\d/.]+ in to the right there is enough: another "spacing" or "fromEnd", or solid wood behind it\.$/,
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
      'cases[0].track.tracks: 2 by-passing doors on one track in front of "cabinet"',
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

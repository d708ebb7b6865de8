/** Doors that slide, on tracks and in grooves, where one face frame goes before several cases; and what else stands or moves beside a track. */
import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { dryFit } from "../../src/audit/dryfit.ts";
import { drawSliders } from "../../src/drawings/doors/sliders.ts";
import { drawTracks } from "../../src/drawings/doors/track.ts";
import type { DryfitSet, SetPart } from "../../src/set/schema.ts";
import { byId } from "../support/jobs/check-input.ts";
import { outcomeOf } from "../support/jobs/outcome.ts";
import { faultsOn, paintedOn } from "../support/pages/page-faults.ts";
import { runs, SEED } from "../support/runs.ts";

type Change = Record<string, unknown>;
const SHEET = { length: 2440, width: 1220 };
const STOCK = {
  ply: { name: "plywood", nominal: 18, measured: 18, sheet: SHEET, goodFaces: 2 },
  thin: { name: "thin plywood", nominal: 6, measured: 6, sheet: SHEET },
  ash: { name: "ash", nominal: 20, measured: 20, density: 680, boards: { rough: 26, length: 3100, width: 180 } },
};
const TRACK = { kind: "slab", stock: "ply", hangers: { rating: "60 kg" }, bar: { height: 20 }, above: 10 };
const SLIDING = { kind: "slab", stock: "ply", fit: "sliding" };
const HUNG = { kind: "slab", stock: "ply", fit: "inset", hinges: { kind: "butt" } };
const FRAME = { stock: "ash", stile: 50, midStile: 50, jointStile: 60, topRail: 45 };

const caseOf = (name: string, width: number, more: Change): Change => ({
  name,
  width,
  height: 780,
  depth: 420,
  stock: { all: "ply", back: "thin" },
  bottom: { up: 80 },
  ...more,
});
const jobOf = (cases: Change[], more: Change = {}): string =>
  JSON.stringify({
    job: { number: "T", title: "Sliding behind one frame", date: "2026-11-20", revision: "A" },
    unit: "mm",
    stock: STOCK,
    cases,
    ...more,
  });
const pair = (left: Change, right: Change, more: Change = {}, frame: Change = {}): string =>
  jobOf(
    [
      caseOf("left", 900, { frame: { over: ["left", "right"], ...FRAME, ...frame }, ...left }),
      caseOf("right", 700, right),
    ],
    more,
  );
const two = { columns: [{}, {}] };
const tracked = (covers: number, track: Change = {}): Change => ({
  bays: two,
  track: { ...TRACK, doors: [{ covers: [covers] }], ...track },
});

function made(text: string): { set: DryfitSet; failed: string[] } {
  const outcome = outcomeOf(text);
  if (outcome.kind === "refused") throw new Error(outcome.problems.map(({ found }) => found).join("; "));
  const { set, failures } = outcome;
  return {
    set,
    failed: failures.map(({ id, text: words, change }) => `${id}: ${words} ${change}`),
  };
}
const sound = (text: string): DryfitSet => {
  const { set, failed } = made(text);
  expect(failed).toEqual([]);
  return set;
};
const part = (set: DryfitSet, key: string): SetPart => set.parts.find((one) => one.key.endsWith(key))!;

describe("a track on a frame over two cases", () => {
  // The frame begins 3 mm before the cases, with stiles of 50. The left case, 900 wide, is divided in two of 423: its divider stands from 441
  // to 459, its mid stile of 50 from 425 to 475; the stile over the joint from 870 to 930. So the bays open from 47 to 425 and from 475 to
  // 870. The right case, 700, is divided from 341 to 359: its mid stile from 1225 to 1275, its last bay to 1600 + 3 - 50. By hand.
  it("hangs the doors of either case before its own bays, its bolts in the one top rail", () => {
    const set = sound(pair(tracked(1), { bays: two }));
    const [track] = set.tracks;
    expect(track!.openings.map(({ at, width }) => [at[0], width])).toEqual([
      [47, 378],
      [475, 395],
    ]);
    expect(new Set(track!.bolts.at.map(({ mark }) => mark))).toEqual(new Set([part(set, "frame/rail-top").mark]));
    const other = sound(pair({ bays: two }, tracked(2))).tracks[0]!;
    expect(other.openings.map(({ at, width }) => [at[0], width])).toEqual([
      [930, 295],
      [1275, 278],
    ]);
  });

  it("of either case is told to be in the other's where the stile between them is too narrow for both", () => {
    // The left way ends 20 mm over the joint stile, at 890, and its bar 21 beyond; the right begins at 910: 2 x 21 - 20.
    const [told, ...more] = made(pair(tracked(1), tracked(2))).failed;
    expect(more).toEqual([]);
    expect(told).toBe(
      'track-meet: The track in front of right lies 22 mm in the bar of the track in front of left. More room between them by as much, less "reach" or "overlap", or stops nearer to its ends.',
    );
    sound(pair(tracked(1), tracked(2), {}, { jointStile: 82 }));
  });

  it("whose doors come to one place is told to let them meet", () => {
    const { failed } = made(pair(tracked(1, { reach: { right: 300 } }), tracked(2), {}, { jointStile: 82 }));
    expect(failed.find((words) => words.includes("each on a track"))).toMatch(
      /^track-way: Left door 1 and right door 1, each on a track of its own, can meet: their ways have [\d.]+ mm in common/,
    );
  });
});

describe("beside a track", () => {
  const beside = (knob: Change | undefined): Change => ({ bays: { door: "pair" }, doors: { ...HUNG, knob } });
  const far = tracked(2, { reach: { right: 400 } });

  it("knobs of doors that hang there, which its own would slide into", () => {
    sound(pair(far, beside({ height: 300, fromEdge: 30, projection: 6, diameter: 25 })));
    const { failed } = made(pair(far, beside({ height: 300, fromEdge: 30, projection: 30, diameter: 25 })));
    expect(failed.filter((words) => words.startsWith("track-way"))[0]).toMatch(
      /^track-way: Left door 1 cannot slide: slab \d+ meets the knob of right door 1 on its way, [\d.]+ mm in it\. A "standOff" longer by [\d.]+ mm or more/,
    );
  });

  it("doors on hinges, which do not open while one of its own is before them: told, and no fault", () => {
    // Its right edge comes to 1290; the other door of the pair begins at 1241.
    const words = [1, 2].map((n) => `Right door ${n} does not open while left door 1 is slid before it.`);
    const warned = (text: string): string[] => {
      const set = sound(text);
      return byId(dryFit(set), "doors-meet", "warning").map((check) => check.text);
    };
    expect(warned(pair(far, beside(undefined)))).toEqual(words);
    expect(warned(pair(tracked(2), beside(undefined)))).toEqual([]);
  });

  it("a wall, for doors and bar alike", () => {
    // The way goes 400 beyond the right edge of the last bay, at 1553, and its lap of 20: to 1973; the wall stands at 1600 + 300.
    const reach = tracked(1, { reach: { right: 400 } });
    const clear = made(pair({ bays: two }, reach, { walls: { right: 400 } })).failed;
    expect(clear.filter((words) => /^track-(way|meet)/.test(words))).toEqual([]);
    const { failed } = made(pair({ bays: two }, reach, { walls: { right: 300 } }));
    expect(failed.find((words) => words.startsWith("track-way"))).toMatch(
      /^track-way: Right door 1 cannot slide: .* meets the wall at the right on its way/,
    );
    expect(failed.find((words) => words.startsWith("track-meet"))).toMatch(
      /^track-meet: The track in front of right lies 9\d mm in the wall at the right\. /,
    );
  });
});

describe("grooves behind a frame over two cases", () => {
  it("have doors that go in between the stiles of their own opening", () => {
    const set = sound(
      pair(
        { bays: { door: "sliding" }, doors: SLIDING },
        { bays: { columns: [{ door: "sliding", share: 2 }, {}] }, doors: SLIDING },
      ),
    );
    // The clear bays between sides and dividers; entered between the members, of which the right case's mid stile covers its divider's middle.
    expect(set.sliders.map(({ opening, entrance }) => [opening.at[0], opening.width, entrance.at[0]])).toEqual([
      [18, 864, 47],
      [918, expect.closeTo(430.7, 1), 930],
    ]);
    expect(set.sliders[0]!.entrance.width).toBe(870 - 47);
    expect(
      sound(pair({}, { shares: { left: "left" }, bays: { door: "sliding" }, doors: SLIDING })).sliders,
    ).toHaveLength(1);
  });

  it("are leaned into as far as the top rail hangs low, and no door goes in under one that hangs too low", () => {
    const sliding = { bays: { door: "sliding" }, doors: SLIDING };
    const framed = (topRail: number): string => pair(sliding, {}, {}, { topRail });
    const outs = [45, 80, 110].map((topRail) => sound(framed(topRail)).sliders[0]!.doors.map(({ lean }) => lean.out));
    expect(outs).toEqual([
      [55, 85],
      [60, 90],
      [65, 95],
    ]);
    // 10 mm less of leaning than is told, and either comes into the bottom rail as it is let down: 672 is how high they are.
    const less = structuredClone(sound(framed(110)));
    for (const { lean } of less.sliders[0]!.doors) lean.degrees = (Math.asin((lean.out - 10) / 672) * 180) / Math.PI;
    const lifts = dryFit(less).filter(({ id, level }) => id === "slider-lift" && level === "failure");
    expect(lifts.map(({ text }) => text.replace(/[\d.]+ mm/, "so far"))).toEqual([
      expect.stringMatching(
        /^Left sliding door 1 cannot be put in or taken out: let down, slab \d+ comes so far into bottom rail/,
      ),
      expect.stringMatching(/^Left sliding door 2 cannot be put in or taken out: let down/),
    ]);
    expect(made(framed(150)).failed).toEqual([
      expect.stringMatching(
        /^slider-lift: Left sliding door 1 cannot .* comes [\d.]+ mm into top rail \d+\. .*; or a narrower top rail\.$/,
      ),
    ]);
  });

  it("are drawn with a track beside them: nothing over another, nothing outside, nothing too small", () => {
    const set = sound(pair(tracked(1), { bays: { door: "sliding" }, doors: SLIDING }));
    const drafts = [...drawTracks(set), ...drawSliders(set)];
    expect(drafts.map(({ name }) => name)).toEqual(
      expect.arrayContaining(["Track", "Sliding doors, right", "Door, left door 1"]),
    );
    const { width, height } = set.paper.drawings;
    const frame = { x: 10, y: 10, width: width - 20, height: height - 20 };
    for (const draft of drafts) expect(faultsOn(paintedOn(draft), frame, 2.5), draft.name).toEqual([]);
  });
});

/** What may be told of random rows: the bars in each other, doors that cannot be closed or leaned in, bolts beside the rail's wood. */
const REASONS = ["track-meet", "track-bolt", "track-open", "track-way", "track-rail", "slider-lift", "no-tool"];

it("of random rows everything that slides fits, or is told of", () => {
  const jobs = fc.record({
    cases: fc.array(
      fc.record({
        width: fc.integer({ min: 1300, max: 2000 }).map((halves) => halves / 2),
        front: fc.constantFrom("track", "by-passing", "grooves", "hung", "open"),
      }),
      { minLength: 2, maxLength: 3 },
    ),
    jointStile: fc.integer({ min: 50, max: 110 }),
    topRail: fc.constantFrom(45, 60),
  });
  const insides: Record<string, Change> = {
    track: tracked(1),
    "by-passing": tracked(1, { doors: 2 }),
    grooves: { bays: { door: "sliding" }, doors: SLIDING },
    hung: { bays: { door: "pair" }, doors: HUNG },
    open: { bays: two },
  };
  let [fits, told] = [0, 0];
  fc.assert(
    fc.property(jobs, ({ cases, ...frame }) => {
      const names = cases.map((_, i) => `case ${i + 1}`);
      const over = { frame: { ...FRAME, ...frame, over: names } };
      const row = cases.map(({ width, front }, i) =>
        caseOf(names[i]!, width, { ...(i === 0 ? over : {}), ...insides[front] }),
      );
      const { set, failed } = made(jobOf(row));
      const kinds = failed.map((words) => words.slice(0, words.indexOf(":")));
      expect(kinds.filter((kind) => !REASONS.includes(kind))).toEqual([]);
      for (const track of set.tracks) {
        const home = set.assemblies.find(({ name }) => name === track.case)!;
        const [from, to] = [home.place.at[0], home.place.at[0] + home.size[0]];
        for (const { at, width } of track.openings) {
          expect(at[0]).toBeGreaterThan(from - 1e-6);
          expect(at[0] + width).toBeLessThan(to + 1e-6);
        }
      }
      // Two bars are in each other exactly where the ends that they are told to have are.
      const ends = set.tracks.map(({ at, length }) => [at[0], at[0] + length] as const);
      const meets = ends.some(([, high], i) => ends.slice(i + 1).some(([low]) => low < high - 0.01));
      expect(kinds.includes("track-meet")).toBe(meets);
      if (failed.length === 0) fits++;
      else told++;
    }),
    { numRuns: runs(100), seed: SEED },
  );
  expect(fits).toBeGreaterThan(runs(100) / 4);
  expect(told).toBeGreaterThan(0);
});

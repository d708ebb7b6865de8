/** A track on the front edge of a top panel: where it stands, what its bolts find, what of it is told. */
import { describe, expect, it } from "vitest";
import { dryFit } from "../../src/audit/dryfit.ts";
import type { DryfitSet, SetTrack } from "../../src/set/schema.ts";
import { frontOf, inch, told } from "../support/doors/track-jobs.ts";
import { closePage, partPages } from "../support/paper/part-pages.ts";

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
        /^Bolt 2 of the track in front of case, 19 3\/8 in from its left end, finds 1\/2 in of solid wood in top panel \d+ and behind it, and goes in 5\/8 in\. .* to the right there is enough/,
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

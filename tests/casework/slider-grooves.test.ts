/** The grooves that doors slide in: where they end, how they are cut and what they leave; how doors are leaned into them; loose shelves behind. */
import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { depthMoved } from "../../src/audit/solids/section.ts";
import { depthOf, type Outline, turned } from "../../src/audit/solids/turned.ts";
import type { DryfitSet, SetFeature, SetSliders } from "../../src/set/schema.ts";
import { built, failed, opening } from "../support/doors/slider-jobs.ts";
import { byId } from "../support/jobs/check-input.ts";
import { setOf, testFile } from "../support/jobs/examples.ts";
import { runs, SEED } from "../support/runs.ts";

/** The edge of a level part that lies in front. */
const frontOf = (set: DryfitSet, mark: string): string =>
  set.parts.find((part) => part.mark === mark)!.place?.w === "+y" ? "w0" : "w1";

describe("loose shelves behind them", () => {
  it("stand back behind the rear groove, and their front pins with them; nothing meets as the doors slide", () => {
    const set = built({ one: { bays: { door: "sliding", loose: 2 } } });
    expect(failed(set)).toEqual([]);
    const [told] = set.sliders as [SetSliders];
    const rear = told.tracks[1]! + told.groove;
    const shelves = set.parts.filter(({ role }) => role === "looseShelf");
    expect(shelves).toHaveLength(2);
    for (const { place } of shelves) expect(place!.at[1]).toBeGreaterThan(rear);
    // The front row 37 mm from the panel's front, inset doors' depth in addition (trade text, section 1): to a rounding step.
    const front = set.drilling.flatMap(({ rows }) => rows).filter(({ row }) => row.endsWith("left front"));
    expect(front.map(({ distance }) => Math.abs(distance - rear - 37) < 0.1)).toEqual([true]);
  });
});

describe("grooves", () => {
  const slots = (set: DryfitSet, mark: string): SetFeature[] =>
    set.parts
      .find((part) => part.mark === mark)!
      .features.filter(({ along, kind }) => kind === "groove" && along === "l");

  it("run through where an end is hidden, into a housing as deep, and else up to the face of what bounds the bay", () => {
    const set = setOf(testFile("doors-sliding"));
    const [told] = set.sliders as [SetSliders];
    // The divider's own groove begins 12 mm behind the front edge: only the rear one of these runs into it.
    const ends = slots(set, told.below.mark).filter(({ depth }) => depth === 3);
    expect(ends.map(({ at, ends: both }) => [at, ...both])).toEqual([
      [10, "through", "square"],
      [29.8, "through", "open"],
    ]);
    const over = built({ one: { bottom: { fit: "under" }, top: { fit: "over" }, bays: { door: "sliding" } } });
    const [other] = over.sliders as [SetSliders];
    for (const mark of [other.above.mark, other.below.mark])
      for (const { ends: both, at } of slots(over, mark).filter(({ width }) => Math.abs(width - other.groove) < 1e-6))
        expect([at, ...both]).toEqual(at === 10 ? [10, "square", "square"] : [29.8, "open", "open"]);
    expect(failed(over)).toEqual([]);
  });

  it("are cut with the case's own, from the front edge above and below, and tested with a door's scrap that slides", () => {
    const set = setOf(testFile("doors-sliding"));
    const [told] = set.sliders as [SetSliders];
    const slides = set.settings.filter(({ width }) => Math.abs(width - told.groove) < 1e-6);
    expect(slides.flatMap(({ runs: all }) => all.map(({ mark }) => mark)).sort()).toEqual(["3", "3", "4", "4"]);
    for (const { test, runs: all, fence } of slides) {
      expect(test).toContain("a scrap of 12 mm plywood slides along it by a finger's push, with 2 mm of play.");
      for (const { mark, datum } of all) expect([mark, datum]).toEqual([mark, frontOf(set, mark)]);
      expect([10, 29.8]).toContain(fence);
    }
    const step = set.steps.findIndex(({ title }) => title.startsWith("Slide the doors"));
    const grooved = set.steps.findIndex(({ settings }) => settings.includes(slides[0]!.n));
    expect(grooved).toBeGreaterThan(-1);
    expect(step).toBeGreaterThan(grooved);
    const { text } = set.steps[step]!;
    expect(text.findIndex((line) => line.startsWith("Cabinet sliding door 2 first, into the grooves behind"))).toBe(1);
    expect(text.join(" ")).toContain("Before any finish goes on, mask every groove");
  });

  it("of two bays beside each other end at the divider between, which stands in its own", () => {
    const set = built({ one: { bays: { columns: [{ door: "sliding" }, { door: "sliding" }] } } });
    expect(failed(set)).toEqual([]);
    const [left, right] = set.sliders as [SetSliders, SetSliders];
    expect(left.below.mark).toBe(right.below.mark);
    const ends = slots(set, left.below.mark).filter(({ depth }) => depth === 3);
    expect(ends.map(({ at, ends: both }) => [at, ...both])).toEqual([
      [10, "through", "square"],
      [29.8, "through", "open"],
      [10, "square", "through"],
      [29.8, "open", "through"],
    ]);
  });

  it("back to back in one shelf leave a web, or it is told of", () => {
    const rows = { one: { height: 900, bays: { rows: [{ door: "sliding" }, { door: "sliding" }] } } };
    const webs = byId(built(rows).checks, "web", "warning").map(({ text }) => text);
    expect(webs[0]).toBe(
      "Shelf 5 keeps 5.65 mm between the groove for 7 and the groove for 9 on its two faces (9 mm and 3 mm deep of 17.65 mm); a third would be 5.88 mm.",
    );
    const thinner = built({ ...rows, doors: { grooves: { upper: 8, lower: 2.5 } } });
    expect(byId(thinner.checks, "web", "warning")).toEqual([]);
    expect(failed(thinner)).toEqual([]);
  });
});

describe("leaned in", () => {
  it("clears the part below by what is to spare, and is refused where its diagonal does not", () => {
    // A door 18 thick and h high is sqrt(h x h + 18 x 18) from corner to corner: 1 mm more from h = 161.5 down.
    expect(failed(opening(500, 164, { grooves: { play: 6 } }))).toEqual([]);
    expect(() => opening(500, 150, { grooves: { play: 6 } })).toThrow(
      /18 mm thick and 158 mm high, which is 1\.02 mm more from corner to corner: with 1 mm to spare it cannot be turned upright/,
    );
  });

  it("needs as much play as it leans in its groove", () => {
    expect(() => opening(500, 250)).toThrow(
      /which must lean out by 1\d(\.\d)?° to pass the front edge below: 9 mm up in its groove it then takes 2\.\d+ mm more than its thickness, and has 2 mm/,
    );
  });

  it("behind a face frame goes in between the stiles, clear of its rails", () => {
    const set = setOf(testFile("doors-sliding-framed"));
    expect(failed(set)).toEqual([]);
    const [told] = set.sliders as [SetSliders];
    const [left, , right] = told.doors;
    const lap = told.entrance.at[0] - told.opening.at[0];
    expect(lap).toBeGreaterThan(15);
    expect(left!.lean.along).toBeCloseTo(lap, 4);
    expect(right!.lean.along).toBeCloseTo(-lap, 4);
    expect(left!.lean.degrees).toBeLessThan(told.doors[1]!.lean.degrees);
    expect(() =>
      built({ doors: { count: 2 }, one: { width: 22, frame: { stock: "maple", stile: 6 } } }, "doors-sliding-framed"),
    ).toThrow(/which does not go in between stiles/);
  });

  it("sweeps no less, moved straight, than a look at many places finds, and says no more than is so", () => {
    const at = fc.integer({ min: -60, max: 60 });
    const box = fc.record({ x: at, y: at, w: fc.integer({ min: 2, max: 50 }), h: fc.integer({ min: 2, max: 50 }) }).map(
      ({ x, y, w, h }): Outline => [
        [x, y],
        [x + w, y],
        [x + w, y + h],
        [x, y + h],
      ],
    );
    fc.assert(
      fc.property(box, box, at, at, fc.integer({ min: -90, max: 90 }), (a, still, y, z, degrees) => {
        const moving = turned(a, [0, 0], (degrees * Math.PI) / 180);
        const looks = Array.from({ length: 201 }, (_, i) =>
          depthOf(
            moving.map(([u, v]): [number, number] => [u + (y * i) / 200, v + (z * i) / 200]),
            still,
          ),
        );
        const most = Math.max(...looks);
        const swept = depthMoved(moving, [y, z], still);
        if (most > 1e-6) expect(swept).toBeGreaterThanOrEqual(most - 1e-6);
        // It moves by less than a millimetre between two looks.
        if (most < -1) expect(swept).toBeLessThanOrEqual(1e-6);
      }),
      { numRuns: runs(2000), seed: SEED },
    );
  });
});

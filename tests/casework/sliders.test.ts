/** Doors that slide in grooves: by the trade's figures, over random openings, leaned in, refused where they cannot be, spoiled and found. */
import { readFileSync } from "node:fs";
import fc from "fast-check";
import { parse } from "jsonc-parser";
import { describe, expect, it } from "vitest";
import { dryFit } from "../../src/audit/dryfit.ts";
import { depthMoved } from "../../src/audit/solids/section.ts";
import { depthOf, type Outline, turned } from "../../src/audit/solids/turned.ts";
import { MM_PER_INCH } from "../../src/base/length.ts";
import { drawSliders } from "../../src/drawings/doors/sliders.ts";
import { planSet } from "../../src/plans/set.ts";
import { readProjectText } from "../../src/project/read.ts";
import type { DryfitSet, SetAssembly, SetCheck, SetFeature, SetSliders } from "../../src/set/schema.ts";
import { byId } from "../support/jobs/check-input.ts";
import { setOf, testFile } from "../support/jobs/examples.ts";
import { joinerySet, outcomeOf } from "../support/jobs/outcome.ts";
import { problemsIn } from "../support/jobs/project-file.ts";
import { textBoxes } from "../support/pages/text-boxes.ts";
import { runs, SEED } from "../support/runs.ts";

type Change = { doors?: object; one?: object; job?: object };

/** A small project with something of its doors, its case or its job changed. */
function textOf(name: string, { doors, one, job }: Change): string {
  const file = parse(readFileSync(testFile(name), "utf8"));
  const [first] = file.cases;
  return JSON.stringify({ ...file, ...job, cases: [{ ...first, ...one, doors: { ...first.doors, ...doors } }] });
}
const made = (text: string): DryfitSet => joinerySet(readProjectText(text, "sliders.json").project);
const built = (change: Change, name = "doors-sliding"): DryfitSet => made(textOf(name, change));
const failed = (set: DryfitSet): SetCheck[] =>
  [...set.checks, ...dryFit(set)].filter(({ level, id }) => level === "failure" && id !== "no-tool");

const assemblyOf = (set: DryfitSet, { assembly }: SetSliders["doors"][number]): SetAssembly =>
  set.assemblies.find(({ name }) => name === assembly)!;
const heightOf = (set: DryfitSet): number => assemblyOf(set, set.sliders[0]!.doors[0]!).size[2];
const widthOf = (set: DryfitSet): number => assemblyOf(set, set.sliders[0]!.doors[0]!).size[0];

/** One bay, so wide and high between members exactly 18 mm or 3/4 in thick. */
function opening(width: number, height: number, doors: object = {}, job: object = {}): DryfitSet {
  const isInch = (job as { unit?: string }).unit === "in";
  const thick = isInch ? 0.75 : 18;
  const sheet = isInch ? { length: 96, width: 48 } : { length: 2440, width: 1220 };
  const ply = { name: "ply", nominal: thick, measured: thick, sheet, goodFaces: 2 };
  return made(
    JSON.stringify({
      job: { number: "T", title: "Opening", date: "2026-11-20", revision: "A" },
      unit: "mm",
      ...job,
      stock: { ply },
      cases: [
        {
          name: "case",
          width: width + 2 * thick,
          height: height + 2 * thick,
          depth: isInch ? 12 : 300,
          stock: "ply",
          back: { fit: "none" },
          bays: { door: "sliding" },
          doors: { kind: "slab", stock: "ply", fit: "sliding", ...doors },
        },
      ],
    }),
  );
}

describe("by the trade's figures", () => {
  it("depths 9 and 3, opening 600: a door of 608, held 5, and 1 mm to spare when lifted", () => {
    // Depths by Fine Woodworking 2004; the rest worked by hand: 600 + 9 - 1, 9 - 3 - 1.
    const set = opening(900, 600);
    const [told] = set.sliders as [SetSliders];
    expect(heightOf(set)).toBeCloseTo(608, 6);
    expect(told.held).toBeCloseTo(5, 6);
    expect(told.spare).toBeCloseTo(1, 6);
    expect(failed(set)).toEqual([]);
  });

  it("grooves are 6 mm apart and 2 mm wider than the door's edge, 9 and 3 deep, unless it says otherwise", () => {
    // Fine Woodworking 2004.
    const [told] = opening(900, 600).sliders as [SetSliders];
    expect(told).toMatchObject({ play: 2, apart: 6, above: { depth: 9 }, below: { depth: 3 } });
    expect(told.groove).toBeCloseTo(20, 6);
    expect(told.tracks[1]! - told.tracks[0]!).toBeCloseTo(26, 6);
  });

  it("two that pass each other before 36 in, 1 in over each other: 18 1/2 each; three before 36 with 1: 12 2/3, rounded down", () => {
    // (opening + (n - 1) x overlap) / n, worked by hand.
    const two = opening(36, 30, { overlap: 1 }, { unit: "in" });
    expect(widthOf(two)).toBeCloseTo(18.5 * MM_PER_INCH, 6);
    const three = opening(36, 30, { overlap: 1, count: 3 }, { unit: "in" });
    expect(widthOf(three)).toBeCloseTo((12 + 10 / 16) * MM_PER_INCH, 6);
    expect(three.sliders[0]!.overlap).toBeCloseTo((15 / 16) * MM_PER_INCH, 6);
    expect(failed(three)).toEqual([]);
  });

  it("slides well under 2.5 times as high as wide, and is told of over that", () => {
    // Fine Woodworking 2004: 608 / 2.5 = 243.2, and doors are (opening + 25) / 2 wide.
    const shape = (width: number): SetCheck[] => byId(opening(width, 600).checks, "slider-shape", "warning");
    expect(shape(2 * 243.2 - 25)).toEqual([]);
    const [first, second] = shape(2 * 243 - 25);
    expect(second?.parts).toHaveLength(1);
    expect(`${first?.text} ${first?.change}`).toBe(
      "Case sliding door 1 is 608 mm high and 243 mm wide, 2.50 times its width: it tips in its grooves and binds when it is pulled. A door at least 244 mm wide: fewer doors or a wider bay; or hang it.",
    );
  });
});

/** Widths, overlaps and gaps make the opening; height, depths and what is to spare make the other way. */
function addsUp(set: DryfitSet): void {
  const { step } = set.job;
  for (const told of set.sliders) {
    const { opening: own, doors, overlap, above, below, held, spare } = told;
    const sizes = doors.map((door) => assemblyOf(set, door).size);
    const width = sizes.reduce((sum, [x]) => sum + x, 0) - (doors.length - 1) * overlap;
    expect(width).toBeCloseTo(own.width, 4);
    for (const [x, , z] of sizes) {
      for (const size of [x, z]) expect(Math.abs(size / step - Math.round(size / step))).toBeLessThan(1e-6);
      expect(z + spare).toBeCloseTo(own.height + above.depth, 4);
      expect(held).toBeCloseTo(above.depth - below.depth - spare, 4);
    }
  }
}

describe("over random openings", () => {
  const jobs = fc.record({
    width: fc.integer({ min: 6000, max: 11000 }),
    height: fc.integer({ min: 3500, max: 7000 }),
    thickness: fc.integer({ min: 176, max: 184 }),
    step: fc.constantFrom("0.1 mm", "0.5 mm", "1/32 in"),
    count: fc.constantFrom(2, 2, 3, 4),
    overlap: fc.integer({ min: 15, max: 30 }),
    slab: fc.boolean(),
    where: fc.constantFrom("whole", "left", "right", "below"),
    places: fc.array(fc.double({ min: 0, max: 1, noNaN: true }), { minLength: 4, maxLength: 4 }),
  });
  type Job = typeof jobs extends fc.Arbitrary<infer T> ? T : never;

  function textFor({ width, height, thickness, step, count, overlap, slab, where }: Job): string {
    const sheet = { length: 2440, width: 1220 };
    const door = { door: "sliding" };
    const bays = {
      whole: door,
      left: { columns: [{ ...door, share: 3 }, {}] },
      right: { columns: [{}, { ...door, share: 3 }] },
      below: { rows: [door, { size: 150 }] },
    }[where];
    return JSON.stringify({
      job: { number: "T", title: "Random doors", date: "2026-11-20", revision: "A" },
      unit: "mm",
      step,
      stock: {
        ply: { name: "ply", nominal: 18, measured: thickness / 10, sheet, goodFaces: 2 },
        thin: { name: "thin", nominal: 6, measured: 5.9, sheet },
      },
      cases: [
        {
          name: "case",
          width: width / 10 + (where === "left" || where === "right" ? 300 : 0),
          height: height / 10 + (where === "below" ? 200 : 0),
          depth: 300,
          stock: "ply",
          back: { fit: "none" },
          bays,
          doors: {
            kind: slab ? "slab" : "frame and panel",
            stock: "ply",
            ...(slab ? {} : { stile: 55, panel: { stock: "thin" } }),
            fit: "sliding",
            count,
            overlap,
          },
        },
      ],
    });
  }

  /** Doors somewhere on their way, those in one groove in their order: none in another, none beyond the bay. */
  function slidAnywhere(set: DryfitSet, places: readonly number[]): void {
    for (const told of set.sliders) {
      const { at, width } = told.opening;
      const boxes = told.doors.map((door, i) => {
        const { place, size, travel } = assemblyOf(set, door);
        if (travel.kind !== "slide") throw new Error("a door that does not slide");
        const [from, to] = travel.range;
        const x = place.at[0] + from + places[i]! * (to - from);
        return { track: door.track, x: [x, x + size[0]] as const, y: [place.at[1], place.at[1] + size[1]] as const };
      });
      for (const [i, one] of boxes.entries()) {
        expect(one.x[0]).toBeGreaterThanOrEqual(at[0] - 1e-6);
        expect(one.x[1]).toBeLessThanOrEqual(at[0] + width + 1e-6);
        const [front, rear] = [told.tracks[one.track]!, told.tracks[one.track]! + told.groove];
        expect(one.y[0]).toBeGreaterThan(front);
        expect(one.y[1]).toBeLessThan(rear);
        for (const other of boxes.slice(i + 1))
          if (other.track !== one.track)
            expect(Math.max(other.y[0] - one.y[1], one.y[0] - other.y[1])).toBeGreaterThan(5);
      }
    }
  }

  it("adds up after rounding, slides without a collision at any place, and fits", () => {
    let doors = 0;
    fc.assert(
      fc.property(jobs, (job) => {
        const outcome = outcomeOf(textFor(job));
        if (outcome.kind === "refused") throw new Error(outcome.problems.map(({ found }) => found).join("\n"));
        expect(outcome.failures.filter(({ id }) => id !== "no-tool").map(({ text }) => text)).toEqual([]);
        addsUp(outcome.set);
        slidAnywhere(outcome.set, job.places);
        doors += outcome.set.sliders.reduce((sum, told) => sum + told.doors.length, 0);
      }),
      { numRuns: runs(60), seed: SEED },
    );
    expect(doors).toBeGreaterThan(runs(60));
  });
});

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

describe("with its finish on, and through the seasons", () => {
  const finish = (coats: number): object => ({
    finish: [{ name: "enamel", kind: "film", parts: ["slab"], coats, coverage: "12 m2/l", dry: 4 }],
  });
  it("keeps play in its grooves, or it is told of", () => {
    // 0.05 mm a coat on each face, and 1 mm to be left: common practice, no source.
    expect(byId(built({ job: finish(10) }).checks, "slider-film").map(({ level }) => level)).toEqual(["ok"]);
    const [first] = byId(built({ job: finish(11) }).checks, "slider-film", "warning");
    expect(`${first?.text} ${first?.change}`).toBe(
      'Cabinet sliding door 1 has 2 mm of play in its grooves; 0.55 mm of finish on each face leaves 0.9 mm. "play" of 2.1 mm or more, or fewer coats.',
    );
  });

  it("a slab whose grain runs level grows in height", () => {
    const glued = {
      name: "edge-glued maple",
      nominal: 18,
      measured: 18,
      sheet: { length: 1200, width: 700 },
      solid: true,
      species: { name: "sugar maple", tangential: 0.00353, radial: 0.00165, source: "Wood Handbook 2010, table 13-5" },
    };
    const file = parse(readFileSync(testFile("doors-sliding"), "utf8"));
    const job = { stock: { ...file.stock, glued }, moisture: { made: 8, driest: 6, wettest: 12 } };
    const level = built({ job, doors: { stock: "glued", grain: "level" } });
    // 612.6 x 0.00353 x 4 = 8.65 (Wood Handbook 2010, chapter 13).
    expect(byId(level.checks, "slider-seasons", "warning")[0]?.text).toContain(
      "grows 8.65 mm in height, and with 1.05 mm to spare no longer comes out; it shrinks 4.32 mm, and is then held above by 0.63 mm",
    );
    expect(byId(built({ job, doors: { stock: "glued" } }).checks, "slider-seasons")).toEqual([]);
  });
});

describe("what cannot slide is said at its place", () => {
  const said = (change: Change): string[] =>
    problemsIn(textOf("doors-sliding", change)).map(({ where, found }) => `${where?.path}: ${found}`);

  it.each<[string, Change, string]>([
    ["hinges", { doors: { hinges: { kind: "butt" } } }, 'cases[0].doors.hinges: "hinges" with "fit": "sliding"'],
    ["a gap", { doors: { gap: 2 } }, 'cases[0].doors.gap: "gap" with "fit": "sliding"'],
    [
      "grooves of a door that hangs",
      {
        doors: { fit: "inset", hinges: { kind: "butt" }, grooves: {}, pull: undefined },
        one: { bays: { door: "left" } },
      },
      'cases[0].doors.grooves: "grooves" with "fit": "inset"',
    ],
    [
      "no hinges",
      { doors: { fit: "inset", pull: undefined }, one: { bays: { door: "left" } } },
      'cases[0].doors: doors with "fit": "inset" and without "hinges"',
    ],
    [
      "no bay",
      { one: { bays: {} } },
      'cases[0].doors: how the sliding doors of "cabinet" are made, and no bay has one',
    ],
    [
      "a hinged word",
      { one: { bays: { columns: [{ door: "sliding" }, { door: "left" }] } } },
      'cases[0].bays.columns[1].door: a door on hinges in "cabinet", whose doors slide',
    ],
    [
      "shelves in the way",
      { one: { bays: { door: "sliding", rows: [{}, {}] } } },
      'cases[0].bays.door: doors that slide in a bay of "cabinet", whose shelves come to the front',
    ],
    [
      "no depth left for the pins of loose shelves",
      { one: { depth: 160, bays: { door: "sliding", loose: 1 } } },
      'cases[0].pins.fromFront: two rows of pins in "cabinet", 142.2 mm deep inside: 37 mm from the doors, which take 43.6 mm of it, and 37 mm from the back',
    ],
    [
      "held by too little",
      { doors: { grooves: { upper: 7 } } },
      'cases[0].doors.grooves: sliding doors in "cabinet" that their upper grooves hold by 3 mm: 7 mm deep, less 3 mm below and 1 mm to spare',
    ],
    [
      "too deep a groove",
      { doors: { grooves: { upper: 10 } } },
      'cases[0].doors.grooves: grooves for sliding doors 10 mm deep in "cabinet", in stock of 18 mm',
    ],
    [
      "too near each other",
      { doors: { grooves: { apart: 5 } } },
      'cases[0].doors.grooves: grooves for sliding doors 5 mm apart in "cabinet"',
    ],
    [
      "no depth for two",
      { one: { depth: 60 } },
      'cases[0].doors: sliding doors whose two grooves take 43.6 mm of the depth of "cabinet", which is 42.2 mm inside',
    ],
    [
      "a recess through the door",
      { doors: { pull: { height: 300, depth: 7 } } },
      'cases[0].doors.pull.depth: a recess 7 mm deep in doors of 12 mm, in "cabinet"',
    ],
  ])("%s", (_, change, words) => {
    expect(said(change)).toContain(words);
  });

  it("sliding doors in a case whose doors hang, or that has none", () => {
    const file = parse(readFileSync(testFile("doors-overlay"), "utf8"));
    const [one] = file.cases;
    const bays = { columns: [{ door: "sliding" }, { door: "left" }] };
    const [hung] = problemsIn(JSON.stringify({ ...file, cases: [{ ...one, bays }] }));
    expect(hung?.found).toBe('a sliding door in "cabinet", whose doors hang on hinges');
    const { doors: _doors, ...bare } = one;
    const [none] = problemsIn(JSON.stringify({ ...file, cases: [{ ...bare, bays: { door: "sliding" } }] }));
    expect(none?.found).toBe('a sliding door in "cabinet", which does not say how its doors are made');
  });

  it("doors that cover all of each other, and a knob in the next one's way", () => {
    expect(() => built({ doors: { overlap: 800 } })).toThrow(
      /"cabinet sliding door 1", 782\.35 mm wide, and the next one 800 mm over it/,
    );
    const knobs = failed(built({ doors: { knob: { height: 300 }, pull: undefined } }));
    expect(knobs.map(({ text, change }) => `${text} ${change}`)).toEqual([
      "Cabinet sliding door 1 cannot slide by: slab 8 meets the knob of cabinet sliding door 2, 11.8 mm into each other. A recess instead of a knob, or one that stands out less.",
    ]);
  });
});

describe("measured on the piece", () => {
  it("doors follow, grooves stay as they were cut", () => {
    const plain = built({});
    const measured = built({ job: { asBuilt: { "cabinet/bay 1": { width: 763, height: 603.5 } } } });
    const cut = (set: DryfitSet): SetFeature[] =>
      set.parts.flatMap(({ mark, features }) => (mark === "3" ? features : []));
    expect(cut(measured)).toEqual(cut(plain));
    expect(heightOf(measured)).toBeCloseTo(611.5, 6);
    expect(widthOf(measured)).toBeCloseTo(394, 6);
    expect(failed(measured)).toEqual([]);
  });
});

describe("spoiled, and found", () => {
  /** Failures that a set has when one thing in it is changed. */
  const foundBy = (spoil: (set: DryfitSet, told: SetSliders) => void, name = "doors-sliding"): Set<string> => {
    const set = structuredClone(setOf(testFile(name)));
    spoil(set, set.sliders[0]!);
    return new Set(
      dryFit(set)
        .filter(({ level }) => level === "failure")
        .map(({ id }) => id),
    );
  };
  const move = (set: DryfitSet, told: SetSliders, door: number, axis: number): void => {
    assemblyOf(set, told.doors[door]!).place.at[axis]! += 0.2;
  };
  const grooveOf = (set: DryfitSet, mark: string, at: number): SetFeature =>
    set.parts.find((part) => part.mark === mark)!.features.find((one) => one.along === "l" && one.at === at)!;

  it.each<[string, string, (set: DryfitSet, told: SetSliders) => void]>([
    ["standing too high", "slider", (set, told) => move(set, told, 0, 2)],
    ["standing too far back", "slider", (set, told) => move(set, told, 1, 1)],
    ["standing to the right", "slider-sum", (set, told) => move(set, told, 0, 0)],
    [
      "told to be held by more",
      "slider",
      (_, told) => {
        told.held += 0.2;
      },
    ],
    [
      "told to have more play",
      "slider",
      (_, told) => {
        told.play += 0.2;
      },
    ],
    [
      "told to be farther apart",
      "slider-groove",
      (_, told) => {
        told.apart += 0.2;
      },
    ],
    [
      "a groove out of line with the other",
      "slider-groove",
      (set, told) => {
        const groove = grooveOf(set, told.below.mark, 10);
        groove.at += 0.4;
        groove.box = [
          [groove.box[0][0], groove.box[0][1] + 0.4, groove.box[0][2]],
          [groove.box[1][0], groove.box[1][1] + 0.4, groove.box[1][2]],
        ];
      },
    ],
    [
      "a groove that ends too soon",
      "slider-travel",
      (set, told) => {
        const groove = grooveOf(set, told.above.mark, 29.8);
        groove.to -= 5;
        groove.box = [groove.box[0], [groove.box[1][0] - 5, groove.box[1][1], groove.box[1][2]]];
      },
    ],
    [
      "a groove that goes on beyond the bay",
      "slider-groove",
      (set, told) => {
        const groove = grooveOf(set, told.below.mark, 10);
        groove.to += 100;
        groove.box = [groove.box[0], [groove.box[1][0] + 100, groove.box[1][1], groove.box[1][2]]];
      },
    ],
    [
      "travel beyond the side",
      "slider-travel",
      (set, told) => {
        const { travel } = assemblyOf(set, told.doors[0]!);
        if (travel.kind === "slide") travel.range = [0, travel.range[1] + 0.5];
      },
    ],
    [
      "travel short of the side",
      "slider-travel",
      (set, told) => {
        const { travel } = assemblyOf(set, told.doors[1]!);
        if (travel.kind === "slide") travel.range = [travel.range[0] + 0.5, 0];
      },
    ],
    [
      "leaned out too little to pass the edge",
      "slider-lift",
      (_, told) => {
        told.doors[1]!.lean.degrees -= 1;
      },
    ],
    [
      "lifted too far",
      "slider-lift",
      (_, told) => {
        told.doors[0]!.lean.up += 0.2;
      },
    ],
    [
      "leaned before it is at the rear wall",
      "slider-lift",
      (_, told) => {
        told.doors[1]!.lean.back = -0.5;
      },
    ],
    [
      "a door that nothing tells of",
      "slider-groove",
      (_, told) => {
        told.doors.pop();
      },
    ],
    [
      "no list of them at all",
      "door",
      (set) => {
        set.sliders = [];
      },
    ],
  ])("%s", (_, id, spoil) => {
    expect(foundBy(spoil)).toContain(id);
  });

  it("put in behind a stile", () => {
    const found = foundBy((_, told) => {
      told.doors[0]!.lean.along = 0;
    }, "doors-sliding-framed");
    expect(found).toContain("slider-lift");
  });

  it("nothing in what was not touched", () => {
    expect(foundBy(() => {})).toEqual(new Set());
    expect(foundBy(() => {}, "doors-sliding-framed")).toEqual(new Set());
  });

  it("whole sets are planned from either", () => {
    const { project } = readProjectText(readFileSync(testFile("doors-sliding"), "utf8"), "sliders.json");
    expect(planSet(project, { draft: false, olderSet: null }).finishes[0]?.parts).toEqual(["8", "9"]);
  });
});

describe("the drawing of framed doors in grooves", () => {
  const set = setOf(testFile("doors-sliding-framed"));
  const drafts = drawSliders(set);
  const said = drafts
    .map(({ shapes }) =>
      textBoxes(shapes)
        .map(({ text }) => text)
        .join(" "),
    )
    .join(" ");

  it("says what its panel has free, and shows its joints at full size", () => {
    expect(said).toContain("stays loose, no glue");
    const [panel, rail] = ["doorPanel", "doorRail"].map((role) => set.parts.find((part) => part.role === role)!.mark);
    expect(said).toMatch(new RegExp(`Panel ${panel} in stile .*Rail ${rail} in stile `));
  });

  it("has none of that where they are in one piece", () => {
    const slabs = drawSliders(setOf(testFile("doors-sliding")));
    const words = slabs.flatMap(({ shapes }) => textBoxes(shapes).map(({ text }) => text)).join(" ");
    expect(words).not.toMatch(/stays loose|in stile/);
  });
});

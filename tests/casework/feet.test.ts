/** Feet under a case: where they stand, what is told of them, and what is found where they do not fit. */
import { describe, expect, it } from "vitest";
import { dryFit } from "../../src/audit/dryfit.ts";
import { checkFooting } from "../../src/plans/checks/footing.ts";
import { standingPieces } from "../../src/plans/checks/piece.ts";
import { staticsOf } from "../../src/plans/checks/tipping.ts";
import type { DryfitSet } from "../../src/set/schema.ts";
import { caseJob, checkInputOf } from "../support/jobs/check-input.ts";
import { setOf, testFile } from "../support/jobs/examples.ts";
import { problemsIn } from "../support/jobs/project-file.ts";

const set = setOf(testFile("feet"));
const [base, cabinet] = set.assemblies as [DryfitSet["assemblies"][number], DryfitSet["assemblies"][number]];
const bottom = set.parts.find(({ role }) => role === "bottom")!;

describe("six levelling feet under a cabinet 1200 mm wide", () => {
  it("stand along front and rear, each over a hole in the underside of the bottom", () => {
    // 40 mm feet, 5 mm inside the ends: their middles 25 mm in, and no two more than 900 mm apart.
    const xs = [25, 600, 1175];
    expect(base.feet!.middles).toEqual([...xs.map((x) => [x, 25]), ...xs.map((x) => [x, 375])]);
    const holes = bottom.features.filter(({ kind }) => kind === "hole");
    expect(holes.map(({ face, depth, width }) => [face, depth, width])).toEqual(Array(6).fill(["t0", 10, 8]));
    expect(cabinet.place.at[2]).toBe(60);
    expect(dryFit(set).filter(({ level }) => level === "failure")).toEqual([]);
  });

  it("are bought, drilled for, screwed on before it is stood up, and no glue-up of their own", () => {
    expect(set.purchase.find(({ what }) => what === "levelling feet")).toMatchObject({
      quantity: 6,
      size: "60 x 40 mm",
    });
    expect(set.purchase.filter(({ what }) => what === "Shelf pins")).toEqual([]);
    expect(set.drilling.map(({ holds, rows }) => [holds, rows.map(({ row, count }) => [row, count])])).toEqual([
      [
        "feet",
        [
          ["front feet", 3],
          ["rear feet", 3],
        ],
      ],
    ]);
    expect(set.orders.map(({ assembly }) => assembly)).toEqual([cabinet.name]);
    const titles = set.steps.map(({ title }) => title);
    expect(titles.filter((title) => title.includes(base.name))).toEqual([]);
    expect(titles.indexOf("Screw the feet under record cabinet")).toBeGreaterThan(titles.indexOf("Sand and finish"));
  });

  it("carry the piece and its load, and make good a floor 8 mm out", () => {
    const texts = set.checks.filter(({ id }) => ["footing", "feet", "level"].includes(id)).map(({ text }) => text);
    expect(texts).toEqual([
      expect.stringMatching(
        /^record cabinet: shelves and top by left side 1 and right side 2 on to bottom 3, and through it into 6 feet/,
      ),
      expect.stringMatching(/on each of 6 feet; one carries 60\.0 kg/),
      "record cabinet feet can be set 15 mm from its lowest to its highest, and the floor is out by 8 mm.",
    ]);
  });

  it("are what the piece tips over, by statics: front feet 25 - 20 mm back", () => {
    const input = checkInputOf(caseJob([600, 500, 300], { feet: { height: 50, fromEdges: 60 } }));
    const [piece] = standingPieces(input);
    expect(staticsOf(piece!).feet).toBeCloseTo(60 - 20, 6);
    expect(piece!.size[2]).toBe(550);
  });

  it.each<[string, (of: DryfitSet) => DryfitSet]>([
    ["a foot two steps beside its hole", (of) => withFeet(of, ([x, y], i) => (i === 4 ? [x + 0.2, y] : [x, y]))],
    [
      "feet two steps too high",
      (of) => edited(of, (one) => ({ ...one, feet: one.feet && { ...one.feet, height: one.feet.height + 0.2 } })),
    ],
    [
      "feet that stand out from under the case",
      (of) => edited(of, (one) => ({ ...one, feet: one.feet && { ...one.feet, diameter: 60 } })),
    ],
    [
      "a case two steps above its feet",
      (of) =>
        edited(of, (one) =>
          one.kind === "case"
            ? { ...one, place: { ...one.place, at: [one.place.at[0], one.place.at[1], one.place.at[2] + 0.2] } }
            : one,
        ),
    ],
  ])("%s is found", (_, change) => {
    expect(dryFit(change(set)).filter(({ id, level }) => id === "feet" && level === "failure")).not.toEqual([]);
  });
});

type Assembly = DryfitSet["assemblies"][number];
const edited = (of: DryfitSet, change: (one: Assembly) => Assembly): DryfitSet => ({
  ...of,
  assemblies: of.assemblies.map(change),
});
const withFeet = (of: DryfitSet, move: (middle: readonly [number, number], i: number) => [number, number]): DryfitSet =>
  edited(of, (one) => ({ ...one, feet: one.feet && { ...one.feet, middles: one.feet.middles.map(move) } }));

describe("the way of the load to the floor", () => {
  const told = (more: Record<string, unknown>, job: Record<string, unknown> = {}): string[] =>
    checkFooting(checkInputOf(caseJob([600, 800, 300], more, job))).map(({ level, text }) => `${level}: ${text}`);

  it.each<[string, Record<string, unknown>, RegExp]>([
    [
      "sides on the floor",
      {},
      /^ok: case: shelves, top and bottom 3 by their joints into left side 1 and right side 2, which stand on the floor/,
    ],
    ["sides on the bottom", { bottom: { fit: "under" } }, /^ok: .* on to bottom 3, which lies on the floor/],
    [
      "a plinth flush with the ends",
      { plinth: { height: 80, setBack: 40 } },
      /^ok: .* straight on to the ends of case plinth/,
    ],
    [
      "a plinth inside the ends",
      { plinth: { height: 80, setBack: 40, inset: 60 } },
      /^note: .*stands 60 mm inside the ends, so that .* hang on the joints of bottom/,
    ],
    ["feet beside the sides", { feet: { height: 50 } }, /through it into 4 feet, their middles 25 mm inside the sides/],
  ])("%s", (_, more, text) => {
    expect(told(more)).toEqual([expect.stringMatching(text)]);
  });

  it("warns of feet too weak, of too short a thread, and of a floor that nothing makes good", () => {
    const weak = { feet: { height: 50, rating: "5 kg", range: { down: 2, up: 3 } } };
    expect(told(weak, { floor: { out: 8 } }).slice(1)).toEqual([
      expect.stringMatching(/^warning: case weighs/),
      "warning: case feet can be set 5 mm from its lowest to its highest, and the floor is out by 8 mm.",
    ]);
    expect(told({}, { floor: { out: 8 } })).toContainEqual(
      "note: case has nothing to level it with, and the floor is out by 8 mm.",
    );
  });
});

describe("feet that cannot be are said at their place", () => {
  const said = (feet: Record<string, unknown>, more: Record<string, unknown> = {}): (string | undefined)[] =>
    problemsIn(caseJob([600, 800, 300], { feet: { height: 60, ...feet }, ...more })).map(({ where }) => where?.path);

  it.each<[string, Record<string, unknown>, Record<string, unknown>, string]>([
    ["with a kick", {}, { kick: {}, bottom: { up: 80 } }, "cases[0].feet"],
    ["under a raised bottom", {}, { bottom: { up: 80 } }, "cases[0].bottom.up"],
    ["under a side", { fromEnds: 20 }, {}, "cases[0].feet.fromEnds"],
    ["out at the front", { fromEdges: 15 }, {}, "cases[0].feet.fromEdges"],
    ["into each other", { fromEnds: 290 }, {}, "cases[0].feet"],
    ["in holes through the bottom", { hole: { diameter: 8, depth: 16 } }, {}, "cases[0].feet.hole"],
    ["under a case that stands too low", {}, { at: [0, 0, 20] }, "cases[0].at"],
  ])("%s", (_, feet, more, path) => {
    expect(said(feet, more)).toContain(path);
  });
});

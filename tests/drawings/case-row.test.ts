import { describe, expect, it } from "vitest";
import { formatLength } from "../../src/base/length.ts";
import { drawRows, rowSizes } from "../../src/drawings/cases/case-row.ts";
import type { ViewKind } from "../../src/drawings/cases/case-view.ts";
import { drawCases, viewsOf } from "../../src/drawings/cases/case-views.ts";
import { drawCover } from "../../src/drawings/lists/cover.ts";
import type { Shape } from "../../src/paper/shape.ts";
import type { DryfitSet } from "../../src/set/schema.ts";
import { exampleFile, setOf, testFile } from "../support/jobs/examples.ts";
import { textBoxes } from "../support/pages/text-boxes.ts";

const textsOn = (shapes: readonly Shape[]): string[] => textBoxes(shapes).map(({ text }) => text);

const boldOn = (shapes: readonly Shape[]): string[] =>
  shapes.flatMap((shape) =>
    shape.kind === "group"
      ? boldOn(shape.shapes)
      : shape.kind === "text" && shape.weight === "bold"
        ? [shape.text]
        : [],
  );

const marksOn = (shapes: readonly Shape[]): string[] => boldOn(shapes).filter((text) => /^\d+$/.test(text));

const pensOn = (shapes: readonly Shape[]): (string | null)[] =>
  shapes.flatMap((shape) =>
    shape.kind === "group" ? pensOn(shape.shapes) : shape.kind === "path" && shape.steps.length > 0 ? [shape.pen] : [],
  );

describe("cases that stand together", () => {
  it("share one front view: each part once, the shared side too, and the row over all", () => {
    const set = setOf(testFile("shared-side"));
    const [row, ...others] = drawRows(set);
    expect(others).toEqual([]);
    expect(row!.name).toBe("Front view and plan, one and two together");
    // Every part of both cases shows from the front.
    expect([...new Set(marksOn(row!.shapes))].sort()).toEqual(set.parts.map(({ mark }) => mark).sort());
    for (const size of ["600", "500", "1100", "800"]) expect(textsOn(row!.shapes)).toContain(size);
  });

  it("are added up: beside each other across, on each other upwards, as deep as the deepest reaches", () => {
    expect(rowSizes(setOf(testFile("shared-side")))).toMatchObject([{ names: "one and two", size: [1100, 300, 800] }]);
    expect(rowSizes(setOf(testFile("stacked")))).toMatchObject([{ names: "lower and upper", size: [600, 450, 1200] }]);
    const [rack] = rowSizes(setOf(testFile("twin-rack-in")));
    // Two cases of 30 and 20 in, 30 in high on plinths of 4 in.
    expect(rack!.size.map((size) => (size / 25.4).toFixed(6))).toEqual(["50.000000", "16.000000", "34.000000"]);
  });

  it("are no row where they stand apart, or one stands alone", () => {
    expect(drawRows(setOf(testFile("plain-box")))).toEqual([]);
    const set = setOf(testFile("shared-side"));
    const apart: DryfitSet = {
      ...set,
      assemblies: set.assemblies.map((one, i) =>
        i === 0 ? one : { ...one, place: { ...one.place, at: [610, 0, 0] } },
      ),
    };
    expect(drawRows(apart)).toEqual([]);
    const behind: DryfitSet = {
      ...set,
      assemblies: set.assemblies.map((one, i) =>
        i === 0 ? one : { ...one, place: { ...one.place, at: [0, 300, 0] } },
      ),
    };
    expect(drawRows(behind)).toEqual([]);
  });

  it("have their overall sizes on the cover, and are all in its list", () => {
    const set = setOf(exampleFile("wedging-pair"));
    const text = textsOn(drawCover(set, [])[0]!.shapes).join(" ");
    expect(text).toContain(
      "wedging stand, clay locker 1 and clay locker 2 together: 1500 wide, 820 high, 480 deep, mm",
    );
  });

  it("measure over all with what is fixed to them", () => {
    const cover = (file: string): string => textsOn(drawCover(setOf(file), [])[0]!.shapes).join(" ");
    // By hand: 72 and a frame that stands out 3/4 at either end, the top 1 beyond; 32 and a top of 1; 16, a frame of 3/4, the top 4 beyond.
    expect(cover(exampleFile("glaze-console"))).toMatch(
      /72 wide, 32 high, 16 deep, in \(with face frame, doors and worktop 75 1 2 wide, 33 high, 20 3 4 deep\)/,
    );
    const overlaid = setOf(testFile("doors-overlay"));
    const thick = overlaid.assemblies.find(({ kind }) => kind === "door")!.size[1];
    const deep = overlaid.assemblies.find(({ kind }) => kind === "case")!.size[1];
    expect(cover(testFile("doors-overlay"))).toContain(`(with doors ${formatLength(deep + thick, "mm")} deep)`);
    expect(cover(testFile("plain-box"))).not.toContain("(with");
  });
});

/** The views of a kind of a case, at one to ten. */
const shown = (
  set: DryfitSet,
  kind: ViewKind,
  name = set.assemblies.find((one) => one.kind === "case")!.name,
): Shape[] =>
  viewsOf(set, set.assemblies.find((one) => one.name === name)!)
    .filter((view) => view.kind === kind)
    .flatMap(({ draw }) => draw(1 / 10, true).shapes);

describe("a side of the case beside", () => {
  it("is drawn as a neighbour, marked, and left out of the width over all", () => {
    const set = setOf(testFile("shared-side"));
    for (const kind of ["front", "plan", "level section"] as const) {
      const shapes = shown(set, kind, "two");
      expect(pensOn(shapes), kind).toContain("neighbour");
      expect(textsOn(shapes), kind).toContain("500");
      expect(textsOn(shapes), kind).not.toContain("517.6");
    }
    expect(marksOn(shown(set, "front", "two"))).toContain("2");
    for (const kind of ["front", "side", "plan", "level section"] as const) {
      expect(pensOn(shown(set, kind, "one")), kind).not.toContain("neighbour");
    }
  });
});

describe("a case on a plinth", () => {
  const set = setOf(testFile("plinth")); // 900 x 800 x 300 on 90, 50 back, 10 in at the other sides

  it("is 890 high from the floor in every view, and on the cover", () => {
    for (const kind of ["front", "side"] as const)
      for (const size of ["890", "800", "90"]) expect(textsOn(shown(set, kind)), kind).toContain(size);
    expect(textsOn(shown(set, "upright section"))).toContain("890");
    const cover = textsOn(drawCover(set, [])[0]!.shapes).join(" ");
    expect(cover).toContain("900 wide, 890 high, 300 deep, mm (of the height 90 is its plinth)");
  });

  it("shows how far the plinth stands in at each side", () => {
    const [front, side] = [shown(set, "front"), shown(set, "side")];
    const tens = (shapes: readonly Shape[], list: (of: readonly Shape[]) => string[]): number =>
      list(shapes).filter((text) => text === "10").length;
    expect(tens(front, textsOn) - tens(front, boldOn)).toBe(2); // part 10 has its mark there, too
    for (const size of ["50", "240", "10"]) expect(textsOn(side)).toContain(size);
  });

  it("has its ends and ribs in a view of their own, with what is clear between them", () => {
    const plinth = shown(set, "plinth");
    const parts = set.parts.filter(({ role }) => role === "plinth");
    expect(marksOn(plinth).sort()).toEqual(parts.map(({ mark }) => mark).sort());
    // (880 - 3 x 17.6) / 2, and 240 - 2 x 17.6.
    expect(textsOn(plinth).filter((text) => text === "413.6")).toHaveLength(2);
    for (const size of ["880", "240", "204.8"]) expect(textsOn(plinth)).toContain(size);
  });
});

describe("loose shelves", () => {
  const set = setOf(testFile("loose-shelves"));

  it("are dashed in the front view and the section, and bound no clear size", () => {
    const bay = set.openings.find(({ name }) => name === "bay 2")!;
    for (const kind of ["front", "upright section"] as const) {
      expect(pensOn(shown(set, kind)), kind).toContain("hidden");
      expect(textsOn(shown(set, kind)), kind).toContain(String(bay.height));
    }
    const loose = set.parts.filter(({ role }) => role === "looseShelf").map(({ mark }) => mark);
    expect(marksOn(shown(set, "front"))).toEqual(expect.arrayContaining(loose));
    const none = drawCases(setOf(testFile("plain-box")));
    for (const draft of none) expect(pensOn(draft.shapes)).not.toContain("hidden");
  });

  it("are told with their pins: from where to where, and the clear room as drawn adds up to the bay", () => {
    const [front] = drawCases(set);
    const text = textsOn(front!.shapes)
      .join(" ")
      .replaceAll(/ ([,;])/g, "$1");
    const told =
      /bay 2: 7 and 8 loose on pins, drawn dashed; undersides ([\d.]+) to ([\d.]+) in steps of 32 over the foot of the case; clear as drawn, from below: ([\d.]+), ([\d.]+) and ([\d.]+)/.exec(
        text,
      )!;
    const [lowest, highest, ...clears] = told.slice(1).map(Number);
    const bay = set.openings.find(({ name }) => name === "bay 2")!;
    const shelves = set.parts.filter(({ role }) => role === "looseShelf");
    const wood = shelves.reduce((sum, { thickness }) => sum + thickness, 0);
    expect(clears.reduce((sum, clear) => sum + clear, 0) + wood).toBeCloseTo(bay.height, 1);
    // Each shelf lies on a pin: its underside is one of those told.
    for (const { place } of shelves) {
      const steps = (place!.at[2] - lowest!) / 32;
      expect(Math.abs(steps - Math.round(steps))).toBeLessThan(1e-6);
      expect(place!.at[2]).toBeLessThanOrEqual(highest!);
    }
  });
});

/** The sideboard: base, case, frame, doors, drawers and worktop in one job; they fit, are made in an order that works, and are all drawn and bought. */
import { describe, expect, it } from "vitest";
import { hasFailed } from "../../src/build.ts";
import { drawBundle } from "../../src/drawings/bundle.ts";
import { checkLettering } from "../../src/writers/lettered.ts";
import { exampleFile, setOf } from "../support/jobs/examples.ts";
import { partedFigures } from "../support/pages/parted-figures.ts";

describe("the sideboard", () => {
  const set = setOf(exampleFile("tile-sideboard"));
  const kindOf = (assembly: string): string => set.assemblies.find(({ name }) => name === assembly)!.kind;

  it("fits, closed, open and at both ends of travel", () => {
    expect(set.checks.filter(({ level }) => level === "failure")).toEqual([]);
    expect(hasFailed(set)).toBe(false);
  });

  it("has every kind of assembly", () => {
    expect([...new Set(set.assemblies.map(({ kind }) => kind))].sort()).toEqual([
      "base",
      "case",
      "door",
      "drawer",
      "frame",
      "packing",
      "worktop",
    ]);
  });

  it("has each part in a step, what follows from the case only when the case is glued", () => {
    const glued = set.steps.findIndex(({ title }) => title.includes("glue up sideboard") && !title.includes("plinth"));
    const follows = ["frame", "door", "worktop"];
    for (const { mark, assembly } of set.parts) {
      const first = set.steps.findIndex(({ parts }) => parts.includes(mark));
      expect(first, mark).toBeGreaterThan(0);
      if (follows.includes(kindOf(assembly))) expect(first, `${assembly} ${mark}`).toBeGreaterThan(glued);
    }
  });

  it("buys its sheets, boards, lumber, hinges, knobs, slides and finish", () => {
    const bought = set.purchase.map(({ what }) => what.toLowerCase()).join("; ");
    for (const what of ["plywood", "maple", "framing lumber", "hinge", "knob", "slides", "oil"]) {
      expect(bought).toContain(what);
    }
  });

  it("is drawn and lettered whole, each part with its own drawing", () => {
    const pages = drawBundle(set);
    checkLettering(Object.values(pages).flat());
    expect(
      [...pages.drawings, ...pages.sticks, ...pages.labels].flatMap(({ shapes }) => partedFigures(shapes)),
    ).toEqual([]);
    const drawn = pages.drawings.filter(({ key }) => key.startsWith("part-")).map(({ title }) => title);
    for (const { mark } of set.parts) {
      expect(
        drawn.some((title) => new RegExp(`\\b${mark}\\b`).test(title)),
        mark,
      ).toBe(true);
    }
  });
});

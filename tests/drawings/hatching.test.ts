/** Sections are hatched by material, neighbours leaning opposite ways (ISO 128-3, from memory), and say what the hatching means. */
import { describe, expect, it } from "vitest";
import { sectionViewsOf } from "../../src/drawings/cases/section.ts";
import { drawView, hatchWords } from "../../src/drawings/draughting/picture.ts";
import type { Solid } from "../../src/drawings/solids/solid.ts";
import { FROM_FRONT, viewOf } from "../../src/drawings/solids/view.ts";
import type { Shape } from "../../src/paper/shape.ts";
import { setOf, testFile } from "../support/jobs/examples.ts";
import { segmentsOf } from "../support/pages/lines.ts";
import { textBoxes } from "../support/pages/text-boxes.ts";

const block = (mark: string, x: number, isWood: boolean): Solid => ({
  mark,
  boxes: [
    [
      [x, 0, 0],
      [x + 40, 100, 40],
    ],
  ],
  ...(isWood ? { isWood: true as const } : {}),
});

/** How many hatch lines each of two blocks side by side gets, and which way they lean. */
function hatchingOf(solids: readonly Solid[]): { count: number; rises: boolean }[] {
  const hatches = drawView(viewOf(solids, FROM_FRONT, 50), 1).shapes.filter(
    (shape) => shape.kind === "path" && shape.pen === "hatch",
  );
  return hatches.map((shape: Shape) => {
    const lines = segmentsOf([shape]);
    const [{ x0, y0, x1, y1 }] = lines as [(typeof lines)[number]];
    return { count: lines.length, rises: (y1 - y0) / (x1 - x0) < 0 };
  });
}

describe("what is cut through", () => {
  it("is hatched wider apart where it is solid wood, and leans the other way than its neighbour", () => {
    const [panel, wood] = hatchingOf([block("1", 0, false), block("2", 40, true)]);
    expect(panel!.count).toBeGreaterThan(1.5 * wood!.count);
    expect(panel!.rises).not.toBe(wood!.rises);
  });

  it("is told apart in words only where both kinds are cut", () => {
    const said = (solids: readonly Solid[]): string => hatchWords(viewOf(solids, FROM_FRONT, 50));
    expect(said([block("1", 0, false), block("2", 40, true)])).toBe("hatched close: panels; wide: solid wood");
    expect(said([block("1", 0, false), block("2", 40, false)])).toBe("");
    expect(hatchWords(viewOf([block("1", 0, true), block("2", 40, false)], FROM_FRONT))).toBe("");
  });

  it("says so under a section through a plywood case with a face frame of solid wood", () => {
    const set = setOf(testFile("face-frame"));
    const drawn = set.assemblies.find(({ kind }) => kind === "case")!;
    const words = sectionViewsOf(set, drawn).flatMap(({ draw }) =>
      textBoxes(draw(1 / 5, true).shapes).map(({ text }) => text),
    );
    expect(words.join(" ")).toContain("hatched close: panels; wide: solid wood");
  });
});

/** Sections are hatched by material, neighbours leaning opposite ways (ISO 128-3, from memory), and say what the hatching means. */
import { describe, expect, it } from "vitest";
import { sectionViewsOf } from "../../src/drawings/cases/section.ts";
import { drawView, hatchWords } from "../../src/drawings/draughting/picture.ts";
import type { Solid } from "../../src/drawings/solids/solid.ts";
import { FROM_ABOVE, FROM_FRONT, viewOf } from "../../src/drawings/solids/view.ts";
import { edgeSection } from "../../src/drawings/worktops/edge-section.ts";
import { fromAbove } from "../../src/drawings/worktops/worktop-views.ts";
import type { Shape } from "../../src/paper/shape.ts";
import type { SetWorktop } from "../../src/set/schema.ts";
import { setOf, testFile } from "../support/jobs/examples.ts";
import { segmentsOf } from "../support/pages/lines.ts";
import { textBoxes } from "../support/pages/text-boxes.ts";
import { built } from "../support/worktops/worktop-jobs.ts";

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

  it("parts a lipping from what it is glued to by a narrow line, and hatches it the other way; so from outside, the line alone", () => {
    const lipped: Solid = {
      ...block("1", 0, false),
      lippings: [
        [
          [0, 0, 0],
          [40, 8, 40],
        ],
      ],
    };
    for (const cutAt of [-20, null]) {
      const view = viewOf([lipped], FROM_ABOVE, cutAt);
      expect(view.segments.filter(({ seam }) => seam)).toEqual([
        expect.objectContaining({ a: [0, 8], b: [40, 8], cut: false, look: "fixed" }),
      ]);
      const shapes = drawView(view, 1 / 5).shapes.filter((one) => one.kind === "path");
      const narrow = segmentsOf(shapes.filter(({ pen }) => pen === "bar"));
      expect(narrow).toEqual([expect.objectContaining({ y0: -8 / 5, y1: -8 / 5 })]);
      const leans = shapes
        .filter(({ pen }) => pen === "hatch")
        .map((shape) => segmentsOf([shape]).map(({ x0, x1, y0, y1 }) => Math.sign((y1 - y0) / (x1 - x0))));
      expect(leans.map((some) => new Set(some))).toEqual(cutAt === null ? [] : [new Set([-1]), new Set([1])]);
    }
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

describe("a worktop's shaped edge in section", () => {
  it.each(["chamfer", "roundover", "ogee"])("is hatched up to its outline, whatever it is shaped by: %s", (shape) => {
    const set = built("worktop-solid");
    const worktop = { ...set.worktops[0]!, edge: { shape, radius: 6, edges: ["front"] } } as SetWorktop;
    const { thickness } = set.parts.find(({ mark }) => mark === worktop.mark)!;
    const [shapes] = [edgeSection(set, worktop)!.shapes];
    const hatched = segmentsOf(shapes.filter((one) => one.kind === "path" && one.pen === "hatch"));
    // Each line is hatched in layers: what it comes to, against where it leaves wood, in equal parts along its run.
    const along = (share: (x: number, y: number) => boolean, sum: number): number => {
      let long = 0;
      for (let x = -1; x < 60; x += 0.01) if (share(x, sum - x)) long += 0.01 * Math.SQRT2;
      return long;
    };
    const takes = shape === "ogee" ? 12 : 6;
    const isWood = (x: number, y: number): boolean => {
      if (y < 0 || y > thickness || x < 0 || x > takes + 30) return false;
      const isIn = (cx: number, cy: number): boolean => Math.hypot(x - cx, y - cy) < 6;
      if (x > takes || y > takes) return true;
      if (shape === "chamfer") return x + y > 6;
      if (shape === "roundover") return isIn(6, 6);
      return y < 6 ? x > 12 || (x > 6 && isIn(12, 6)) : !isIn(0, 6);
    };
    const drawn = new Map<number, number>();
    for (const { x0, x1, y0, y1 } of hatched) {
      const sum = Math.round((x0 + y0) * 100) / 100;
      drawn.set(sum, (drawn.get(sum) ?? 0) + Math.hypot(x1 - x0, y1 - y0));
    }
    expect(drawn.size).toBeGreaterThan(10);
    for (const [sum, long] of drawn) expect(Math.abs(long - along(isWood, sum))).toBeLessThan(0.35);
  });

  it("has its grain arrow and word inside one board, clear of glue lines", () => {
    const set = built("worktop-solid");
    const [top] = set.worktops as [SetWorktop];
    const { width } = set.parts.find(({ mark }) => mark === top.mark)!;
    for (const ratio of [1 / 4, 1 / 10, 1 / 20]) {
      const { shapes } = fromAbove(set, top, ratio);
      const [word] = textBoxes(shapes).filter(({ text }) => text === "grain");
      const joints = top.glued!.boards.slice(1).map(({ from }) => (width - from) * ratio);
      expect(joints.length).toBeGreaterThan(0);
      for (const at of joints) {
        expect(at < word!.y0 || at > word!.y1).toBe(true);
        // The joint itself, and nothing drawn along it.
        expect(segmentsOf(shapes).filter(({ y0, y1 }) => Math.abs(y0 - at) < 0.5 && y0 === y1)).toHaveLength(1);
      }
    }
  });
});

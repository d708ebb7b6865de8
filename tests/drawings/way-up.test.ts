/** Figures that cannot be misread: none turns into another upside down, signs are those of the face, the unit is said once. */
import { describe, expect, it } from "vitest";
import { framePages, unitAndStep } from "../../src/drawings/draughting/frame.ts";
import { typeset } from "../../src/drawings/draughting/typeset.ts";
import { turnsOver } from "../../src/drawings/draughting/way-up.ts";
import { drawLabels } from "../../src/drawings/labels/labels.ts";
import { drawCutList } from "../../src/drawings/lists/cut-list.ts";
import { drawPurchase } from "../../src/drawings/lists/purchase.ts";
import { drawParts } from "../../src/drawings/parts/part-drawing.ts";
import { drawSheetLayouts } from "../../src/drawings/sheets/sheet-layout.ts";
import { drawSticks } from "../../src/drawings/sticks/sticks.ts";
import { missingCharacters } from "../../src/paper/lettering.ts";
import type { Shape } from "../../src/paper/shape.ts";
import { exampleFile, setOf, testFile } from "../support/jobs/examples.ts";
import { tokensOf } from "../support/pages/read-figures.ts";
import { type Matrix, type TextBox, textBoxes, times, turned } from "../support/pages/text-boxes.ts";

describe("a number turned upside down", () => {
  it("by hand: these read as others, those do not", () => {
    for (const other of ["6", "9", "66", "99", "68", "89", "61", "19", "106", "618", "0.6", "19.6", "6.1", "86"]) {
      expect(turnsOver(other), other).toBe(true);
    }
    for (const same of ["0", "1", "8", "11", "69", "96", "88", "101", "609", "906", "619"]) {
      expect(turnsOver(same), same).toBe(false); // reads the same either way up
    }
    for (const nonsense of ["2", "3", "4", "5", "7", "16.5", "60", "90", "10", "1.4", "", "L6", "."]) {
      expect(turnsOver(nonsense), nonsense).toBe(false);
    }
  });

  it("every whole number up to a thousand: turned twice it is itself, and those with a bar come in pairs", () => {
    const faces: Record<string, string> = { "0": "0", "1": "1", "6": "9", "8": "8", "9": "6" };
    for (let n = 0; n < 1000; n++) {
      const upside = [...String(n)]
        .map((digit) => faces[digit] ?? "?")
        .reverse()
        .join("");
      const isOther = !upside.includes("?") && Number(upside) !== n && String(Number(upside)) === upside;
      expect(turnsOver(String(n)), String(n)).toBe(isOther);
      if (isOther) expect(turnsOver(upside)).toBe(true);
    }
  });
});

type Bar = { x0: number; x1: number; y0: number; y1: number };

/** Solid black bars on the page, by their corners. */
function barsIn(shapes: readonly Shape[], m: Matrix = [1, 0, 0, 1, 0, 0]): Bar[] {
  return shapes.flatMap((shape): Bar[] => {
    if (shape.kind === "group") return barsIn(shape.shapes, times(m, turned(shape.move[0], shape.move[1], shape.turn)));
    if (shape.kind !== "path" || shape.fill !== 0 || shape.steps.length !== 5) return [];
    const spots = shape.steps.flatMap((step) =>
      step.to === "close" || step.to === "curve"
        ? []
        : [[m[0] * step.at[0] + m[2] * step.at[1] + m[4], m[1] * step.at[0] + m[3] * step.at[1] + m[5]] as const],
    );
    const [xs, ys] = [spots.map(([x]) => x), spots.map(([, y]) => y)];
    return [{ x0: Math.min(...xs), x1: Math.max(...xs), y0: Math.min(...ys), y1: Math.max(...ys) }];
  });
}

const REACH = 0.3; // of the digits' height: how near its bar is

/** Height of a capital over the baseline, of the letters' size. */
const CAPITAL = 0.66;

/** A bar as long as the number along one of its sides, whichever way the number is turned. */
function hasBar({ size, ...box }: TextBox, bars: readonly Bar[]): boolean {
  const isLevel = box.x1 - box.x0 > 0 && Math.abs(box.y1 - box.y0 - size) < 1e-6;
  return bars.some((bar) =>
    isLevel
      ? Math.abs(bar.x0 - box.x0) < 0.01 &&
        Math.abs(bar.x1 - box.x1) < 0.01 &&
        Math.min(Math.abs(bar.y0 - box.y1), Math.abs(box.y0 - bar.y1)) < REACH * size
      : Math.abs(bar.y0 - box.y0) < 0.01 &&
        Math.abs(bar.y1 - box.y1) < 0.01 &&
        Math.min(Math.abs(bar.x0 - box.x1), Math.abs(box.x0 - bar.x1)) < REACH * size,
  );
}

/** Numbers that stand alone, as marks and figures do on what lies loose; the whole number before a fraction does not. */
const alone = (shapes: readonly Shape[]): TextBox[] =>
  tokensOf(textBoxes(shapes)).filter(({ text }) => turnsOver(text));

describe.each(["glaze-console", "score-cabinet", "ware-bookcase"])("what lies loose of %s", (name) => {
  const set = setOf(exampleFile(name));
  const marks = new Set(set.parts.map(({ mark }) => mark));

  it("has a bar under every mark of a label that reads as another", () => {
    const wanted = [...marks].filter(turnsOver);
    expect(wanted.length).toBeGreaterThan(0);
    // An offcut's sizes stand among words: only a mark stands alone.
    const pages = drawLabels({ ...set, rack: [] });
    for (const mark of wanted) {
      const large = pages.flatMap(({ shapes }) => {
        const bars = barsIn(shapes);
        return alone(shapes)
          .filter(({ text, size }) => text === mark && size >= 4)
          .map((box) => hasBar(box, bars));
      });
      expect(large, mark).toEqual([true]);
    }
  });

  it("and no bar of a label goes through a letter", () => {
    for (const { shapes } of drawLabels(set)) {
      const through = barsIn(shapes).flatMap((bar) =>
        textBoxes(shapes).filter(
          ({ x0, x1, y1, size }) => bar.x0 < x1 && x0 < bar.x1 && bar.y0 < y1 && y1 - CAPITAL * size < bar.y1,
        ),
      );
      expect(through.map(({ text }) => text)).toEqual([]);
    }
  });

  it("and under every such number of a stick, on the sheet layouts too", () => {
    // In inches a large number may be the whole of a fraction, which needs no bar: there the marks are looked at.
    const least = set.job.unit === "in" ? 5 : 3.5;
    for (const { shapes, key } of [...drawSticks(set).filter((page) => page.key.startsWith("stick-page"))]) {
      const bars = barsIn(shapes);
      for (const box of alone(shapes).filter(({ size }) => size >= least))
        expect(hasBar(box, bars), `${key} ${box.text}`).toBe(true);
    }
    for (const { shapes } of drawSheetLayouts(set)) {
      const bars = barsIn(shapes);
      const large = alone(shapes).filter(({ text, size }) => marks.has(text) && size === 5);
      for (const box of large) expect(hasBar(box, bars), box.text).toBe(true);
    }
  });
});

describe("signs", () => {
  it("minus and multiplication are set for what a keyboard has, and nothing else is touched", () => {
    expect(typeset("-8.750")).toBe("\u22128.750");
    expect(typeset("96 x 48 x 3/4 in")).toBe("96 \u00d7 48 \u00d7 3/4 in");
    expect(typeset("a sheet of 96 in x 48 in")).toBe("a sheet of 96 in \u00d7 48 in");
    expect(typeset("Width x coefficient x points")).toBe("Width \u00d7 coefficient \u00d7 points");
    for (const same of ["100 mm, along x", "offset x and y", "PS-101", "2026-11-20", "6-mm bit", "x", "8x3"]) {
      expect(typeset(same)).toBe(same);
    }
  });

  it("are in the face: minus, degree, diameter, multiplication, in both weights", () => {
    expect(missingCharacters("\u2212\u00b0\u00d8\u00d7")).toEqual([]);
  });

  it("no page letters a hyphen before a figure, or an x between two", () => {
    for (const name of ["butt-dowels", "loose-shelves", "example-a-in"]) {
      const set = setOf(testFile(name));
      for (const { shapes } of [...drawPurchase(set), ...drawCutList(set), ...drawSheetLayouts(set)]) {
        for (const { text } of textBoxes(shapes)) {
          expect(text).not.toMatch(/(^|[\s(])-\d/);
          expect(text).not.toMatch(/\d x |^x$/);
        }
      }
    }
  });
});

describe("the unit", () => {
  it("is said once on every drawing, with the step, and no dimension carries it", () => {
    for (const name of ["example-a-in", "stopped-shelves"]) {
      const set = setOf(testFile(name));
      const drafts = drawParts(set);
      for (const { shapes } of framePages(set, drafts)) {
        const texts = textBoxes(shapes).map(({ text }) => text);
        expect(texts.filter((text) => text === unitAndStep(set))).toHaveLength(1);
        expect(texts.filter((text) => /^[\d. ]+ ?(mm|in|"|cm)$/.test(text))).toEqual([]);
      }
    }
  });
});

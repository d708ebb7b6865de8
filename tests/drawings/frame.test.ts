import { describe, expect, it } from "vitest";
import type { Draft } from "../../src/drawings/draughting/draft.ts";
import { fitText, LEAST_TEXT, wrapText } from "../../src/drawings/draughting/fitting.ts";
import { drawingSpace, framePages } from "../../src/drawings/draughting/frame.ts";
import { measureText } from "../../src/paper/lettering.ts";
import type { Shape } from "../../src/paper/shape.ts";
import type { DryfitSet } from "../../src/set/schema.ts";
import { exampleFile, exampleSets, setOf } from "../support/jobs/examples.ts";
import { segmentsOf, struck } from "../support/pages/lines.ts";
import { onPaper, PAPER_NAMES } from "../support/pages/papers.ts";
import { overlapping, textBoxes } from "../support/pages/text-boxes.ts";

const draft = (change: Partial<Draft> = {}): Draft => ({
  key: "one",
  name: "Front view",
  bookmark: ["Views", "Front view"],
  scale: "1:10",
  shapes: [],
  ...change,
});

const console_ = (): DryfitSet => setOf(exampleFile("glaze-console"));
const withJob = (set: DryfitSet, change: Partial<DryfitSet["job"]>): DryfitSet => ({
  ...set,
  job: { ...set.job, ...change },
});
const textsOf = (shapes: readonly Shape[]): string[] => textBoxes(shapes).map(({ text }) => text);

/** The frame line: the one rectangle drawn with the frame's pen. */
function frameOf(shapes: readonly Shape[]): { x0: number; y0: number; x1: number; y1: number } {
  const [frame] = shapes.filter((shape) => shape.kind === "path" && shape.pen === "frame");
  const lines = segmentsOf([frame!]);
  const xs = lines.flatMap(({ x0, x1 }) => [x0, x1]);
  const ys = lines.flatMap(({ y0, y1 }) => [y0, y1]);
  return { x0: Math.min(...xs), y0: Math.min(...ys), x1: Math.max(...xs), y1: Math.max(...ys) };
}

describe("the frame", () => {
  it("keeps 20 mm at the filing edge where the paper has room, 12.7 mm on Letter, and 10 mm elsewhere", () => {
    for (const [paper, left] of [
      ["a4", 20],
      ["a4 upright", 20],
      ["a3", 20],
      ["tabloid", 20],
      ["letter", 12.7],
      ["letter upright", 12.7],
    ] as const) {
      const set = onPaper(console_(), paper);
      const [page] = framePages(set, [draft()]);
      const { x0, y0, x1, y1 } = frameOf(page!.shapes);
      expect([x0, y0, page!.width - x1, page!.height - y1].map((v) => Math.round(v * 1e6) / 1e6)).toEqual([
        left,
        10,
        10,
        10,
      ]);
    }
  });

  it("leaves a drawing space inside the frame that no text of the title block reaches into", () => {
    for (const paper of PAPER_NAMES) {
      const set = onPaper(console_(), paper);
      const space = drawingSpace(set);
      const [page] = framePages(set, [draft({ projected: true })]);
      const frame = frameOf(page!.shapes);
      expect(space.x).toBeGreaterThan(frame.x0);
      expect(space.y).toBeGreaterThan(frame.y0);
      expect(space.x + space.width).toBeLessThan(frame.x1);
      for (const box of textBoxes(page!.shapes)) {
        expect(box.y0).toBeGreaterThan(space.y + space.height);
        expect(box.x0).toBeGreaterThan(frame.x0);
        expect(box.x1).toBeLessThan(frame.x1);
        expect(box.y1).toBeLessThan(frame.y1);
      }
      expect(space.height).toBeGreaterThan(0.7 * set.paper.drawings.height);
    }
  });

  it("letters the title block without a text on another or on a line, 2.5 mm or more", () => {
    const long = "A very long title of a job, ".repeat(8).trim();
    for (const [, example] of exampleSets()) {
      for (const paper of PAPER_NAMES) {
        for (const set of [example, withJob(example, { title: long, client: long, drawnBy: long, number: long })]) {
          const pages = framePages(onPaper(set, paper), [
            draft({ name: long, scale: '1 1/2" = 1\'-0"', projected: true }),
          ]);
          const boxes = textBoxes(pages[0]!.shapes);
          expect(overlapping(boxes)).toEqual([]);
          expect(struck(boxes, segmentsOf(pages[0]!.shapes))).toEqual([]);
          expect(Math.min(...boxes.map(({ size }) => size))).toBeGreaterThanOrEqual(LEAST_TEXT - 1e-9);
        }
      }
    }
  });

  it("says job, number, drawing, n of N, scale, revision, date, client, unit and step", () => {
    const set = withJob(console_(), { revision: "C", date: "2026-11-20" });
    const pages = framePages(set, [draft({ key: "a", name: "First" }), draft({ key: "b", name: "Second" })]);
    const texts = textsOf(pages[1]!.shapes);
    for (const expected of [
      set.job.title,
      set.job.number,
      "Second",
      "2 of 2",
      "1:10",
      "C",
      "2026-11-20",
      set.job.client!,
      set.job.drawnBy!,
      "in, to 1/32",
    ]) {
      expect(texts).toContain(expected);
    }
    expect(pages.map(({ key, label, title }) => [key, label, title])).toEqual([
      ["a", "1", "First"],
      ["b", "2", "Second"],
    ]);
  });

  it("has no cell for a client the job does not name", () => {
    const [page] = framePages(withJob(console_(), { client: null }), [draft()]);
    expect(textsOf(page!.shapes)).not.toContain("Client");
  });

  it("carries the third-angle symbol only where views are projected", () => {
    const curves = (shapes: readonly Shape[]): number =>
      shapes.filter((shape) => shape.kind === "path" && shape.steps.some(({ to }) => to === "curve")).length;
    expect(curves(framePages(console_(), [draft()])[0]!.shapes)).toBe(0);
    expect(curves(framePages(console_(), [draft({ projected: true })])[0]!.shapes)).toBe(2);
  });

  it("writes DRAFT across every page of a draft, light and under the drawing, and on no other", () => {
    const [plain] = framePages(console_(), [draft()]);
    expect(textsOf(plain!.shapes)).not.toContain("DRAFT");
    const pages = framePages(withJob(console_(), { draft: true }), [draft(), draft({ key: "two" })]);
    for (const page of pages) {
      const [under] = page.shapes;
      expect(textsOf([under!])).toEqual(["DRAFT"]);
      const box = textBoxes([under!])[0]!;
      expect(box.x0).toBeGreaterThan(0);
      expect(box.x1).toBeLessThan(page.width);
      expect(box.y0).toBeGreaterThan(0);
      expect(box.y1).toBeLessThan(page.height);
    }
  });
});

describe("text fitted to a width", () => {
  it("keeps its size where there is room", () => {
    expect(fitText("Front view", 3.5, "bold", 100)).toEqual({ text: "Front view", size: 3.5 });
  });

  it("shrinks as far as it must, never under 2.5 mm", () => {
    const natural = measureText("Front view", 3.5, "bold");
    const fitted = fitText("Front view", 3.5, "bold", natural * 0.8);
    expect(fitted.text).toBe("Front view");
    expect(fitted.size).toBeCloseTo(2.8, 9);
  });

  it("then ends in an ellipsis, within the width", () => {
    const fitted = fitText("Front view of the low console", 3.5, "bold", 20);
    expect(fitted.size).toBe(LEAST_TEXT);
    expect(fitted.text).toMatch(/^Front.*\u2026$/);
    expect(measureText(fitted.text, fitted.size, "bold")).toBeLessThanOrEqual(20);
  });

  it("wraps between words, and inside a word only where it is wider than the line", () => {
    const width = measureText("low console", 2.5, "regular") + 0.01;
    expect(wrapText("the low console", 2.5, "regular", width)).toEqual(["the low", "console"]);
    const lines = wrapText("unbreakable".repeat(4), 2.5, "regular", 20);
    expect(lines.join("")).toBe("unbreakable".repeat(4));
    for (const line of lines) expect(measureText(line, 2.5, "regular")).toBeLessThanOrEqual(20);
  });
});

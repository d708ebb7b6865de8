/**
 * Frames, title blocks, lettering and line widths against the open standards: ISO 5457 (sizes and layout of drawing
 * sheets), ISO 7200 (data fields in title blocks), ISO 3098-0 (lettering), ISO 128-2 (line widths). Scales of ISO 5455
 * are held in dimension.test.ts. Where the figures were seen stands in each reference file.
 */
import { readFileSync } from "node:fs";
import { describe, expect, it } from "vitest";
import { framePages } from "../../src/drawings/draughting/frame.ts";
import { PENS } from "../../src/paper/pen.ts";
import type { Page } from "../../src/paper/shape.ts";
import { exampleFile, setOf } from "../support/jobs/examples.ts";
import { segmentsOf } from "../support/pages/lines.ts";
import { paintedOn } from "../support/pages/page-faults.ts";
import { onPaper, PAPER_NAMES, type PaperName } from "../support/pages/papers.ts";
import { textBoxes } from "../support/pages/text-boxes.ts";

const reference = <T>(name: string): T =>
  JSON.parse(readFileSync(new URL(`../reference/${name}.json`, import.meta.url), "utf8"));

const round = (value: number): number => Math.round(value * 1e6) / 1e6;

function pageOn(paper: PaperName): Page {
  const draft = {
    key: "one",
    name: "Front view",
    bookmark: ["Front view"],
    scale: "1:10",
    projected: true as const,
    shapes: [],
  };
  return framePages(onPaper(setOf(exampleFile("glaze-console")), paper), [draft])[0]!;
}

describe("the frame, by ISO 5457", () => {
  type Iso5457 = {
    border: { left_filing_edge: number; other_edges: number; frame_line_width: number };
    title_block: { max_width: number };
    rows: { size: string; trimmed_mm: [number, number]; drawing_space_mm: [number, number] }[];
  };
  const iso = reference<Iso5457>("drawing-frame-iso5457");

  it.each([
    ["a3", "A3"],
    ["a4 upright", "A4"],
  ] as const)("on %s leaves the drawing space that the standard gives %s", (paper, size) => {
    const page = pageOn(paper);
    const { trimmed_mm, drawing_space_mm } = iso.rows.find((row) => row.size === size)!;
    expect([page.width, page.height]).toEqual(trimmed_mm);
    const frame = segmentsOf(page.shapes.filter((shape) => shape.kind === "path" && shape.pen === "frame"));
    const [xs, ys] = [frame.flatMap(({ x0, x1 }) => [x0, x1]), frame.flatMap(({ y0, y1 }) => [y0, y1])];
    expect([Math.max(...xs) - Math.min(...xs), Math.max(...ys) - Math.min(...ys)].map(round)).toEqual(drawing_space_mm);
    expect(round(Math.min(...xs))).toBe(iso.border.left_filing_edge);
    expect(round(page.width - Math.max(...xs))).toBe(iso.border.other_edges);
    expect(round(Math.min(...ys))).toBe(iso.border.other_edges);
    expect(PENS.frame.width).toBe(iso.border.frame_line_width);
  });
});

describe("the title block, by ISO 7200", () => {
  type Iso7200 = { rows: { field: string; characters: number | null; mandatory: boolean }[] };
  const fields = reference<Iso7200>("title-block-iso7200").rows;
  /** Which of our cells holds each field that the standard wants. The maker's own drawing has the client for its owner. */
  const OURS: Record<string, string> = {
    "legal owner": "Client",
    "identification number": "Job number",
    "revision index": "Revision",
    "date of issue": "Date",
    "segment/sheet number": "Drawing no.",
    title: "Job",
    "approval person": "Approved",
    creator: "Drawn by",
    "document type": "Drawing",
  };

  it.each(PAPER_NAMES)("on %s has a cell for every field that must be there", (paper) => {
    const texts = textBoxes(pageOn(paper).shapes).map(({ text }) => text);
    for (const { field, mandatory } of fields) if (mandatory) expect(texts).toContain(OURS[field]);
  });

  it.each(PAPER_NAMES)("on %s letters what is as long as the standard recommends in full", (paper) => {
    const long = (field: string): string => {
      const { characters } = fields.find((one) => one.field === field)!;
      return "Long words of a job set out at length".slice(0, characters!).trim();
    };
    const set = onPaper(setOf(exampleFile("glaze-console")), paper);
    const job = { ...set.job, number: "PS-1012345678901", title: long("title"), drawnBy: long("creator") };
    const draft = { key: "one", name: long("document type"), bookmark: ["x"], scale: "1:10", shapes: [] };
    const texts = textBoxes(framePages({ ...set, job }, [draft])[0]!.shapes).map(({ text }) => text);
    for (const value of [job.number, job.title, job.drawnBy, draft.name]) expect(texts).toContain(value);
  });
});

describe("lettering, by ISO 3098-0", () => {
  const heights = reference<{ rows: { h: number }[] }>("lettering-iso3098").rows.map(({ h }) => h);

  it("is 2.5 mm high or more in the title block, its values 3.5", () => {
    for (const paper of PAPER_NAMES) {
      const sizes = new Set(textBoxes(pageOn(paper).shapes).map(({ size }) => round(size)));
      const [least, value] = [heights[1]!, heights[2]!];
      expect(Math.min(...sizes)).toBe(least);
      expect(Math.max(...sizes)).toBe(value);
    }
  });
});

describe("lines, by ISO 128-2", () => {
  type Iso128 = { rows: { group: string; widths?: number[]; wide?: number; narrow?: number }[] };
  const { rows } = reference<Iso128>("line-widths-iso128");

  it("are a pair of the standard, wide to narrow 2:1 within the series' rounding", () => {
    const pairs = rows.filter(({ wide }) => wide !== undefined).map(({ wide, narrow }) => [wide, narrow]);
    expect(pairs).toContainEqual([PENS.outline.width, PENS.thin.width]);
    for (const pen of ["hidden", "centre", "neighbour"] as const) expect(PENS[pen].width).toBe(PENS.thin.width);
    expect(PENS.cutting.width).toBe(PENS.outline.width);
    expect(Math.abs(PENS.outline.width / PENS.thin.width - 2)).toBeLessThan(0.1);
    expect(PENS.frame.width / PENS.outline.width).toBe(2); // 4:2:1 with the frame, as in construction drawings
  });

  it("are of four kinds in frame and title block", () => {
    const pens = new Set(paintedOn(pageOn("a4")).flatMap((one) => (one.kind === "line" ? [one.pen] : [])));
    expect([...pens].sort()).toEqual(["centre", "frame", "outline", "thin"]);
  });
});

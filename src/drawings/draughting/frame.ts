/** The frame around every drawing of the set: border, title block, "n of N", and DRAFT across a page that may not be cut from. */
import { formatLength, type Mm } from "../../base/length.ts";
import { circleSteps, group, line, lines, polygonSteps, rect, stroke, text } from "../../paper/draw.ts";
import { measureText } from "../../paper/lettering.ts";
import type { Page, Point, Rect, Shape } from "../../paper/shape.ts";
import type { DryfitSet } from "../../set/schema.ts";
import type { Draft } from "./draft.ts";

import { fitText, LEAST_TEXT } from "./fitting.ts";
import { turnLinks } from "./part-link.ts";

const EDGE: Mm = 10; // ISO 5457
const FILING_EDGE: Mm = 20; // ISO 5457, at the left, for the holes
const NARROW_FILING_EDGE: Mm = 12.7; // on paper shorter than A4: 1/2 in still takes the punch
const A4_LENGTH: Mm = 297;

const ROW: Mm = 10.5; // a caption of 2.5 over a value of 3.5, each with its descenders and air
const CAPTION = LEAST_TEXT;
const VALUE: Mm = 3.5;
const PAD: Mm = 1.5;
const CLEAR: Mm = 4; // between the frame and anything drawn inside it
const ONE_STRIP_WIDTH: Mm = 240; // from here on the fields stand in two rows, below it in three

const draftGrey = 0.86; // light enough to read a 0.18 line through

/** The rectangle the frame line stands on. */
function frameRect(set: DryfitSet): Rect {
  const { width, height } = set.paper.drawings;
  const filing = Math.max(width, height) >= A4_LENGTH - 1 ? FILING_EDGE : NARROW_FILING_EDGE;
  return { x: filing, y: EDGE, width: width - filing - EDGE, height: height - 2 * EDGE };
}

/** `elsewhere`: said in place of a value that has no room, and is whole on another drawing, or in the headings of this one. */
type Cell = { caption: string; value: string; bold?: boolean; least: Mm; share: number; elsewhere?: string };

function titleRows(set: DryfitSet, draft: Draft, n: number, count: number, width: Mm): Cell[][] {
  const { job } = set;
  const number: Cell = { caption: "Job number", value: job.number, least: 28, share: 2 };
  const title: Cell = { caption: "Job", value: job.title, bold: true, least: 60, share: 5 };
  const headings =
    draft.also === undefined ? {} : { elsewhere: `${draft.also.length + 1} on one, each under its name` };
  const name: Cell = { caption: "Drawing", value: draft.name, bold: true, least: 60, share: 5, ...headings };
  const client: Cell[] = job.client === null ? [] : [{ caption: "Client", value: job.client, least: 26, share: 3 }];
  const drawnBy: Cell = { caption: "Drawn by", value: job.drawnBy ?? "", least: 22, share: 2 };
  const approved: Cell = { caption: "Approved", value: "", least: 22, share: 1 }; // by hand, once it has been looked over
  const date: Cell = { caption: "Date", value: job.date, least: 24, share: 0 };
  const newest = job.revisions.at(-1);
  const change: Cell[] =
    newest === undefined
      ? []
      : [{ caption: "What changed", value: newest.words, least: 34, share: 6, elsewhere: "see the cover" }];
  const revision: Cell = { caption: "Revision", value: job.revision, least: 17, share: 0 };
  const scale: Cell = { caption: "Scale", value: draft.scale ?? "none", least: 29, share: 0 };
  const unit: Cell = { caption: "Unit and step", value: unitAndStep(set), least: 27, share: 0 };
  const page: Cell = { caption: "Drawing no.", value: `${n} of ${count}`, bold: true, least: 25, share: 0 };
  return width >= ONE_STRIP_WIDTH
    ? [
        [title, name, revision, ...change, page],
        [number, ...client, drawnBy, approved, date, unit, scale],
      ]
    : [
        [title, page],
        [name, scale, revision, unit, ...change],
        [number, ...client, drawnBy, approved, date],
      ];
}

/** "in, to 1/16" or "mm, to 0.1": the unit of every figure and the step they were rounded to. */
export const unitAndStep = (set: DryfitSet): string =>
  `${set.job.unit}, to ${formatLength(set.job.step, set.job.unit)}`;

const rowCount = (width: Mm): number => (width >= ONE_STRIP_WIDTH ? 2 : 3);

/** Inside the frame and clear of the title block: what a drawing may use. */
export function drawingSpace(set: DryfitSet): Rect {
  const frame = frameRect(set);
  const strip = rowCount(frame.width) * ROW;
  return {
    x: frame.x + CLEAR,
    y: frame.y + CLEAR,
    width: frame.width - 2 * CLEAR,
    height: frame.height - strip - 2 * CLEAR,
  };
}

/** Least widths first, what is left by shares. */
function cellWidths(cells: Cell[], width: Mm): Mm[] {
  const least = cells.reduce((sum, cell) => sum + cell.least, 0);
  const shares = cells.reduce((sum, cell) => sum + cell.share, 0);
  return cells.map((cell) => cell.least + ((width - least) * cell.share) / shares);
}

function drawCell(cell: Cell, x: Mm, y: Mm, width: Mm): Shape[] {
  const weight = cell.bold ? "bold" : "regular";
  const room = width - 2 * PAD;
  const own = fitText(cell.value, VALUE, weight, room);
  const fitted = own.text === cell.value ? own : fitText(cell.elsewhere ?? cell.value, VALUE, weight, room);
  return [
    text([x + PAD, y + 1 + CAPTION], cell.caption, CAPTION, { grey: 0.35 }),
    text([x + PAD, y + ROW - 1.8], fitted.text, fitted.size, { weight }),
  ];
}

const SYMBOL_HEIGHT: Mm = 6;

/**
 * The symbol of ISO 5456-2: a cone cut off, its narrow end to the left, beside its view from the left. Third angle has that view at the
 * left, first angle at the right. `at` is the middle of the left edge.
 */
function drawProjection(at: Point, projection: DryfitSet["job"]["projection"]): { shapes: Shape[]; width: Mm } {
  const outer = SYMBOL_HEIGHT / 2;
  const inner = outer / 2;
  const [round, cone, gap] = [2 * outer, SYMBOL_HEIGHT * 1.1, 3];
  const isThird = projection === "third";
  const width = 2 + round + gap + cone;
  const cx = at[0] + 1 + outer + (isThird ? 0 : cone + gap);
  const left = at[0] + 1 + (isThird ? round + gap : 0);
  const right = left + cone;
  const cy = at[1];
  return {
    width,
    shapes: [
      stroke("outline", circleSteps([cx, cy], outer)),
      stroke("outline", circleSteps([cx, cy], inner)),
      stroke(
        "outline",
        polygonSteps([
          [left, cy - inner],
          [right, cy - outer],
          [right, cy + outer],
          [left, cy + inner],
        ]),
      ),
      lines("centre", [
        [
          [at[0], cy],
          [at[0] + width, cy],
        ],
        [
          [cx, cy - outer - 1],
          [cx, cy + outer + 1],
        ],
      ]),
    ],
  };
}

const SYMBOL_CELL: Mm = 20;

function drawTitleBlock(set: DryfitSet, draft: Draft, n: number, count: number): Shape[] {
  const frame = frameRect(set);
  const symbolWidth = draft.projected ? SYMBOL_CELL : 0;
  const rows = titleRows(set, draft, n, count, frame.width);
  const shapes: Shape[] = [];
  rows.forEach((cells, r) => {
    const y = frame.y + frame.height - (rows.length - r) * ROW;
    const last = r === rows.length - 1;
    const width = frame.width - (last ? symbolWidth : 0);
    shapes.push(line(r === 0 ? "outline" : "thin", [frame.x, y], [frame.x + frame.width, y]));
    let x = frame.x;
    cellWidths(cells, width).forEach((cellWidth, i) => {
      shapes.push(...drawCell(cells[i]!, x, y, cellWidth));
      x += cellWidth;
      if (i < cells.length - 1 || (last && symbolWidth > 0)) shapes.push(line("thin", [x, y], [x, y + ROW]));
    });
    if (last && symbolWidth > 0) {
      const { projection } = set.job;
      const { width: wide } = drawProjection([0, 0], projection);
      shapes.push(...drawProjection([x + (SYMBOL_CELL - wide) / 2, y + ROW / 2], projection).shapes);
    }
  });
  return shapes;
}

/** Under everything else, so that it never hides a figure. */
function drawDraftMark(set: DryfitSet): Shape {
  const space = drawingSpace(set);
  const turn = (Math.atan2(space.height, space.width) * 180) / Math.PI;
  const size = Math.min(60, (0.75 * Math.hypot(space.width, space.height)) / measureText("DRAFT", 1, "bold"));
  const middle: Point = [space.x + space.width / 2, space.y + space.height / 2];
  return group([text([0, size / 2], "DRAFT", size, { anchor: "middle", weight: "bold", grey: draftGrey })], {
    move: middle,
    turn,
  });
}

/** The drafts as numbered pages: only here is the number of drawings known, and which of them draws a part. */
export function framePages(set: DryfitSet, drafts: Draft[]): Page[] {
  const pages = new Map(drafts.flatMap(({ key, parts = [] }) => parts.map((mark) => [mark, key] as const)));
  const pageFor =
    (draft: Draft) =>
    (mark: string): string | undefined =>
      pages.get(mark) === draft.key ? undefined : pages.get(mark);
  return drafts.map((draft, i) => ({
    key: draft.key,
    title: draft.name,
    bookmark: draft.bookmark,
    label: String(i + 1),
    width: set.paper.drawings.width,
    height: set.paper.drawings.height,
    shapes: [
      ...(set.job.draft ? [drawDraftMark(set)] : []),
      ...turnLinks(draft.shapes, pageFor(draft)),
      rect("frame", frameRect(set)),
      ...drawTitleBlock(set, draft, i + 1, drafts.length),
    ],
  }));
}

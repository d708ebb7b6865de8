/** A page as the eye has it: lettering, lines and filled shapes, from a PDF's operators or from the shapes that were drawn. Nothing that is not seen. */
import { CAP_HEIGHT, fontSizeOf, measureText } from "../../../src/paper/lettering.ts";
import { PENS } from "../../../src/paper/pen.ts";
import type { Page, Shape } from "../../../src/paper/shape.ts";
import type { PdfPage, PdfPath, PdfText } from "../pages/pdf.ts";
import type { Token } from "../pages/read-figures.ts";
import { tokensOf } from "../pages/read-figures.ts";
import { type Matrix, type TextBox, times, turned } from "../pages/text-boxes.ts";

export type Spot = readonly [x: number, y: number];

/** A straight line; its width and its dashes tell the pens apart, as the eye does. */
export type Stroke = { from: Spot; to: Spot; width: number; dashes: number; at: number };
/** A filled shape, by its corners; `at` is its place in the order of painting. */
export type Filled = { points: Spot[]; grey: number; at: number };
export type Round = { middle: Spot; radius: number; width: number };
export type Lettered = TextBox & { bold: boolean; turn: number };

export type SeenPage = {
  width: number;
  height: number;
  /** Level lettering, the three texts of a stacked fraction as one. */
  words: (Token & { bold: boolean })[];
  /** Lettering read from the right. */
  upright: Lettered[];
  strokes: Stroke[];
  fills: Filled[];
  rounds: Round[];
};

type Painted = { width: number; height: number; texts: PdfText[]; paths: PdfPath[] };

const PALE = 0.8; // paler lettering is a mark behind the drawing

/** What a PDF paints. */
export const seenInPdf = (page: PdfPage): SeenPage => seen(page);

/** What a page's shapes paint: read as the PDF is. */
export function seenOnPage({ width, height, shapes }: Pick<Page, "width" | "height" | "shapes">): SeenPage {
  const painted: Painted = { width, height, texts: [], paths: [] };
  paint(shapes, [1, 0, 0, 1, 0, 0], painted);
  return seen(painted);
}

function paint(shapes: readonly Shape[], m: Matrix, page: Painted): void {
  const spot = (x: number, y: number) => ({ x: m[0] * x + m[2] * y + m[4], y: m[1] * x + m[3] * y + m[5] });
  for (const shape of shapes) {
    if (shape.kind === "group") {
      paint(shape.shapes, times(m, turned(shape.move[0], shape.move[1], shape.turn)), page);
    } else if (shape.kind === "text" && shape.text.trim() !== "") {
      const own = times(m, turned(shape.at[0], shape.at[1], shape.turn));
      const width = measureText(shape.text, shape.size, shape.weight);
      const start = { start: 0, middle: -width / 2, end: -width }[shape.anchor];
      const turn = (Math.atan2(-own[1], own[0]) * 180) / Math.PI;
      page.texts.push({
        x: own[0] * start + own[4],
        y: own[1] * start + own[5],
        text: shape.text,
        size: fontSizeOf(shape.size),
        width,
        turn,
        grey: shape.grey,
        font: shape.weight === "bold" ? "Bold" : "Regular",
      });
    } else if (shape.kind === "path") {
      const runs: PdfPath["runs"] = [];
      for (const step of shape.steps) {
        if (step.to === "move") runs.push({ points: [spot(...step.at)], closed: false });
        else if (step.to === "close") runs.at(-1)!.closed = true;
        else runs.at(-1)!.points.push(spot(...step.at));
      }
      if (shape.fill !== null) page.paths.push({ paint: "fill", width: 0, dash: [], grey: shape.fill, runs });
      if (shape.pen !== null) {
        const { width, dash, grey } = PENS[shape.pen];
        page.paths.push({ paint: "stroke", width, dash, grey, runs });
      }
    }
  }
}

function seen({ width, height, texts, paths }: Painted): SeenPage {
  const lettered = texts.filter(({ grey, text }) => grey <= PALE && text.trim() !== "").map(boxOf);
  const level = lettered.filter(({ turn }) => Math.abs(turn) < 1);
  const boldOf = (token: Token): boolean =>
    level.some((one) => one.bold && one.x0 >= token.x0 - 1 && one.x1 <= token.x1 + 0.1 && one.y1 === token.y1);
  const page: SeenPage = {
    width,
    height,
    words: tokensOf(level).map((token) => ({ ...token, bold: boldOf(token) })),
    upright: lettered.filter(({ turn }) => Math.abs(turn - 90) < 1),
    strokes: [],
    fills: [],
    rounds: [],
  };
  paths.forEach((path, at) => {
    for (const { points, closed } of path.runs)
      addRun(
        page,
        path,
        points.map(({ x, y }) => [x, y] as const),
        closed,
        at,
      );
  });
  return page;
}

function boxOf({ x, y, text, size, width, turn, font }: PdfText): Lettered {
  const up = size * CAP_HEIGHT;
  const isUpright = Math.abs(turn - 90) < 1;
  const [x0, x1, y0, y1] = isUpright ? [x - up, x, y - width, y] : [x, x + width, y - up, y];
  return { text, size: up, x0, x1, y0, y1, turn, bold: font.includes("Bold") };
}

const isAt = (a: Spot, b: Spot): boolean => Math.abs(a[0] - b[0]) < 1e-3 && Math.abs(a[1] - b[1]) < 1e-3;

/** A ring of four quarters: its ends stand on a cross about its middle. */
function ringOf(points: readonly Spot[]): { middle: Spot; radius: number } | null {
  if (points.length !== 5 || !isAt(points[0]!, points[4]!)) return null;
  const [a, b, c, d] = points as [Spot, Spot, Spot, Spot];
  const middle: Spot = [(a[0] + c[0]) / 2, (a[1] + c[1]) / 2];
  const radius = Math.abs(a[0] - c[0]) / 2;
  const isCross =
    Math.abs(a[1] - c[1]) < 1e-3 && Math.abs(b[0] - d[0]) < 1e-3 && isAt(middle, [b[0], (b[1] + d[1]) / 2]);
  return isCross && Math.abs(Math.abs(b[1] - d[1]) / 2 - radius) < 1e-3 ? { middle, radius } : null;
}

function addRun(page: SeenPage, path: PdfPath, points: Spot[], closed: boolean, at: number): void {
  if (path.paint === "fill") {
    page.fills.push({ points, grey: path.grey, at });
    return;
  }
  const ring = ringOf(points);
  if (ring !== null) {
    page.rounds.push({ ...ring, width: path.width });
    return;
  }
  const all = closed && !isAt(points[0]!, points.at(-1)!) ? [...points, points[0]!] : points;
  all.slice(1).forEach((to, i) => {
    page.strokes.push({
      from: all[i]!,
      to,
      width: path.width,
      dashes: path.dash.length,
      at,
    });
  });
}

const near = (a: number, b: number): boolean => Math.abs(a - b) < 0.01;

/** A line by its pen's width and its direction. */
export const isDrawnWith = ({ width, dashes }: Stroke, pen: keyof typeof PENS): boolean =>
  near(width, PENS[pen].width) && dashes === PENS[pen].dash.length;

export const isLevel = ({ from, to }: Stroke): boolean => Math.abs(from[1] - to[1]) < 1e-3;
export const isUpright = ({ from, to }: Stroke): boolean => Math.abs(from[0] - to[0]) < 1e-3;

/** A page's shapes as a PDF content stream. The stream starts by turning the page to millimetres, y down, as the shapes are. */
import type { Mm } from "../base/length.ts";
import { fontSizeOf, measureText, type Weight } from "../paper/lettering.ts";
import { PENS, type Pen } from "../paper/pen.ts";
import type {
  GroupShape,
  LinkShape,
  Page,
  PathShape,
  PathStep,
  Point,
  Rect,
  Shape,
  TextShape,
} from "../paper/shape.ts";
import { decimal } from "./decimal.ts";

export const POINTS_PER_MM = 72 / 25.4;

/** The names the fonts go by in the streams. */
export const FONT_NAMES: Record<Weight, string> = { regular: "R", bold: "B" };

/** A text as the glyph numbers of the embedded font, in PDF's hexadecimal notation. */
export type Encode = (text: string, weight: Weight) => string;

/** x' = a x + c y + e, y' = b x + d y + f */
type Matrix = readonly [a: number, b: number, c: number, d: number, e: number, f: number];

export type PlacedLink = { box: Rect; to: LinkShape["to"] };

/** What the stream has last set, so that it is said once. */
type State = { stroke: string; fill: string; font: string };

type Stream = { out: string[]; state: State; links: PlacedLink[]; encode: Encode };

const INITIAL: State = { stroke: "", fill: "0 g", font: "" };

/** Enough digits for a direction: a metre away they still hold 0.001 mm. */
const direction = (value: number): string => {
  const rounded = Math.round(value * 1e8) / 1e8;
  return Math.abs(rounded) < 1e-6 ? "0" : String(rounded);
};

function turnMatrix(turn: number): readonly [a: number, b: number, c: number, d: number] {
  if (turn === 0) return [1, 0, 0, 1];
  const radians = (turn * Math.PI) / 180;
  const [cos, sin] = [Math.cos(radians), Math.sin(radians)];
  return [cos, -sin, sin, cos]; // anticlockwise where y runs down
}

const groupMatrix = ({ move, turn }: GroupShape): Matrix => [...turnMatrix(turn), move[0], move[1]];

const times = (outer: Matrix, inner: Matrix): Matrix => {
  const [a, b, c, d, e, f] = inner;
  const apply = (x: number, y: number) => [outer[0] * x + outer[2] * y, outer[1] * x + outer[3] * y] as const;
  const [x, y] = apply(e, f);
  return [...apply(a, b), ...apply(c, d), x + outer[4], y + outer[5]];
};

function boxThrough(matrix: Matrix, { x, y, width, height }: Rect): Rect {
  const corners = [x, x + width].flatMap((px) =>
    [y, y + height].map(
      (py): Point => [matrix[0] * px + matrix[2] * py + matrix[4], matrix[1] * px + matrix[3] * py + matrix[5]],
    ),
  );
  const [xs, ys] = [corners.map((corner) => corner[0]), corners.map((corner) => corner[1])];
  const [left, top] = [Math.min(...xs), Math.min(...ys)];
  return { x: left, y: top, width: Math.max(...xs) - left, height: Math.max(...ys) - top };
}

const at = (point: Point): string => `${decimal(point[0])} ${decimal(point[1])}`;

function greyOf(grey: number): string {
  if (!(grey >= 0 && grey <= 1)) throw new Error(`Internal error: ${grey} is no grey`);
  return decimal(grey);
}

function set(stream: Stream, key: keyof State, operators: string): void {
  if (stream.state[key] === operators) return;
  stream.state[key] = operators;
  stream.out.push(operators);
}

const penOperators = (pen: Pen): string => {
  const { width, dash, grey } = PENS[pen];
  return `${greyOf(grey)} G ${decimal(width)} w [${dash.map(decimal).join(" ")}] 0 d`;
};

function stepOperators(step: PathStep): string {
  switch (step.to) {
    case "move":
      return `${at(step.at)} m`;
    case "line":
      return `${at(step.at)} l`;
    case "curve":
      return `${at(step.c1)} ${at(step.c2)} ${at(step.at)} c`;
    case "close":
      return "h";
  }
}

function writePath({ steps, pen, fill }: PathShape, stream: Stream): void {
  if (steps.length === 0 || (pen === null && fill === null)) return;
  if (fill !== null) set(stream, "fill", `${greyOf(fill)} g`);
  if (pen !== null) set(stream, "stroke", penOperators(pen));
  for (const step of steps) stream.out.push(stepOperators(step));
  stream.out.push(pen === null ? "f" : fill === null ? "S" : "B");
}

/** How far the anchor stands along the baseline, in widths. */
const ANCHORED: Record<TextShape["anchor"], number> = { start: 0, middle: 0.5, end: 1 };

function writeText(shape: TextShape, stream: Stream): void {
  if (shape.text === "") return;
  const [a, b, c, d] = turnMatrix(shape.turn);
  const back: Mm = ANCHORED[shape.anchor] * measureText(shape.text, shape.size, shape.weight);
  const start: Point = [shape.at[0] - a * back, shape.at[1] - b * back];
  set(stream, "fill", `${greyOf(shape.grey)} g`);
  stream.out.push("BT");
  set(stream, "font", `/${FONT_NAMES[shape.weight]} ${decimal(fontSizeOf(shape.size))} Tf`);
  // Glyphs are drawn y up: their second axis is turned over here.
  const axes = [a, b, -c, -d].map(direction).join(" ");
  stream.out.push(`${axes} ${at(start)} Tm ${stream.encode(shape.text, shape.weight)} Tj ET`);
}

function writeGroup(shape: GroupShape, outer: Matrix, stream: Stream): void {
  const own = groupMatrix(shape);
  const before = { ...stream.state };
  stream.out.push(`q ${own.slice(0, 4).map(direction).join(" ")} ${at(shape.move)} cm`);
  if (shape.clip !== null) {
    const { x, y, width, height } = shape.clip;
    stream.out.push(`${at([x, y])} ${at([width, height])} re W n`);
  }
  writeShapes(shape.shapes, times(outer, own), stream);
  stream.out.push("Q");
  stream.state = before;
}

function writeShapes(shapes: readonly Shape[], matrix: Matrix, stream: Stream): void {
  for (const shape of shapes) {
    switch (shape.kind) {
      case "path":
        writePath(shape, stream);
        break;
      case "text":
        writeText(shape, stream);
        break;
      case "group":
        writeGroup(shape, matrix, stream);
        break;
      case "link":
        stream.links.push({ box: boxThrough(matrix, shape.box), to: shape.to });
        break;
    }
  }
}

const MITER_LIMIT = 4; // as SVG has it, so that both writers draw the same corners

/** The stream, and the links with their boxes in page millimetres (y down). */
export function pageContent(page: Page, encode: Encode): { stream: string; links: PlacedLink[] } {
  const k = POINTS_PER_MM;
  const stream: Stream = { out: [], state: { ...INITIAL }, links: [], encode };
  // The one place where y turns over.
  stream.out.push(`${k} 0 0 ${-k} 0 ${page.height * k} cm ${MITER_LIMIT} M`);
  writeShapes(page.shapes, [1, 0, 0, 1, 0, 0], stream);
  return { stream: stream.out.join("\n"), links: stream.links };
}

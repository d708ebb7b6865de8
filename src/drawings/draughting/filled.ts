/** How full a drawing is, and how far down. */
import type { Mm } from "../../base/length.ts";
import { measureText } from "../../paper/lettering.ts";
import type { PathStep, Point, Rect, Shape } from "../../paper/shape.ts";
import { meets } from "./block.ts";

/** Of a drawing: a third, and a little for what rounding makes of it. Less, and the eye looks for what is missing. */
export const LEAST_FILLED = 0.35;

const SQUARE: Mm = 15; // two fingers' breadth: white paper narrower than that is air

/** From a shape's own axes to the page's: y goes down, turns are anticlockwise. */
type OnPage = (point: Point) => Point;

function movedBy([x0, y0]: Point, turn: number, outer: OnPage): OnPage {
  const [cos, sin] = [Math.cos((turn * Math.PI) / 180), Math.sin((turn * Math.PI) / 180)];
  return ([x, y]) => outer([x0 + x * cos + y * sin, y0 - x * sin + y * cos]);
}

function boxRound(points: readonly Point[]): Rect {
  const [xs, ys] = [points.map(([x]) => x), points.map(([, y]) => y)];
  const [x, y] = [Math.min(...xs), Math.min(...ys)];
  return { x, y, width: Math.max(...xs) - x, height: Math.max(...ys) - y };
}

const pointsOf = (step: PathStep): Point[] =>
  step.to === "close" ? [] : step.to === "curve" ? [step.c1, step.c2, step.at] : [step.at];

const boxesOf = (shapes: readonly Shape[], onPage: OnPage): Rect[] =>
  shapes.flatMap((shape) => boxesOfShape(shape, onPage));

/** The rectangle round each path and each text: an outline takes up what lies inside it. */
function boxesOfShape(shape: Shape, onPage: OnPage): Rect[] {
  switch (shape.kind) {
    case "group":
      return boxesOf(shape.shapes, movedBy(shape.move, shape.turn, onPage));
    case "path":
      return shape.pen === null ? [] : [boxRound(shape.steps.flatMap(pointsOf).map(onPage))];
    case "text": {
      const width = measureText(shape.text, shape.size, shape.weight);
      const start = { start: 0, middle: -width / 2, end: -width }[shape.anchor];
      const own = movedBy(shape.at, shape.turn, onPage);
      return [boxRound([own([start, 0]), own([start + width, -shape.size])])];
    }
    case "link":
      return [];
  }
}

/** How far down the lowest of it stands. */
export const footOf = (shapes: readonly Shape[]): Mm =>
  Math.max(
    ...boxesOf(shapes, (point) => point)
      .map(({ y, height }) => y + height)
      .filter(Number.isFinite), // a path without lines stands nowhere
  );

/** The share of a room's squares that something stands in, 0 to 1. */
export function filledShare(shapes: readonly Shape[], room: Rect): number {
  const taken = boxesOf(shapes, (point) => point);
  const [columns, rows] = [Math.floor(room.width / SQUARE), Math.floor(room.height / SQUARE)];
  let met = 0;
  for (let c = 0; c < columns; c++) {
    for (let r = 0; r < rows; r++) {
      const square = { x: room.x + c * SQUARE, y: room.y + r * SQUARE, width: SQUARE, height: SQUARE };
      if (taken.some((one) => meets(one, square))) met += 1;
    }
  }
  return met / (columns * rows);
}

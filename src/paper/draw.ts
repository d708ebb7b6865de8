/** Functions that return shapes. Nothing here measures text: that is lettering.ts. */
import type { Mm } from "../base/length.ts";
import type { Pen } from "./pen.ts";
import type { GroupShape, PathShape, PathStep, Point, Rect, Shape, TextShape } from "./shape.ts";

export const move = (x: Mm, y: Mm): PathStep => ({ to: "move", at: [x, y] });
export const lineTo = (x: Mm, y: Mm): PathStep => ({ to: "line", at: [x, y] });
export const close: PathStep = { to: "close" };

export const stroke = (pen: Pen, steps: PathStep[]): PathShape => ({ kind: "path", steps, pen, fill: null });
export const fill = (grey: number, steps: PathStep[]): PathShape => ({ kind: "path", steps, pen: null, fill: grey });

/** One path of many separate straight lines: cheaper for both writers than one path a line. */
export const lines = (pen: Pen, segments: readonly (readonly [Point, Point])[]): PathShape =>
  stroke(
    pen,
    segments.flatMap(([a, b]) => [move(a[0], a[1]), lineTo(b[0], b[1])]),
  );

export const line = (pen: Pen, a: Point, b: Point): PathShape => lines(pen, [[a, b]]);

export const polygonSteps = (points: readonly Point[]): PathStep[] => [
  ...points.map(([x, y], i) => (i === 0 ? move(x, y) : lineTo(x, y))),
  close,
];

export const rectSteps = ({ x, y, width, height }: Rect): PathStep[] =>
  polygonSteps([
    [x, y],
    [x + width, y],
    [x + width, y + height],
    [x, y + height],
  ]);

export const rect = (pen: Pen, box: Rect): PathShape => stroke(pen, rectSteps(box));

const CIRCLE_HANDLE = 0.5522847498; // cubic Bezier quarter circle, radial error under 0.03 %

export function circleSteps([cx, cy]: Point, radius: Mm): PathStep[] {
  const h = radius * CIRCLE_HANDLE;
  return [
    move(cx + radius, cy),
    { to: "curve", c1: [cx + radius, cy + h], c2: [cx + h, cy + radius], at: [cx, cy + radius] },
    { to: "curve", c1: [cx - h, cy + radius], c2: [cx - radius, cy + h], at: [cx - radius, cy] },
    { to: "curve", c1: [cx - radius, cy - h], c2: [cx - h, cy - radius], at: [cx, cy - radius] },
    { to: "curve", c1: [cx + h, cy - radius], c2: [cx + radius, cy - h], at: [cx + radius, cy] },
    close,
  ];
}

/** A rectangle with half circles at its shorter sides; a circle where it is square. */
export function slotSteps({ x, y, width, height }: Rect): PathStep[] {
  const radius = Math.min(width, height) / 2;
  const h = radius * CIRCLE_HANDLE;
  const [left, right, upper, lower] = [x + radius, x + width - radius, y + radius, y + height - radius];
  return [
    move(left, y),
    lineTo(right, y),
    { to: "curve", c1: [right + h, y], c2: [x + width, upper - h], at: [x + width, upper] },
    lineTo(x + width, lower),
    { to: "curve", c1: [x + width, lower + h], c2: [right + h, y + height], at: [right, y + height] },
    lineTo(left, y + height),
    { to: "curve", c1: [left - h, y + height], c2: [x, lower + h], at: [x, lower] },
    lineTo(x, upper),
    { to: "curve", c1: [x, upper - h], c2: [left - h, y], at: [left, y] },
    close,
  ];
}

export const text = (
  at: Point,
  content: string,
  size: Mm,
  options: Partial<Pick<TextShape, "anchor" | "weight" | "turn" | "grey">> = {},
): TextShape => ({
  kind: "text",
  at,
  text: content,
  size,
  anchor: "start",
  weight: "regular",
  turn: 0,
  grey: 0,
  ...options,
});

export const group = (
  shapes: Shape[],
  options: Partial<Pick<GroupShape, "id" | "move" | "turn" | "clip">> = {},
): GroupShape => ({ kind: "group", id: null, move: [0, 0], turn: 0, clip: null, shapes, ...options });

/** Where the lettering of a page stands: boxes worked out from the shapes alone, for tests of overlap. */
import { measureText } from "../../../src/paper/lettering.ts";
import type { Shape } from "../../../src/paper/shape.ts";

export type TextBox = { text: string; size: number; x0: number; y0: number; x1: number; y1: number };

/** A move on paper, as a PDF writes it. */
export type Matrix = readonly [number, number, number, number, number, number];

export const times = (m: Matrix, n: Matrix): Matrix => [
  m[0] * n[0] + m[2] * n[1],
  m[1] * n[0] + m[3] * n[1],
  m[0] * n[2] + m[2] * n[3],
  m[1] * n[2] + m[3] * n[3],
  m[0] * n[4] + m[2] * n[5] + m[4],
  m[1] * n[4] + m[3] * n[5] + m[5],
];

/** Anticlockwise on paper, where y runs down. */
export function turned(x: number, y: number, degrees: number): Matrix {
  const angle = (-degrees * Math.PI) / 180;
  const [c, s] = [Math.cos(angle), Math.sin(angle)];
  return [c, s, -s, c, x, y];
}

/** Capitals and digits only, as they are what most of the lettering is: descenders may reach into the air below. */
export function textBoxes(shapes: readonly Shape[], around: Matrix = [1, 0, 0, 1, 0, 0]): TextBox[] {
  return shapes.flatMap((shape): TextBox[] => {
    if (shape.kind === "group") {
      return textBoxes(shape.shapes, times(around, turned(shape.move[0], shape.move[1], shape.turn)));
    }
    if (shape.kind !== "text" || shape.text.trim() === "") return [];
    const m = times(around, turned(shape.at[0], shape.at[1], shape.turn));
    const width = measureText(shape.text, shape.size, shape.weight);
    const start = { start: 0, middle: -width / 2, end: -width }[shape.anchor];
    const corners = [start, start + width].flatMap((x) =>
      [0, -shape.size].map((y) => [m[0] * x + m[2] * y + m[4], m[1] * x + m[3] * y + m[5]] as const),
    );
    const [xs, ys] = [corners.map(([x]) => x), corners.map(([, y]) => y)];
    return [
      {
        text: shape.text,
        size: shape.size,
        x0: Math.min(...xs),
        y0: Math.min(...ys),
        x1: Math.max(...xs),
        y1: Math.max(...ys),
      },
    ];
  });
}

const TOUCH = 0.05;

/** Every two texts that lie over each other, as "a / b". */
export function overlapping(boxes: readonly TextBox[]): string[] {
  const found: string[] = [];
  boxes.forEach((a, i) => {
    for (const b of boxes.slice(i + 1)) {
      const isOver = a.x0 < b.x1 - TOUCH && b.x0 < a.x1 - TOUCH && a.y0 < b.y1 - TOUCH && b.y0 < a.y1 - TOUCH;
      if (isOver) found.push(`${a.text} / ${b.text}`);
    }
  });
  return found;
}

/** Straight lines of a page and the texts they run through, worked out from the shapes alone. */
import type { Shape } from "../../../src/paper/shape.ts";
import type { TextBox } from "./text-boxes.ts";

export type Segment = { x0: number; y0: number; x1: number; y1: number };

type Turn = { x: number; y: number; degrees: number };

function map(turns: readonly Turn[], x: number, y: number): [number, number] {
  let [px, py] = [x, y];
  for (const { x: dx, y: dy, degrees } of [...turns].reverse()) {
    const angle = (-degrees * Math.PI) / 180;
    const [c, s] = [Math.cos(angle), Math.sin(angle)];
    [px, py] = [c * px - s * py + dx, s * px + c * py + dy];
  }
  return [px, py];
}

/** Every stroked straight line; curves are left out. */
export function segmentsOf(shapes: readonly Shape[], turns: readonly Turn[] = []): Segment[] {
  return shapes.flatMap((shape): Segment[] => {
    if (shape.kind === "group") {
      return segmentsOf(shape.shapes, [...turns, { x: shape.move[0], y: shape.move[1], degrees: shape.turn }]);
    }
    if (shape.kind !== "path" || shape.pen === null) return [];
    const found: Segment[] = [];
    let at: [number, number] = [0, 0];
    let start: [number, number] = [0, 0];
    for (const step of shape.steps) {
      const to = step.to === "close" ? start : map(turns, step.at[0], step.at[1]);
      if (step.to === "move") start = to;
      else if (step.to !== "curve") found.push({ x0: at[0], y0: at[1], x1: to[0], y1: to[1] });
      at = to;
    }
    return found;
  });
}

const TOUCH = 0.05;

/** Does the line pass through the inside of the box? Its ends and the box's corners tell, no clipping. */
export function passesThrough(line: Segment, box: TextBox): boolean {
  const [x0, x1, y0, y1] = [box.x0 + TOUCH, box.x1 - TOUCH, box.y0 + TOUCH, box.y1 - TOUCH];
  if (Math.max(line.x0, line.x1) <= x0 || Math.min(line.x0, line.x1) >= x1) return false;
  if (Math.max(line.y0, line.y1) <= y0 || Math.min(line.y0, line.y1) >= y1) return false;
  const side = (x: number, y: number): number =>
    Math.sign((line.x1 - line.x0) * (y - line.y0) - (line.y1 - line.y0) * (x - line.x0));
  const sides = new Set([side(x0, y0), side(x1, y0), side(x0, y1), side(x1, y1)]);
  return sides.size > 1;
}

export const struck = (boxes: readonly TextBox[], lines: readonly Segment[]): string[] =>
  boxes.filter((box) => lines.some((line) => passesThrough(line, box))).map((box) => box.text);

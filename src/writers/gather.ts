/**
 * Shapes gathered into few elements, because a document's cost lies in its elements: groups that only move are
 * dissolved, and paths and texts of one look share an element, without a change to the picture.
 */
import { PENS, type Pen } from "../paper/pen.ts";
import type { GroupShape, LinkShape, PathShape, PathStep, Point, Shape, TextShape } from "../paper/shape.ts";

export type Run =
  | { kind: "stroke"; pen: Pen; steps: PathStep[] }
  | { kind: "fill"; grey: number; steps: PathStep[] }
  | { kind: "texts"; texts: TextShape[] }
  | GroupShape
  | LinkShape;

const isSameLook = (a: TextShape, b: TextShape): boolean =>
  a.size === b.size && a.weight === b.weight && a.anchor === b.anchor && a.grey === b.grey;

function moveStep(step: PathStep, [dx, dy]: Point): PathStep {
  const moved = ([x, y]: Point): Point => [x + dx, y + dy];
  switch (step.to) {
    case "close":
      return step;
    case "curve":
      return { to: "curve", c1: moved(step.c1), c2: moved(step.c2), at: moved(step.at) };
    default:
      return { to: step.to, at: moved(step.at) };
  }
}

function moveShape(shape: Shape, by: Point): Shape {
  switch (shape.kind) {
    case "path":
      return { ...shape, steps: shape.steps.map((step) => moveStep(step, by)) };
    case "text":
      return { ...shape, at: [shape.at[0] + by[0], shape.at[1] + by[1]] };
    case "group":
      return { ...shape, move: [shape.move[0] + by[0], shape.move[1] + by[1]] };
    case "link":
      return { ...shape, box: { ...shape.box, x: shape.box.x + by[0], y: shape.box.y + by[1] } };
  }
}

/** Groups with a turn, a clip or a name stay; all others give up their shapes. */
export function flatten(shapes: readonly Shape[], by: Point = [0, 0]): Shape[] {
  return shapes.flatMap((shape) => {
    if (shape.kind !== "group" || shape.id !== null || shape.turn !== 0 || shape.clip !== null) {
      return [by[0] === 0 && by[1] === 0 ? shape : moveShape(shape, by)];
    }
    return flatten(shape.shapes, [by[0] + shape.move[0], by[1] + shape.move[1]]);
  });
}

type Extent = { left: number; top: number; right: number; bottom: number };

function extentOf(steps: readonly PathStep[]): Extent {
  const extent = { left: Infinity, top: Infinity, right: -Infinity, bottom: -Infinity };
  for (const step of steps) {
    const points = step.to === "close" ? [] : step.to === "curve" ? [step.c1, step.c2, step.at] : [step.at];
    for (const [x, y] of points) {
      extent.left = Math.min(extent.left, x);
      extent.right = Math.max(extent.right, x);
      extent.top = Math.min(extent.top, y);
      extent.bottom = Math.max(extent.bottom, y);
    }
  }
  return extent;
}

const touches = (a: Extent, b: Extent): boolean =>
  a.left <= b.right && b.left <= a.right && a.top <= b.bottom && b.top <= a.bottom;

/** Areas share a path only while they lie apart: two that overlap, drawn opposite ways round, would leave a hole. */
function gatherFills(fills: readonly { grey: number; steps: PathStep[] }[]): Run[] {
  const runs: { run: Extract<Run, { kind: "fill" }>; extents: Extent[] }[] = [];
  for (const { grey, steps } of fills) {
    const extent = extentOf(steps);
    const last = runs.at(-1);
    if (last?.run.grey === grey && !last.extents.some((other) => touches(other, extent))) {
      for (const step of steps) last.run.steps.push(step);
      last.extents.push(extent);
    } else {
      runs.push({ run: { kind: "fill", grey, steps: [...steps] }, extents: [extent] });
    }
  }
  return runs.map(({ run }) => run);
}

function gatherTexts(texts: readonly TextShape[]): Run[] {
  const runs: TextShape[][] = [];
  for (const text of texts) {
    const last = runs.at(-1);
    if (last && isSameLook(last[0]!, text)) last.push(text);
    else runs.push([text]);
  }
  return runs.map((together) => ({ kind: "texts", texts: together }));
}

type Ink = { strokes: Map<Pen, PathStep[]>; fills: { grey: number; steps: PathStep[] }[]; texts: TextShape[] };

const noInk = (): Ink => ({ strokes: new Map(), fills: [], texts: [] });

function addInk(ink: Ink, shape: PathShape | TextShape): void {
  if (shape.kind === "text") {
    ink.texts.push(shape);
    return;
  }
  if (shape.fill !== null) ink.fills.push({ grey: shape.fill, steps: shape.steps });
  if (shape.pen === null) return;
  const steps = ink.strokes.get(shape.pen) ?? [];
  for (const step of shape.steps) steps.push(step);
  ink.strokes.set(shape.pen, steps);
}

/** Of one grey throughout, whatever is painted over what: so order is free within it. */
const greysOf = (shape: PathShape | TextShape): number[] =>
  shape.kind === "text"
    ? [shape.grey]
    : [...(shape.fill === null ? [] : [shape.fill]), ...(shape.pen === null ? [] : [PENS[shape.pen].grey])];

const runsOfInk = (ink: Ink): Run[] => [
  ...gatherFills(ink.fills),
  ...[...ink.strokes].map(([pen, steps]): Run => ({ kind: "stroke", pen, steps })),
  ...gatherTexts(ink.texts),
];

/** Shapes of one grey that follow each other are gathered by pen, whatever stands between them. */
export function gather(shapes: readonly Shape[]): Run[] {
  const runs: Run[] = [];
  let ink = noInk();
  let grey: number | null = null;
  const flush = () => {
    runs.push(...runsOfInk(ink));
    ink = noInk();
    grey = null;
  };
  for (const shape of flatten(shapes)) {
    if (shape.kind === "group" || shape.kind === "link") {
      flush();
      runs.push(shape);
      continue;
    }
    for (const one of greysOf(shape)) {
      if (grey !== null && one !== grey) flush();
      grey = one;
    }
    addInk(ink, shape);
  }
  flush();
  return runs;
}

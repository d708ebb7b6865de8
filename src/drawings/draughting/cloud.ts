/**
 * What tells a changed figure: a cloud drawn round it, and the letter of the revision in a triangle beside it (common
 * practice, no source). Drawn wide, so that it is found on a page at a glance.
 */
import type { Mm } from "../../base/length.ts";
import { polygonSteps, rectSteps, stroke, text } from "../../paper/draw.ts";
import { measureText } from "../../paper/lettering.ts";
import type { PathStep, Point, Rect, Shape } from "../../paper/shape.ts";
import { type Atom, glue, word } from "./cell.ts";
import { LEAST_TEXT } from "./fitting.ts";

const AIR: Mm = 0.5; // between a figure and the feet of the arcs round it
const CHORD: Mm = 2; // of one arc, about
const BULGE = 0.36; // how far an arc stands out, in its chords
const HANDLE = BULGE / 0.75; // of a Bezier curve that stands out so far

/** What a cloud takes beyond the figure, on every side. */
export const CLOUD: Mm = AIR + BULGE * CHORD * 1.2;

/** Arcs round a rectangle, each standing outwards, clockwise on paper from its upper left corner. */
export function cloud(around: Rect): Shape {
  const [x0, y0] = [around.x - AIR, around.y - AIR];
  const [x1, y1] = [around.x + around.width + AIR, around.y + around.height + AIR];
  const corners: Point[] = [
    [x0, y0],
    [x1, y0],
    [x1, y1],
    [x0, y1],
  ];
  const steps: PathStep[] = [{ to: "move", at: [x0, y0] }];
  corners.forEach((from, i) => {
    const to = corners[(i + 1) % corners.length]!;
    const run = Math.hypot(to[0] - from[0], to[1] - from[1]);
    const count = Math.max(1, Math.round(run / CHORD));
    const [dx, dy] = [(to[0] - from[0]) / count, (to[1] - from[1]) / count];
    const [ox, oy] = [dy * HANDLE, -dx * HANDLE];
    for (let n = 0; n < count; n++) {
      const [ax, ay] = [from[0] + n * dx, from[1] + n * dy];
      const [bx, by] = [ax + dx, ay + dy];
      steps.push({ to: "curve", c1: [ax + ox, ay + oy], c2: [bx + ox, by + oy], at: [bx, by] });
    }
  });
  return stroke("outline", [...steps, { to: "close" }]);
}

const FOOT: Mm = 0.5; // under the letter
const SIDE: Mm = 0.35; // beside it, where it is highest
const WIDEST_IN_TRIANGLE: Mm = 4.5;

/** The letter of a revision, standing on a baseline: in a triangle, a longer mark in a frame. */
export function revisionTag(letter: string): Extract<Atom, { kind: "drawn" }> {
  const width = measureText(letter, LEAST_TEXT, "bold");
  const lettered = (x: Mm): Shape => text([x, 0], letter, LEAST_TEXT, { anchor: "middle", weight: "bold" });
  if (width > WIDEST_IN_TRIANGLE) {
    const [wide, high] = [width + 2, LEAST_TEXT + 2 * FOOT + 0.4];
    const box = { x: 0, y: FOOT - high, width: wide, height: high };
    return {
      kind: "drawn",
      width: wide,
      up: high - FOOT,
      down: FOOT,
      shapes: [stroke("bar", rectSteps(box)), lettered(wide / 2)],
    };
  }
  // The sides of an equilateral triangle pass the letter's upper corners.
  const side = width + 2 * SIDE + (FOOT + LEAST_TEXT) / (Math.sqrt(3) / 2);
  const height = (side * Math.sqrt(3)) / 2;
  const triangle: Point[] = [
    [0, FOOT],
    [side / 2, FOOT - height],
    [side, FOOT],
  ];
  return {
    kind: "drawn",
    width: side,
    up: height - FOOT,
    down: FOOT,
    shapes: [stroke("bar", polygonSteps(triangle)), lettered(side / 2)],
  };
}

/** The letter on what the earlier set did not have at all: there is no figure to tell from the rest. */
export const newTag = (letter: string): Atom[] => [glue([revisionTag(letter), word("new", LEAST_TEXT, "bold")], 0.5)];

type Drawn = Extract<Atom, { kind: "drawn" }>;

/** An atom in its cloud. */
export function clouded(atom: Exclude<Atom, { kind: "break" }>, tag: Drawn | null = null): Drawn {
  const inner = glue([atom]) as Drawn;
  // A decimal has nothing below its baseline; a stacked fraction's lower digits go as deep as its box.
  const down = inner.down;
  const shapes: Shape[] = [
    { kind: "group", id: null, move: [CLOUD, 0], turn: 0, clip: null, shapes: inner.shapes },
    cloud({ x: CLOUD, y: -inner.up, width: inner.width, height: inner.up + down }),
  ];
  const own: Drawn = {
    kind: "drawn",
    width: inner.width + 2 * CLOUD,
    up: inner.up + CLOUD,
    down: down + CLOUD,
    shapes,
  };
  return tag === null ? own : (glue([own, tag], TAG_GAP) as Drawn);
}

const TAG_GAP = 0.5; // word spaces between a cloud and its letter

/**
 * What a draughtsman would not sign, found on a finished page from its shapes alone: text over text, a line through a
 * text, a text that a body covers or that runs over a body's edge, anything outside the frame, lettering too small to
 * read, a page that is mostly blank. A body is whatever is filled with any grey but white.
 *
 * The rule for lines: no text lies across a line that is drawn with a pen, whatever the line is, but for these three:
 * hatching, a line that has been painted over with white before the text was lettered (a balloon on a view), and any
 * line at all under a text so pale that it is a mark behind the drawing (DRAFT). Where the caller says so, leaders, which
 * are drawn thin, are left out too: on a sheet layout they lead from cuts to numbers across whatever lies between.
 */
import { measureText } from "../../../src/paper/lettering.ts";
import { PENS, type Pen } from "../../../src/paper/pen.ts";
import type { Page, Rect, Shape } from "../../../src/paper/shape.ts";
import { type Matrix, overlapping, type TextBox, times, turned } from "./text-boxes.ts";

type Spot = readonly [number, number];

const through = (m: Matrix, x: number, y: number): Spot => [m[0] * x + m[2] * y + m[4], m[1] * x + m[3] * y + m[5]];

/** What is on the page in the order it is painted; curves in eight chords. */
type Painted =
  | { kind: "text"; box: TextBox; grey: number }
  | { kind: "line"; from: Spot; to: Spot; width: number; pen: Pen }
  | { kind: "white"; points: Spot[] }
  | { kind: "body"; points: Spot[] };

const CHORDS = 8;

/** A path as its runs of points. */
function runsOf(steps: Extract<Shape, { kind: "path" }>["steps"], m: Matrix): Spot[][] {
  const runs: Spot[][] = [];
  for (const step of steps) {
    const run = runs.at(-1);
    if (step.to === "close") run!.push(run![0]!);
    else if (step.to === "curve") {
      const [x0, y0] = run!.at(-1)!;
      const [[x1, y1], [x2, y2], [x3, y3]] = [step.c1, step.c2, step.at].map(([x, y]) => through(m, x, y)) as [
        Spot,
        Spot,
        Spot,
      ];
      for (let i = 1; i <= CHORDS; i++) {
        const t = i / CHORDS;
        const [a, b, c, d] = [(1 - t) ** 3, 3 * t * (1 - t) ** 2, 3 * t * t * (1 - t), t ** 3];
        run!.push([a * x0 + b * x1 + c * x2 + d * x3, a * y0 + b * y1 + c * y2 + d * y3]);
      }
    } else if (step.to === "move") runs.push([through(m, step.at[0], step.at[1])]);
    else run!.push(through(m, step.at[0], step.at[1]));
  }
  return runs;
}

const paintedIn = (shapes: readonly Shape[], m: Matrix): Painted[] => shapes.flatMap((shape) => paint(shape, m));

function paint(shape: Shape, m: Matrix): Painted[] {
  switch (shape.kind) {
    case "group":
      return paintGroup(shape, times(m, turned(shape.move[0], shape.move[1], shape.turn)));
    case "text": {
      if (shape.text.trim() === "") return [];
      const own = times(m, turned(shape.at[0], shape.at[1], shape.turn));
      const width = measureText(shape.text, shape.size, shape.weight);
      const start = { start: 0, middle: -width / 2, end: -width }[shape.anchor];
      const corners = [start, start + width].flatMap((x) => [0, -shape.size].map((y) => through(own, x, y)));
      const [xs, ys] = [corners.map(([x]) => x), corners.map(([, y]) => y)];
      const box = {
        text: shape.text,
        size: shape.size,
        x0: Math.min(...xs),
        x1: Math.max(...xs),
        y0: Math.min(...ys),
        y1: Math.max(...ys),
      };
      return [{ kind: "text", box, grey: shape.grey }];
    }
    case "path": {
      const runs = runsOf(shape.steps, m);
      const { pen } = shape;
      return [
        ...(shape.fill === null
          ? []
          : runs.map((points): Painted => ({ kind: shape.fill === 1 ? "white" : "body", points }))),
        ...(pen === null
          ? []
          : runs.flatMap((run) =>
              run.slice(1).map((to, i): Painted => {
                return { kind: "line", from: run[i]!, to, width: PENS[pen].width, pen };
              }),
            )),
      ];
    }
    case "link":
      return [];
  }
}

/** A clipped group keeps what of its lines lies in the clip; no text is clipped, and no clipped group is turned aside. */
function paintGroup({ shapes, clip }: Extract<Shape, { kind: "group" }>, m: Matrix): Painted[] {
  const inside = paintedIn(shapes, m);
  if (clip === null) return inside;
  const corners = [through(m, clip.x, clip.y), through(m, clip.x + clip.width, clip.y + clip.height)];
  const [xs, ys] = [corners.map(([x]) => x), corners.map(([, y]) => y)];
  const box = { x0: Math.min(...xs), x1: Math.max(...xs), y0: Math.min(...ys), y1: Math.max(...ys) };
  return inside.flatMap((one): Painted[] => {
    if (one.kind !== "line") return [one];
    const stretch = within(one.from, one.to, box);
    if (stretch === null) return [];
    const at = (f: number): Spot => [
      one.from[0] + (one.to[0] - one.from[0]) * f,
      one.from[1] + (one.to[1] - one.from[1]) * f,
    ];
    return [{ ...one, from: at(stretch[0]), to: at(stretch[1]) }];
  });
}

export const paintedOn = ({ shapes }: Pick<Page, "shapes">): Painted[] => paintedIn(shapes, [1, 0, 0, 1, 0, 0]);

const TOUCH = 0.05;

type Bounds = { x0: number; x1: number; y0: number; y1: number };

/** Where on the line, from 0 to 1, it enters and leaves the box; null where it does not. */
function within(from: Spot, to: Spot, { x0, x1, y0, y1 }: Bounds): readonly [number, number] | null {
  let [low, high] = [0, 1];
  for (const i of [0, 1] as const) {
    const [lo, hi] = i === 0 ? [x0, x1] : [y0, y1];
    const run = to[i] - from[i];
    if (Math.abs(run) < 1e-12) {
      if (from[i] <= lo || from[i] >= hi) return null;
      continue;
    }
    const [f, g] = [(lo - from[i]) / run, (hi - from[i]) / run];
    low = Math.max(low, Math.min(f, g));
    high = Math.min(high, Math.max(f, g));
  }
  return high - low > 1e-9 ? [low, high] : null;
}

const crosses = (from: Spot, to: Spot, { x0, x1, y0, y1 }: Bounds): boolean =>
  within(from, to, { x0: x0 + TOUCH, x1: x1 - TOUCH, y0: y0 + TOUCH, y1: y1 - TOUCH }) !== null;

/** Inside by the number of edges to its right. */
function isInside([x, y]: Spot, points: readonly Spot[]): boolean {
  let is = false;
  points.forEach(([x1, y1], i) => {
    const [x2, y2] = points[(i + 1) % points.length]!;
    if (y1 > y !== y2 > y && x < x1 + ((y - y1) / (y2 - y1)) * (x2 - x1)) is = !is;
  });
  return is;
}

const isUnder = (box: TextBox, points: readonly Spot[]): boolean =>
  [box.x0, box.x1].every((x) => [box.y0, box.y1].every((y) => isInside([x, y], points)));

const PALE = 0.8;

/** Texts with a line through them, as "text" once each. */
function struckOn(painted: readonly Painted[], withLeaders: boolean): string[] {
  const isCounted = (one: Painted): one is Extract<Painted, { kind: "line" }> =>
    one.kind === "line" && one.pen !== "hatch" && (withLeaders || one.pen !== "thin");
  const lines = painted.flatMap((one, at) => (isCounted(one) ? [{ ...one, at }] : []));
  const whites = painted.flatMap((one, at) => (one.kind === "white" ? [{ ...one, at }] : []));
  const struck = new Set<string>();
  painted.forEach((one, at) => {
    if (one.kind !== "text" || one.grey > PALE) return;
    const { box } = one;
    const hit = lines.filter(({ from, to }) => crosses(from, to, box));
    if (hit.length === 0) return;
    const cover = whites.filter((white) => white.at < at && isUnder(box, white.points)).map((white) => white.at);
    if (hit.some((line) => !cover.some((white) => white > line.at))) struck.add(box.text);
  });
  return [...struck];
}

type Ink = { from: Spot; to: Spot; near: number };

/** The edges of what was filled. */
const edgesOf = (points: readonly Spot[], near: number): Ink[] =>
  points.map((from, i) => ({ from, to: points[(i + 1) % points.length]!, near }));

/** A line that comes as near to the box as its ink and its air go. */
const isNear = ({ from, to, near }: Ink, { x0, x1, y0, y1 }: TextBox): boolean =>
  Math.min(from[0], to[0]) < x1 + near &&
  Math.max(from[0], to[0]) > x0 - near &&
  Math.min(from[1], to[1]) < y1 + near &&
  Math.max(from[1], to[1]) > y0 - near &&
  within(from, to, { x0: x0 - near, x1: x1 + near, y0: y0 - near, y1: y1 + near }) !== null;

/** Texts that something was painted over, or that run over a body's edge. */
function coveredOn(painted: readonly Painted[]): string[] {
  const filled = painted.flatMap((one, at) => (one.kind === "body" || one.kind === "white" ? [{ ...one, at }] : []));
  const bodies = filled.flatMap(({ kind, points, at }) =>
    kind === "body" ? [{ at, edges: edgesOf(points, -TOUCH) }] : [],
  );
  const isCovered = (box: TextBox, from: number, to: number): boolean =>
    filled.some(({ at, points }) => at > from && at < to && isUnder(box, points));
  return [
    ...new Set(
      painted.flatMap((one, at) => {
        if (one.kind !== "text" || one.grey > PALE) return [];
        const isOver = bodies.some(
          (body) => body.edges.some((edge) => isNear(edge, one.box)) && !isCovered(one.box, body.at, at),
        );
        return isOver || isCovered(one.box, at, Number.POSITIVE_INFINITY) ? [one.box.text] : [];
      }),
    ),
  ];
}

/** White between a text and the ink of an outline or a body: with less a digit reads as part of what it touches (common practice, no source). */
const AIR = 0.3;

/** Words and figures that as good as touch an outline or a body, unless that was painted over first; a full stop stands close by a fraction's bar. */
function crowdedOn(painted: readonly Painted[]): string[] {
  const inks = painted.flatMap((one, at): { at: number; edges: Ink[] }[] =>
    one.kind === "line" && one.pen === "outline"
      ? [{ at, edges: [{ from: one.from, to: one.to, near: AIR + one.width / 2 }] }]
      : one.kind === "body"
        ? [{ at, edges: edgesOf(one.points, AIR) }]
        : [],
  );
  const whites = painted.flatMap((one, at) => (one.kind === "white" ? [{ ...one, at }] : []));
  const found = new Set<string>();
  painted.forEach((text, at) => {
    if (text.kind !== "text" || text.grey > PALE || !/[\p{L}\d]/u.test(text.box.text)) return;
    const near = inks.filter(({ edges }) => edges.some((edge) => isNear(edge, text.box)));
    const cover = near.length === 0 ? [] : whites.filter((one) => one.at < at && isUnder(text.box, one.points));
    if (near.some((ink) => !cover.some((white) => white.at > ink.at))) found.add(text.box.text);
  });
  return [...found];
}

const textsOf = (painted: readonly Painted[]): TextBox[] =>
  painted.flatMap((one) => (one.kind === "text" && one.grey <= PALE ? [one.box] : []));

type Extent = { what: string; x0: number; x1: number; y0: number; y1: number };

/** Everything on the page, each with half its line's width. */
const extentsOf = (painted: readonly Painted[]): Extent[] =>
  painted.flatMap((one): Extent[] => {
    if (one.kind === "white" || one.kind === "body") return [];
    if (one.kind === "text") return [{ what: one.box.text, ...one.box }];
    const { from, to, width } = one;
    return [
      {
        what: "a line",
        x0: Math.min(from[0], to[0]) - width / 2,
        x1: Math.max(from[0], to[0]) + width / 2,
        y0: Math.min(from[1], to[1]) - width / 2,
        y1: Math.max(from[1], to[1]) + width / 2,
      },
    ];
  });

/** What reaches beyond a rectangle. */
const beyond = (painted: readonly Painted[], space: Rect): string[] => [
  ...new Set(
    extentsOf(painted)
      .filter(
        ({ x0, x1, y0, y1 }) =>
          x0 < space.x - TOUCH ||
          y0 < space.y - TOUCH ||
          x1 > space.x + space.width + TOUCH ||
          y1 > space.y + space.height + TOUCH,
      )
      .map(({ what }) => what),
  ),
];

/** Lettering lower than the least. */
const smallOn = (painted: readonly Painted[], least: number): string[] => [
  ...new Set(textsOf(painted).flatMap(({ text, size }) => (size < least - 1e-6 ? [text] : []))),
];

/** The rectangles round each shape, lines of one path together: a part's outline takes up what lies inside it. */
function takenIn(shapes: readonly Shape[], m: Matrix): { x0: number; x1: number; y0: number; y1: number }[] {
  return shapes.flatMap((shape) => {
    if (shape.kind === "group") {
      return takenIn(shape.shapes, times(m, turned(shape.move[0], shape.move[1], shape.turn)));
    }
    const extents = extentsOf(paintedIn([shape], m));
    if (extents.length === 0) return [];
    return [
      {
        x0: Math.min(...extents.map(({ x0 }) => x0)),
        x1: Math.max(...extents.map(({ x1 }) => x1)),
        y0: Math.min(...extents.map(({ y0 }) => y0)),
        y1: Math.max(...extents.map(({ y1 }) => y1)),
      },
    ];
  });
}

const SQUARE = 15; // two fingers' breadth: white paper narrower than that is air

/**
 * How much of the space is taken, 0 to 1: of its squares of 15 mm, those that the rectangle round some shape reaches
 * into. Frame and title block, which lie beyond the space, are left out.
 */
export function filledShare({ shapes }: Pick<Page, "shapes">, space: Rect): number {
  const taken = takenIn(shapes, [1, 0, 0, 1, 0, 0]).filter(
    ({ x0, x1, y0, y1 }) =>
      x0 > space.x - 1 && x1 < space.x + space.width + 1 && y0 > space.y - 1 && y1 < space.y + space.height + 1,
  );
  const [columns, rows] = [Math.floor(space.width / SQUARE), Math.floor(space.height / SQUARE)];
  let met = 0;
  for (let c = 0; c < columns; c++) {
    for (let r = 0; r < rows; r++) {
      const [x, y] = [space.x + c * SQUARE, space.y + r * SQUARE];
      if (taken.some(({ x0, x1, y0, y1 }) => x0 < x + SQUARE && x < x1 && y0 < y + SQUARE && y < y1)) met++;
    }
  }
  return met / (columns * rows);
}

/** What is wrong with any page, whatever stands on it. */
export const faultsOn = (painted: readonly Painted[], space: Rect, least: number, withLeaders = true): string[] => [
  ...overlapping(textsOf(painted)).map((texts) => `text over text: ${texts}`),
  ...struckOn(painted, withLeaders).map((text) => `a line through: ${text}`),
  ...coveredOn(painted).map((text) => `a body over: ${text}`),
  ...(withLeaders ? crowdedOn(painted).map((text) => `touches a line or a body: ${text}`) : []),
  ...beyond(painted, space).map((what) => `outside: ${what}`),
  ...smallOn(painted, least).map((text) => `small: ${text}`),
];

/**
 * Dimensions along one side of a view: rows stacked outwards, every figure computed from the two points it stands
 * between. `along` is the paper coordinate along the side, `out` the distance outwards from the view's edge:
 *
 *      out  |   15 1/4      28 1/2          texts, spread where they would touch, with a jog to their line
 *       |   |   /             |
 *       |   o---->-------------->           the dimension line
 *       |   |   |             |             extension lines
 *       +---============================ along
 */
import { figureOf, type Mm, type Unit } from "../../base/length.ts";
import { circleSteps, fill, group, lines, polygonSteps, stroke, text } from "../../paper/draw.ts";
import { measureText } from "../../paper/lettering.ts";
import type { Point, Rect, Shape } from "../../paper/shape.ts";
import type { Atom } from "./cell.ts";
import { breakLines, type Line } from "./clip.ts";
import { clouded, revisionTag } from "./cloud.ts";
import { drawLength, measureLength } from "./figure.ts";
import { spread } from "./stretch.ts";

export type Side = "above" | "below" | "left" | "right";

export type Row =
  /** A figure between each two points; in brackets where each says again what other figures say. */
  | { kind: "spans"; spans: (readonly [Mm, Mm])[]; check?: boolean; revised?: readonly boolean[] }
  /** Figures from one datum to each point; `total`, one of them, is a check and stands in brackets. */
  | { kind: "running"; datum: Mm; at: Mm[]; total?: Mm; revised?: readonly boolean[] }
  /** A letter at each point: no figure. */
  | { kind: "letters"; letters: { at: Mm; text: string }[] };

/** `ratio` is the scale (paper to piece); `size` the numerals' height on paper; `revision` the letter beside what a row says is `revised`. */
export type DimensionStyle = { unit: Unit; ratio: number; size: Mm; revision?: string };

export type Dimensions = {
  shapes: Shape[];
  /** Space used outwards from the edge. */
  depth: Mm;
  /** Every text, for whatever is laid out beside it. */
  boxes: Rect[];
};

const GAP: Mm = 1; // from the outline to an extension line
const OVERSHOOT: Mm = 1.5; // of the extension line past the dimension line
const LEAD: Mm = 4.5; // from the outline, or the last row, to the next dimension line
const TEXT_GAP: Mm = 0.9; // between a line and a text
export const TEXT_SPACE: Mm = 1.6; // between two texts
const JOG: Mm = 2.6; // the sloping piece to a text that had to move aside
const STROKE_ROOM: Mm = 1.65; // between a text and the middle of a stroke at its line's end: the stroke leans towards it, and has some white before it
const LINE_CLEAR: Mm = 0.8; // between a text and a line that passes beside it
const STROKE: Mm = 1.1; // half an oblique stroke, each way
const ARROW: Mm = 2.4;

/** Above and below the baseline: a stacked fraction stands out over and under its whole number. */
export function figureRise(style: Pick<DimensionStyle, "unit" | "size">): { up: Mm; down: Mm } {
  return style.unit === "in" ? { up: 1.4 * style.size, down: 0.4 * style.size } : { up: style.size, down: 0 };
}

/** The same for one length: a whole number or a decimal has nothing standing out. */
function riseOf(length: Mm, style: DimensionStyle): { up: Mm; down: Mm } {
  const figure = figureOf(length, style.unit);
  return figure.kind === "fraction" && figure.numerator !== 0 ? figureRise(style) : { up: style.size, down: 0 };
}

/** A length ready to be lettered from where its baseline starts. */
type Lettered = { width: Mm; rise: { up: Mm; down: Mm }; draw: (start: Point) => Shape[] };

/** A length, and whether it only says again what others say. */
type Told = { length: Mm; check: boolean };

function letterLength({ length, check }: Told, style: DimensionStyle, isRevised: boolean, isTold: boolean): Lettered {
  const { unit, size, revision } = style;
  const width = measureLength(length, unit, size, "regular", { check });
  const plain = (start: Point): Shape[] =>
    drawLength(start, length, unit, size, { anchor: "start", weight: "regular", check }).shapes;
  if (!isRevised) return { width, rise: figureRise(style), draw: plain };
  const { up, down } = riseOf(length, style);
  const figure: Atom = { kind: "drawn", width, up, down, shapes: plain([0, 0]) };
  const atom = clouded(figure, isTold && revision !== undefined ? revisionTag(revision) : null);
  return { width: atom.width, rise: atom, draw: (start) => [group(atom.shapes, { move: start })] };
}

/** What is being laid out on one side: lines are kept until every text is known, then broken where they meet one. */
class SideLayout {
  readonly shapes: Shape[] = [];
  readonly boxes: Rect[] = [];
  readonly lines: Line[] = [];

  constructor(
    readonly side: Side,
    readonly edge: Mm,
    readonly style: DimensionStyle,
  ) {}

  get isLevel(): boolean {
    return this.side === "above" || this.side === "below";
  }

  put(along: Mm, out: Mm): Point {
    switch (this.side) {
      case "above":
        return [along, this.edge - out];
      case "below":
        return [along, this.edge + out];
      case "left":
        return [this.edge - out, along];
      case "right":
        return [this.edge + out, along];
    }
  }

  line(from: readonly [Mm, Mm], to: readonly [Mm, Mm]): void {
    this.lines.push([this.put(...from), this.put(...to)]);
  }

  /** A text of this size whose inner edge is at `out`, its middle at `along`: where its baseline starts, and its box. */
  place(along: Mm, out: Mm, width: Mm, rise: { up: Mm; down: Mm }): { start: Point; box: Rect } {
    const height = rise.up + rise.down;
    const [x, y] = this.put(along, out);
    const box: Rect = this.isLevel
      ? { x: x - width / 2, y: this.side === "above" ? y - height : y, width, height }
      : { x: this.side === "left" ? x - width : x, y: y - height / 2, width, height };
    this.boxes.push(box);
    return { start: [box.x, box.y + rise.up], box };
  }

  /** The lengths of one row as they are lettered: those that changed in clouds, the first of them with its letter. */
  letter(lengths: readonly Told[], revised: readonly boolean[] = []): Lettered[] {
    const first = revised.indexOf(true);
    const own = lengths.map((length, i) => letterLength(length, this.style, revised[i] === true, i === first));
    if (!this.isLevel || first === -1) return own;
    const rise = { up: Math.max(...own.map(({ rise: { up } }) => up)), down: Math.max(...own.map((o) => o.rise.down)) };
    return own.map((one) => ({ ...one, rise })); // on one baseline
  }

  write(along: Mm, out: Mm, { width, rise, draw }: Lettered): void {
    this.shapes.push(...draw(this.place(along, out, width, rise).start));
  }

  extentOf({ width, rise }: Lettered): Mm {
    return this.isLevel ? width : rise.up + rise.down;
  }

  depthOf(figures: readonly Lettered[]): Mm {
    return Math.max(0, ...figures.map(({ width, rise }) => (this.isLevel ? rise.up + rise.down : width)));
  }

  finish(depth: Mm): Dimensions {
    return {
      shapes: [lines("thin", breakLines(this.lines, this.boxes)), ...this.shapes],
      depth,
      boxes: this.boxes,
    };
  }
}

/**
 * Rows of dimensions along one side of a view, the first row nearest to it. `edge` is where the view ends on paper;
 * `reserved` is kept free next to it for other marks.
 */
export function drawDimensions(
  side: Side,
  edge: Mm,
  rows: readonly Row[],
  style: DimensionStyle,
  reserved: Mm = 0,
): Dimensions {
  const layout = new SideLayout(side, edge, style);
  let out: Mm = reserved;
  for (const [i, row] of rows.entries()) {
    switch (row.kind) {
      case "spans":
        out = row.spans.length === 0 ? out : layOutSpans(layout, out, row, rows.slice(i + 1).flatMap(pointsOf));
        break;
      case "running":
        out = row.at.length === 0 ? out : layOutRunning(layout, out, row);
        break;
      case "letters":
        out = row.letters.length === 0 ? out : layOutLetters(layout, out, row.letters);
        break;
    }
  }
  return layout.finish(out);
}

/** Where a row's extension lines run, past every row that is nearer to the view. */
function pointsOf(row: Row): Mm[] {
  switch (row.kind) {
    case "spans":
      return row.spans.flat();
    case "running":
      return row.at.length === 0 ? [] : [row.datum, ...row.at];
    case "letters":
      return row.letters.map(({ at }) => at);
  }
}

/**
 * A figure through which an extension line would run, so that it read as one with a dash on either side, stands beside
 * the line instead, towards `middle`; where another figure is in the way, it stays.
 */
function besideLines(places: readonly Mm[], extents: readonly Mm[], passing: readonly Mm[], middle: Mm): Mm[] {
  const moved = [...places];
  places.forEach((place, i) => {
    const half = extents[i]! / 2 + LINE_CLEAR;
    const struck = passing.filter((at) => Math.abs(at - place) < half);
    if (struck.length === 0) return;
    const isBelow = place < middle;
    const at = isBelow ? Math.max(...struck) + half : Math.min(...struck) - half;
    const isFree =
      !passing.some((other) => Math.abs(other - at) < half - 1e-9) &&
      moved.every((other, j) => j === i || Math.abs(other - at) >= (extents[i]! + extents[j]!) / 2 + TEXT_SPACE);
    if (isFree) moved[i] = at;
  });
  return moved;
}

/** Paper coordinates carry float noise far below any step; without it a figure half way between two thousandths is read alike everywhere. */
export const clean = (length: Mm): Mm => Math.round(length * 1e6) / 1e6;

const lengthOf = (layout: SideLayout, from: Mm, to: Mm): Mm => clean(Math.abs(to - from) / layout.style.ratio);

/** `passing`: where extension lines of rows farther out run by. */
function layOutSpans(layout: SideLayout, start: Mm, row: Extract<Row, { kind: "spans" }>, passing: readonly Mm[]): Mm {
  const ordered = row.spans.map(([a, b]) => (a < b ? ([a, b] as const) : ([b, a] as const)));
  const letters = layout.letter(
    ordered.map(([a, b]) => ({ length: lengthOf(layout, a, b), check: row.check ?? false })),
    row.revised,
  );
  const figures = ordered.map(([a, b], i) => {
    const letter = letters[i]!;
    const extent = layout.extentOf(letter);
    return { a, b, letter, extent, isInside: extent + 2 * STROKE_ROOM <= b - a };
  });
  const inside = figures.filter((figure) => figure.isInside);
  const moved = figures.filter((figure) => !figure.isInside);
  const textDepth = layout.depthOf(letters);
  // Text stands above its line on paper: under the view that is on the line's inner side.
  const isInward = layout.side === "below" && inside.length > 0;
  const lineAt = start + (isInward ? Math.max(LEAD, 1.5 * TEXT_GAP + textDepth + 1) : LEAD);
  let end = lineAt + OVERSHOOT;
  for (const { a, b, letter } of inside) {
    layout.write((a + b) / 2, isInward ? lineAt - TEXT_GAP - textDepth : lineAt + TEXT_GAP, letter);
    if (!isInward) end = Math.max(end, lineAt + TEXT_GAP + textDepth);
  }
  for (const at of new Set(ordered.flat())) {
    layout.line([at, GAP], [at, lineAt + OVERSHOOT]);
    layout.shapes.push(obliqueStroke(layout.put(at, lineAt)));
  }
  for (const { a, b } of figures) layout.line([a, lineAt], [b, lineAt]);
  if (moved.length > 0) {
    const level = end + JOG - OVERSHOOT;
    const wanted = moved.map(({ a, b, extent }) => ({ at: (a + b) / 2, extent }));
    const ends = ordered.flat();
    const places = besideLines(
      spread(wanted, TEXT_SPACE),
      wanted.map(({ extent }) => extent),
      passing,
      (Math.min(...ends) + Math.max(...ends)) / 2,
    );
    moved.forEach(({ a, b, letter }, i) => {
      layout.write(places[i]!, level + TEXT_GAP, letter);
      layout.line([(a + b) / 2, lineAt], [places[i]!, level]);
    });
    end = level + TEXT_GAP + textDepth;
  }
  return end;
}

/** An oblique stroke marks a line's end however narrow the span is, where arrows would meet. */
export const obliqueStroke = ([x, y]: Point, half: Mm = STROKE): Shape =>
  lines("outline", [
    [
      [x - half, y + half],
      [x + half, y - half],
    ],
  ]);

/** Room for sloping lines, needed only where a text had to move aside. */
const jogFor = (wanted: readonly Mm[], places: readonly Mm[]): Mm =>
  places.some((place, i) => Math.abs(place - wanted[i]!) > 0.05) ? JOG : 0;

function layOutRunning(layout: SideLayout, start: Mm, row: Extract<Row, { kind: "running" }>): Mm {
  const { datum, at, total, revised = [] } = row;
  const points = [datum, ...at];
  const letters = layout.letter(
    points.map((point) => ({ length: lengthOf(layout, datum, point), check: point === total })),
    [false, ...revised],
  );
  const lineAt = start + LEAD;
  const places = spread(
    points.map((point, i) => ({ at: point, extent: layout.extentOf(letters[i]!) })),
    TEXT_SPACE,
  );
  const level = lineAt + OVERSHOOT + jogFor(points, places);
  points.forEach((point, i) => {
    layout.line([point, GAP], [point, lineAt + OVERSHOOT]);
    layout.line([point, lineAt + OVERSHOOT], [places[i]!, level]);
    layout.write(places[i]!, level + TEXT_GAP, letters[i]!);
    if (point !== datum) layout.shapes.push(arrow(layout.put(datum, lineAt), layout.put(point, lineAt)));
  });
  layout.line([Math.min(...points), lineAt], [Math.max(...points), lineAt]);
  layout.shapes.push(stroke("thin", circleSteps(layout.put(datum, lineAt), 0.9)));
  return level + TEXT_GAP + layout.depthOf(letters);
}

/** A filled arrow whose tip is at `tip`, coming from `from`. */
export function arrow(from: Point, tip: Point): Shape {
  const run = Math.hypot(tip[0] - from[0], tip[1] - from[1]);
  const [dx, dy] = [(tip[0] - from[0]) / run, (tip[1] - from[1]) / run];
  const length = Math.min(ARROW, run);
  const half = ARROW / 6;
  const foot: Point = [tip[0] - dx * length, tip[1] - dy * length];
  return fill(
    0,
    polygonSteps([tip, [foot[0] - dy * half, foot[1] + dx * half], [foot[0] + dy * half, foot[1] - dx * half]]),
  );
}

function layOutLetters(layout: SideLayout, start: Mm, letters: { at: Mm; text: string }[]): Mm {
  const { size } = layout.style;
  const rise = { up: size, down: 0 };
  const widths = letters.map(({ text: content }) => measureText(content, size, "bold"));
  const places = spread(
    letters.map(({ at }, i) => ({ at, extent: layout.isLevel ? widths[i]! : size })),
    TEXT_SPACE,
  );
  const level =
    start +
    GAP +
    1.2 +
    jogFor(
      letters.map(({ at }) => at),
      places,
    );
  letters.forEach(({ at, text: content }, i) => {
    layout.line([at, GAP], [at, start + GAP]);
    layout.line([at, start + GAP], [places[i]!, level]);
    const placed = layout.place(places[i]!, level + TEXT_GAP, widths[i]!, rise);
    layout.shapes.push(text(placed.start, content, size, { weight: "bold" }));
  });
  return level + TEXT_GAP + (layout.isLevel ? size : Math.max(...widths));
}

/** One dimension inside a view, its line from `a` to `b` (level or upright), the text beside the line's middle. */
export function drawSpan(a: Point, b: Point, style: DimensionStyle): { shapes: Shape[]; box: Rect; line: Rect } {
  const isLevel = Math.abs(a[1] - b[1]) < Math.abs(a[0] - b[0]);
  const length = clean(Math.hypot(b[0] - a[0], b[1] - a[1]) / style.ratio);
  const width = measureLength(length, style.unit, style.size, "regular");
  const rise = riseOf(length, style);
  const middle: Point = [(a[0] + b[0]) / 2, (a[1] + b[1]) / 2];
  const start: Point = isLevel
    ? [middle[0] - width / 2, middle[1] - TEXT_GAP - rise.down]
    : [middle[0] + TEXT_GAP, middle[1] + (rise.up - rise.down) / 2];
  const box = { x: start[0], y: start[1] - rise.up, width, height: rise.up + rise.down };
  return {
    box,
    line: {
      x: Math.min(a[0], b[0]),
      y: Math.min(a[1], b[1]),
      width: Math.abs(a[0] - b[0]),
      height: Math.abs(a[1] - b[1]),
    },
    shapes: [
      lines("thin", [[a, b]]),
      arrow(middle, a),
      arrow(middle, b),
      ...drawLength(start, length, style.unit, style.size, { anchor: "start", weight: "regular" }).shapes,
    ],
  };
}

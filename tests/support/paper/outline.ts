/** A view by its wide lines: where they lie, which cells they bound, and where the wood is hatched. */
import { isDrawnWith, isLevel, isUpright, type SeenPage, type Spot, type Stroke } from "./page.ts";

export type Outline = {
  x0: number;
  x1: number;
  y0: number;
  y1: number;
  strokes: Stroke[];
  /** Where its upright lines lie, and its level ones. */
  xs: number[];
  ys: number[];
  hatching: Stroke[];
  rounds: SeenPage["rounds"];
  /** How much of it is hatched or filled, 0 to 1. */
  cut: number;
};

const TOUCH = 0.01;

type Span = { x0: number; x1: number; y0: number; y1: number };
const spanOf = ({ from, to }: Stroke): Span => ({
  x0: Math.min(from[0], to[0]),
  x1: Math.max(from[0], to[0]),
  y0: Math.min(from[1], to[1]),
  y1: Math.max(from[1], to[1]),
});
const meets = (a: Span, b: Span, by: number): boolean =>
  a.x0 < b.x1 + by && b.x0 < a.x1 + by && a.y0 < b.y1 + by && b.y0 < a.y1 + by;

/** The uppermost line right across the page: over it are the views, under it the title block. */
export function titleTop(page: SeenPage): number {
  const frame = page.strokes.filter((one) => isLevel(one) && isDrawnWith(one, "frame")).map(spanOf);
  const across = page.strokes.filter((one) => {
    const { x0, x1 } = spanOf(one);
    return (
      isLevel(one) &&
      isDrawnWith(one, "outline") &&
      frame.some((edge) => Math.abs(edge.x0 - x0) < TOUCH && Math.abs(edge.x1 - x1) < TOUCH)
    );
  });
  if (across.length === 0) throw new Error("no title block");
  return Math.min(...across.map(({ from }) => from[1]));
}

const around = (strokes: readonly Stroke[]): Span => {
  const all = strokes.map(spanOf);
  return {
    x0: Math.min(...all.map(({ x0 }) => x0)),
    x1: Math.max(...all.map(({ x1 }) => x1)),
    y0: Math.min(...all.map(({ y0 }) => y0)),
    y1: Math.max(...all.map(({ y1 }) => y1)),
  };
};

/** What stands free inside another outline is cut into its face: a groove stopped at both ends. A slot, whose ends are round, is set out elsewhere. */
function withIslands(heaps: readonly Stroke[][], page: SeenPage): Stroke[][] {
  const boxes = heaps.map(around);
  const round = page.strokes
    .filter((one) => isDrawnWith(one, "outline") && !isLevel(one) && !isUpright(one))
    .map(spanOf);
  const isSlot = (box: Span): boolean => round.some((one) => meets(one, box, TOUCH));
  const homeOf = (i: number): number =>
    boxes.findIndex((box, j) => {
      const { x0, x1, y0, y1 } = boxes[i]!;
      return j !== i && box.x0 < x0 && box.x1 > x1 && box.y0 < y0 && box.y1 > y1;
    });
  const islands = heaps.map((_, i) => homeOf(i));
  return heaps.flatMap((heap, i) => {
    if (islands[i] !== -1) return [];
    const own = heaps.filter((_, j) => islands[j] === i && !isSlot(boxes[j]!));
    return [[...heap, ...own.flat()]];
  });
}

const distinct = (values: readonly number[]): number[] =>
  [...values].sort((a, b) => a - b).filter((value, i, all) => i === 0 || value - all[i - 1]! > 1e-3);

const SECTION_HATCH = 1.4; // between two hatch lines of a section

/** What is painted out between tails or pins has four corners; there the end is read as whole, for the note says what is cut away. */
const isSocket = (points: readonly Spot[]): boolean => points.length === 4;

/** Wide lines, but for what has been painted over with white after them. */
function uncovered({ strokes, fills }: SeenPage): Stroke[] {
  const whites = fills.filter(({ grey, points }) => grey === 1 && points.length > 2 && !isSocket(points));
  const wide = strokes.filter((one) => isDrawnWith(one, "outline"));
  return whites.reduce(
    (rest, white) => rest.flatMap((one) => (one.at < white.at ? outside(one, white.points) : [one])),
    wide,
  );
}

/** What of a line lies outside a polygon: between the places where it crosses its sides, by the middle of each stretch. */
function outside(one: Stroke, points: readonly Spot[]): Stroke[] {
  const [[x0, y0], [x1, y1]] = [one.from, one.to];
  const at = (f: number): Spot => [x0 + (x1 - x0) * f, y0 + (y1 - y0) * f];
  const cuts = points.flatMap(([px, py], i) => {
    const [qx, qy] = points[(i + 1) % points.length]!;
    const turn = (x1 - x0) * (qy - py) - (y1 - y0) * (qx - px);
    if (Math.abs(turn) < 1e-12) return [];
    const f = ((px - x0) * (qy - py) - (py - y0) * (qx - px)) / turn;
    const g = ((px - x0) * (y1 - y0) - (py - y0) * (x1 - x0)) / turn;
    return f > 1e-9 && f < 1 - 1e-9 && g > -1e-9 && g < 1 + 1e-9 ? [f] : [];
  });
  if (cuts.length === 0) return isInside(at(0.5), points) ? [] : [one];
  const ends = [0, ...cuts.sort((a, b) => a - b), 1];
  return ends.slice(1).flatMap((b, i) => {
    const a = ends[i]!;
    return b - a < 1e-9 || isInside(at((a + b) / 2), points) ? [] : [{ ...one, from: at(a), to: at(b) }];
  });
}

/** By the number of sides to its right. */
const isInside = ([x, y]: Spot, points: readonly Spot[]): boolean =>
  points.filter(([px, py], i) => {
    const [qx, qy] = points[(i + 1) % points.length]!;
    return py > y !== qy > y && x < px + ((y - py) / (qy - py)) * (qx - px);
  }).length %
    2 ===
  1;

export function outlinesOn(page: SeenPage): Outline[] {
  const bottom = titleTop(page);
  const wide = uncovered(page).filter(
    (one) =>
      isDrawnWith(one, "outline") &&
      (isLevel(one) || isUpright(one)) &&
      one.from[1] < bottom - TOUCH &&
      one.to[1] < bottom - TOUCH,
  );
  const spans = wide.map(spanOf);
  const home = wide.map((_, i) => i);
  const rootOf = (i: number): number => (home[i] === i ? i : rootOf(home[i]!));
  spans.forEach((a, i) => {
    for (let j = i + 1; j < spans.length; j++) if (meets(a, spans[j]!, TOUCH)) home[rootOf(i)] = rootOf(j);
  });
  const heaps = new Map<number, Stroke[]>();
  wide.forEach((one, i) => {
    heaps.set(rootOf(i), [...(heaps.get(rootOf(i)) ?? []), one]);
  });
  const hatching = page.strokes.filter((one) => Math.abs(one.width - 0.13) < 0.01);
  return withIslands([...heaps.values()], page).map((strokes): Outline => {
    const box = around(strokes);
    const isIn = ([x, y]: Spot): boolean =>
      x > box.x0 - TOUCH && x < box.x1 + TOUCH && y > box.y0 - TOUCH && y < box.y1 + TOUCH;
    const own = hatching.filter(({ from, to }) => isIn(from) && isIn(to));
    const area = (box.x1 - box.x0) * (box.y1 - box.y0);
    const hatched =
      own.reduce((sum, { from, to }) => sum + Math.hypot(to[0] - from[0], to[1] - from[1]), 0) * SECTION_HATCH;
    const filled = page.fills
      .filter(({ points, grey }) => Math.abs(grey - 0.55) < 0.01 && points.every(isIn))
      .reduce((sum, { points }) => {
        const [xs, ys] = [points.map(([x]) => x), points.map(([, y]) => y)];
        return sum + (Math.max(...xs) - Math.min(...xs)) * (Math.max(...ys) - Math.min(...ys));
      }, 0);
    return {
      ...box,
      strokes,
      xs: distinct(strokes.filter(isUpright).map(({ from }) => from[0])),
      ys: distinct(strokes.filter(isLevel).map(({ from }) => from[1])),
      hatching: own,
      rounds: page.rounds.filter(({ middle, width }) => isIn(middle) && Math.abs(width - 0.35) < 0.01),
      cut: (hatched + filled) / area,
    };
  });
}

/** Whether a line runs along a whole stretch: an upright one at x from a to b, or a level one at y. */
export function isDrawn(
  { strokes }: Pick<Outline, "strokes">,
  way: "x" | "y",
  at: number,
  a: number,
  b: number,
): boolean {
  const i = way === "x" ? 0 : 1;
  const j = 1 - i;
  const runs = strokes
    .filter(({ from, to }) => Math.abs(from[i]! - at) < 1e-3 && Math.abs(to[i]! - at) < 1e-3)
    .map(({ from, to }) => [Math.min(from[j]!, to[j]!), Math.max(from[j]!, to[j]!)] as const)
    .sort((p, q) => p[0] - q[0]);
  let reached = a;
  for (const [low, high] of runs) if (low < reached + TOUCH) reached = Math.max(reached, high);
  return reached > b - TOUCH;
}

/** What of its box lies outside the wood: from the paper's side no wide line bars the way. Each piece as the box round it. */
export function cornersOut(outline: Outline): { x0: number; x1: number; y0: number; y1: number; isBox: boolean }[] {
  const { xs, ys } = outline;
  const [columns, rows] = [xs.length - 1, ys.length - 1];
  const out = Array.from({ length: columns }, () => new Array<boolean>(rows).fill(false));
  const open = (i: number, j: number, k: number, l: number): boolean => {
    // The line between two neighbouring cells.
    if (i !== k) return !isDrawn(outline, "x", xs[Math.max(i, k)]!, ys[j]!, ys[j + 1]!);
    return !isDrawn(outline, "y", ys[Math.max(j, l)]!, xs[i]!, xs[i + 1]!);
  };
  const queue: [number, number][] = [];
  const enter = (i: number, j: number): void => {
    if (i < 0 || j < 0 || i >= columns || j >= rows || out[i]![j]) return;
    out[i]![j] = true;
    queue.push([i, j]);
  };
  for (let i = 0; i < columns; i++) {
    if (!isDrawn(outline, "y", ys[0]!, xs[i]!, xs[i + 1]!)) enter(i, 0);
    if (!isDrawn(outline, "y", ys[rows]!, xs[i]!, xs[i + 1]!)) enter(i, rows - 1);
  }
  for (let j = 0; j < rows; j++) {
    if (!isDrawn(outline, "x", xs[0]!, ys[j]!, ys[j + 1]!)) enter(0, j);
    if (!isDrawn(outline, "x", xs[columns]!, ys[j]!, ys[j + 1]!)) enter(columns - 1, j);
  }
  const pieces: [number, number][][] = [];
  const seen = new Set<number>();
  while (queue.length > 0) {
    const [i, j] = queue.pop()!;
    for (const [k, l] of [
      [i - 1, j],
      [i + 1, j],
      [i, j - 1],
      [i, j + 1],
    ] as const) {
      if (k >= 0 && l >= 0 && k < columns && l < rows && open(i, j, k, l)) enter(k, l);
    }
  }
  for (let i = 0; i < columns; i++) {
    for (let j = 0; j < rows; j++) {
      if (!out[i]![j] || seen.has(i * rows + j)) continue;
      const piece: [number, number][] = [];
      const todo: [number, number][] = [[i, j]];
      seen.add(i * rows + j);
      while (todo.length > 0) {
        const [a, b] = todo.pop()!;
        piece.push([a, b]);
        for (const [k, l] of [
          [a - 1, b],
          [a + 1, b],
          [a, b - 1],
          [a, b + 1],
        ] as const) {
          if (out[k]?.[l] !== true || seen.has(k * rows + l)) continue;
          seen.add(k * rows + l);
          todo.push([k, l]);
        }
      }
      pieces.push(piece);
    }
  }
  return pieces.map((piece) => {
    const [is, js] = [piece.map(([i]) => i), piece.map(([, j]) => j)];
    const [i0, i1, j0, j1] = [Math.min(...is), Math.max(...is), Math.min(...js), Math.max(...js)];
    return {
      x0: xs[i0]!,
      x1: xs[i1 + 1]!,
      y0: ys[j0]!,
      y1: ys[j1 + 1]!,
      isBox: piece.length === (i1 - i0 + 1) * (j1 - j0 + 1),
    };
  });
}

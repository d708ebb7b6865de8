/**
 * Dimensions read as a person reads them: from a line with its arrows or strokes, along an extension line to the figure
 * at its end.
 */
import { figureAt, type ReadFigure } from "./figure.ts";
import { isDrawnWith, type SeenPage, type Spot, type Stroke } from "./page.ts";

export type Way = "x" | "y";

/** A figure between two places on paper, along x or y. */
export type Dimension = { from: number; to: number; figure: ReadFigure };

/** Figures on one dimension line. `ends`: where its extension lines begin, beside what they measure; `zero`: the 0 of a running row. */
export type DimensionRow = { way: Way; line: number; dimensions: Dimension[]; ends: Spot[]; zero: ReadFigure | null };

const TOUCH = 0.02;
const close = (a: number, b: number, within = TOUCH): boolean => Math.abs(a - b) < within;

const along = (spot: Spot, way: Way): number => spot[way === "x" ? 0 : 1];
const across = (spot: Spot, way: Way): number => spot[way === "x" ? 1 : 0];
const spotOf = (way: Way, at: number, line: number): Spot => (way === "x" ? [at, line] : [line, at]);
const other = (way: Way): Way => (way === "x" ? "y" : "x");

/** Thin strokes that run one way, by the line that they lie on. */
type Thin = { way: Way; line: number; low: number; high: number };

function thinOf(strokes: readonly Stroke[]): Thin[] {
  return strokes
    .filter((stroke) => isDrawnWith(stroke, "thin"))
    .flatMap(({ from, to }): Thin[] =>
      (["x", "y"] as const)
        .filter((way) => close(across(from, way), across(to, way), 1e-3))
        .map((way) => ({
          way,
          line: across(from, way),
          low: Math.min(along(from, way), along(to, way)),
          high: Math.max(along(from, way), along(to, way)),
        })),
    );
}

const LONGEST_TEXT = 25; // for which a line may be broken

/** How far a line reaches from a place on it, over gaps that are left for a text. */
function reach(page: SeenPage, thin: readonly Thin[], way: Way, line: number, at: number): readonly [number, number] {
  const own = thin.filter((one) => one.way === way && close(one.line, line, 1e-2));
  const isText = (low: number, high: number): boolean =>
    high - low < LONGEST_TEXT &&
    page.words.some((word) =>
      way === "x"
        ? word.y0 - 2 < line && line < word.y1 + 2 && word.x0 < high && word.x1 > low
        : word.x0 - 2 < line && line < word.x1 + 2 && word.y0 < high && word.y1 > low,
    );
  let [low, high] = [at, at];
  for (let grown = true; grown; ) {
    grown = false;
    for (const one of own) {
      const isNext =
        (one.low <= high + TOUCH && one.high >= low - TOUCH) ||
        (one.low > high && isText(high, one.low)) ||
        (one.high < low && isText(one.high, low));
      if (!isNext || (one.low >= low - 1e-9 && one.high <= high + 1e-9)) continue;
      [low, high] = [Math.min(low, one.low), Math.max(high, one.high)];
      grown = true;
    }
  }
  return [low, high];
}

type Arrow = { tip: Spot; way: Way };

const SLENDER = 1; // an arrow's foot is narrower; a datum's triangle is wider

function arrowsOf(page: SeenPage): Arrow[] {
  return page.fills.flatMap(({ points, grey }): Arrow[] => {
    const [a, b, c] = points;
    if (grey !== 0 || a === undefined || b === undefined || c === undefined || points.length > 4) return [];
    const sides = [
      [a, b, c],
      [b, c, a],
      [c, a, b],
    ] as const;
    const size = (p: Spot, q: Spot): number => Math.hypot(p[0] - q[0], p[1] - q[1]);
    // Both sides that meet at the tip are alike, however short the arrow.
    const aslant = ([p, q, r]: (typeof sides)[number]): number => Math.abs(size(p, q) - size(p, r));
    const [tip, one, two] = [...sides].sort((s, t) => aslant(s) - aslant(t))[0]!;
    if (size(one, two) > SLENDER) return [];
    const foot: Spot = [(one[0] + two[0]) / 2, (one[1] + two[1]) / 2];
    if (close(foot[1], tip[1], 1e-2)) return [{ tip, way: "x" }];
    return close(foot[0], tip[0], 1e-2) ? [{ tip, way: "y" }] : [];
  });
}

const OVERSHOOT = 1.5;

/** From a place on a dimension line outwards: over the end of its extension line, aside with it where it turns, to the figure. */
function followOut(page: SeenPage, thin: readonly Thin[], way: Way, line: number, at: number) {
  const crossing = thin.filter((one) => one.way === other(way) && close(one.line, at));
  for (const sign of [-1, 1] as const) {
    const end = line + sign * OVERSHOOT;
    if (!crossing.some(({ low, high }) => close(low, end) || close(high, end))) continue;
    const [low, high] = reach(page, thin, other(way), at, line);
    const inner = spotOf(way, at, sign === 1 ? low : high);
    const start = spotOf(way, at, end);
    const turned = page.strokes
      .filter((one) => isDrawnWith(one, "thin"))
      .flatMap(
        ({ from, to }) =>
          [
            [from, to],
            [to, from],
          ] as const,
      )
      .filter(([a, b]) => isBy(a, start) && sign * (across(b, way) - end) > 0.1)
      .map(([, b]) => b);
    for (const tip of [...turned, start]) {
      const figure = figureAt(page.words, way, tip, sign);
      if (figure !== null) return { figure, inner };
    }
  }
  return null;
}

const isBy = (a: Spot, b: Spot): boolean => close(a[0], b[0]) && close(a[1], b[1]);

const DATUM_RING = 0.9;

function runningRows(page: SeenPage, thin: readonly Thin[], arrows: readonly Arrow[]): DimensionRow[] {
  const rings = page.rounds.filter(({ radius, width }) => close(radius, DATUM_RING) && close(width, 0.18, 0.01));
  return rings.flatMap(({ middle }) =>
    (["x", "y"] as const).flatMap((way): DimensionRow[] => {
      const line = across(middle, way);
      const datum = along(middle, way);
      const [low, high] = reach(page, thin, way, line, datum);
      const tips = arrows
        .filter((one) => one.way === way && close(across(one.tip, way), line))
        .map(({ tip }) => along(tip, way))
        .filter((at) => at > low - TOUCH && at < high + TOUCH);
      if (tips.length === 0) return [];
      const zero = followOut(page, thin, way, line, datum);
      if (zero?.figure.value !== 0) throw new Error(`a row of dimensions at ${middle} does not begin with 0`);
      const ends: Spot[] = [zero.inner];
      const dimensions = distinct(tips).map((at): Dimension => {
        const led = followOut(page, thin, way, line, at);
        if (led === null) throw new Error(`no figure at the end of the line at ${spotOf(way, at, line)}`);
        ends.push(led.inner);
        return { from: datum, to: at, figure: led.figure };
      });
      return [{ way, line, dimensions, ends, zero: zero.figure }];
    }),
  );
}

const distinct = (values: readonly number[]): number[] =>
  [...values].sort((a, b) => a - b).filter((value, i, all) => i === 0 || !close(value, all[i - 1]!, 1e-3));

const STROKE = 1.1; // half an oblique stroke, each way

/** Figures between two oblique strokes. */
function spanRows(page: SeenPage, thin: readonly Thin[]): DimensionRow[] {
  const marks = page.strokes
    .filter((one) => isDrawnWith(one, "outline"))
    .filter(
      ({ from, to }) => close(Math.abs(from[0] - to[0]), 2 * STROKE) && close(Math.abs(from[1] - to[1]), 2 * STROKE),
    )
    .map(({ from, to }): Spot => [(from[0] + to[0]) / 2, (from[1] + to[1]) / 2]);
  const isMark = (spot: Spot): boolean => marks.some((one) => isBy(one, spot));
  return thin
    .filter(({ way, line, low, high }) => isMark(spotOf(way, low, line)) && isMark(spotOf(way, high, line)))
    .map(({ way, line, low, high }): DimensionRow => {
      const middle = (low + high) / 2;
      const figure = spanFigure(page, way, line, middle);
      if (figure === null) throw new Error(`no figure for the dimension at ${spotOf(way, middle, line)}`);
      const ends = [low, high].flatMap((at) =>
        reach(page, thin, other(way), at, line).map((end) => spotOf(way, at, end)),
      );
      return { way, line, dimensions: [{ from: low, to: high, figure }], ends, zero: null };
    });
}

function spanFigure(page: SeenPage, way: Way, line: number, middle: number): ReadFigure | null {
  const start = spotOf(way, middle, line);
  for (const sign of [-1, 1] as const) {
    const figure = figureAt(page.words, way, start, sign);
    if (figure !== null) return figure;
  }
  const led = page.strokes
    .filter((one) => isDrawnWith(one, "thin"))
    .flatMap(
      ({ from, to }) =>
        [
          [from, to],
          [to, from],
        ] as const,
    )
    .filter(([a, b]) => isBy(a, start) && !isBy(a, b) && !close(across(b, way), line))
    .map(([, b]) => b);
  for (const tip of led) {
    const figure = figureAt(page.words, way, tip, across(tip, way) > line ? 1 : -1);
    if (figure !== null) return figure;
  }
  return null;
}

export function dimensionRows(page: SeenPage): DimensionRow[] {
  const thin = thinOf(page.strokes);
  return [...runningRows(page, thin, arrowsOf(page)), ...spanRows(page, thin)];
}

/**
 * A length as it is lettered on paper. An inch fraction is stacked, in lowest terms, because figures set on a slant
 * in one digit's width are too small to trust across a bench:
 *
 *          5      1.4       heights above the baseline,
 *     1 7 ---     0.5       in capital heights
 *          8     -0.4
 */
import { figureOf, type Mm, type Unit } from "../../base/length.ts";
import { fill, rectSteps, text } from "../../paper/draw.ts";
import { measureText } from "../../paper/lettering.ts";
import type { Point, Shape, TextShape } from "../../paper/shape.ts";

type Weight = TextShape["weight"];

export type FigureOptions = {
  anchor?: TextShape["anchor"];
  weight?: Weight;
  /** Lettered after the figure: "\"", " mm". */
  suffix?: string;
  /** In brackets: it says again what other figures say, to be checked by. */
  check?: boolean;
  /** Nothing of the figure is lettered smaller than this. */
  least?: Mm;
};

// All in heights of the whole number's digits.
const FRACTION_DIGITS = 0.72; // still 2.5 mm where the whole number is 3.5 mm
const BAR_HEIGHT = 0.5; // the bar's middle: half way up the whole number
const BAR_THICKNESS = 0.07; // half a digit's stroke
const BAR_TO_DIGITS = 0.18;
const BAR_OVERHANG = 0.05;
const SPACE = 0.22; // between the whole number and its fraction

type Piece = { width: Mm; draw: (x: Mm, y: Mm) => Shape[] };

const letters = (content: string, size: Mm, weight: Weight): Piece => ({
  width: measureText(content, size, weight),
  draw: (x, y) => [text([x, y], content, size, { weight })],
});

function stacked(numerator: string, denominator: string, size: Mm, weight: Weight, least: Mm): Piece {
  const digits = Math.max(FRACTION_DIGITS * size, least);
  const [over, under] = [measureText(numerator, digits, weight), measureText(denominator, digits, weight)];
  const width = Math.max(over, under) + 2 * BAR_OVERHANG * size;
  return {
    width,
    draw: (x, y) => {
      const bar = y - BAR_HEIGHT * size;
      const thickness = BAR_THICKNESS * size;
      return [
        text([x + (width - over) / 2, bar - BAR_TO_DIGITS * size], numerator, digits, { weight }),
        fill(0, rectSteps({ x, y: bar - thickness / 2, width, height: thickness })),
        text([x + (width - under) / 2, bar + BAR_TO_DIGITS * size + digits], denominator, digits, { weight }),
      ];
    },
  };
}

const MINUS = "\u2212";

function piecesOf(length: Mm, unit: Unit, size: Mm, options: FigureOptions): Piece[] {
  const { weight = "regular", suffix = "", least = 0, check = false } = options;
  const bracket = (which: "(" | ")"): Piece[] => (check ? [letters(which, size, weight)] : []);
  const after = [...(suffix === "" ? [] : [letters(suffix, size, weight)]), ...bracket(")")];
  const figure = figureOf(length, unit);
  if (figure.kind === "decimal")
    return [...bracket("("), letters(figure.text.replace(/^-/, MINUS), size, weight), ...after];
  const { minus, whole, numerator, denominator } = figure;
  const before = `${minus ? MINUS : ""}${whole === 0 && numerator !== 0 ? "" : whole}`;
  const space: Piece = { width: SPACE * size, draw: () => [] };
  return [
    ...bracket("("),
    ...(before === "" ? [] : [letters(before, size, weight)]),
    ...(before === "" || numerator === 0 ? [] : [space]),
    ...(numerator === 0 ? [] : [stacked(String(numerator), String(denominator), size, weight, least)]),
    ...after,
  ];
}

const widthOf = (pieces: readonly Piece[]): Mm => pieces.reduce((sum, piece) => sum + piece.width, 0);

/** A length lettered on the baseline through `at`, its digits `size` high, and the width it takes. */
export function drawLength(
  at: Point,
  length: Mm,
  unit: Unit,
  size: Mm,
  options: FigureOptions = {},
): { shapes: Shape[]; width: Mm } {
  const pieces = piecesOf(length, unit, size, options);
  const width = widthOf(pieces);
  const shift = { start: 0, middle: width / 2, end: width }[options.anchor ?? "start"];
  let x = at[0] - shift;
  const shapes: Shape[] = [];
  for (const piece of pieces) {
    shapes.push(...piece.draw(x, at[1]));
    x += piece.width;
  }
  return { shapes, width };
}

export const measureLength = (
  length: Mm,
  unit: Unit,
  size: Mm,
  weight: Weight = "regular",
  options: Pick<FigureOptions, "suffix" | "least" | "check"> = {},
): Mm => widthOf(piecesOf(length, unit, size, { ...options, weight }));

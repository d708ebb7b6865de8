/**
 * Marks and figures that read as others when the paper is turned about: 6 and 9, 68 and 89. A bar under them says which
 * way up they stand, as on billiard balls and lottery balls. For what lies loose on a bench, or is read from either side.
 */
import { figureOf, type Mm, type Unit } from "../../base/length.ts";
import { fill, group, rectSteps } from "../../paper/draw.ts";
import { measureText } from "../../paper/lettering.ts";
import type { Shape, TextShape } from "../../paper/shape.ts";
import { type Atom, figure, glue, word } from "./cell.ts";

/** What a digit looks like upside down; a 1 without a foot is taken for one. */
const TURNED: Record<string, string> = { "0": "0", "1": "1", "6": "9", "8": "8", "9": "6", ".": "." };

/** Whether a number, turned upside down, is another number as it may be written: none begins with a nought but 0 and 0.5. */
export function turnsOver(content: string): boolean {
  const turned = [...content].reverse().map((letter) => TURNED[letter]);
  if (turned.includes(undefined)) return false;
  const other = turned.join("");
  return other !== content && /^(0|[1-9]\d*)(\.\d+)?$/.test(other) && /^\d/.test(content);
}

// In heights of the digits, under the baseline: clear of the digits, above where a descender would end.
const BELOW = 0.13;
const THICKNESS = 0.1;

const bar = (x: Mm, y: Mm, width: Mm, size: Mm): Shape =>
  fill(0, rectSteps({ x, y: y + BELOW * size, width, height: THICKNESS * size }));

/** How far under the baseline a number and its bar reach; 0 where it wants none. */
export const wayUpDepth = (content: string, size: Mm): Mm => (turnsOver(content) ? (BELOW + THICKNESS) * size : 0);

/** Bars under the numbers of a text that want them, its baseline starting at the origin. */
export function wayUpBars(content: string, size: Mm, weight: TextShape["weight"]): Shape[] {
  return [...content.matchAll(/\d+(?:\.\d+)?/g)]
    .filter(([number]) => turnsOver(number))
    .map(({ 0: number, index }) =>
      bar(measureText(content.slice(0, index), size, weight), 0, measureText(number, size, weight), size),
    );
}

type Drawn = Extract<Atom, { kind: "drawn" }>;

/** A word as wide and as high as it is without bars. */
export function wayUpWord(content: string, size: Mm, weight: TextShape["weight"]): Atom {
  const plain = word(content, size, weight);
  const bars = wayUpBars(content, size, weight);
  if (bars.length === 0) return plain;
  const drawn = glue([plain]) as Drawn;
  return { ...drawn, shapes: [...drawn.shapes, ...bars] };
}

/** A length likewise: a fraction needs no bar, it stands on its head when it is turned. */
export function wayUpFigure(length: Mm, unit: Unit, size: Mm, weight: TextShape["weight"]): Atom {
  const plain = figure(length, unit, size, weight) as Drawn;
  return { ...plain, shapes: [...plain.shapes, ...lengthBars(length, unit, size, weight)] };
}

/** The bar under a length lettered from the origin. */
export function lengthBars(length: Mm, unit: Unit, size: Mm, weight: TextShape["weight"]): Shape[] {
  const written = figureOf(length, unit);
  if (written.kind === "decimal") return wayUpBars(written.text, size, weight);
  return written.numerator === 0 ? wayUpBars(String(written.whole), size, weight) : [];
}

/** The same bars under a text whose middle is at a place. */
export const wayUpBarsAt = (
  [x, y]: readonly [Mm, Mm],
  content: string,
  size: Mm,
  weight: TextShape["weight"],
): Shape[] => {
  const bars = wayUpBars(content, size, weight);
  return bars.length === 0 ? [] : [group(bars, { move: [x - measureText(content, size, weight) / 2, y] })];
};

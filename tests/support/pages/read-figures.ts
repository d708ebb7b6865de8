/** Reads figures back from where their digits stand on the paper: a whole number with a fraction stacked beside it, or a decimal. */
import { MM_PER_INCH, type Mm, type Unit } from "../../../src/base/length.ts";
import type { TextBox } from "./text-boxes.ts";

export type Token = TextBox & { fraction: boolean };

const isDigits = (box: TextBox): boolean => /^\d+$/.test(box.text);
const middle = (box: TextBox): Mm => (box.x0 + box.x1) / 2;

/** Over and under a bar: 0.36 of the whole number's height, whose digits are 0.72 of it, but not under 2.5. */
const isBarGap = (gap: Mm, digits: Mm): boolean =>
  digits > 2.51 ? Math.abs(gap - 0.5 * digits) < 0.02 : gap > 0.89 && gap < 1.26;

/** Every text, the three of a stacked fraction as one: "17 5/8", on the baseline of its whole number. */
export function tokensOf(boxes: readonly TextBox[]): Token[] {
  const used = new Set<TextBox>();
  const tokens: Token[] = [];
  const digits = boxes.filter(isDigits);
  for (const over of digits) {
    const under = digits.find(
      (box) =>
        box !== over &&
        Math.abs(box.size - over.size) < 1e-3 &&
        Math.abs(middle(box) - middle(over)) < 0.01 &&
        isBarGap(box.y0 - over.y1, over.size),
    );
    if (under === undefined) continue;
    const left = Math.min(over.x0, under.x0);
    const bar = (over.y1 + under.y0) / 2; // half way up the whole number
    const whole = digits.find((box) => {
      const gap = left - box.x1;
      return gap > 0 && gap < 0.4 * box.size && Math.abs((box.y0 + box.y1) / 2 - bar) < 0.01;
    });
    const size = whole ? whole.size : (under.y0 - over.y1) / 0.36; // the digits stand 0.18 clear of the bar
    for (const box of [over, under, ...(whole ? [whole] : [])]) used.add(box);
    tokens.push({
      text: `${whole ? `${whole.text} ` : ""}${over.text}/${under.text}`,
      size,
      x0: whole ? whole.x0 : left,
      x1: Math.max(over.x1, under.x1),
      y0: over.y0,
      y1: bar + size / 2,
      fraction: true,
    });
  }
  return [...tokens, ...boxes.filter((box) => !used.has(box)).map((box) => ({ ...box, fraction: false }))];
}

/** Tokens on one baseline, left to right; lines from the top. */
export function linesOf<T extends TextBox>(tokens: readonly T[]): T[][] {
  const lines: T[][] = [];
  for (const token of [...tokens].sort((a, b) => a.y1 - b.y1 || a.x0 - b.x0)) {
    const line = lines.find((one) => Math.abs(one[0]!.y1 - token.y1) < 0.02);
    if (line) line.push(token);
    else lines.push([token]);
  }
  for (const line of lines) line.sort((a, b) => a.x0 - b.x0);
  return lines;
}

export const textOf = (line: readonly Token[]): string => line.map((token) => token.text).join(" ");

/** "17 5/8", "3/8", "0.703" or "882.8" in mm; null for what is no figure. */
export function parseFigure(text: string, unit: Unit): Mm | null {
  const match = /^(?:(\d+) )?(\d+)\/(\d+)$/.exec(text);
  const scale = unit === "in" ? MM_PER_INCH : 1;
  if (match) return (Number(match[1] ?? 0) + Number(match[2]) / Number(match[3])) * scale;
  return /^\d+(\.\d+)?$/.test(text) ? Number(text) * scale : null;
}

/** How far a printed figure may stand from the length: nothing for a fraction, half its last digit for a decimal. */
export const printedWithin = (token: Pick<Token, "fraction">, unit: Unit): Mm =>
  token.fraction ? 1e-6 : unit === "in" ? 0.0005 * MM_PER_INCH + 1e-6 : 0.025 + 1e-6;

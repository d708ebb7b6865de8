/** Words that stand in columns: each block of lines that begin at one margin, in the order they are read; figures in angle brackets. */
import { isSawFigure } from "./figure.ts";
import type { SeenPage } from "./page.ts";

type Word = SeenPage["words"][number];

export type Line = { x0: number; x1: number; y: number; size: number; text: string; words: Word[] };
export type Prose = { x0: number; x1: number; y0: number; y1: number; lines: Line[] };

const WORD_SPACE = 2.4; // at most, between two words of one line
const LEADING = 11; // at most, between two lines of one block
const MARGIN = 0.15;
const FRACTION_MARGIN = 0.8; // a fraction's figures stand under or over the middle of its bar

const LARGE = 4.2; // letters higher than this stand as much farther apart

const ample = ({ size }: { size: number }): number => Math.max(1, size / LARGE);

/** Angle brackets of a name are no figure's. */
const told = (word: Word): string =>
  isSawFigure(word) ? `<${word.text}>` : word.text.replaceAll("<", "\u2039").replaceAll(">", "\u203a");

/** A name that was read in prose, with the angle brackets that it is lettered with. */
export const asLettered = (name: string): string => name.replaceAll("\u2039", "<").replaceAll("\u203a", ">");

/** Lines of words: what stands close together on one baseline. */
export function linesOfProse(words: readonly Word[]): Line[] {
  const lines: Line[] = [];
  for (const word of [...words].sort((a, b) => a.x0 - b.x0)) {
    const line = lines.find(
      (one) => Math.abs(one.y - word.y1) < 0.05 && word.x0 - one.x1 < WORD_SPACE && word.x0 > one.x1 - 0.5,
    );
    if (line === undefined) {
      lines.push({ x0: word.x0, x1: word.x1, y: word.y1, size: word.size, text: told(word), words: [word] });
    } else {
      const isTight = word.x0 - line.x1 < 0.3;
      line.text += `${isTight ? "" : " "}${told(word)}`;
      line.x1 = word.x1;
      line.words.push(word);
    }
  }
  return lines;
}

/** Lines under one another, from one margin, as one block. */
export function proseOf(words: readonly Word[]): Prose[] {
  const blocks: Prose[] = [];
  for (const line of linesOfProse(words).sort((a, b) => a.y - b.y)) {
    const block = blocks.find(
      (one) =>
        Math.abs(one.x0 - line.x0) < (line.words[0]!.fraction ? FRACTION_MARGIN * ample(line.words[0]!) : MARGIN) &&
        line.y - one.y1 < LEADING * Math.max(ample(line), ample(one.lines.at(-1)!)) &&
        line.y > one.y1 + 0.5,
    );
    if (block === undefined) {
      blocks.push({ x0: line.x0, x1: line.x1, y0: line.y - line.size, y1: line.y, lines: [line] });
    } else {
      block.lines.push(line);
      block.x1 = Math.max(block.x1, line.x1);
      block.y1 = line.y;
    }
  }
  return blocks;
}

export const textOfProse = ({ lines }: Prose): string => lines.map(({ text }) => text).join(" ");

/** Text made to fit a width: shrunk to a floor, wrapped, or ended in an ellipsis. */
import type { Mm } from "../../base/length.ts";
import { measureText } from "../../paper/lettering.ts";
import type { TextShape } from "../../paper/shape.ts";
import { unparted } from "./typeset.ts";

/** Least capital height on a drawing: what is read at arm's length in poor light (ISO 3098 series, one step under 3.5). */
export const LEAST_TEXT: Mm = 2.5;

/** From one baseline to the next, in capital heights: ISO 3098 type B without accents on capitals, b2 = 15 d. */
export const LINE_SPACING = 1.5;

type Weight = TextShape["weight"];

const ELLIPSIS = "\u2026";

const isWithin = (content: string, size: Mm, weight: Weight, width: Mm): boolean =>
  measureText(content, size, weight) <= width;

/** The text at the largest size from `size` down to the floor that fits `width`; cut with an ellipsis where even the floor is too wide. */
export function fitText(content: string, size: Mm, weight: Weight, width: Mm): { text: string; size: Mm } {
  const natural = measureText(content, size, weight);
  if (natural <= width) return { text: content, size };
  const shrunk = Math.max(LEAST_TEXT, (size * width) / natural);
  if (isWithin(content, shrunk, weight, width + 1e-9)) return { text: content, size: shrunk };
  const letters = [...content];
  while (letters.length > 0 && !isWithin(letters.join("") + ELLIPSIS, LEAST_TEXT, weight, width)) letters.pop();
  return { text: letters.join("").trimEnd() + ELLIPSIS, size: LEAST_TEXT };
}

/** Lines no wider than `width`, broken between words; a word too long for a line is broken inside. */
export function wrapText(content: string, size: Mm, weight: Weight, width: Mm): string[] {
  const wrapped: string[] = [];
  let current = "";
  for (const word of unparted(content)) {
    const longer = current === "" ? word : `${current} ${word}`;
    if (isWithin(longer, size, weight, width)) {
      current = longer;
      continue;
    }
    if (current !== "") wrapped.push(current);
    current = "";
    for (const letter of word) {
      if (current !== "" && !isWithin(current + letter, size, weight, width)) {
        wrapped.push(current);
        current = "";
      }
      current += letter;
    }
  }
  if (current !== "") wrapped.push(current);
  return wrapped;
}

/** Lines of a page as a reader's eye goes down them: where one ends in a figure that the next goes on with. */
import type { Shape } from "../../../src/paper/shape.ts";
import { type TextBox, textBoxes } from "./text-boxes.ts";

const UNIT = /^(?:in|mm|ft|lb|kg)(?![\w/])/;

/** Under the text, begun in the same column or farther left, as close as lines of one paragraph stand. */
const goesOn = (upper: TextBox, lower: TextBox): boolean =>
  lower.y1 > upper.y1 + 0.5 * upper.size && lower.y0 - upper.y1 < upper.size && lower.x0 < upper.x1;

const isLevel = ({ y0, y1, size }: TextBox): boolean => Math.abs(y1 - y0 - size) < 0.01;

/** A whole number at a line's end with its fraction on the next, or a figure whose unit begins it: "24 / 5/32 in". */
export function partedFigures(shapes: readonly Shape[]): string[] {
  const boxes = textBoxes(shapes).filter(isLevel); // as they are written: a paragraph's lines one after the other
  return boxes.slice(1).flatMap((lower, i) => {
    const upper = boxes[i]!;
    if (!goesOn(upper, lower)) return [];
    const isFraction = /(?:^|\s)[^\d\s]*\d+$/.test(upper.text) && /^\d+\/\d+/.test(lower.text);
    const isUnit = /[\d.]$/.test(upper.text) && UNIT.test(lower.text);
    return isFraction || isUnit ? [`${upper.text} / ${lower.text}`] : [];
  });
}

/** A caution: a bar and the word, so that it stands out in grey and under dust. */
import type { Mm } from "../../base/length.ts";
import { fill, rectSteps } from "../../paper/draw.ts";
import { type Block, placeBlock, setLines, TEXT, word, words } from "./cell.ts";

const BAR: Mm = 1.4;
const INDENT: Mm = 3.4;

export function setCaution(content: string, width: Mm, size: Mm = TEXT): Block {
  const block = setLines([word("CAUTION", size, "bold"), ...words(content, size)], width - INDENT);
  const height = block.height + 1;
  return {
    width,
    height,
    baseline: block.baseline + 0.5,
    shapes: [fill(0, rectSteps({ x: 0, y: 0, width: BAR, height })), placeBlock(block, [INDENT, 0.5])],
  };
}

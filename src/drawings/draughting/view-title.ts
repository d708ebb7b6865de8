/** The title under a view: what it shows and from where. */
import type { Mm } from "../../base/length.ts";
import { text } from "../../paper/draw.ts";
import { measureText } from "../../paper/lettering.ts";
import type { Rect } from "../../paper/shape.ts";
import type { Block } from "./block.ts";
import { LEAST_TEXT, LINE_SPACING, wrapText } from "./fitting.ts";

const TITLE: Mm = 3.5;
const TITLE_AIR: Mm = 5;
const DESCENDER = 0.36;

export const titleWidth = (title: string): Mm => measureText(title, TITLE, "bold");

/** A longer subtitle than this wraps, where its view is not wider. */
const SUBTITLE: Mm = 110;

/** What is said under a title, one thing after another. */
export const subtitleOf = (...said: readonly string[]): string => said.filter((one) => one !== "").join("; ");

/** Under the middle of `view`, which is what is drawn: dimensions and marks beside it would draw its title to their side. */
export function captioned(block: Block, title: string, subtitle = "", view: Rect = block.box): Block {
  const said = wrapText(subtitle, LEAST_TEXT, "regular", Math.max(SUBTITLE, block.box.width));
  const width = Math.max(titleWidth(title), ...said.map((one) => measureText(one, LEAST_TEXT, "regular")));
  const middle = view.x + view.width / 2;
  const baseline = block.box.y + block.box.height + TITLE_AIR + TITLE;
  const lower = (i: number): Mm => baseline + 1.5 + LEAST_TEXT * (1 + LINE_SPACING * i);
  const bottom = said.length === 0 ? baseline + DESCENDER * TITLE : lower(said.length - 1) + DESCENDER * LEAST_TEXT;
  const x = Math.min(block.box.x, middle - width / 2);
  const right = Math.max(block.box.x + block.box.width, middle + width / 2);
  return {
    shapes: [
      ...block.shapes,
      text([middle, baseline], title, TITLE, { anchor: "middle", weight: "bold" }),
      ...said.map((one, i) => text([middle, lower(i)], one, LEAST_TEXT, { anchor: "middle" })),
    ],
    box: { x, y: block.box.y, width: right - x, height: bottom - block.box.y },
  };
}

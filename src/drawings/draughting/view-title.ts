/** The title under a view: what it shows and from where. */
import type { Mm } from "../../base/length.ts";
import { text } from "../../paper/draw.ts";
import { measureText } from "../../paper/lettering.ts";
import type { Block } from "./block.ts";
import { LEAST_TEXT } from "./fitting.ts";

const TITLE: Mm = 3.5;
const TITLE_AIR: Mm = 5;
const DESCENDER = 0.36;

export function captioned(block: Block, title: string, subtitle = ""): Block {
  const width = Math.max(
    measureText(title, TITLE, "bold"),
    subtitle === "" ? 0 : measureText(subtitle, LEAST_TEXT, "regular"),
  );
  const middle = block.box.x + block.box.width / 2;
  const baseline = block.box.y + block.box.height + TITLE_AIR + TITLE;
  const lower = baseline + 1.5 + LEAST_TEXT;
  const bottom = subtitle === "" ? baseline + DESCENDER * TITLE : lower + DESCENDER * LEAST_TEXT;
  const x = Math.min(block.box.x, middle - width / 2);
  return {
    shapes: [
      ...block.shapes,
      text([middle, baseline], title, TITLE, { anchor: "middle", weight: "bold" }),
      ...(subtitle === "" ? [] : [text([middle, lower], subtitle, LEAST_TEXT, { anchor: "middle" })]),
    ],
    box: { x, y: block.box.y, width: Math.max(block.box.width, width), height: bottom - block.box.y },
  };
}

/** A drawing before it is numbered: the frame adds border, title block and "n of N" once the whole set is known. */
import type { Shape } from "../../paper/shape.ts";

export type Draft = {
  key: string; // unique in the set, a file name in svg/: "cut-list-1"
  also?: string[]; // the keys of other drawings that stand on it
  name: string; // in the title block: "Cut list"
  bookmark: string[];
  scale: string | null; // as lettered: "1:10", "1 1/2\" = 1'-0\""; null: none applies
  parts?: string[]; // the marks of the parts that it is the drawing of
  projected?: true; // shows projected views: the title block carries the third-angle symbol
  shapes: Shape[];
};

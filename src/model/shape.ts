/** A shaped edge: what a part's own line takes out of it. */
import { axisOf } from "../base/geometry.ts";
import type { Mm } from "../base/length.ts";
import { trim } from "./cases/notch.ts";
import type { Feature, Part } from "./model.ts";

/** What is cut out of an edge, through the thickness. */
export function shapeOf(part: Part): Feature[] {
  if (part.shape === null) return [];
  const { edge, from, to, rise, form, relief } = part.shape;
  const along = axisOf(part.frame.l);
  const lo: [Mm, Mm, Mm] = [...part.box[0]];
  const hi: [Mm, Mm, Mm] = [...part.box[1]];
  trim(lo, hi, edge, rise);
  lo[along] = from;
  hi[along] = to;
  return [
    {
      kind: "shape",
      face: edge,
      along,
      box: [lo, hi],
      ends: ["square", "square"],
      holds: null,
      runOuts: [],
      row: null,
      lipping: false,
      form: { form, relief },
      reason: form === "arch" ? "an arch between the feet" : "open between the feet",
    },
  ];
}

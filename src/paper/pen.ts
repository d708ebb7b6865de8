/** Pens in paper millimetres, the same at every scale. Widths from the ISO 128-2 series; dashes in line widths (12 dash, 24 long dash, 3 gap, 0.5 dot). */
import type { Mm } from "../base/length.ts";

export type Pen =
  | "outline"
  | "frame"
  | "hidden"
  | "thin"
  | "hatch"
  | "centre"
  | "cutting"
  | "cut"
  | "neighbour"
  | "bar";

export type PenStyle = { width: Mm; dash: Mm[]; grey: number };

const THIN = 0.18;
const WIDE = 0.35;

/** No line of a drawing is shorter on paper: than the narrowest pen is wide it would be a speck, whichever pen drew it. */
export const LEAST_LINE: Mm = 0.13;

export const PENS: Record<Pen, PenStyle> = {
  outline: { width: WIDE, dash: [], grey: 0 }, // 01.2 visible edges
  frame: { width: 0.7, dash: [], grey: 0 }, // the drawing frame, ISO 5457
  hidden: { width: THIN, dash: [12 * THIN, 3 * THIN], grey: 0 }, // 02.1
  thin: { width: THIN, dash: [], grey: 0 }, // 01.1 dimension, extension and leader lines
  hatch: { width: 0.13, dash: [], grey: 0.25 }, // 01.1, the narrowest of the series
  centre: { width: THIN, dash: [24 * THIN, 3 * THIN, 0.5 * THIN, 3 * THIN], grey: 0 }, // 04.1
  cutting: { width: WIDE, dash: [24 * WIDE, 3 * WIDE, 0.5 * WIDE, 3 * WIDE], grey: 0 }, // 04.2
  cut: { width: 0.25, dash: [2, 1.2], grey: 0.4 }, // where scissors go
  neighbour: { width: THIN, dash: [24 * THIN, 3 * THIN, 0.5 * THIN, 3 * THIN, 0.5 * THIN, 3 * THIN], grey: 0 }, // 05.1
  bar: { width: 0.25, dash: [], grey: 0 }, // walls on sticks, check bars
};

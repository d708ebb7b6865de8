/** The drawing model: a page is a list of a few kinds of shape, in paper millimetres, x to the right, y down. */
import type { Mm } from "../base/length.ts";
import type { Pen } from "./pen.ts";

export type Point = readonly [x: Mm, y: Mm];
export type Rect = { x: Mm; y: Mm; width: Mm; height: Mm };

export type PathStep =
  | { to: "move" | "line"; at: Point }
  | { to: "curve"; c1: Point; c2: Point; at: Point } // cubic Bezier
  | { to: "close" };

/** One pen or one fill per path; grey is 0 black to 1 white. */
export type PathShape = { kind: "path"; steps: PathStep[]; pen: Pen | null; fill: number | null };

/** One line of text on a baseline. `size` is the height of its capitals (as lettering heights are given); `turn` in degrees, anticlockwise. */
export type TextShape = {
  kind: "text";
  at: Point;
  text: string;
  size: Mm;
  anchor: "start" | "middle" | "end";
  weight: "regular" | "bold";
  turn: number;
  grey: number;
};

/** Shapes that belong together: moved, turned about their own origin (degrees, anticlockwise), clipped (before moving). */
export type GroupShape = {
  kind: "group";
  id: string | null;
  move: Point;
  turn: number;
  clip: Rect | null;
  shapes: Shape[];
};

/** A place to click: another page of the document by its key, or an address. */
export type LinkShape = { kind: "link"; box: Rect; to: { page: string } | { address: string } };

export type Shape = PathShape | TextShape | GroupShape | LinkShape;

/** One page of a document. `key` is unique in its document and names the file in svg/. */
export type Page = {
  key: string;
  title: string;
  /** Bookmark path, outermost first: ["Part drawings", "3 left side"]. */
  bookmark: string[];
  /** The label a viewer shows for the page ("D-4", "S-2"). */
  label: string;
  width: Mm;
  height: Mm;
  shapes: Shape[];
};

export type PaperDocument = {
  title: string;
  subject: string;
  /** ISO date of the job, e.g. "2026-11-20": the only date a file carries. */
  date: string;
  pages: Page[];
};

/** Drawers as the job asks for them. */
import type { Mm } from "../base/length.ts";
import type { Tails } from "./dovetails.ts";

export type SlideKind = "side-mounted" | "undermount" | "wooden runners";

/** How the drawers of a case are made and hung. */
export type Drawers = {
  slides: {
    kind: SlideKind;
    lengths: Mm[]; // to be had, shortest first
    clearance: Mm; // at each side of the box; undermount: opening less the box's inside width
    rating: number | null; // kg a pair carries, fully drawn out
    rear: Mm; // free behind slide and box, at least
    setBack: Mm; // front end of the slide behind that of the box, or of the case behind a frame
  };
  joint: "rabbet" | "dado and rabbet" | "dovetail";
  tails: Tails; // of dovetails
  /** Lower edge of the sides to the bottom's underside; depth of its grooves; in how many of the four sides. */
  bottom: { up: Mm; depth: Mm; grooves: 3 | 4 };
  /** The applied front. `gap`: inset, to the opening and to the next; overlay, to the next. */
  front: { fit: "inset"; gap: Mm } | { fit: "overlay"; overlap: Mm; gap: Mm };
  gaps: { above: Mm; below: Mm; between: Mm }; // of the boxes in their opening
  load: number | null; // kg in each; null: as clothes weigh, by the room in it
};

/** Height of a drawer in its stack: of the box, of the applied front, or a share of what is left for boxes. */
export type DrawerSize = { path: string; name: string | null; size: { box: Mm } | { front: Mm } | { share: number } };

/** What the model knows of a drawer beside its parts: the opening that it fills, what it runs on, what stays free. */
import type { SignedAxis } from "../../base/geometry.ts";
import type { Mm } from "../../base/length.ts";

type Range = readonly [Mm, Mm];

/** A line on a face of a case's part: where a slide's middle, or its underside, is screwed on. In the room. */
export type SlideLine = {
  part: string; // key
  face: SignedAxis; // in case axes
  z: Mm;
  y: Range; // of the slide, or the strip that stands in for it
  screws: Mm[]; // y
};

export type Drawer = {
  case: string; // assembly
  place: number; // in its stack, from 1, the lowest
  of: number;
  name: string | null;
  opening: { x: Range; z: Range; front: Mm; rear: Mm }; // in the room
  /** Outside of the box, and of the applied front, in the room. */
  box: { x: Range; y: Range; z: Range };
  face: { x: Range; z: Range };
  slide: { length: Mm; from: Mm }; // y of its front end
  lap: { left: Mm; right: Mm }; // of the frame's stiles inside the bay
  lines: SlideLine[];
};

/** A door that slides, as the dry fit looks at it. */
import type { Box } from "../../base/geometry.ts";
import type { Mm } from "../../base/length.ts";
import type { SetAssembly, SetPart, SetSliders } from "../../set/schema.ts";
import type { Hole } from "../solids/solid.ts";
import type { Body } from "./body.ts";

export type SetSlider = SetSliders["doors"][number];

/** A door in the room, closed. */
export type Slid = {
  slider: SetSlider;
  assembly: SetAssembly;
  parts: SetPart[];
  bodies: Body[]; // wood, and a knob
  bounds: Box; // of its wood
  holes: Hole[]; // in its own coordinates
  thickest: Mm; // of what runs in its grooves
  range: readonly [Mm, Mm];
};

/** Doors on hinges and doors in grooves, as the job asks for them. */
import type { Mm } from "../base/length.ts";
import type { DoorMake } from "./door-make.ts";

/** How the doors of a case are made and hung. */
export type Doors = {
  make: DoorMake;
  /** `gap`: inset, all round; `overlap`: over the opening's edges, alike on all four. */
  fit: { kind: "inset"; gap: Mm } | { kind: "overlay"; overlap: Mm };
  between: Mm; // the two doors of a pair, and a door and its neighbour, at least
  hinges: Hinges;
  knob: Knob | null;
};

/** `axis`: how far it lies beyond the door's hinge edge, and before its front face. */
export type Hinges = {
  kind: "butt" | "cup";
  height: Mm; // of a butt hinge's leaf, or a cup's diameter
  fromEnds: Mm; // the door's ends to the middles of the outer two
  count: number | null; // null: by the door's height
  opens: number; // degrees
  axis: { beyond: Mm; before: Mm | null }; // before null: in the plane of its back face
  cup: { fromEdge: Mm; depth: Mm } | null; // the hole's middle from the hinge edge; of a butt hinge null
};

/** A knob's middle from the edge away from the hinges and from the door's lower end; how far it stands out. */
export type Knob = { fromEdge: Mm; height: Mm; projection: Mm; diameter: Mm };

/** Doors that slide by each other in grooves above and below, as the case says of all of them. */
export type Sliders = {
  make: Doors["make"];
  count: number; // before one bay
  overlap: Mm; // of one over the next, closed
  grooves: SliderGrooves;
  knob: Knob | null;
  pull: Pull | null;
};

/** `play`: wider than the door's edge; `apart`: wood between the two; `setIn`: of the first from the case's front edge; `spare`: under a door lifted all the way. */
export type SliderGrooves = { upper: Mm; lower: Mm; play: Mm; apart: Mm; setIn: Mm; spare: Mm };

/** A round recess to pull by: its middle from the door's edge and from its lower end. */
export type Pull = { fromEdge: Mm; height: Mm; diameter: Mm; depth: Mm };

/** On which side a door has its hinges; two doors, hinged outside; doors that slide. */
export type DoorHand = "left" | "right" | "pair" | "sliding";

/** How a door is made, whatever it hangs on. */
import type { Mm } from "../base/length.ts";

/** Which way the length, and so the grain, of a slab or of a back runs. */
export type Grain = "upright" | "level";

/** Of stiles and rails round a panel, or in one piece. */
export type DoorMake = FramedDoor | { kind: "slab"; grain: Grain };

/** Between two panels; `up`: from the door's lower end to its middle; null, and then in all: the panels are of one height. */
export type MidRail = { up: Mm | null; width: Mm };

/** Stiles the whole height, rails between them on stub tongues, panels loose in one groove all round. */
export type FramedDoor = {
  kind: "frame and panel";
  stile: Mm;
  topRail: Mm;
  bottomRail: Mm;
  midRails: MidRail[]; // from the lowest up
  stick: Mm; // depth of the groove, and length of a tongue
  clearance: Mm | null; // of the panel, both sides together; null: by its stock
  horns: Mm; // left on a stile at each end until the door is glued up
};

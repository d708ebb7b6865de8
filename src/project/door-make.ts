/** How a door is made, whatever it hangs on. */
import type { Mm } from "../base/length.ts";

/** Which way the length, and so the grain, of a slab or of a back runs. */
export type Grain = "upright" | "level";

/** Of stiles and rails round a panel, or in one piece. */
export type DoorMake = FramedDoor | { kind: "slab"; grain: Grain };

/** Stiles the whole height, rails between them on stub tongues, a panel loose in one groove all round. */
export type FramedDoor = {
  kind: "frame and panel";
  stile: Mm;
  topRail: Mm;
  bottomRail: Mm;
  stick: Mm; // depth of the groove, and length of a tongue
  clearance: Mm | null; // of the panel, both sides together; null: by its stock
  horns: Mm; // left on a stile at each end until the door is glued up
};

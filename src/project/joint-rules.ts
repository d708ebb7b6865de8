/** What contact between two roles makes: the one table that the reader and the model both go by, and the documents print. */
import type { Fixing } from "./case.ts";
import type { Role } from "./role.ts";

/** How surfaces meet: an end or edge against a face, face on face, end or edge against end or edge. */
export type Meeting = "end" | "faces" | "edges";

export type JointRule = {
  kind: "housed" | "tongue" | "butt" | "lap" | "dovetail" | "face" | "edge" | "pin";
  fit: "seated" | "slip" | "floating";
  fixing: Fixing | "as the frame";
  /** Kind and depth are those of the case's drawers. */
  ofDrawers: boolean;
  how: readonly Meeting[];
  /** The job may choose another joint for this pair. */
  chosen: boolean;
  /** Butted, unless the back is to house what meets it. */
  housedIf: "back houses" | null;
};

const BUTT: JointRule = {
  kind: "butt",
  fit: "seated",
  fixing: "glue",
  ofDrawers: false,
  how: ["end"],
  chosen: false,
  housedIf: null,
};
const HOUSED: JointRule = { ...BUTT, kind: "housed", chosen: true };
const SLIP: JointRule = { ...BUTT, kind: "housed", fit: "slip" };
const SCREWED: JointRule = { ...BUTT, fixing: "screws" };
const TO_BACK: JointRule = { ...BUTT, housedIf: "back houses" };
/** A panel laid on the edges of what it covers. */
const LAID: JointRule = { ...BUTT, kind: "face" };
const FACES: JointRule = { ...LAID, how: ["faces"] };
const EDGES: JointRule = { ...BUTT, kind: "edge", how: ["edges"] };
/** The end of a frame's member against the edge of another. */
const FRAMED: JointRule = { ...BUTT, how: ["edges"], fixing: "as the frame" };
/** A rail's stub tongue in the groove that a stile has for the panel, and the panel itself in grooves all round. */
const STUB: JointRule = { ...BUTT, kind: "tongue", how: ["edges"] };
const PANELLED: JointRule = { ...SLIP, how: ["edges"] };
const PINS: JointRule = { ...BUTT, kind: "pin", fit: "floating" };
const BOXED: JointRule = { ...BUTT, kind: "housed", ofDrawers: true };
const BOTTOMED: JointRule = { ...SLIP, ofDrawers: true };

/** Entering role, then receiving role. A pair that is not here makes no joint. */
export const JOINT_RULES: Partial<Record<Role, Partial<Record<Role, JointRule>>>> = {
  side: { bottom: HOUSED, top: HOUSED, back: LAID, kick: LAID },
  bottom: { side: HOUSED, back: LAID },
  top: { side: HOUSED, back: LAID },
  stretcher: { side: HOUSED, back: BUTT },
  shelf: { side: HOUSED, divider: HOUSED, back: TO_BACK },
  divider: { bottom: HOUSED, top: HOUSED, stretcher: SCREWED, shelf: HOUSED, back: TO_BACK },
  back: { side: SLIP, bottom: SLIP, top: SLIP, divider: SLIP, back: EDGES },
  kick: { side: { ...BUTT, how: ["end", "edges"] }, bottom: BUTT },
  filler: { top: FACES, side: BUTT, filler: EDGES, back: BUTT },
  looseShelf: { side: PINS, divider: PINS },
  plinth: { plinth: SCREWED },
  stile: { rail: FRAMED },
  rail: { stile: FRAMED },
  returnStrip: { return: { ...BUTT, how: ["edges"] } },
  drawerFront: { drawerSide: BOXED },
  drawerBack: { drawerSide: BOXED, drawerBottom: SCREWED },
  drawerBottom: { drawerFront: BOTTOMED, drawerSide: BOTTOMED, drawerBack: BOTTOMED },
  drawerSide: { drawerFace: BUTT },
  drawerFace: { drawerFront: { ...FACES, fixing: "screws" } },
  doorRail: { doorStile: STUB },
  doorPanel: { doorStile: PANELLED, doorRail: PANELLED },
};

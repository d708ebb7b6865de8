/** The model: cases made of parts, in case coordinates. A part is its blank less its features; features follow from blanks and joints. */
import type { AxisIndex, Box, SignedAxis, Vec } from "../base/geometry.ts";
import type { Mm } from "../base/length.ts";
import type { Case, Role } from "../project/project.ts";

/** A direction in case axes: also names the face of a part that looks that way. */
export type Direction = SignedAxis;

export type Model = { cases: CaseModel[] };

/** One box as built: an instance of a case of the project, an assembly of its own. */
export type CaseModel = {
  name: string; // the assembly's name, unique in the job: "bench", "bench 2"
  design: Case;
  at: Vec; // in the room
  size: Vec;
  parts: Part[];
  joints: Joint[];
  openings: Opening[];
  thirds: ThirdRule[];
};

export type Frame = { l: SignedAxis; w: SignedAxis; t: SignedAxis };

export type Part = {
  key: string; // stable: its path in the job, e.g. "bench/side-left"
  path: string; // where the project file speaks of it
  name: string;
  role: Role;
  stock: string;
  frame: Frame;
  box: Box; // the blank, in the case
  inside: Direction | null;
  show: Direction[]; // faces that must be good
  edges: Direction[]; // edges that show: grooves stop short of them
  notches: PlainNotch[]; // features the design asks for itself (the kick's)
  features: Feature[];
};

export type PlainNotch = { end: Direction; edge: Direction; depth: Mm; width: Mm; reason: string };

export type JointKind = "housed" | "butt" | "face";

/** Where the end or edge of one part meets the face of another. */
export type Joint = {
  entering: string; // key
  receiving: string; // key
  direction: Direction; // of entry: the entering part's end looks this way
  kind: JointKind;
  fit: "seated" | "slip";
  depth: Mm; // 0 for butt and face joints
  slip: Mm; // the entering end stops this much short of the floor
  width: Mm; // of the groove: thickest reading of the entering stock + allowance
  contact: Box; // flat: where they met at butt size
  stop: Mm; // how far a groove stops short of an edge that shows
  rearStop: Mm; // the same at a rear edge, where it must not reach the back's groove
};

export type Feature = {
  kind: "groove" | "rabbet" | "notch";
  face: Direction; // the face it is cut into; for a notch, the end it opens to
  along: AxisIndex; // case axis of its run; for a notch, the thickness axis
  box: Box; // in the case
  ends: ["through" | "square", "through" | "square"]; // at the low and the high end of the run, in case axes
  holds: string | null; // key
  runOuts: [Mm, Mm][]; // case coordinates along the run
  reason: string;
};

/** A bay as the parts around it leave it, by name: later assemblies are derived from this record. */
export type Opening = {
  name: string;
  path: string;
  left: string;
  right: string;
  below: string;
  above: string;
  depth: Mm;
};

/** Two grooves back to back in one part whose depths were cut down to a third each. */
export type ThirdRule = { receiving: string; entering: [string, string]; depth: Mm };

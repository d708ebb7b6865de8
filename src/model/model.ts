/** The model: assemblies made of parts, each in its own coordinates. A part is its blank less its features; features follow from blanks and joints. */
import type { AxisIndex, Box, SignedAxis, Vec } from "../base/geometry.ts";
import type { Mm } from "../base/length.ts";
import type { Case, Feet, Fixing } from "../project/case.ts";
import type { Tails } from "../project/dovetails.ts";
import type { LooseTenon } from "../project/frame-joints.ts";
import type { Role } from "../project/role.ts";
import type { LevelEdge, Worktop } from "../project/worktop.ts";
import type { TrackModel } from "./doors/track-model.ts";
import type { Drawer } from "./drawers/drawer.ts";

/** A direction in case axes: also names the face of a part that looks that way. */
export type Direction = SignedAxis;

export type Model = { assemblies: AssemblyModel[] };

/** `return`: what takes a frame round an end of its case. `packing`: strips fixed inside a case, beside the openings of its drawers. */
export type AssemblyKind = "case" | "base" | "frame" | "door" | "drawer" | "packing" | "return" | "worktop";

/** How an assembly moves in use, in its own coordinates, from where it stands closed. */
export type Travel =
  | { kind: "none" }
  | { kind: "swing"; pivot: Vec; range: readonly [number, number] } // about an upright axis, degrees, anticlockwise seen from above
  | { kind: "slide" | "pull"; axis: SignedAxis; range: readonly [Mm, Mm] };

export type HardwareKind =
  | "feet"
  | "hinge"
  | "knob"
  | "slides"
  | "slide screws"
  | "worktop screws"
  | "track"
  | "track bolts"
  | "track stops"
  | "door guides"
  | "hangers";

/** What is bought and fixed on: a pair of hinges, a track. `sizes` says which, largest first, in mm. */
export type Hardware = {
  kind: HardwareKind;
  what: string;
  sizes: Mm[];
  count: number;
  unit: string;
  parts: string[];
  where: string; // "on the left edge of"
  of: string | null; // the name that this is said of
  on?: string; // name of the assembly that it is fixed to, where that is another
};

/** One thing as built: an instance of a case of the project, the base under one, and what follows from them. */
export type AssemblyModel = {
  name: string; // the assembly's name, unique in the job: "bench", "bench 2", "bench plinth"
  kind: AssemblyKind;
  design: Case; // the case that it is, or belongs to
  at: Vec; // in the room
  size: Vec;
  parts: Part[];
  borrowed: Part[]; // parts of the case beside it that its own parts enter, in its own coordinates
  joints: Joint[];
  openings: Opening[];
  pinRows: PinRow[];
  thirds: ThirdRule[];
  travel: Travel;
  hardware: Hardware[];
  drawer: Drawer | null; // of a drawer
  refused: Refusal | null; // it cannot be made: it has no parts then
  door: Door | null;
  slider: Slider | null; // of a door that slides in grooves
  track: TrackModel | null; // told with the first of its doors
  cuts: Cut[]; // in parts of what was laid before
  worktop: WorktopModel | null; // how it is glued up and screwed down
  before: string[]; // of a frame: names of the cases that it goes before, from left to right
  feet: FeetModel | null; // of a base that is nothing but feet
};

/** Why something cannot be made; `path`: where the project file asks for it. */
export type Refusal = { path: string; found: string; expected: string; remedy: string };

/** What one assembly takes out of a part of another, in that one's coordinates; `spare`: least wood left at its ends. */
export type Cut = { part: string; feature: Feature; spare: Mm };

/** What an assembly has none of until it is given some. */
export const BARE = {
  borrowed: [],
  joints: [],
  openings: [],
  pinRows: [],
  thirds: [],
  travel: { kind: "none" },
  hardware: [],
  drawer: null,
  refused: null,
  door: null,
  slider: null,
  track: null,
  cuts: [],
  worktop: null,
  before: [],
  feet: null,
} satisfies Partial<AssemblyModel>;

/** Bought feet, their middles in the base's own axes. */
export type FeetModel = Feet & { middles: [x: Mm, y: Mm][] };

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
  lippings: PartLipping[];
  notches: PlainNotch[]; // features the design asks for itself (the kick's)
  shape: PartShape | null; // cut out of an edge along a line of its own
  profile: EdgeProfile | null; // moulded along its upper edges
  mitre: Mitre | null; // along a whole edge
  standsOn: { row: string; hole: number } | null; // of a loose shelf: the holes its pins are in
  slips: { l: Mm; w: Mm } | null; // of a panel loose in its grooves: left free at each end, and at each edge
  bores: Bore[]; // holes the design asks for itself: a hinge's cups, a foot's stem
  features: Feature[];
};

/** Holes into a face; their middles in the assembly, on the two axes across it, in the order of x, y and z. */
export type Bore = { row: string; face: Direction; diameter: Mm; depth: Mm; middles: [Mm, Mm][]; reason: string };

export type PartLipping = { edge: Direction; name: string; thickness: Mm; lipped: "before" | "after" };

/** `against`: the part whose rear face the notch is cut to, where it is more than a figure of its own. */
export type PlainNotch = {
  end: Direction;
  edge: Direction;
  depth: Mm;
  width: Mm;
  against: string | null;
  reason: string;
};

export type JointKind = "housed" | "tongue" | "butt" | "lap" | "dovetail" | "face" | "edge" | "pin";

/** Where the end or edge of one part meets the face of another. */
export type Joint = {
  entering: string; // key
  receiving: string; // key
  direction: Direction; // of entry: the entering part's end looks this way
  kind: JointKind;
  fit: "seated" | "slip" | "floating";
  fixing: Fixing;
  depth: Mm; // 0 where nothing enters
  slip: Mm; // the entering end stops this much short of the floor
  width: Mm; // of the groove: thickest reading of what enters + allowance
  shoulders: Shoulder[]; // of a tongue: on one face or on both; of a lap: what is cut from the front of what ends there
  contact: Box; // flat: where they met at butt size
  ledge: boolean; // they meet at a notch, so the blank's own end stays where it is
  stop: Mm; // how far a groove stops short of an edge that shows
  rearStop: Mm; // the same at a rear edge, where it must not reach the back's groove
  gap: Mm; // left between the end and its seat, once seated
  dowel: { diameter: Mm; length: Mm; depth: Mm; spare: Mm } | null; // `depth` of its hole in the receiving part; `spare` room beyond its ends
  tenon: LooseTenon | null; // between the two, of neither
  tails: Tails | null; // of a dovetail
  fasteners: Fasteners | null; // of a butt joint, once seated
};

/** Screws, dowels or loose tenons in a row through the receiving face, in case coordinates. */
export type Fasteners = {
  kind: "screw" | "dowel" | "tenon";
  along: AxisIndex;
  across: AxisIndex;
  at: Mm;
  positions: Mm[];
};

/** The rabbet that leaves a tongue: cut into this face of the entering part, so deep. */
export type Shoulder = { face: Direction; depth: Mm };

/** What a bit takes off edges of the face that looks up; `radius`: of an ogee each half of it. */
export type EdgeProfile = { shape: NonNullable<Worktop["edge"]>["shape"]; radius: Mm; edges: Direction[] };

/** Straight up from the edge, or sloping in by `relief` on the way; or an arch over the whole. */
export type ShapeForm = { form: "feet" | "arch"; relief: Mm };
export type PartShape = ShapeForm & { edge: Direction; from: Mm; to: Mm; rise: Mm };

/** The corner between an edge and the face that the saw leaves shorter, taken off at 45 degrees through the whole thickness. */
export type Mitre = { edge: Direction; shorter: Direction };

/** A prism that is no box: its axis, and its outline on the other two, in the order of x, y and z. */
export type Tapered = { axis: AxisIndex; outline: [Mm, Mm][] };

export type FeatureEnd = "through" | "square" | "open" | "round";

export type Feature = {
  kind:
    | "groove"
    | "rabbet"
    | "notch"
    | "shoulder"
    | "lap"
    | "socket"
    | "stub mortise"
    | "hole"
    | "mortise"
    | "slot"
    | "shape"
    | "edge"
    | "mitre";
  face: Direction; // the face it is cut into; for a notch, the end it opens to
  along: AxisIndex; // case axis of its run; for a notch, the thickness axis; for a hole, that of its row
  box: Box; // in the case; of a hole, around it
  ends: [FeatureEnd, FeatureEnd]; // at the low and the high end of the run, in case axes
  holds: string | null; // key
  runOuts: [Mm, Mm][]; // case coordinates along the run
  row: string | null; // holes drilled in one row share its name
  lipping: boolean; // the lipping ends here: nothing to cut
  form?: ShapeForm; // of a shape: how its box is filled
  profile?: EdgeProfile["shape"]; // of an edge
  shorter?: Direction; // of a mitre: the face that its corner is taken off
  tapered?: Tapered; // of a socket
  reason: string;
};

/** A row of holes in one face, for the pins of loose shelves. */
export type PinRow = {
  name: string;
  part: string; // key
  face: Direction; // of the part: the holes go in against it
  first: Mm; // middle of the lowest hole, z
  pitch: Mm;
  count: number;
  at: Mm; // y
  diameter: Mm;
  depth: Mm;
};

/** A bay as the parts around it leave it, by name: later assemblies are derived from this record. */
export type Opening = {
  name: string;
  home: string; // name of the case whose bay it is, or is before
  path: string;
  left: string;
  right: string;
  below: string;
  above: string;
  depth: Mm;
};

/** A door as it hangs, closed: all lengths that it was made by. */
export type Door = {
  case: string;
  opening: { x: [Mm, Mm]; z: [Mm, Mm]; front: Mm }; // in the room
  fit: "inset" | "overlay";
  side: "left" | "right"; // that its hinges are on
  /** From the opening's edge to the door's; below zero where it lies over that edge. To the other door of a pair, at the edge where they meet. */
  edges: { left: Mm; right: Mm; below: Mm; above: Mm };
  least: Mm; // that is asked for: of the gaps all round, or of the overlap
  between: Mm; // and to the next door
  meets: string | null; // the other door of a pair
  hinges: { kind: "butt" | "cup"; height: Mm; middles: Mm[]; counted: "given" | "by height"; fromEdge: Mm | null }; // from its lower end
  knob: { at: [x: Mm, z: Mm]; diameter: Mm; projection: Mm } | null; // in the assembly
  stick: Mm | null; // depth of the groove for the panel; null: in one piece
  horns: Mm;
};

/** A door that slides in grooves, as it stands closed on the floor of the lower one: all lengths that it was made by. */
export type Slider = {
  case: string;
  bay: string; // name of the opening
  opening: { x: [Mm, Mm]; z: [Mm, Mm]; front: Mm }; // in the room; front: of the case
  entrance: { x: [Mm, Mm]; z: [Mm, Mm]; front: Mm }; // what it goes in through: the frame's opening, or its own
  index: number; // from the left
  track: 0 | 1; // the groove it runs in: 0 in front
  above: { part: string; depth: Mm }; // keys, and depths of the grooves
  below: { part: string; depth: Mm };
  groove: { from: Mm; width: Mm; apart: Mm; play: Mm }; // from: its front wall, y in the room; apart: wood to the other one; play: that is asked for
  overlap: Mm; // over the next, closed
  spare: Mm; // between its lower end and what is below, lifted all the way
  held: Mm; // by the upper groove, seated
  lean: Lean;
  knob: Door["knob"];
  pull: { at: [x: Mm, z: Mm]; diameter: Mm; depth: Mm } | null; // in the assembly
  stick: Mm | null;
  horns: Mm;
};

/**
 * How a door goes in: its upper end into the upper groove from below, its lower end leaning out to the front by so many degrees; then turned
 * upright, let down, and moved forward by `back` into the middle of its grooves. `out`: its lower end to the front of its upper one. `along`: from where it stands closed to where that is done.
 */
export type Lean = { degrees: number; out: Mm; along: Mm; up: Mm; back: Mm };

/** Two recesses back to back in one part whose depths were cut down to a third each; holes are told by their row. */
export type ThirdRule = { receiving: string; entering: [string, string]; depth: Mm };

/** A worktop on its cases; lengths in its own coordinates. */
export type WorktopModel = {
  part: string; // key
  over: string[]; // names of the cases as built
  overhang: Record<LevelEdge, Mm>; // as laid
  fixed: Worktop["fixed"];
  sawn: Worktop["sawn"];
  edge: Worktop["edge"];
  line: Mm; // y of the screws without play
  coefficient: number; // of its width for each point of moisture; 0: it keeps its size
  through: Mm; // of case that the screws go through, at most
  screw: { diameter: Mm; length: Mm };
  /** `front`, `rear`: how far each may travel from where it is driven. */
  screws: { case: string; at: [Mm, Mm]; through: string[]; front: Mm; rear: Mm }[];
  glued: { length: Mm; width: Mm; boards: Mm[] } | null; // before it is trimmed
};

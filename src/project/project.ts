/** A project as read and checked: every length in millimetres, every default filled in, every stock found. Plain data. */

import type { Vec } from "../base/geometry.ts";
import type { Mm, Unit } from "../base/length.ts";
import type { Where } from "../base/problem.ts";
import type { DoorMake, Grain } from "./door-make.ts";
import type { Track } from "./track.ts";

export type { DoorMake, FramedDoor, Grain } from "./door-make.ts";

export type Project = {
  file: string;
  /** The folder under out/. */
  name: string;
  job: Job;
  unit: Unit;
  step: Mm; // the rounding step of everything printed
  stock: Stock[]; // only what the job uses, in order of first use
  tooling: Tooling;
  paper: PaperChoice;
  cases: Case[];
  worktops: Worktop[];
  doorway: { width: Mm; height: Mm } | null; // narrowest opening on the way to its place
  glue: GlueTime | null;
  layout: { seed: number; effort: LayoutEffort; keep: Keep | null };
  walls: Walls;
  floorOut: Mm | null; // the floor's highest point over its lowest, under the piece
  asBuilt: AsBuilt[];
  finishes: Finish[];
  moisture: Moisture; // of solid wood
  /** Where each value stands in the file: "cases[0].bays.columns[1].size" -> line and column. */
  lines: Record<string, { line: number; column: number }>;
};

/** The least offcut worth keeping; null: as is usual. */
export type Keep = { length: Mm; width: Mm };

/** How long better layouts are looked for; of normal effort no job waits longer than a second or two. */
export type LayoutEffort = "quick" | "normal" | "long";

export type Job = {
  number: string;
  title: string;
  client: string | null;
  drawnBy: string | null;
  date: string; // ISO, e.g. "2026-11-20"
  revision: string;
  /** The table on the cover, oldest first, this revision last; empty where the job keeps none. */
  revisions: { revision: string; date: string; words: string }[];
  address: string | null; // base address of the site, when the job gives one: labels then link to it
  notes: string[];
};

/** How long spread glue stays open, and how long one joint takes to spread and close; or plainly how many joints to a glue-up. */
export type GlueTime = { openMinutes: number; minutesPerJoint: number; mostJoints: number | null };

/** One thing that goes over the wood. */
export type Finish = {
  path: string;
  name: string;
  kind: "film" | "oil";
  roles: Role[] | null; // null: every part
  coats: number;
  coverage: number; // m2 a litre, one coat
  dry: number; // hours from coat to coat
  before: boolean; // the parts are put together
};

/** Walls round its place. `left`, `right`: clear of the outermost cases, running forward; null: none there. */
export type Walls = { left: Mm | null; right: Mm | null; back: WallBehind | null };

/** A wall behind the rearmost cases, with a skirting: their sides are notched over it, or all of them stand off the wall by it. */
export type WallBehind = {
  skirting: { height: Mm; thickness: Mm };
  clearance: Mm; // kept above and before it: no wall is straight
  pass: "notch" | "stand off";
};

/** What was measured on the piece itself: of an assembly over all, or of one of its openings ("bench/bay 1"). What follows goes by it. */
export type AsBuilt = { path: string; name: string; width: Mm | null; height: Mm | null };
/** Moisture content of solid wood in percent: when it is made (null: not known), and between what it lives. */
export type Moisture = { made: number | null; driest: number; wettest: number };

export type Stock = {
  id: string;
  name: string;
  nominal: Mm;
  /** Measured: mean of the readings (lengths follow it) and thickest (grooves follow it). */
  thickness: Mm;
  thickest: Mm;
  readings: Mm[];
  sheet: { length: Mm; width: Mm } | null; // a full sheet, grain along the length; null: it comes in boards
  boards: Boards | null; // null: it comes in sheets
  trim: Mm; // taken off each edge of a sheet, its cut included
  grain: boolean; // false: no visible grain, parts may be turned
  goodFaces: 1 | 2;
  density: number; // kg/m3
  stiffness: { along: number; across: number; source: string }; // modulus of elasticity in bending, N/mm2
  solid: boolean; // edge-glued solid wood: it moves across its grain, as no plywood does
  species: { name: string; tangential: number; radial: number; source: string } | null; // how it moves across its grain: fraction of its width for each point of moisture
  limits: { least: Mm; most: Mm; source: string } | null; // thickness that its standard allows
  price: number | null; // one sheet, in the shop's own money
  count: number | null; // sheets to be had; null: always enough
  sizes: { length: Mm; width: Mm; price: number | null; count: number | null }[]; // further ones of its sheets
  offcuts: { label: string; length: Mm; width: Mm }[]; // in the rack, cut true
};

/** Boards of solid wood, as they are sold. */
export type Boards = {
  rough: Mm; // thickness before it is planed
  length: Mm; // longest to be had
  width: Mm; // widest to be had
  spare: number; // bought beyond what the parts take, as a share of it: knots, splits, what is left over
  dressed: boolean; // bought planed: only cut to length, and ripped where it is wider than the part
};

export type Tooling = {
  saw: {
    kerf: Mm;
    bladeRadius: Mm;
    rip: Mm; // fence to blade, at most
    ripOther: Mm; // the same with the fence on the other side of the blade; 0: it does not go there
    narrowest: Mm; // ripped between fence and blade, at least
    sled: Mm; // longest part the sled or mitre gauge carries across
    sledDepth: Mm; // widest part it carries, along the cut
    stop: Mm; // farthest its stop stands from the cutter
    stopped: "router" | "saw"; // who cuts what stops short of one end
    dado: { least: Mm; most: Mm; radius: Mm }; // widths the dado cutter can be set to
  };
  router: {
    baseHalf: Mm; // bit's middle to the side of the base that rides on the straightedge
    baseAhead: Mm; // bit's middle to the edge of the base that goes first
    plunge: Mm; // deepest cut in one pass
    bits: { name: string; diameter: Mm; reach: Mm }[];
  };
  lift: number | null; // kg, what one person handles at the saw; null: sheets are cut strip by strip, however heavy
  planer: Mm; // widest board it takes
  jointer: Mm;
};

export type PaperSize = { name: string; width: Mm; height: Mm };

export type LabelFormat = {
  name: string;
  page: PaperSize;
  columns: number;
  rows: number;
  label: { width: Mm; height: Mm };
  left: Mm;
  top: Mm;
  pitch: { x: Mm; y: Mm };
  /** Plain paper: draw lines to cut along. */
  cutLines: boolean;
  /** The first label still there, counted row by row from 1. */
  start: number;
  /** A label printer's dots an inch: code modules then are whole dots; null: an office printer. */
  dpi: number | null;
  /** What is printed on them, measured / true; 1 when not measured. */
  print: { x: number; y: number };
};

export type PaperChoice = {
  drawings: PaperSize; // as held: landscape when width > height
  sticks: PaperSize;
  labels: LabelFormat;
  /** Printing scale measured on the check bars (measured / true); 1 when not measured. */
  print: { x: number; y: number };
  /** The same of the roll printer or plotter. */
  roll: { x: number; y: number };
};

export type Role =
  | "side"
  | "bottom"
  | "top"
  | "divider"
  | "shelf"
  | "back"
  | "kick"
  | "stretcher"
  | "filler"
  | "looseShelf"
  | "plinth"
  | "stile"
  | "rail"
  | DrawerRole
  | DoorRole
  | "worktop";

/** Members of a face frame, of solid wood. */
export type FrameRole = "stile" | "rail";
/** Parts of a drawer, and what is fixed beside its opening to carry it: of panels or of solid wood. */
export type DrawerRole =
  | "drawerFront"
  | "drawerSide"
  | "drawerBack"
  | "drawerBottom"
  | "drawerFace"
  | "packing"
  | "runner";
/** Parts of a door: of solid wood or of a panel, as the door's own stock says. */
export type DoorRole = "doorStile" | "doorRail" | "doorPanel" | "slab";
/** Every other part is cut from a panel, and its stock named with the case's. */
export type PanelRole = Exclude<Role, FrameRole | DrawerRole | DoorRole | "worktop">;

/** Every role, and its name on paper. */
export const ROLE_NAMES: Record<Role, string> = {
  side: "side",
  bottom: "bottom",
  top: "top panel",
  divider: "divider",
  shelf: "shelf",
  back: "back",
  kick: "kick",
  stretcher: "stretcher",
  filler: "filler strip",
  looseShelf: "loose shelf",
  plinth: "plinth",
  stile: "stile",
  rail: "rail",
  drawerFront: "drawer front",
  drawerSide: "drawer side",
  drawerBack: "drawer back",
  drawerBottom: "drawer bottom",
  drawerFace: "applied front",
  packing: "packing strip",
  runner: "runner",
  doorStile: "door stile",
  doorRail: "door rail",
  doorPanel: "door panel",
  slab: "slab",
  worktop: "worktop",
};
export const ROLES = Object.keys(ROLE_NAMES) as Role[];

/** Joint depth as the job gives it: so deep, or leave so much under the groove; null: half the receiving part's nominal. */
export type DepthRule = { cut: Mm } | { leave: Mm } | null;

export type Joinery = {
  depth: DepthRule;
  depthPath: string; // where the job says so, for messages
  backDepth: Mm | null; // null: 6 mm, 1/4 in, or half the receiving part, whichever is less
  allowance: Mm;
  slip: Mm; // each edge of a back
  setBack: Mm; // how far a stopped groove stops short
};

export type Fixing = "glue" | "screws" | "dowels" | "pocket screws" | "loose tenons";

/** A joint chosen for a pair of roles, or for one place: a part's id in its case, such as "shelf-2" or "side-left". The last that fits a contact holds. */
export type JointChoice = {
  path: string;
  entering: string;
  receiving: string;
  kind: "housed" | "tongue" | "butt";
  depth: DepthRule; // housed and tongue; null: as the joinery says
  tongue: Mm | null; // thickness of the tongue; null: half the nominal thickness
  fixing: Fixing;
};

/** Strips or bands on front edges. */
export type Lipping = {
  name: string;
  kind: "strip" | "band";
  thickness: Mm;
  lipped: "before" | "after"; // the grooves are cut
  roles: Role[];
};

/** Pins of loose shelves: one value at hole and hardware list. */
export type Pins = {
  diameter: Mm;
  depth: Mm;
  pitch: Mm;
  fromFront: Mm; // front edge to the front row's middle
  fromBack: Mm; // back, or rear edge, to the rear row's middle
  margin: Mm; // clear of the bay's floor and ceiling, at least
  clearance: Mm; // a loose shelf's end to the face beside it
};

/** What becomes of an edge of the case: covered (frame, lipping, wall, worktop, floor) or showing (grooves stop short of it). */
export type Edge = "shows" | "covered";

export type Case = {
  path: string; // "cases[0]"
  name: string;
  quantity: number;
  at: Vec; // front-left-bottom outer corner in the room; instance n of a quantity stands n widths to the right
  width: Mm;
  height: Mm;
  depth: Mm;
  stock: Record<Role, string>; // stock id
  joinery: Joinery;
  edges: { front: Edge; back: Edge; top: Edge; bottom: Edge };
  joints: JointChoice[];
  lippings: Lipping[];
  pins: Pins;
  bottom: { fit: "between" | "under"; up: Mm }; // between the sides, its underside so far above their lower ends; or under them
  /** Between the sides, so far below their upper ends; over them; or stretchers, front and rear, in its place. */
  top: { fit: "flush" | "lowered" | "over" | "stretchers"; down: Mm; stretcher: Mm; fillers: Mm | null };
  back:
    | ({ fit: "captured"; setIn: Mm } & BackMore)
    | ({ fit: "rabbeted" } & BackMore)
    | ({ fit: "applied" } & BackMore)
    | { fit: "none" };
  kick: { fit: "between" | "applied"; setBack: Mm } | null; // as high as the bottom is up
  plinth: { height: Mm; setBack: Mm; inset: Mm } | null; // a base of its own under the case
  feet: Feet | null; // bought ones under its bottom
  skirting: { height: Mm; depth: Mm } | null; // notches at its sides' rear lower corners, over that of the wall behind
  frame: FaceFrame | null; // solid wood before its front edges: an assembly of its own
  drawers: Drawers | null; // how those in its bays are made
  doors: Doors | null; // how those before its bays are made and hung
  sliders: Sliders | null; // how those that slide in its bays are made and run
  track: Track | null; // doors that slide before it
  shares: { left: string } | null; // its left side is the right side of this case
  finished: string[][]; // parts, by role or id, that are one finished glue-up before the rest comes
  shelfLoad: number; // kg per metre of shelf
  bays: Bay;
};

/** Feet screwed into the bottom. `fromEnds`, `fromEdges`: their middles from the case's outer faces. */
export type Feet = {
  height: Mm; // of a levelling foot in the middle of its range, or as it is set
  diameter: Mm; // of what stands on the floor
  fromEnds: Mm;
  fromEdges: Mm;
  hole: { diameter: Mm; depth: Mm }; // for its stem
  range: { down: Mm; up: Mm } | null; // how much lower and higher it can be set; null: it cannot
  rating: number | null; // kg that one carries
};

/** A face frame. Widths of its members; null where there is no such member. */
export type FaceFrame = {
  overhang: Mm; // beyond the case, at each side
  stile: Mm;
  midStile: Mm;
  topRail: Mm | null; // null: as wide as it takes to reach the top panel's underside
  midRail: Mm | null; // null: shelves show between the stiles
  midRailAt: "flush" | "centred"; // with the shelf's upper face; on the shelf's edge, which it covers
  bottomRail: Mm | "to the end" | null; // "to the end": down to the frame's lower end
  joint: FrameJoint; // of rail and stile
  tenon: FrameTenon;
  lower: LowerEdge | null; // of a bottom rail that reaches the floor; null: straight
};

export type FrameJoint = "dowels" | "pocket screws" | "loose tenons" | "stub tenons" | "half laps";
/** A tenon as the job gives it, loose or a stub; null: by the section of the members. */
export type FrameTenon = { thickness: Mm | null; width: Mm | null; length: Mm | null };

/** What is cut out of a bottom rail so that the frame stands on feet: between `foot` from either side of the frame, `rise` high. */
export type LowerEdge = { form: "feet" | "arch"; foot: Mm; rise: Mm; relief: Mm }; // relief: how far a foot's edge slopes in from its foot up
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
  joint: "rabbet" | "dado and rabbet";
  /** Lower edge of the sides to the bottom's underside; depth of its grooves; in how many of the four sides. */
  bottom: { up: Mm; depth: Mm; grooves: 3 | 4 };
  /** The applied front. `gap`: inset, to the opening and to the next; overlay, to the next. */
  front: { fit: "inset"; gap: Mm } | { fit: "overlay"; overlap: Mm; gap: Mm };
  gaps: { above: Mm; below: Mm; between: Mm }; // of the boxes in their opening
  load: number | null; // kg in each; null: as clothes weigh, by the room in it
};

/** Height of a drawer in its stack: of the box, of the applied front, or a share of what is left for boxes. */
export type DrawerSize = { path: string; name: string | null; size: { box: Mm } | { front: Mm } | { share: number } };

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

/** `houses`: shelves and dividers enter it; `sections`: one for each of the outermost columns. */
export type BackMore = { grain: Grain; houses: boolean; sections: boolean };

/** A bay: a clear space, whole or divided. Columns run left to right with a divider between, rows bottom to top with a shelf between. */
export type Bay = { path: string; name: string | null; size: BaySize; door: DoorHand | null } & (
  | { kind: "open"; loose: number; drawers: DrawerSize[] } // loose shelves in it; drawers, from the bottom up
  | { kind: "columns"; bays: Bay[] }
  | { kind: "rows"; bays: Bay[] }
);

/** Clear size along the parent's run, or a share of what is left. */
export type BaySize = { clear: Mm } | { share: number };

export const whereIn = (project: Pick<Project, "file" | "lines">, path: string): Where => {
  // A value that is a default has no place of its own: the nearest place around it stands in.
  let at = path;
  while (at !== "" && !(at in project.lines)) at = at.replace(/(\.[^.[\]]+|\[\d+\]|^[^.[\]]+)$/, "");
  const { line, column } = project.lines[at] ?? { line: 1, column: 1 };
  return { file: project.file, line, column, path };
};

/** Where the file gives a case's joinery: in the case, for the whole job, or nowhere. */
export function joineryPath(project: Pick<Project, "lines">, design: Case, key: keyof Joinery): string {
  const own = `${design.path}.joinery.${key}`;
  const common = `joinery.${key}`;
  return !(own in project.lines) && common in project.lines ? common : own;
}

/** An edge of what lies level, as seen from the front. */
export type LevelEdge = "front" | "back" | "left" | "right";

/** What lies on one case or on several beside each other: boards glued up, or one panel. */
export type Worktop = {
  path: string; // "worktops[0]"
  name: string;
  over: string[]; // names of cases
  stock: string;
  overhang: Record<LevelEdge, Mm>; // beyond the face frame, or the case where it has none
  boards: number | null; // null: as few as boards and jointer allow
  sawn: "flat" | "quarter";
  lipping: { name: string; thickness: Mm; edges: LevelEdge[] } | null; // of one cut from a sheet
  edge: { shape: "roundover" | "chamfer" | "ogee"; radius: Mm; edges: LevelEdge[] } | null;
  fixed: "front" | "back"; // the line it is screwed to without play
  screw: { diameter: Mm; length: Mm | null }; // null: as long as the wood allows
};

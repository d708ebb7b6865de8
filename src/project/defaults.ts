/** What a project file may leave out, and what then holds. One table, each figure with its reason or source. */
import type { Mm, Unit } from "../base/length.ts";
import type { Case, Edge, Fixing, JointChoice, Pins } from "./case.ts";
import type { Grain } from "./door-make.ts";
import type { SliderGrooves } from "./doors.ts";
import type { Drawers, SlideKind } from "./drawers.ts";
import type { Finish, GlueTime } from "./project.ts";
import type { PanelRole, Role } from "./role.ts";
import type { LevelEdge } from "./worktop.ts";

type ByUnit = Record<Unit, Mm>;
/** Exact to the last digit, as lengths of a file are: 25.4 itself is not. */
export const inches = (value: number): Mm => (value * 254) / 10;

/** Printed lengths: a rule reads to 1/16 in without eye strain, a tape in mm to half a millimetre; 0.1 mm is a stop's fine turn (common practice, no source). */
export const STEP: ByUnit = { in: inches(1 / 16), mm: 0.1 };

/** Finest units a step is a whole multiple of: what a printed length is counted in. */
export const STEP_OF: ByUnit = { in: inches(1 / 64), mm: 0.1 };
/** A step coarser than this is no accuracy for a joint (common practice, no source). */
export const COARSEST_STEP: Mm = inches(1 / 16);

/** Rounding brings a groove's floor up by less than a step, and the end that enters it back by less than another: with two, some is always held. */
export const HELD_STEPS = 2;
/** Wood thinner than this beside a groove does not survive the cutter (common practice, no source). */
export const LEAST_BESIDE: Mm = 2;
/** A groove shorter than this is mostly end: nothing is held square by it (common practice, no source). */
export const LEAST_GROOVE: Mm = 20;
/** A bay narrower than this takes no finger to wipe the glue out of its corners (common practice, no source). */
export const LEAST_CLEAR: Mm = 10;
/** Two measures of one thing agree so far, or one of them is wrong: a tape's 1/16 in (common practice, no source). */
export const AGREE: Mm = inches(1 / 16);
/** A part with a lipping is still a panel with so much of it behind; a filler strip so wide takes a screw without splitting (common practice, no source). */
export const LEAST_PANEL: Mm = 20;
export const LEAST_STRIP: Mm = 20;
/** A tongue thinner than this breaks off in the hand (common practice, no source). */
export const LEAST_TONGUE: Mm = 3;
/** A screw or a dowel into the edge of a panel thinner than this splits it (common practice, no source). */
export const LEAST_FASTENED: Mm = 12;
/** Sides stand on so much behind an applied kick, or the case tips back (common practice, no source). */
export const LEAST_FOOT: Mm = 50;
/** Kept clear of a skirting: it is seldom straight, and so is a wall (common practice, no source). */
export const SKIRTING_CLEARANCE: ByUnit = { in: inches(1 / 8), mm: 3 };
/** A plinth's boards stand on edge: lower ones cannot be screwed together (common practice, no source). */
export const LEAST_PLINTH: Mm = 20;
/** Of what it is drilled into: less would be left behind a hole than a knock of the drill takes (common practice, no source). */
export const DEEPEST_HOLE = 2 / 3;
/** A loose shelf tips on pins whose rows stand nearer than this (common practice, no source). */
export const ROWS_APART: Mm = 50;
/** A loose shelf shorter than this at each end slips off its pins (common practice, no source). */
export const LOOSEST_SHELF: Mm = 5;
/** A router's base stands so much over its bit, or it would drop into the groove (common practice, no source). */
export const BASE_OVER_BIT: Mm = 10;

/** Groove wider than what enters it: in by hand pressure, and the two hold together when lifted (magazines' rule; the figure is common practice, no source). */
export const ALLOWANCE: Mm = 0.1;
/** Grooves for a captured back, where half the receiving part is no less: a thin panel needs no more (common practice, no source). */
export const BACK_GROOVE: ByUnit = { in: inches(1 / 4), mm: 6 };
/** A captured back stays so far clear of each groove's floor, or the case would not close on it (common practice, no source). */
export const SLIP: ByUnit = { in: inches(1 / 32), mm: 0.8 };
/** Between the diagonals of a case (trade practice). */
export const SQUARE: { good: ByUnit; limit: ByUnit } = {
  good: { in: inches(1 / 32), mm: 0.8 },
  limit: { in: inches(1 / 16), mm: 1.6 },
};
/** A stopped groove stays so far back from an edge that shows (common practice, no source). */
export const SET_BACK: ByUnit = { in: inches(1 / 2), mm: 12 };
/** A captured back stands so far in, with wood behind its groove, and room for a cleat (common practice, no source). */
export const BACK_SET_IN: ByUnit = { in: inches(1 / 2), mm: 12 };
/** Toe space: feet stand under the case (common practice, no source). */
export const KICK_SET_BACK: ByUnit = { in: inches(2), mm: 50 };

/** The front is what one looks at; back and bottom stand against wall and floor; the top is seen unless a worktop lies on a lowered top panel or on stretchers. */
export const EDGES: { front: Edge; back: Edge; bottom: Edge; top: (fit: Case["top"]["fit"]) => Edge } = {
  front: "shows",
  back: "covered",
  bottom: "covered",
  top: (fit) => (fit === "lowered" || fit === "stretchers" ? "covered" : "shows"),
};

/** A stretcher takes two rows of screws up into a worktop, and stays out of the way of what is put in (common practice, no source). */
export const STRETCHER: ByUnit = { in: inches(3), mm: 80 };

/** A butted end holds by glue alone only in solid wood: plywood's is screwed as well (common practice, no source). */
export const FIXING: Record<JointChoice["kind"], Fixing> = { housed: "glue", tongue: "glue", butt: "screws" };

/** Whose stock a role takes that has none of its own: a stretcher stands in for the top panel, a plinth for the kick. */
export const STOCK_AS: Partial<Record<Role, PanelRole>> = { looseShelf: "shelf", stretcher: "top", plinth: "kick" };

/** Yellow wood glue waits about ten minutes at most; a housing is spread and closed in one (common practice, no source). */
export const GLUE: GlueTime = { openMinutes: 10, minutesPerJoint: 1, mostJoints: null };

export const BACK_FIT = "captured";
export const BACK_GRAIN: Grain = "upright";

/** Stock that says no more than its size. */
export const STOCK = {
  trim: { in: inches(1 / 4), mm: 6 } satisfies ByUnit, // factory edges are straight but dented: skim them (trade practice)
  grain: true, // the cautious answer: parts are then never turned
  goodFaces: 1 as const, // likewise
  solid: false, // panels, unless the list says otherwise
  density: 600, // kg/m3, between softwood and birch plywood (common practice, no source)
  /** The least that a reference of architectural woodwork gives for veneer-core plywood (Architectural Woodwork Standards 2009: 950,000 psi). */
  stiffness: { along: 6550, across: 6550, source: "veneer-core plywood, Architectural Woodwork Standards 2009" },
};

/** Boards: a quarter more than the parts take (trade magazines: 20 to 30 % more); planed on both faces. */
export const BOARDS = { spare: 0.25, goodFaces: 2 as const };

/** A rough piece is so much longer and wider than its part: 1/2 in to trim, 3/16 in to joint and rip (trade magazines). */
export const MILLING = { length: inches(1 / 2), width: inches(3 / 16) };

/** Heated rooms dry wood to about 6 % and damp summers bring it to about 12 (common practice, no source). */
export const MOISTURE = { driest: 6, wettest: 12 };

/** A worktop stands out so far in front and at the ends; behind it meets the wall (common practice, no source). */
export const WORKTOP_OVERHANG: Record<Unit, Record<LevelEdge, Mm>> = {
  in: { front: inches(3 / 4), back: 0, left: inches(3 / 4), right: inches(3 / 4) },
  mm: { front: 20, back: 0, left: 20, right: 20 },
};
/** The edges that one sees. */
export const WORKTOP_EDGES: readonly LevelEdge[] = ["front", "left", "right"];
/** Shank of the screws that hold a worktop from below: a No. 10, near enough, or 5 mm (common practice, no source). */
export const WORKTOP_SCREW: ByUnit = { in: inches(3 / 16), mm: 5 };
/**
 * Screws of a worktop: the outer ones so far in, none farther apart, none nearer than `least`; `beside` an upright a driver finds room;
 * `wood` stays round a slot, `cover` over a tip, `hold` in the worktop; sold in steps (common practice, no source).
 */
export const WORKTOP_SCREWS = {
  inset: 50,
  apart: 400,
  least: 60,
  beside: 25,
  wood: 8,
  cover: 5,
  hold: 10,
  sold: { in: inches(1 / 4), mm: 5 } satisfies ByUnit,
};
/** A glued-up panel is so much longer and wider than the worktop that is trimmed from it (common practice, no source). */
export const GLUED_OVER: Record<Unit, { length: Mm; width: Mm }> = {
  in: { length: inches(1), width: inches(1 / 2) },
  mm: { length: 25, width: 12 },
};

/** A frame stands out so far beyond the case at each side, to be trimmed or scribed (trade magazines: 1/8 in is usual). */
export const OVERHANG: ByUnit = { in: inches(1 / 8), mm: 3 };

/** Pins of loose shelves: 5 mm and 32 mm apart, or 1/4 in and 1 1/4 in; rows 37 mm from the front edge (common practice, no source). */
export const PINS: Record<Unit, Pins> = {
  mm: { diameter: 5, depth: 10, pitch: 32, fromFront: 37, fromBack: 37, margin: 100, clearance: 1.5 },
  in: {
    diameter: inches(1 / 4),
    depth: inches(3 / 8),
    pitch: inches(5 / 4),
    fromFront: inches(3 / 2),
    fromBack: inches(3 / 2),
    margin: inches(4),
    clearance: inches(1 / 16),
  },
};

/** Average books: 20 lb to the foot of shelf (trade articles). */
export const SHELF_LOAD = 29.8; // kg/m

/** Paper that the unit's own countries have in the printer. */
export const PAPER: Record<Unit, { drawings: string; sticks: string; labels: string }> = {
  in: { drawings: "Letter landscape", sticks: "Letter", labels: "Letter 3 x 10" },
  mm: { drawings: "A4 landscape", sticks: "A4", labels: "A4 3 x 8" },
};

/** A reading further from nominal than this was taken or typed wrongly: standards allow plywood 1/32 in, makers find 1/16 (PS 1-19; forum measurements). */
export const FARTHEST_READING: Mm = inches(5 / 64);

/** A part thinner than this houses nothing unless the job says how deep (common practice, no source). */
export const LEAST_HOUSING: Mm = 12;
/** A tongue is half as thick as its part: neither it nor what the groove leaves is the weaker (common practice, no source). */
export const TONGUE = 1 / 2;

/** Screws and dowels of a butt joint: the outer ones so far in from its ends, none farther apart; two need so much wood (common practice, no source). */
export const FASTENER = { inset: 50, farthest: 150, two: 30 };
/** A dowel a third to a half as thick as what it joins, deeper in the end than in the face, with a little room for glue (common practice, no source). */
export const dowelFor = (thickness: Mm): { diameter: Mm; length: Mm; inFace: Mm; spare: Mm } =>
  thickness >= 15
    ? { diameter: 8, length: 35, inFace: 11, spare: 1 }
    : { diameter: 6, length: 30, inFace: 8, spare: 1 };
/** Ribs of a plinth stand no farther apart than this, or the bottom over them gives (common practice, no source). */
export const RIBS: Mm = 600;

/** Feet stand no farther apart than this along front and back, or the bottom gives between them (common practice, no source). */
export const FEET_APART: Mm = 900;
/** A foot and the hole for its stem, where the job gives no others: usual sizes (common practice, no source). `beside`: to the edge of what it stands under. */
export const FOOT: Record<Unit, { diameter: Mm; hole: { diameter: Mm; depth: Mm }; beside: Mm }> = {
  in: { diameter: inches(1.5), hole: { diameter: inches(5 / 16), depth: inches(3 / 8) }, beside: inches(1 / 4) },
  mm: { diameter: 40, hole: { diameter: 8, depth: 10 }, beside: 5 },
};

/** Lengths that slides are sold in (common practice, no source). */
export const SLIDE_LENGTHS: Record<Unit, Mm[]> = {
  mm: [250, 300, 350, 400, 450, 500, 550, 600],
  in: [10, 12, 14, 16, 18, 20, 22, 24].map(inches),
};
/** A side: 1/2 in (trade magazines); undermount, inside of the box: the opening less 42 mm or 1 5/8 in (a slide maker's planning sheet); a box on runners slides with a little play (common practice, no source). */
export const SLIDE_CLEARANCE: Record<SlideKind, ByUnit> = {
  "side-mounted": { in: inches(1 / 2), mm: inches(1 / 2) },
  undermount: { in: inches(13 / 8), mm: 42 },
  "wooden runners": { in: inches(1 / 16), mm: 1.5 },
};
/** No less, or the slide does not go in, or the box binds; undermount slides take so much of the opening, both together (common practice, no source). */
export const LEAST_SLIDE_CLEARANCE: Record<SlideKind, Mm> = {
  "side-mounted": 9,
  undermount: 38,
  "wooden runners": 0.5,
};
/** Room behind a slide for its end, and for a case that is not as deep as drawn (common practice, no source). */
export const SLIDE_REAR: ByUnit = { in: inches(1 / 2), mm: 12 };
/** A slide stays so far back, that the front closes before the metal meets it (common practice, no source). */
export const SLIDE_SET_BACK: ByUnit = { in: inches(1 / 8), mm: 3 };
/** Stacks: 1/4 in above and below, 3/8 in between (woodworkers' forum); undermount slides hang below the box, and the box above them is lifted on to them; a runner takes its own thickness, which is added (common practice, no source). */
export const STACK_GAPS: Record<SlideKind, Record<Unit, Drawers["gaps"]>> = {
  "side-mounted": {
    in: { above: inches(1 / 4), below: inches(1 / 4), between: inches(3 / 8) },
    mm: { above: 6, below: 6, between: 10 },
  },
  undermount: {
    in: { above: inches(1 / 4), below: inches(9 / 16), between: inches(3 / 4) },
    mm: { above: 6, below: 14, between: 20 },
  },
  "wooden runners": {
    in: { above: inches(1 / 8), below: 0, between: inches(1 / 16) },
    mm: { above: 3, below: 0, between: 2 },
  },
};
/** Undermount slides stand so far up under the bottom (a slide maker's planning sheet: 1/2 in). */
export const UNDERMOUNT_RECESS: Mm = inches(1 / 2);
/** And so far down below the box (common practice, no source). */
export const UNDERMOUNT_BELOW: Mm = 12;
/** The bottom lies so far up: wood for its groove, and for the slide's hook (common practice, no source). */
export const DRAWER_BOTTOM_UP: ByUnit = { in: inches(1 / 2), mm: 13 };
/** Inset gap 3/32 in; overlay 1/2 in, and 1/8 in between two (trade magazines). */
export const INSET_GAP: ByUnit = { in: inches(3 / 32), mm: 2.5 };
export const OVERLAY: Record<Unit, { overlap: Mm; gap: Mm }> = {
  in: { overlap: inches(1 / 2), gap: inches(1 / 8) },
  mm: { overlap: 12, gap: 3 },
};
/** Clothes in a drawer, by the room in it: 8.5 lb to the cubic foot (ASTM F2057-23, 16 CFR 1261: fill weight). */
export const DRAWER_FILL = (8.5 * 0.45359237) / (12 * inches(1)) ** 3; // kg/mm3
/** A lower drawer holds nothing, and no slide goes on a lower side (common practice, no source). */
export const LEAST_DRAWER: Mm = 40;
/** A narrower or shorter box is no drawer (common practice, no source). */
export const LEAST_DRAWER_WIDTH: Mm = 80;
/** A packing strip is so wide, up and down, where the box is as high: a slide's profile lies on it (common practice, no source). */
export const PACKING_WIDTH: Mm = 50;
/** A stile that laps less than this inside is shimmed with card, if at all (common practice, no source). */
export const LEAST_LAP: Mm = 0.5;
/** Slides' screws: so far in from either end of the slide, and one in the middle (common practice, no source). */
export const SLIDE_SCREWS: Mm = 35;
/** Doors. The cutters of cope and stick differ by the set: 3/8 in is usual (trade magazines). */
export const STICK: ByUnit = { in: inches(3 / 8), mm: 10 };
/** Inset: 3/32 in all round (trade magazines), or its nearest in whole millimetres; between two doors that overlay 1/8 in (trade magazines). */
export const DOOR_GAP: ByUnit = { in: inches(3 / 32), mm: 2 };
export const DOOR_OVERLAY: ByUnit = { in: inches(1 / 2), mm: 12 };
export const BETWEEN: ByUnit = { in: inches(1 / 8), mm: 3 };
/** A plywood panel has at most 1/16 in a side (trade magazines); solid wood at least 1/8 in a side across its grain (trade magazines). */
export const PANEL_CLEARANCE: ByUnit = { in: inches(1 / 8), mm: 3 };
export const SOLID_CLEARANCE: ByUnit = { in: inches(1 / 4), mm: 6 };
/** A panel that dries holds by so much at each side all the same (trade magazines: 1/8 in). */
export const PANEL_HELD: ByUnit = { in: inches(1 / 8), mm: 3 };
/** Wood beside the groove of a door's member, at least: common practice, no source. */
export const LEAST_CHEEK: Mm = 4;
/**
 * Doors that slide in wooden grooves: upper 9 mm, lower 3 mm deep, 6 mm or more apart, 2 mm wider than the door's edge, and a door lifted in clears
 * what is below by 1 mm (Fine Woodworking 2004); in inches the nearest that a rule shows. The first groove stays so far in that half a thickness
 * of wood is left before it (common practice, no source).
 */
export const SLIDER_GROOVES: Record<Unit, SliderGrooves> = {
  mm: { upper: 9, lower: 3, play: 2, apart: 6, setIn: 10, spare: 1 },
  in: {
    upper: inches(3 / 8),
    lower: inches(1 / 8),
    play: inches(1 / 16),
    apart: inches(1 / 4),
    setIn: inches(3 / 8),
    spare: inches(1 / 32),
  },
};
/** The least wood between two grooves that doors slide in: 6 mm (Fine Woodworking 2004), or what a rule shows of it. */
export const LEAST_APART: ByUnit = { in: inches(15 / 64), mm: 6 };
/** A seated door is held by its upper groove by so much (common practice, no source). */
export const SLIDER_HELD: ByUnit = { in: inches(5 / 32), mm: 4 };
/** One sliding door covers the next by 3/4 to 1 in (trade magazines). */
export const SLIDER_OVERLAP: ByUnit = { in: inches(1), mm: 25 };
/** A door slides well whose height is under so many widths (Fine Woodworking 2004). */
export const SLIDES_WELL = 2.5;
/** What one coat leaves on a face once dry: varnish or enamel 2 mil, oil nothing to speak of (common practice, no source). */
export const COAT: Record<Finish["kind"], Mm> = { film: 0.05, oil: 0 };
/** So much of the play in a groove stays when the finish is on, or a door sticks in damp weather (common practice, no source). */
export const LEAST_PLAY: Mm = 1;
/** A recess to pull a sliding door by: a fingertip goes in, and wood stays behind it (common practice, no source). */
export const PULL: Record<Unit, { fromEdge: Mm; diameter: Mm; depth: Mm }> = {
  mm: { fromEdge: 50, diameter: 35, depth: 6 },
  in: { fromEdge: inches(2), diameter: inches(11 / 8), depth: inches(1 / 4) },
};
/** Hinges of cabinet doors: sizes to be had everywhere, the outer two so far from the ends (common practice, no source). */
export const HINGES: Record<Unit, { butt: Mm; cup: Mm; knuckle: Mm; fromEnds: Mm; cupFromEdge: Mm; cupDepth: Mm }> = {
  mm: { butt: 50, cup: 35, knuckle: 6, fromEnds: 90, cupFromEdge: 22.5, cupDepth: 13 },
  in: {
    butt: inches(2),
    cup: 35,
    knuckle: inches(1 / 4),
    fromEnds: inches(7 / 2),
    cupFromEdge: inches(7 / 8),
    cupDepth: inches(1 / 2),
  },
};
/** How far a door opens: common hinges, no source. */
export const OPENS = { butt: 95, cup: 110 };
/** What so many hinges carry, 600 mm (24 in) wide at most; more by weight or by height, whichever asks for more (common practice, no source). */
export const HINGE_COUNTS: readonly { count: number; height: Mm; mass: number }[] = [
  { count: 2, height: 900, mass: 7 },
  { count: 3, height: 1600, mass: 13 },
  { count: 4, height: 2000, mass: 18 },
  { count: 5, height: 2400, mass: 24 },
];
/** A knob: an inch across stands out as far (common practice, no source). */
export const KNOB: Record<Unit, { fromEdge: Mm; diameter: Mm; projection: Mm }> = {
  mm: { fromEdge: 30, diameter: 30, projection: 30 },
  in: { fromEdge: inches(5 / 4), diameter: inches(5 / 4), projection: inches(9 / 8) },
};

/**
 * The second or so that a layout of normal effort takes at most is not noticed beside the drawing of a set. Rips, crosscuts and one more cut
 * to width or length can be made without losing one's place. Few parts may be turned once more: on the reference jobs of 10 to 50 parts
 * (casework-sheets.json) that leaves 73 % of what is left over in one piece rather than 67 %, for 176 fence settings rather than 171.
 */
export const LAYOUT = {
  seed: 1,
  effort: "normal",
  levels: { few: 4, upTo: 50, many: 3 },
  togetherMust: false, // a figure that runs through is seldom worth a sheet
} as const;

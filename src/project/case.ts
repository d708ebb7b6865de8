/** A case as the job asks for it, every default filled in. */
import type { Vec } from "../base/geometry.ts";
import type { Mm } from "../base/length.ts";
import type { Bay } from "./bay.ts";
import type { Grain } from "./door-make.ts";
import type { Doors, Sliders } from "./doors.ts";
import type { Drawers } from "./drawers.ts";
import type { FaceFrame } from "./face-frame.ts";
import type { Role } from "./role.ts";
import type { Track } from "./track.ts";

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

/** `houses`: shelves and dividers enter it; `sections`: one for each of the outermost columns. */
export type BackMore = { grain: Grain; houses: boolean; sections: boolean };

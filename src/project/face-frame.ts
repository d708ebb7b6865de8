/** A face frame as the job asks for it. */
import type { Mm } from "../base/length.ts";

/** A face frame. Widths of its members; null where there is no such member. */
export type FaceFrame = {
  path: string; // "cases[0].frame": of the case that it is told with
  over: string[] | null; // names of the cases that it goes before as one; null: each of its case has its own
  overhang: Mm; // beyond the case, at each side
  stile: Mm;
  midStile: Mm;
  jointStile: Mm; // before the joint of two cases
  topRail: Mm | null; // null: as wide as it takes to reach the top panel's underside
  midRail: Mm | null; // null: shelves show between the stiles
  midRailAt: "flush" | "centred"; // with the shelf's upper face; on the shelf's edge, which it covers
  bottomRail: Mm | "to the end" | null; // "to the end": down to the frame's lower end
  joint: FrameJoint; // of rail and stile
  tenon: FrameTenon;
  lower: LowerEdge | null; // of a bottom rail that reaches the floor; null: straight
  returns: SideReturns | null; // round the ends of the case
};

/** The frame goes on round an end of the case: an upright on the side's outer face, behind the outer stile. */
export type SideReturns = {
  sides: ("left" | "right")[];
  width: Mm; // of the upright; a mitred one's up to its point
  fit: "mitred" | "butted"; // with the outer stile
  strip: Mm | null; // width of a level one behind it, along the side's lower edge; null: none
};

export type FrameJoint = "dowels" | "pocket screws" | "loose tenons" | "stub tenons" | "half laps";

/** A tenon as the job gives it, loose or a stub; null: by the section of the members. */
export type FrameTenon = { thickness: Mm | null; width: Mm | null; length: Mm | null };

/** What is cut out of a bottom rail so that the frame stands on feet: between `foot` from either side of the frame, `rise` high. */
export type LowerEdge = { form: "feet" | "arch"; foot: Mm; rise: Mm; relief: Mm }; // relief: how far a foot's edge slopes in from its foot up

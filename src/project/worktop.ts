/** A worktop as the job asks for it. */
import type { Mm } from "../base/length.ts";

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

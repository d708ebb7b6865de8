/** A project as read and checked: every length in millimetres, every default filled in, every stock found. Plain data. */
import type { Mm, Unit } from "../base/length.ts";
import type { Where } from "../base/problem.ts";
import type { Case, Joinery } from "./case.ts";
import type { Layout } from "./layout.ts";
import type { PaperChoice } from "./paper.ts";
import type { Role } from "./role.ts";
import type { Stock } from "./stock.ts";
import type { Tooling } from "./tooling.ts";
import type { Worktop } from "./worktop.ts";

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
  layout: Layout;
  walls: Walls;
  floorOut: Mm | null; // the floor's highest point over its lowest, under the piece
  asBuilt: AsBuilt[];
  finishes: Finish[];
  moisture: Moisture; // of solid wood
  /** Where each value stands in the file: "cases[0].bays.columns[1].size" -> line and column. */
  lines: Record<string, { line: number; column: number }>;
};

export type Job = {
  number: string;
  title: string;
  client: string | null;
  drawnBy: string | null;
  projection: "first" | "third";
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
export type Walls = { left: Mm | null; right: Mm | null; back: WallBehind | null; scribe: ScribeAllowances };

/** Wood that outer stiles and worktops keep beyond their printed size, to be scribed to a wall; 0: none. */
export type ScribeAllowances = { left: Mm; right: Mm; back: Mm };

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

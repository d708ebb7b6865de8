/** A project as read and checked: every length in millimetres, every default filled in, every stock found. Plain data. */

import type { Vec } from "../base/geometry.ts";
import type { Mm, Unit } from "../base/length.ts";
import type { Where } from "../base/problem.ts";

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
  /** Where each value stands in the file: "cases[0].bays.columns[1].size" -> line and column. */
  lines: Record<string, { line: number; column: number }>;
};

export type Job = {
  number: string;
  title: string;
  client: string | null;
  drawnBy: string | null;
  date: string; // ISO, e.g. "2026-11-20"
  revision: string;
  address: string | null; // base address of the site, when the job gives one: labels then link to it
  notes: string[];
};

export type Stock = {
  id: string;
  name: string;
  nominal: Mm;
  /** Measured: mean of the readings (lengths follow it) and thickest (grooves follow it). */
  thickness: Mm;
  thickest: Mm;
  readings: Mm[];
  sheet: { length: Mm; width: Mm }; // grain along the length
  trim: Mm; // taken off each edge of a sheet, its cut included
  grain: boolean; // false: no visible grain, parts may be turned
  goodFaces: 1 | 2;
  density: number; // kg/m3
  price: number | null; // one sheet, in the shop's own money
};

export type Tooling = {
  saw: {
    kerf: Mm;
    bladeRadius: Mm;
    rip: Mm; // fence to blade, at most
    sled: Mm; // longest part the sled or mitre gauge carries across
    dado: { least: Mm; most: Mm; radius: Mm }; // widths the dado cutter can be set to
  };
  router: { baseHalf: Mm; bits: { name: string; diameter: Mm; reach: Mm }[] };
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
};

export type PaperChoice = {
  drawings: PaperSize; // as held: landscape when width > height
  sticks: PaperSize;
  labels: LabelFormat;
  /** Printing scale measured on the check bars (measured / true); 1 when not measured. */
  print: { x: number; y: number };
};

export type Role = "side" | "bottom" | "top" | "divider" | "shelf" | "back" | "kick";
export const ROLES: readonly Role[] = ["side", "bottom", "top", "divider", "shelf", "back", "kick"];

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
  bottom: { up: Mm }; // underside above the floor
  top: { fit: "flush" | "lowered"; down: Mm }; // upper face below the sides' upper ends; 0 when flush
  back:
    | { fit: "captured"; setIn: Mm; grain: Grain }
    | { fit: "rabbeted"; grain: Grain }
    | { fit: "applied"; grain: Grain }
    | { fit: "none" };
  kick: { setBack: Mm } | null; // as high as the bottom is up
  bays: Bay;
};

/** Which way the length (and so the grain) of a back runs. */
export type Grain = "upright" | "level";

/** A bay: a clear space, whole or divided. Columns run left to right with a divider between, rows bottom to top with a shelf between. */
export type Bay = { path: string; name: string | null; size: BaySize } & (
  | { kind: "open" }
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

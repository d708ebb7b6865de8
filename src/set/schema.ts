/** set.json: everything the paper shows, as numbers. Lengths in mm, masses in kg; versioned; documented by the JSON Schema made from this. */
import { z } from "zod";
import { check } from "./schema/check.ts";
import { door } from "./schema/doors.ts";
import { drawer } from "./schema/drawers.ts";
import { job, paper, stock } from "./schema/job.ts";
import { joint, order } from "./schema/joints.ts";
import { layout, sheet } from "./schema/layouts.ts";
import { drilling, group, handWork, setting, settingsCount, sizing } from "./schema/machining.ts";
import { finish, label, purchase, rackPiece, reprint, sensitivity, step, stick } from "./schema/paper.ts";
import { asBuilt, assembly, hardware, opening, part, piece } from "./schema/parts.ts";
import { sideReturn } from "./schema/returns.ts";
import { sliders } from "./schema/sliders.ts";
import { track } from "./schema/tracks.ts";
import { type face, mark, mm } from "./schema/values.ts";
import { worktop } from "./schema/worktop.ts";

export const setSchema = z.strictObject({
  version: z.literal(2),
  job,
  paper,
  stock: z.array(stock),
  assemblies: z.array(assembly),
  openings: z.array(opening),
  asBuilt: z.array(asBuilt),
  parts: z.array(part),
  pieces: z.array(piece),
  joints: z.array(joint),
  hardware: z.array(hardware),
  drawers: z.array(drawer),
  doors: z.array(door),
  sliders: z.array(sliders),
  tracks: z.array(track),
  worktops: z.array(worktop),
  groups: z.array(group),
  returns: z.array(sideReturn),
  settings: z.array(setting),
  settingsCount,
  drilling: z.array(drilling),
  handWork: z.array(handWork),
  layout,
  sheets: z.array(sheet),
  boards: z.array(sheet).describe("boards likewise: parts and boards in the rough"),
  sizing: z.array(sizing),
  sticks: z.array(stick),
  labels: z.array(label),
  rack: z.array(rackPiece).describe("offcuts that there are when the job is cut"),
  reprint,
  orders: z.array(order),
  checks: z.array(check),
  rounding: z
    .strictObject({ largest: mm, mark: mark.nullable(), what: z.string() })
    .describe("the largest rounding of any length, wall or depth"),
  sensitivity: z.array(sensitivity),
  finishes: z.array(finish),
  purchase: z.array(purchase),
  steps: z.array(step),
  mass: z.number(),
  lastMark: z.number().int().describe("highest mark ever given in this job: later parts take numbers above it"),
});

export type DryfitSet = z.infer<typeof setSchema>;
export type SetPart = DryfitSet["parts"][number];
export type SetFeature = SetPart["features"][number];
export type SetJoint = DryfitSet["joints"][number];
export type SetGroup = DryfitSet["groups"][number];
export type SetSetting = DryfitSet["settings"][number];
export type SetSheet = DryfitSet["sheets"][number];
export type SetStick = DryfitSet["sticks"][number];
export type SetReprint = NonNullable<DryfitSet["reprint"]>;
export type SetLabel = DryfitSet["labels"][number];
export type SetCheck = DryfitSet["checks"][number];
export type SetStep = DryfitSet["steps"][number];
export type SetStock = DryfitSet["stock"][number];
export type SetAssembly = DryfitSet["assemblies"][number];
export type SetDrilling = DryfitSet["drilling"][number];
export type SetOrder = DryfitSet["orders"][number];
export type SetMove = SetOrder["moves"][number];
export type SetSensitivity = DryfitSet["sensitivity"][number];
export type SetLipping = SetPart["lippings"][number];
export type SetDrawer = DryfitSet["drawers"][number];
export type SetLine = SetPart["lines"][number];
export type SetHardware = DryfitSet["hardware"][number];
export type SetDoor = DryfitSet["doors"][number];
export type SetSliders = DryfitSet["sliders"][number];
export type SetTrack = DryfitSet["tracks"][number];
export type SetTrackDoor = SetTrack["doors"][number];
export type SetWorktop = DryfitSet["worktops"][number];
export type SetReturn = DryfitSet["returns"][number];
export type SetOpening = DryfitSet["openings"][number];
export type SetPurchase = DryfitSet["purchase"][number];
export type Face = z.infer<typeof face>;

/** The job, its paper and its stock. */
import { z } from "zod";
import { defects, mm, paperSize } from "./values.ts";

export const job = z.strictObject({
  name: z.string().describe("the folder under out/"),
  number: z.string(),
  title: z.string(),
  client: z.string().nullable(),
  drawnBy: z.string().nullable(),
  projection: z
    .enum(["first", "third"])
    .describe("how views stand about the front view: in first angle the plan under it, in third over it"),
  date: z.string(),
  revision: z.string(),
  revisions: z
    .array(z.strictObject({ revision: z.string(), date: z.string(), words: z.string() }))
    .describe("the revision table, oldest first, this revision last; empty: the job keeps none"),
  unit: z.enum(["in", "mm"]),
  step: mm.describe("rounding step of every printed length"),
  address: z.string().nullable(),
  notes: z.array(z.string()),
  draft: z.boolean(),
  moisture: z
    .strictObject({ made: z.number().nullable(), driest: z.number(), wettest: z.number() })
    .describe(
      "moisture content of solid wood in percent: when it is made (null: not known), and between what it lives",
    ),
  walls: z
    .strictObject({
      left: mm.nullable(),
      right: mm.nullable(),
      back: z
        .strictObject({
          skirting: z.strictObject({ height: mm, thickness: mm }),
          clearance: mm,
          pass: z.enum(["notch", "stand off"]),
        })
        .nullable()
        .describe("the wall behind the rearmost cases: its skirting, and how these pass it"),
      scribe: z
        .strictObject({ left: mm, right: mm, back: mm })
        .describe(
          "left beyond the printed size of outer stiles and solid worktops, to be scribed to that wall; 0: none",
        ),
    })
    .describe("clear distance from the outermost cases to walls that run forward beside them; null: none"),
  floorOut: mm.nullable().describe("the floor's highest point over its lowest, under the piece; null: not known"),
  doorway: z.strictObject({ width: mm, height: mm }).nullable().describe("narrowest opening on the way to its place"),
});

const printed = z
  .strictObject({ x: z.number(), y: z.number() })
  .describe("what the printer was measured to do: measured / true");

export const paper = z.strictObject({
  drawings: paperSize,
  sticks: paperSize,
  labels: z.strictObject({
    name: z.string(),
    page: paperSize,
    columns: z.number().int(),
    rows: z.number().int(),
    label: z.strictObject({ width: mm, height: mm }),
    left: mm,
    top: mm,
    pitch: z.strictObject({ x: mm, y: mm }),
    cutLines: z.boolean(),
    start: z.number().int().describe("the first label still there on the first page, counted row by row from 1"),
    dpi: z.number().nullable().describe("a label printer's dots an inch: code modules are whole dots"),
    print: printed,
  }),
  print: printed,
  roll: printed.describe("the same of the roll printer or plotter"),
});

export const stock = z.strictObject({
  id: z.string(),
  name: z.string(),
  nominal: mm,
  thickness: mm.describe("mean of the readings: lengths follow it"),
  thickest: mm.describe("grooves follow it"),
  readings: z.array(mm),
  sheet: z.strictObject({ length: mm, width: mm }).nullable().describe("a full sheet; null: it comes in boards"),
  boards: z
    .strictObject({ rough: mm, length: mm, width: mm, spare: z.number(), dressed: z.boolean() })
    .nullable()
    .describe(
      "as sold: thickness before planing, longest, widest; spare: the share bought beyond what the parts take; dressed: bought planed, only cut to length",
    ),
  trim: mm,
  grain: z.boolean(),
  goodFaces: z.union([z.literal(1), z.literal(2)]),
  density: z.number(),
  stiffness: z
    .strictObject({ along: z.number(), across: z.number(), source: z.string() })
    .describe("modulus of elasticity in bending, N/mm2, along and across the grain of the face"),
  solid: z.boolean().describe("solid wood, which moves across its grain; false: a panel that keeps its size"),
  species: z
    .strictObject({ name: z.string(), tangential: z.number(), radial: z.number(), source: z.string() })
    .nullable()
    .describe(
      "of solid wood: fraction of its width that it moves for each point of moisture, flat-sawn and quarter-sawn",
    ),
  limits: z
    .strictObject({ least: mm, most: mm, source: z.string() })
    .nullable()
    .describe("thickness that the standard it is sold by allows"),
  price: z.number().nullable(),
  count: z.number().int().nullable().describe("sheets to be had; null: always enough"),
  sizes: z
    .array(z.strictObject({ length: mm, width: mm, price: z.number().nullable(), count: z.number().int().nullable() }))
    .describe("further sizes of its sheets"),
  offcuts: z
    .array(z.strictObject({ label: z.string(), length: mm, width: mm, defects }))
    .describe("in the rack before the job, cut true"),
});

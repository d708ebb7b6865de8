/** Tracks: where each is bolted on, and how the doors on it slide. */
import { z } from "zod";
import { mark, mm, vec } from "./values.ts";

const number = z.union([z.literal(1), z.literal(2)]).describe("1: next to the case; 2: before that");

const door = z.strictObject({
  assembly: z.string(),
  track: number,
  covers: z
    .array(z.number().int())
    .describe("its bays when it is closed, from 0; empty: one of those that pass each other"),
  closed: mm.describe("its left edge when closed"),
  from: mm.describe("its left edge at the left end of its way, with those before it pushed together"),
  to: mm.describe("and at the right end"),
  hangers: z.tuple([mm, mm]).describe("middles of its straps from its left edge"),
  knobs: z.array(z.tuple([mm, mm])).describe("x and z of their middles in the assembly"),
  horns: mm.describe("left on each end of a stile until the door is glued up"),
});

export const track = z
  .strictObject({
    case: z.string(),
    on: z.string().describe("the assembly that it is bolted to"),
    at: vec.describe(
      "in the room: its left end, the face that it is bolted to, the middle of its height; figures along it are from there",
    ),
    length: mm,
    needed: mm.describe("by the way of its doors"),
    tracks: number.describe("how many, one before the other"),
    bar: z.strictObject({
      height: mm,
      thickness: mm,
      standOff: mm.describe("from the face to the bar"),
      apart: mm.describe("from one bar to the next, rear to rear"),
    }),
    bolts: z.strictObject({
      diameter: mm,
      length: mm,
      into: mm.describe("how deep they go into the wood"),
      spacing: mm.describe("at most"),
      at: z.array(z.strictObject({ at: mm, mark: mark.nullable().describe("the part that its middle is in") })),
    }),
    stops: z.strictObject({
      fromEnd: mm.describe("that was asked for: the track's end to the middle of a stop"),
      bumper: mm.describe("its length along the track"),
      at: z.tuple([mm, mm]).describe("their middles"),
    }),
    hangers: z.strictObject({
      rating: z.number().describe("kg that one carries"),
      width: mm,
      fromEdge: mm,
      drop: mm.describe("a door's upper edge up to the bar's lower edge"),
      above: mm.describe("the bar's upper edge up to the hanger's top"),
      projection: mm.describe("before a door's face"),
      lift: mm.describe("to go over the bar"),
      hole: mm.describe("diameter"),
      holes: z.array(mm).describe("a door's upper edge down to their middles"),
    }),
    guides: z.strictObject({
      height: mm.describe("below the doors"),
      width: mm.describe("along them"),
      cheek: mm.describe("thickness, before and behind the door"),
      reach: mm.describe("up beside the door"),
      at: z.array(z.strictObject({ track: number, at: mm, mark: mark.nullable() })),
    }),
    knob: z.strictObject({ diameter: mm, projection: mm }).nullable(),
    passing: z.boolean().describe("the doors close the whole front together, each lapping the next"),
    overlap: mm.describe("asked for: over each side of a door's bays; of doors that pass each other, over the next"),
    beyond: mm.describe("asked for: of doors that pass each other, over the outer edges of the front"),
    above: mm.describe("asked for: over the openings' upper edge"),
    below: mm.describe("over their lower edge"),
    reach: z.strictObject({ left: mm, right: mm }).describe("asked for: of the doors' way beyond the outermost bays"),
    between: mm.describe("two doors on one track, at least"),
    openings: z
      .array(z.strictObject({ name: z.string(), at: vec, width: mm, height: mm }))
      .describe("bays from left to right, each from its front-left-bottom clear corner, in the room"),
    doors: z.array(door),
    together: z
      .array(z.strictObject({ open: z.array(z.number().int()), at: z.array(mm).describe("left edges of the doors") }))
      .describe("bays that can be clear at once: every choice to which no other can be added"),
    clear: z
      .strictObject({ left: mm, right: mm })
      .describe("widest way clear there, with all doors pushed to the other end"),
  })
  .describe("a flat track and the doors that hang from it; lengths along it from its left end");

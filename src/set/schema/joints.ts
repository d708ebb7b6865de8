/** How parts meet, and in what order they come together. */
import { z } from "zod";
import { axis, face, mark, mm, vec } from "./values.ts";

export const joint = z.strictObject({
  entering: mark,
  receiving: mark,
  kind: z
    .enum(["housed", "tongue", "butt", "lap", "dovetail", "face", "edge", "pin"])
    .describe(
      "housed: whole thickness in a groove; tongue: part of it; butt: end against face; lap: both halved, one over the other, the depth along what ends there; dovetail: pins of what ends there between the tails of the other, as deep as that one is thick; face: face on face, or a panel laid on edges; edge: edge against edge; pin: a loose shelf between the parts that hold its pins",
    ),
  fit: z.enum(["seated", "slip", "floating"]),
  depth: mm,
  gap: z.tuple([mm, mm]).describe("between the entering end and its seat"),
  rounding: mm.describe("what rounding adds to the gap at the seat"),
  loose: mm.describe("groove width less the entering thickness; 0 where there is no groove"),
  fixings: z.string(),
  fasteners: z
    .strictObject({
      kind: z.enum(["screw", "dowel", "tenon"]),
      size: z
        .strictObject({ diameter: mm, length: mm })
        .nullable()
        .describe("of a dowel; a screw is chosen by the shop"),
      tenon: z
        .strictObject({
          thickness: mm,
          width: mm,
          length: mm,
          spare: mm.describe("free beyond its two ends together"),
          slack: mm.describe("how much longer the mortise of any but the first is in the receiving part"),
        })
        .nullable()
        .describe("of a loose tenon, half of it in either part"),
      along: axis,
      at: mm.describe("across, from the receiving part's local origin"),
      positions: z.array(mm).describe("along, from the receiving part's local origin"),
    })
    .nullable()
    .describe("where they go through the receiving part's face, in its own coordinates"),
  receivingFace: face,
  enteringEnd: face,
  mating: z.string().nullable().describe("of a frame: the letter that both members carry at this joint"),
});

const body = z.strictObject({
  parts: z.array(mark),
  travel: vec.describe("the way it travels in its assembly, each figure -1, 0 or 1; several bodies move together"),
});

const move = z.strictObject({
  n: z.number().int().describe("in the order of its assembly, from 1"),
  bring: z.array(body).describe("what is brought: one body, or several at the same time"),
  to: z.array(mark).describe("parts standing ready that it joins"),
  slides: z.boolean().describe("it slides along a groove that holds it, rather than straight into it"),
  held: z.number().int().describe("bodies not yet joined that are held at once in this move"),
  group: z.number().int().describe("the glue-up it belongs to"),
});

export const order = z
  .strictObject({
    assembly: z.string(),
    finished: z.array(z.array(mark)).describe("parts declared one finished glue-up before the rest is put together"),
    moves: z.array(move),
    holds: z.number().int().describe("most bodies held at once in any move"),
    proved: z.boolean().describe("no order holds fewer"),
    glueUps: z.array(
      z.strictObject({
        n: z.number().int(),
        parts: z.array(mark),
        joints: z.number().int(),
        minutes: z.number().nullable(),
      }),
    ),
    locked: z
      .strictObject({ parts: z.array(mark), text: z.string(), change: z.string() })
      .nullable()
      .describe("parts that cannot be brought together, and what locks them"),
  })
  .describe("how an assembly goes together, found by taking it apart");

/** How a worktop is glued up, shaped and screwed down. */
import { z } from "zod";
import { mark, mm } from "./values.ts";

const edges = z.array(z.enum(["front", "back", "left", "right"]));

export const worktop = z
  .strictObject({
    assembly: z.string(),
    mark,
    over: z.array(z.string()).describe("the cases it lies on"),
    overhang: z
      .strictObject({ front: mm, back: mm, left: mm, right: mm })
      .describe("beyond the face frame, or the case where it has none"),
    edge: z
      .strictObject({ shape: z.enum(["roundover", "chamfer", "ogee"]), radius: mm, edges })
      .nullable()
      .describe("shape of its upper edges"),
    glued: z
      .strictObject({
        length: mm,
        width: mm,
        sawn: z.enum(["flat", "quarter"]),
        boards: z
          .array(
            z.strictObject({
              piece: z.string(),
              width: mm.describe("as jointed"),
              heart: z.enum(["up", "down"]).nullable().describe("the side of the log's heart; null: quarter-sawn"),
              from: mm.describe("its front edge, from the worktop's finished front edge; less than 0: trimmed off"),
            }),
          )
          .describe("from the front backwards"),
        trim: z.strictObject({ ends: mm, edges: mm }).describe("off each end, off each edge"),
        clamps: z.number().int(),
      })
      .nullable()
      .describe("boards glued up, before it is trimmed; null: one panel"),
    fixed: z.enum(["front", "back"]).describe("it moves away from this line"),
    line: mm.describe("of the screws without play, from its front edge"),
    coefficient: z.number().describe("of its width for each point of moisture; 0: it keeps its size"),
    moves: z
      .strictObject({ wider: mm, narrower: mm })
      .describe(
        "its whole width, from when it is made to the wettest and to the driest; where that is not known, over both",
      ),
    screw: z.strictObject({ diameter: mm, length: mm }),
    screws: z.array(
      z.strictObject({
        case: z.string(),
        at: z.tuple([mm, mm]).describe("where it is driven, from its left end and its front edge"),
        through: z.array(mark).describe("parts of the case, the upper one first"),
        front: mm.describe("how far it may travel to the front from there"),
        rear: mm,
      }),
    ),
  })
  .describe("how a worktop is glued up, shaped, and screwed down from below");

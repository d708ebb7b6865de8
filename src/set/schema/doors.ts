/** Doors: how each hangs in or over its opening, closed. */
import { z } from "zod";
import { mm, vec } from "./values.ts";

const edges = z.strictObject({ left: mm, right: mm, below: mm, above: mm });

export const door = z
  .strictObject({
    assembly: z.string(),
    case: z.string(),
    opening: z
      .strictObject({ at: vec, width: mm, height: mm })
      .describe("what it closes, from its front-left-bottom clear corner, in the room"),
    fit: z.enum(["inset", "overlay"]),
    edges: edges.describe(
      "from the opening's edges to the door's, inwards; below zero where it lies over them; at the edge where two doors of a pair meet, to the other one",
    ),
    least: mm.describe("what was asked for: the gap all round, or the overlap"),
    between: mm.describe("least gap to the other door of a pair, and to any door beside it"),
    meets: z.string().nullable().describe("the other door of a pair"),
    hinges: z.strictObject({
      side: z.enum(["left", "right"]),
      kind: z.enum(["butt", "cup"]),
      size: mm.describe("height of a butt hinge's leaf, diameter of a cup"),
      middles: z.array(mm).describe("from the door's lower end"),
      counted: z.enum(["given", "by height"]),
      fromEdge: mm.nullable().describe("middle of a cup's hole from the door's hinge edge; of a butt hinge null"),
    }),
    knob: z
      .strictObject({ at: z.tuple([mm, mm]), diameter: mm, projection: mm })
      .nullable()
      .describe("x and z of its middle in the assembly, and how far it stands out before the face"),
    stick: mm.nullable().describe("depth of the groove all round that the panel lies in; of a slab null"),
    horns: mm.describe("left on each end of a stile until the door is glued up"),
  })
  .describe("a door as it hangs, closed; its parts and its travel are those of its assembly");

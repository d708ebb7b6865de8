/** Drawers: what each was made for, and what stays free round it. */
import { z } from "zod";
import { mark, mm } from "./values.ts";

const range = z.tuple([mm, mm]);

/** "Opening - clearance = box", as it is read off: what is taken away, in order, and what is left. */
const sum = z.strictObject({
  what: z.enum(["width", "inside", "height", "depth"]).describe("inside: clear width of the box"),
  whole: mm.describe("width and height of the opening; depth behind the frame or the applied front"),
  less: z.array(z.strictObject({ what: z.string(), size: mm })),
  makes: mm.describe("outside of the box"),
});

export const drawer = z
  .strictObject({
    assembly: z.string(),
    case: z.string().describe("assembly that it runs in"),
    place: z.number().int().describe("in its stack, 1 the lowest"),
    of: z.number().int().describe("drawers in the stack"),
    keeps: z.string().nullable().describe("what the job says is kept in it"),
    opening: z
      .strictObject({ x: range, z: range, front: mm, rear: mm })
      .describe(
        "clear for boxes and slides, in the room; front: the face it is in; rear: the back's, or the case's end",
      ),
    slides: z.strictObject({
      kind: z.enum(["side-mounted", "undermount", "wooden runners"]),
      length: mm,
      from: mm.describe("y of the front end, in the room"),
      clearance: mm.describe("meant at each side of the box; undermount: what its inside is narrower than the opening"),
      rear: mm.describe("meant to stay free behind"),
      rating: z.number().nullable().describe("kg a pair carries"),
    }),
    front: z.strictObject({
      fit: z.enum(["inset", "overlay"]),
      gap: mm.describe("inset: all round and between two; overlay: between two"),
      overlap: mm,
    }),
    free: z
      .strictObject({ left: mm, right: mm, below: mm, above: mm, behind: mm })
      .describe("round the box when closed: to the opening, or to the next box or runner"),
    sums: z.array(sum),
    load: z.number().describe("kg in it, by the job, or as clothes weigh"),
    sides: mm.describe("thickness of the box's sides"),
    face: mark.describe("the applied front"),
  })
  .describe("a box with its applied front, for an opening as it stands");

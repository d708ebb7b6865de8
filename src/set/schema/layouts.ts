/** How parts lie on their sheets and boards. */
import { z } from "zod";
import { mark, mm } from "./values.ts";

export const sheet = z.strictObject({
  n: z.number().int(),
  stock: z.string(),
  offcut: z
    .string()
    .nullable()
    .describe("label of the offcut in the rack that it is; null: a sheet or board that is bought"),
  length: mm,
  width: mm,
  defects: z.array(z.strictObject({ x: mm, y: mm, length: mm, width: mm })).describe("where no part may lie"),
  trim: mm,
  kerf: mm,
  parts: z.array(z.strictObject({ id: z.string(), mark, x: mm, y: mm, length: mm, width: mm, turned: z.boolean() })),
  cuts: z.array(
    z.strictObject({
      n: z.number().int(),
      piece: z.string(),
      makes: z.array(z.string()),
      across: z.enum(["x", "y"]).describe("the coordinate that `at` measures"),
      at: mm,
      from: mm,
      to: mm,
      fence: mm.describe("from the reference edge to the blade"),
      reference: z.enum(["x0", "x1", "y0", "y1"]).describe("edge of the piece that goes against the fence"),
    }),
  ),
  offcuts: z.array(z.strictObject({ id: z.string(), x: mm, y: mm, length: mm, width: mm })),
  bound: z.number().int().describe("fewest sheets, or boards, of this stock that any layout could need"),
  boundText: z.string(),
  boundProof: z.string().describe("how the bound is added up, as on the checks page; empty where it is 1"),
});

export const layout = z
  .strictObject({
    seed: z.number().int(),
    effort: z.enum(["quick", "normal", "long"]),
    levels: z
      .number()
      .int()
      .nullable()
      .describe("of cutting, passed only where that saves a sheet; null: as is usual for the number of parts"),
    first: z
      .enum(["rip", "crosscut"])
      .nullable()
      .describe("what each sheet and board is to be cut by first; null: whichever serves best"),
    keep: z
      .strictObject({ length: mm, width: mm })
      .nullable()
      .describe("least offcut worth keeping; null: as is usual"),
    wishes: z
      .array(
        z.strictObject({
          kind: z
            .enum(["together", "grain", "early", "first"])
            .describe(
              "together: cut from one strip in this order, from the low end of `run` on; grain: along the sheet's, though it need not; early: from the first sheets; first: from sheets of one stock that begin with the cuts of `first`",
            ),
          pieces: z.array(z.string()),
          run: z
            .enum(["x", "y"])
            .nullable()
            .describe("together: x, end to end along the grain; y, side by side across it; null of other wishes"),
          kept: z.boolean().describe("false: it would have taken more stock"),
        }),
      )
      .describe("what was asked for beyond the fewest sheets, and whether the layout keeps it"),
    repeatable: z.boolean().describe("false: the clock ended the search, and another run may lay the parts otherwise"),
  })
  .describe("how sheets and boards were laid out");

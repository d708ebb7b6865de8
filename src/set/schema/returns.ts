/** How a face frame goes on round an end of its case. */
import { z } from "zod";
import { mark, mm } from "./values.ts";

export const sideReturn = z
  .strictObject({
    assembly: z.string(),
    case: z.string(),
    frame: z.string().describe("name of the frame before the case"),
    side: z.enum(["left", "right"]),
    mark: mark.describe("the upright on the side's outer face"),
    strip: mark.nullable().describe("the level strip behind it, along the side's lower edge"),
    stile: mark.describe("the outer stile that it meets"),
    against: mark.describe("the side that it is glued to"),
    fit: z.enum(["mitred", "butted"]),
    mating: z.string().describe("the letter that return and stile both carry where they meet"),
    proud: mm.describe("how far rounding lets the frame stand out before the return's outer face, to be planed flush"),
  })
  .describe("a side return of a face frame");

/** A face frame as a maker writes it. */
import { z } from "zod";
import type { FrameJoint } from "../face-frame.ts";
import { choice } from "../file/words.ts";
import { lengthOrZero, says, size, stockId, text, twoWays } from "./fields.ts";

const JOINTS = [
  "dowels",
  "pocket screws",
  "loose tenons",
  "stub tenons",
  "half laps",
] as const satisfies readonly FrameJoint[];
const omitSays = says('a list of "midRail" and "bottomRail"', 'write it like ["midRail"]');
const overSays = says("a list of one or more names of cases", 'write it like ["left case", "right case"]');
const sidesSays = says('a list of "left" and "right"', 'write it like ["left"], or leave it out for both');
export const frame = z
  .strictObject({
    stock: stockId("id of a stock that comes in boards"),
    over: z
      .array(text, overSays)
      .min(1, overSays)
      .max(20, overSays)
      .optional()
      .describe(
        "cases beside each other that the one frame goes before, by name, this one among them; a frame for each of this case when left out",
      ),
    stile: size.describe("width of the outer stiles"),
    midStile: size.optional().describe("width of the stiles before dividers; as the outer ones when left out"),
    jointStile: size
      .optional()
      .describe(
        'with "over": width of the stile before the joint of two cases, whose sides it covers; as the mid stiles when left out',
      ),
    topRail: size
      .optional()
      .describe("width of the top rail; when left out, down to the underside of the top panel or stretchers"),
    midRail: size.optional().describe("width of the rails before shelves; as the outer stiles when left out"),
    midRailAt: z
      .enum(["flush", "centred"], twoWays("flush", "centred"))
      .optional()
      .describe(
        "a mid rail's upper edge flush with its shelf's upper face, or the rail in the middle of its shelf's edge; flush when left out",
      ),
    bottomRail: size
      .optional()
      .describe("width of the bottom rail, flush with the bottom; down to the lower end of the frame when left out"),
    omit: z
      .array(z.enum(["midRail", "bottomRail"], omitSays), omitSays)
      .optional()
      .describe("rails that the frame does without: shelves, or the bottom, then show between the stiles"),
    lower: z
      .strictObject({
        form: z
          .enum(["feet", "arch"], twoWays("feet", "arch"))
          .describe("straight between two feet, or an arch from foot to foot"),
        foot: size.describe("width of each foot at the floor, from the side of the frame"),
        rise: size.describe("height of what is cut out, at its highest"),
        relief: lengthOrZero
          .optional()
          .describe("feet: how far the edge of a foot slopes towards the middle on its way up; 0 when left out"),
      })
      .optional()
      .describe("the lower edge of a bottom rail that stands on the floor; straight when left out"),
    overhang: lengthOrZero
      .optional()
      .describe(
        "how far the frame stands out beyond the case at a side without a return; there by the return's thickness",
      ),
    returns: z
      .strictObject({
        sides: z
          .array(z.enum(["left", "right"], sidesSays), sidesSays)
          .min(1, sidesSays)
          .max(2, sidesSays)
          .optional()
          .describe("ends of the case that it goes round; both when left out"),
        width: size.describe("of the upright on the side's outer face; of a mitred one up to the point"),
        fit: z
          .enum(["mitred", "butted"], twoWays("mitred", "butted"))
          .optional()
          .describe("how it meets the outer stile: at 45 degrees, or behind it; mitred when left out"),
        stock: stockId("id of a stock that comes in boards; as the frame when left out").optional(),
        strip: size
          .optional()
          .describe("width of a level strip behind it, along the side's lower edge; none when left out"),
      })
      .optional()
      .describe("the frame goes on round the ends of the case; none when left out"),
    joint: z
      .enum(JOINTS, says(choice(JOINTS), "choose one of them"))
      .optional()
      .describe("what holds rail to stile beside the glue; dowels when left out"),
    tenon: z
      .strictObject({
        thickness: size.optional().describe("about a third of the members' thickness when left out"),
        width: size
          .optional()
          .describe("loose tenons: three times its thickness when left out, or as much as a narrow member allows"),
        length: size
          .optional()
          .describe(
            "of a loose one over all, by the width of the member that receives it when left out; of a stub from its shoulder, 3/8 in or 10 mm when left out",
          ),
      })
      .optional()
      .describe("size of loose or stub tenons, where it is not by the members' section"),
  })
  .describe("a face frame before the case's front edges, which it covers; none when left out");

export type FrameFile = z.infer<typeof frame>;

/** How a door is made, however it is hung: of stiles and rails round a panel, or in one piece. */
import { z } from "zod";
import { lengthOrZero, says, size, stockId, twoWays } from "./fields.ts";

const MOST_MID_RAILS = 8;
const midRailsSays = says(`a list of 1 to ${MOST_MID_RAILS} mid rails`, 'write it like [{ "up": 24 }]');

/** Keys of whatever says how doors are made. */
export const doorMake = {
  kind: z
    .enum(["frame and panel", "slab"], twoWays("frame and panel", "slab"))
    .describe("stiles and rails round a loose panel, or one piece"),
  stock: stockId("of stiles and rails, or of the slab"),
  stile: size.optional().describe("frame and panel: width of the stiles"),
  topRail: size.optional().describe("width of the top rail; as the stiles when left out"),
  bottomRail: size.optional().describe("width of the bottom rail; as the stiles when left out"),
  midRails: z
    .array(
      z.strictObject({
        up: size
          .optional()
          .describe("from the door's lower end to the rail's middle; panels of one height when left out of all"),
        width: size.optional().describe("as the top rail when left out"),
      }),
      midRailsSays,
    )
    .min(1, midRailsSays)
    .max(MOST_MID_RAILS, midRailsSays)
    .optional()
    .describe("frame and panel: rails between the top and the bottom one, with a panel above and below each"),
  stickDepth: size
    .optional()
    .describe("how deep the groove for the panel goes, and how long the rails' stub tongues are; 3/8 in or 10 mm"),
  panel: z
    .strictObject({
      stock: stockId(),
      clearance: lengthOrZero
        .optional()
        .describe("both sides together; 1/8 in or 3 mm when left out, across solid wood as it moves"),
    })
    .optional()
    .describe("frame and panel: what lies loose in the grooves"),
  grain: z
    .enum(["upright", "level"], twoWays("upright", "level"))
    .optional()
    .describe("which way the grain of a slab runs; upright when left out"),
  horns: lengthOrZero.optional().describe("left on each end of a stile until the door is glued up; none when left out"),
};

const keys = z.strictObject(doorMake);
export type DoorMakeFile = z.infer<typeof keys>;

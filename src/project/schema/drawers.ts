/** Drawers as a maker writes them: how those of a case are made, and the stack in a bay. */
import { z } from "zod";
import { lengthOrZero, mass, says, size, stockId, text, twoWays } from "./fields.ts";

const MOST_LENGTHS = 30;
const lengthsSays = says(`a list of 1 to ${MOST_LENGTHS} lengths`, "write it like [350, 400, 450]");

const slides = z
  .strictObject({
    kind: z
      .enum(
        ["side-mounted", "undermount", "wooden runners"],
        says('"side-mounted", "undermount" or "wooden runners"', "choose one of the three"),
      )
      .describe("at the sides of the box, under it, or strips that its sides stand on"),
    lengths: z
      .array(size, lengthsSays)
      .min(1, lengthsSays)
      .max(MOST_LENGTHS, lengthsSays)
      .optional()
      .describe("lengths to be had; the longest that fits is taken"),
    clearance: lengthOrZero
      .optional()
      .describe(
        "side-mounted and runners: at each side of the box; undermount: what the inside of the box is narrower than the opening",
      ),
    rating: mass.optional().describe('what a pair carries, such as "100 lb"; not checked when left out'),
    rear: lengthOrZero.optional().describe("what stays free behind box and slide, at least"),
    setBack: lengthOrZero
      .optional()
      .describe("front end of the slide behind that of the box, or behind the back of a face frame"),
  })
  .describe("what the drawers run on");

const slopeSays = says("a whole number from 5 to 10", "write 8 for a slope of one in eight");

const front = z
  .strictObject({
    fit: z
      .enum(["inset", "overlay"], twoWays("inset", "overlay"))
      .describe("inside its opening, flush with what is round it, or before it"),
    gap: size
      .optional()
      .describe("inset: all round, and between two fronts; overlay: between two fronts one above the other"),
    overlap: size.optional().describe("overlay: how far the front covers what is round the opening"),
  })
  .describe("the applied front");

export const drawers = z
  .strictObject({
    stock: z
      .strictObject({
        box: stockId("id of the stock of sides, front and back of the boxes"),
        front: stockId().optional().describe("of the box's own front, if another"),
        back: stockId().optional().describe("of its back, if another"),
        bottom: stockId(),
        face: stockId("of the applied fronts"),
        packing: stockId()
          .optional()
          .describe(
            "of the strips behind stiles that lap inside the bay: solid wood, planed to the lap; as the face frame when left out",
          ),
        runner: stockId().optional().describe("of wooden runners; as the box when left out"),
      })
      .describe("what the drawers are cut from"),
    slides,
    joint: z
      .enum(
        ["rabbet", "dado and rabbet", "dovetail"],
        says('"rabbet", "dado and rabbet" or "dovetail"', "choose one of the three"),
      )
      .optional()
      .describe("how front and back meet the sides; rabbet when left out"),
    slope: z
      .number(slopeSays)
      .int(slopeSays)
      .min(5, slopeSays)
      .max(10, slopeSays)
      .optional()
      .describe("dovetail: of the tails, one in so many; 8, in wood lighter than 550 kg/m3 6, when left out"),
    bottom: z
      .strictObject({
        up: size.optional().describe("from the sides' lower edges to the underside of the bottom"),
        depth: size.optional().describe("of the grooves that the bottom lies in"),
        grooves: z
          .union([z.literal(3), z.literal(4)], says("3 or 4", "write it without quotes"))
          .optional()
          .describe("4: held on all sides; 3: slid in under the back and screwed to it; 4 when left out"),
      })
      .optional()
      .describe("the bottom in its grooves"),
    front,
    gaps: z
      .strictObject({
        above: lengthOrZero.optional().describe("uppermost box to the opening's upper edge"),
        below: lengthOrZero.optional().describe("lowest box to the opening's lower edge"),
        between: lengthOrZero.optional().describe("box to box"),
      })
      .optional()
      .describe("between the boxes and their opening; a wooden runner's own thickness comes on top of it"),
    load: mass
      .optional()
      .describe('what lies in each, such as "20 lb"; 8.5 lb to the cubic foot when left out (ASTM F2057-23)'),
  })
  .describe("how the drawers in this case's bays are made; none when left out");

const MOST_DRAWERS = 20;
const shareSays = says("a share above zero, such as 1 or 2", "give a number, or leave it out for an equal share");
const stackSays = says(
  `a list of 1 to ${MOST_DRAWERS} drawers, from the lowest up`,
  'write one entry a drawer: [{ "size": 6 }, {}]',
);
export const stack = z
  .array(
    z
      .strictObject({
        name: text.optional().describe("what is kept in it: on its drawing"),
        size: size.optional().describe("height of the box"),
        front: size.optional().describe("height of the applied front, in place of the box's"),
        share: z.number(shareSays).positive(shareSays).optional().describe("of the height that is left for boxes"),
      })
      .describe("one drawer"),
    stackSays,
  )
  .min(1, stackSays)
  .max(MOST_DRAWERS, stackSays)
  .describe("drawers in this bay, which is not divided, from the lowest up");

export type StackFile = z.infer<typeof stack>;

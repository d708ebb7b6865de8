/** Doors of a case as a maker writes them. */
import { z } from "zod";
import { doorMake } from "./door-make.ts";
import { length, says, size, twoWays } from "./fields.ts";

const hingesSays = says("a whole number from 2 to 8", "write it like 3, without quotes");
const hingeCount = z.number(hingesSays).int(hingesSays).min(2, hingesSays).max(8, hingesSays);
const slidingSays = says("a whole number from 2 to 4", "write it like 2, without quotes");
const slidingCount = z.number(slidingSays).int(slidingSays).min(2, slidingSays).max(4, slidingSays);
const degreesSays = says("degrees from 60 to 180", "write it like 95, without quotes");
const degrees = z.number(degreesSays).min(60, degreesSays).max(180, degreesSays);

export const doors = z
  .strictObject({
    ...doorMake,
    fit: z
      .enum(["inset", "overlay", "sliding"], says('"inset", "overlay" or "sliding"', "choose one of the three"))
      .describe("in the opening, over its edges, or sliding by each other in grooves behind the front"),
    gap: size.optional().describe("inset: all round; 3/32 in or 2 mm when left out"),
    overlap: size
      .optional()
      .describe(
        "overlay: how far it lies over each edge of the opening; 1/2 in or 12 mm; sliding: how far one covers the next; 1 in or 25 mm",
      ),
    between: size
      .optional()
      .describe("gap between the two doors of a pair; inset as all round, overlay 1/8 in or 3 mm when left out"),
    hinges: z
      .strictObject({
        kind: z.enum(["butt", "cup"], twoWays("butt", "cup")),
        height: size.optional().describe("of a butt hinge's leaf; 2 in or 50 mm"),
        cup: size.optional().describe("diameter of a cup; 35 mm"),
        cupFromEdge: size.optional().describe("the door's edge to the middle of the cup; 7/8 in or 22.5 mm"),
        cupDepth: size.optional().describe("how deep the cup's hole is; 1/2 in or 13 mm"),
        fromEnds: size.optional().describe("the door's ends to the middles of the outer two; 3 1/2 in or 90 mm"),
        count: hingeCount.optional().describe("hinges a door; by its height when left out"),
        opens: degrees.optional().describe("how far a door opens, in degrees; 95 with butt hinges, 110 with cups"),
        axis: z
          .strictObject({
            beyond: length.describe("from the door's hinge edge outwards; below zero: inside it"),
            before: length.describe("from the door's front face outwards; below zero: behind it"),
          })
          .optional()
          .describe("where the line is that a door turns about; by the kind of hinge when left out"),
      })
      .optional()
      .describe("what the doors hang on; none of doors that slide"),
    count: slidingCount.optional().describe("sliding: doors before a bay; 2 when left out"),
    grooves: z
      .strictObject({
        upper: size.optional().describe("depth of those above; 3/8 in or 9 mm"),
        lower: size.optional().describe("depth of those below; 1/8 in or 3 mm"),
        play: size.optional().describe("how much wider a groove is than the door's edge; 1/16 in or 2 mm"),
        apart: size.optional().describe("wood between the two grooves; 1/4 in or 6 mm"),
        setIn: size.optional().describe("from the case's front edge to the first groove; 3/8 in or 10 mm"),
        spare: size
          .optional()
          .describe("between a door's lower end, lifted all the way, and the wood below; 1/32 in or 1 mm"),
      })
      .optional()
      .describe("sliding: the grooves above and below that the doors run in; as usual when left out"),
    knob: z
      .strictObject({
        height: size.describe("from the door's lower end to its middle"),
        fromEdge: size.optional().describe("from the edge away from the hinges to its middle; 1 1/4 in or 30 mm"),
        projection: size.optional().describe("how far it stands out; 1 1/8 in or 30 mm"),
        diameter: size.optional().describe("1 1/4 in or 30 mm"),
      })
      .optional()
      .describe("a knob or pull; none when left out"),
    pull: z
      .strictObject({
        height: size.describe("from the door's lower end to its middle"),
        fromEdge: size.optional().describe("from the edge to its middle; 2 in or 50 mm"),
        diameter: size.optional().describe("1 3/8 in or 35 mm"),
        depth: size.optional().describe("1/4 in or 6 mm"),
      })
      .optional()
      .describe("sliding: a round recess in the face to pull by; none when left out"),
  })
  .describe("how the doors of this case are made, and hung or slid; the bays say where they are");

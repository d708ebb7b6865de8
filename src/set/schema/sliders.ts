/** Doors that slide in grooves: the doors of one bay, the grooves above and below that they run in, and how they go in. */
import { z } from "zod";
import { mark, mm, vec } from "./values.ts";

const around = z.strictObject({ mark, depth: mm.describe("of the grooves in it") });
const at = z.tuple([mm, mm]).describe("x and z of its middle in the assembly");

const door = z.strictObject({
  assembly: z.string(),
  track: z.union([z.literal(0), z.literal(1)]).describe("the groove it runs in: 0 the one in front"),
  lean: z
    .strictObject({
      degrees: z.number().describe("its lower end leans out to the front while its upper end goes up into its groove"),
      out: mm.describe("how far its lower end then is in front of its upper one"),
      along: mm.describe("to the right of where it stands closed, where that is done"),
      up: mm.describe("from where it stands to where its upper end meets the groove's floor"),
      back: mm.describe("from the middle of its grooves to their rear walls, where it is turned upright"),
    })
    .describe("how it goes in: leaning, then turned upright at the floor of the upper groove, let down, moved forward"),
  knob: z.strictObject({ at, diameter: mm, projection: mm }).nullable(),
  pull: z.strictObject({ at, diameter: mm, depth: mm }).nullable().describe("a round recess in its face"),
  stick: mm.nullable().describe("depth of the groove all round that the panel lies in; of a slab null"),
  horns: mm.describe("left on each end of a stile until the door is glued up"),
});

export const sliders = z
  .strictObject({
    case: z.string(),
    bay: z.string().describe("name of the opening"),
    opening: z
      .strictObject({ at: vec, width: mm, height: mm })
      .describe("that they close, from its front-left-bottom clear corner, in the room"),
    entrance: z
      .strictObject({ at: vec, width: mm, height: mm })
      .describe("what they go in through: the frame's opening where there is one, from its front-left-bottom corner"),
    above: around.describe("the part over them"),
    below: around.describe("the part under them"),
    tracks: z.array(mm).length(2).describe("y of each groove's front wall, in the room, the one in front first"),
    groove: mm.describe("width of each"),
    play: mm.describe("asked for: how much wider a groove is than what runs in it is thick"),
    apart: mm.describe("wood between the two grooves"),
    overlap: mm.describe("of one door over the next, closed"),
    spare: mm.describe("between a door's lower end, lifted all the way, and the part below"),
    held: mm.describe("how far a seated door stands in the groove above"),
    doors: z.array(door).describe("from the left, closed"),
  })
  .describe("the doors of one bay that slide by each other in grooves");

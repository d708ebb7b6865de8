/** Doors that hang from a flat track before a case, as a maker writes them. */
import { z } from "zod";
import { doorMake } from "./door-make.ts";
import { lengthOrZero, mass, says, size, twoWays } from "./fields.ts";

/** Bays before one track: which of them can be open at once is looked up for every choice of them. */
export const MOST_BAYS = 12;
const MOST_DOORS = 12;

const bayOf = says(`a bay by its number from the left, 1 to ${MOST_BAYS}`, "write it like 2, without quotes");
const bay = z.number(bayOf).int(bayOf).min(1, bayOf).max(MOST_BAYS, bayOf);
const coversSays = says(
  "a list of bays beside each other, by their numbers from the left",
  "write it like [1] or [2, 3]",
);
const trackSays = says("1, the track next to the case, or 2, the one before it", "write it like 2, without quotes");
const trackNumber = z.union([z.literal(1, trackSays), z.literal(2, trackSays)], trackSays);

const door = z
  .strictObject({
    covers: z
      .array(bay, coversSays)
      .min(1, coversSays)
      .max(MOST_BAYS, coversSays)
      .describe("bays that it stands before when closed"),
    track: trackNumber.optional().describe("1, next to the case, or 2, before that; 1 when left out"),
  })
  .describe("one door; those on one track from left to right");

const doorsSays = says(
  "a list of doors, or how many by-passing doors close the whole front",
  'write [{ "covers": [1] }, { "covers": [3] }], or 2',
);
const passingSays = says(`by-passing doors: a whole number from 2 to ${MOST_DOORS}`, "write it like 2, without quotes");

const bar = z
  .strictObject({
    height: size.optional().describe("of the bar, upright; 1 1/2 in or 40 mm"),
    thickness: size.optional().describe("of the bar, front to back; 1/4 in or 6 mm"),
    standOff: size.optional().describe("from the wood to the bar: how long the spacers are; 1 in or 25 mm"),
    apart: size.optional().describe("two tracks: from the rear of one bar to the rear of the other; 2 1/2 in or 65 mm"),
  })
  .describe("the track: a flat bar on spacers");

const bolts = z
  .strictObject({
    diameter: size.optional().describe("5/16 in or 8 mm"),
    into: size.optional().describe("how deep they go into the wood; 5/8 in or 16 mm"),
    spacing: size.optional().describe("from one to the next, at most; 16 in or 400 mm"),
    fromEnd: size.optional().describe("the track's ends to the outer two; 3 in or 75 mm"),
  })
  .describe("what holds the track to the wood");

const holesSays = says("a list of one or two lengths", 'write it like [1, "2 1/2"]');
const hangers = z
  .strictObject({
    rating: mass.describe('what one hanger carries, as its maker states it, such as "50 lb"'),
    width: size.optional().describe("of the strap; 1 1/4 in or 32 mm"),
    fromEdge: lengthOrZero.optional().describe("the door's edge to the near edge of the strap; 1/2 in or 12 mm"),
    drop: size.optional().describe("the door's upper edge up to the lower edge of the track; 3/8 in or 10 mm"),
    above: size.optional().describe("the track's upper edge up to the top of the hanger; 1 3/4 in or 45 mm"),
    projection: size
      .optional()
      .describe("how far strap and bolt heads stand out before the door's face; 3/8 in or 10 mm"),
    lift: size.optional().describe("how far a door is lifted to go over the track; 3/8 in or 10 mm"),
    hole: size.optional().describe("diameter of the holes for the bolts through strap and door; 1/4 in or 6 mm"),
    holes: z
      .array(size, holesSays)
      .min(1, holesSays)
      .max(2, holesSays)
      .optional()
      .describe("the door's upper edge to the middles of the holes; 1 and 2 1/2 in, or 25 and 65 mm"),
  })
  .describe("two straps with a wheel on each door, measured, not catalogued");

const stops = z
  .strictObject({
    fromEnd: size.optional().describe("the track's end to the middle of the stop; 1 in or 25 mm"),
    bumper: size.optional().describe("length of the bumper along the track; 5/8 in or 16 mm"),
  })
  .describe("what ends the way of the doors, at both ends of the track");

const guide = z
  .strictObject({
    height: size.optional().describe("of the bracket, below the door; 1 in or 25 mm"),
    width: size.optional().describe("along the door; 1 1/2 in or 40 mm"),
    cheek: size.optional().describe("thickness of each cheek, before and behind the door; 1/8 in or 3 mm"),
    reach: size.optional().describe("how far the cheeks come up beside the door; 1/2 in or 12 mm"),
  })
  .describe("brackets on the wood below the doors, whose two cheeks keep these from swinging");

const knob = z
  .strictObject({
    height: size.describe("from the door's lower end to its middle"),
    side: z
      .enum(["left", "right", "both"], says('"left", "right" or "both"', "choose one of the three"))
      .optional()
      .describe("near which edge; left when left out"),
    fromEdge: size.optional().describe("from that edge to its middle; 1 1/4 in or 30 mm"),
    projection: size.optional().describe("how far it stands out; 1 1/8 in or 30 mm"),
    diameter: size.optional().describe("1 1/4 in or 30 mm"),
  })
  .describe("a knob or pull; none when left out");

export const track = z
  .strictObject({
    ...doorMake,
    doors: z.union(
      [
        z.array(door).min(1).max(MOST_DOORS),
        z.number(passingSays).int(passingSays).min(2, passingSays).max(MOST_DOORS, passingSays),
      ],
      doorsSays,
    ),
    tracks: z
      .union(
        [z.literal(1, twoWays("1", "2")), z.literal(2, twoWays("1", "2"))],
        says("1 or 2", "choose one of the two"),
      )
      .optional()
      .describe("one, or two behind each other; by-passing doors two when left out, others one"),
    overlap: lengthOrZero
      .optional()
      .describe("of a door over each side of its bays; of one by-passing door over the next; 3/4 in or 20 mm"),
    beyond: lengthOrZero.optional().describe("by-passing: over the outer edges of the front; 0 when left out"),
    above: lengthOrZero.optional().describe("over the upper edge of the openings; 3/4 in or 20 mm"),
    below: lengthOrZero.optional().describe("over their lower edge; 3/4 in or 20 mm"),
    between: lengthOrZero.optional().describe("two doors on one track, at least; 1/8 in or 3 mm"),
    reach: z
      .strictObject({ left: lengthOrZero.optional(), right: lengthOrZero.optional() })
      .optional()
      .describe("how far the doors go on beyond the outermost bays; 0 when left out"),
    on: z
      .enum(["frame", "top", "worktop"], says('"frame", "top" or "worktop"', "choose one of the three"))
      .optional()
      .describe(
        "what the track is bolted to: the face frame's top rail, the edge of the top panel, or that of the worktop",
      ),
    length: size.optional().describe("of the track as it is bought; as long as the doors' way needs when left out"),
    bar: bar.optional(),
    bolts: bolts.optional(),
    hangers,
    stops: stops.optional(),
    guide: guide.optional(),
    knob: knob.optional(),
  })
  .describe("doors that hang from a flat track before this case; none when left out");

export type TrackFile = z.infer<typeof track>;

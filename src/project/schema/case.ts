/** A case as a maker writes it: what each key of it is called, may hold and means. */
import { z } from "zod";
import { choice } from "../file/words.ts";
import type { Role } from "../role.ts";
import { inside } from "./bay.ts";
import { doors } from "./doors.ts";
import { drawers } from "./drawers.ts";
import { count, length, lengthOrZero, mass, says, shelfLoad, size, stockId, text, twoWays, yesOrNo } from "./fields.ts";
import { frame } from "./frame.ts";
import { track } from "./track.ts";

export const joinery = z
  .strictObject({
    depth: size
      .optional()
      .describe("how deep a housing goes; half the nominal thickness of the receiving part when left out"),
    leave: size.optional().describe('instead of "depth": how much stays under the groove, of the measured thickness'),
    backDepth: size
      .optional()
      .describe("how deep the grooves of a captured back, or the rabbets of a rabbeted one, go"),
    allowance: lengthOrZero.optional().describe("added to the entering part's measured thickness: the groove's width"),
    slip: lengthOrZero.optional().describe("how much a back in grooves or rabbets stays clear of each one's floor"),
    setBack: size.optional().describe("how far a stopped groove stays back from an edge that shows"),
  })
  .describe("how parts enter one another");

const aPart = text.describe('a role, such as "shelf", or the id of one part, such as "shelf-1"');
const joint = z
  .strictObject({
    entering: aPart,
    receiving: aPart,
    kind: z
      .enum(["housed", "tongue", "butt"], says('"housed", "tongue" or "butt"', "choose one of the three"))
      .describe("in a groove as wide as it is thick; by a tongue left by a rabbet; or cut square against it"),
    depth: size.optional().describe("of this groove; as the joinery says when left out"),
    leave: size.optional().describe('instead of "depth": how much stays under this groove'),
    tongue: size.optional().describe("thickness of the tongue; half the nominal thickness when left out"),
    fixing: z
      .enum(["glue", "screws", "dowels"], says('"glue", "screws" or "dowels"', "choose one of the three"))
      .optional()
      .describe("what holds a butt joint beside the glue, or glue alone; screws when left out"),
  })
  .describe("how one part enters another, where it is not as usual");
const jointsSays = says("a list of joints", 'write [{ "entering": "shelf", "receiving": "side", "kind": "butt" }]');
export const joints = z
  .array(joint, jointsSays)
  .max(200, says("at most 200 joints", 'say it by role, such as "shelf" in "side"'))
  .describe("joints chosen for a pair of roles or for one place; the last that fits holds");

const edge = z.enum(["shows", "covered"], twoWays("shows", "covered"));

const stockByRole = z.strictObject({
  all: stockId().optional().describe("every part not named here"),
  side: stockId().optional(),
  bottom: stockId().optional(),
  top: stockId().optional(),
  divider: stockId().optional(),
  shelf: stockId().optional(),
  back: stockId().optional(),
  kick: stockId().optional(),
  stretcher: stockId().optional().describe("as the top panel when left out"),
  filler: stockId().optional(),
  looseShelf: stockId().optional().describe("as the shelves when left out"),
  plinth: stockId().optional().describe("as the kick when left out"),
});

const back = z
  .strictObject({
    fit: z
      .enum(
        ["captured", "rabbeted", "applied", "none"],
        says('"captured", "rabbeted", "applied" or "none"', "choose one of the four"),
      )
      .optional()
      .describe("in grooves, in rabbets, laid on from behind, or no back; captured when left out"),
    setIn: size.optional().describe("captured: from the case's back edges to the back"),
    grain: z
      .enum(["upright", "level"], twoWays("upright", "level"))
      .optional()
      .describe("which way the grain of the back runs; upright when left out"),
    houses: yesOrNo.optional().describe("true: shelves and dividers enter the back; false, they butt, when left out"),
    sections: yesOrNo
      .optional()
      .describe("true: a back panel for each of the outermost columns; false, one panel, when left out"),
  })
  .describe("the back");

const bottom = z
  .strictObject({
    fit: z
      .enum(["between", "under"], twoWays("between", "under"))
      .optional()
      .describe("between the sides, or under them, the sides standing on it; between when left out"),
    up: lengthOrZero
      .optional()
      .describe("between the sides: from their lower ends to the bottom's underside; 0 when left out"),
  })
  .describe("the bottom; between the sides, at their very ends, when left out");

const top = z
  .strictObject({
    fit: z
      .enum(["between", "over", "stretchers"], says('"between", "over" or "stretchers"', "choose one of the three"))
      .optional()
      .describe("between the sides, over them, or two stretchers, front and rear, in its place; between when left out"),
    down: lengthOrZero
      .optional()
      .describe("between the sides: from their upper ends to the top panel's upper face; 0, flush, when left out"),
    width: size.optional().describe("of a stretcher, front to back"),
    fillers: size
      .optional()
      .describe(
        'width of filler strips that fill the space over a lowered top panel; it is then as far down as they are thick, and "down" is left out',
      ),
  })
  .describe("the top panel; between the sides and flush when left out");

const kick = z
  .strictObject({
    fit: z
      .enum(["between", "applied"], twoWays("between", "applied"))
      .optional()
      .describe("between the sides, or over the edges of their toe notches; between when left out"),
    setBack: lengthOrZero.optional().describe("from the sides' front edges to the kick's face"),
  })
  .describe("a toe kick, as high as the bottom is up; none when left out");

const range = z
  .strictObject({ down: lengthOrZero, up: lengthOrZero })
  .describe("of a levelling foot: how much lower and higher than its height it can be set");

const feet = z
  .strictObject({
    height: size.describe("from the floor to the underside of the bottom; of a levelling foot as it is set"),
    diameter: size.optional().describe("of what stands on the floor; 1 1/2 in or 40 mm"),
    fromEnds: size
      .optional()
      .describe("the case's outer faces to the feet's middles; just within the sides when left out"),
    fromEdges: size.optional().describe("the same from its front and its back; as from the ends when left out"),
    hole: z
      .strictObject({ diameter: size, depth: size })
      .optional()
      .describe("for the foot's stem, or for what that is screwed into; 5/16 in or 8 mm, 3/8 in or 10 mm deep"),
    range: range.optional(),
    rating: mass.optional().describe('what one foot carries, such as "50 kg"; not checked when left out'),
  })
  .describe("bought feet under the bottom, along front and back; none when left out");

const plinth = z
  .strictObject({
    height: size,
    setBack: lengthOrZero.optional().describe("from the case's front to the plinth's; as a kick's when left out"),
    inset: lengthOrZero.optional().describe("the same at both ends and at the back; 0 when left out"),
  })
  .describe("a base of its own that the case stands on; none when left out");

/** Roles with a front edge that a lipping can go on. */
const LIPPED = ["side", "bottom", "top", "divider", "shelf", "stretcher", "looseShelf"] as const satisfies Role[];
const lippedSays = says(choice(LIPPED), "name parts whose front edges are lipped");
const lippingsSays = says(
  "a list of lippings",
  'write [{ "name": "oak strip", "kind": "strip", "thickness": "1/4 in", "parts": ["shelf"] }]',
);
const lippings = z
  .array(
    z.strictObject({
      name: text.describe("as it stands on lists"),
      kind: z.enum(["strip", "band"], twoWays("strip", "band")).describe("solid wood, or edge band"),
      thickness: size.describe("taken off the panel's cut size"),
      lipped: z
        .enum(["before", "after"], twoWays("before", "after"))
        .optional()
        .describe("before the grooves are cut or after; after when left out"),
      parts: z
        .array(z.enum(LIPPED, lippedSays), says("a list of roles", 'write it like ["shelf", "divider"]'))
        .min(1, says("a list of one or more roles", 'write it like ["shelf", "divider"]'))
        .describe("roles whose front edges it goes on"),
    }),
    lippingsSays,
  )
  .max(LIPPED.length, says(`at most ${LIPPED.length} lippings`, "name several roles in one"))
  .describe("strips or bands on front edges; none when left out");

const pins = z
  .strictObject({
    diameter: size.optional().describe("of pin and hole"),
    depth: size.optional().describe("of the holes"),
    pitch: size.optional().describe("hole to hole"),
    fromFront: size.optional().describe("front edge to the middle of the front row"),
    fromBack: size.optional().describe("back, or rear edge, to the middle of the rear row"),
    margin: size.optional().describe("the bay's floor to the lowest hole, and the highest to its ceiling, at least"),
    clearance: size.optional().describe("each end of a loose shelf to the face beside it"),
  })
  .describe("the pins of loose shelves");

const finishedSays = says("lists of parts, each a glue-up", 'write it like [["side", "bottom", "top"]]');
const finished = z
  .array(z.array(text, finishedSays).min(1, finishedSays).max(100, finishedSays), finishedSays)
  .max(20, finishedSays)
  .describe("groups of parts, by role or id, each of which is one finished glue-up before the rest comes");

const position = z
  .tuple([length, length, length], says("three lengths [right, back, up]", "write it like [0, 0, 0]"))
  .describe("front-left-bottom corner in the room; beside the case before when left out");

export const box = z
  .strictObject({
    name: text.describe("the case's name: on drawings, labels and in messages"),
    quantity: count.optional().describe("how many of this case; 1 when left out"),
    at: position.optional(),
    shares: z
      .strictObject({ left: text.describe("name of the case whose right side is this one's left side") })
      .optional()
      .describe("a side shared with a case that stands before this one in the list; none when left out"),
    width: size.describe("over the outer faces of the sides; of a shared side, from its outer face"),
    height: size.describe("over all, a plinth left out: sides, and what lies under or over them"),
    depth: size.describe("from the sides' front edges to their back edges"),
    stock: z
      .union(
        [stockId(), stockByRole],
        says(
          "the id of a stock, or an object with a stock for each part",
          'write it like "ply-18mm" or { "all": "ply-18mm", "back": "ply-6mm" }',
        ),
      )
      .describe("what the parts are cut from"),
    joinery: joinery.optional(),
    joints: joints.optional(),
    edges: z
      .strictObject({ front: edge.optional(), back: edge.optional(), top: edge.optional(), bottom: edge.optional() })
      .optional()
      .describe("which edges of the case show: a groove stops short of an edge that shows"),
    lippings: lippings.optional(),
    bottom: bottom.optional(),
    top: top.optional(),
    back: back.optional(),
    kick: kick.optional(),
    plinth: plinth.optional(),
    feet: feet.optional(),
    frame: frame.optional(),
    drawers: drawers.optional(),
    doors: doors.optional(),
    track: track.optional(),
    pins: pins.optional(),
    bays: inside.optional(),
    finished: finished.optional(),
    shelfLoad: shelfLoad.optional(),
  })
  .describe("one case");

export type CaseFile = z.infer<typeof box>;
export type JoineryFile = z.infer<typeof joinery>;
export type JointFile = z.infer<typeof joints>[number];

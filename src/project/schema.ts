/** The project file as a maker writes it. Shape only: lengths become millimetres, and ids are looked up, afterwards. */
import { z } from "zod";
import { count, length, lengthOrZero, says, size, text } from "./fields.ts";
import { FOLDER_NAME, isFolderName } from "./folder-name.ts";
import { paperOverrides, stockOverrides, toolingOverrides } from "./shop-schema.ts";

const job = z
  .strictObject({
    name: z
      .string(FOLDER_NAME)
      .refine(isFolderName, FOLDER_NAME)
      .optional()
      .describe("folder of the set under out/; the project file's own name when left out"),
    number: text.describe("job number, on every drawing and label"),
    title: text.describe("what is made"),
    client: text.optional().describe("for whom"),
    drawnBy: text.optional().describe("who answers for the drawings"),
    date: z.iso
      .date(says('a date as year-month-day, such as "2026-11-20"', 'write it like "2026-11-20"'))
      .describe("date of this revision; the paper shows no other"),
    revision: text.describe('revision mark, such as "A": the same on every drawing and label'),
    address: z
      .string()
      .regex(
        /^https?:\/\/[^\s/?#]+(\/[^\s?#]*)?$/,
        says(
          'a web address such as "https://shop.example/jobs/", with nothing after a "?" or "#"',
          "begin it with https:// and end it with a folder, or leave it out",
        ),
      )
      .optional()
      .describe("where the site will be served: labels then link to it, otherwise they say the part in words"),
    notes: z.array(text).optional().describe("general notes, printed on the cover"),
  })
  .describe("what the title block says");

const joinery = z
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

const edge = z.enum(["shows", "covered"], says('"shows" or "covered"', "choose one of the two"));

const bay = z
  .strictObject({
    name: text.optional().describe("a name for messages and drawings"),
    size: size.optional().describe("clear width in a list of columns, clear height in a list of rows"),
    share: z
      .number(says("a share above zero, such as 1 or 2", "give a number, or leave it out for an equal share"))
      .positive(says("a share above zero, such as 1 or 2", "give a number, or leave it out for an equal share"))
      .optional()
      .describe("share of what the sizes leave over; 1 when both are left out"),
    get columns() {
      return bays.optional().describe("bays side by side, left to right, a divider between each two");
    },
    get rows() {
      return bays.optional().describe("bays one above the other, bottom to top, a shelf between each two");
    },
  })
  .describe("a clear space inside the case");

const MOST_BAYS = 60;
const severalBays = says(
  `a list of 2 to ${MOST_BAYS} bays`,
  'list each bay, even an undivided one: [{ "size": 12 }, {}]',
);
const bays = z.array(bay, severalBays).min(2, severalBays).max(MOST_BAYS, severalBays);

const inside = z
  .strictObject({
    name: bay.shape.name,
    get columns() {
      return bays.optional().describe("bays side by side, left to right, a divider between each two");
    },
    get rows() {
      return bays.optional().describe("bays one above the other, bottom to top, a shelf between each two");
    },
  })
  .describe("how the inside is divided; one clear space when left out");

const stockId = text.describe("id of a stock, from shared/stock.json or this job's own");
const stockByRole = z.strictObject({
  all: stockId.optional().describe("every part not named here"),
  side: stockId.optional(),
  bottom: stockId.optional(),
  top: stockId.optional(),
  divider: stockId.optional(),
  shelf: stockId.optional(),
  back: stockId.optional(),
  kick: stockId.optional(),
  stretcher: stockId.optional(),
  filler: stockId.optional(),
  looseShelf: stockId.optional(),
  plinth: stockId.optional(),
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
      .enum(["upright", "level"], says('"upright" or "level"', "choose one of the two"))
      .optional()
      .describe("which way the grain of the back runs; upright when left out"),
  })
  .describe("the back");

const position = z
  .tuple([length, length, length], says("three lengths [right, back, up]", "write it like [0, 0, 0]"))
  .describe("front-left-bottom corner in the room; beside the case before when left out");

const box = z
  .strictObject({
    name: text.describe("the case's name: on drawings, labels and in messages"),
    quantity: count.optional().describe("how many of this case; 1 when left out"),
    at: position.optional(),
    width: size.describe("over the outer faces of the sides"),
    height: size.describe("from the sides' lower ends to their upper ends"),
    depth: size.describe("from the sides' front edges to their back edges"),
    stock: z
      .union(
        [stockId, stockByRole],
        says(
          "the id of a stock, or an object with a stock for each part",
          'write it like "ply-18mm" or { "all": "ply-18mm", "back": "ply-6mm" }',
        ),
      )
      .describe("what the parts are cut from"),
    joinery: joinery.optional(),
    edges: z
      .strictObject({ front: edge.optional(), back: edge.optional(), top: edge.optional(), bottom: edge.optional() })
      .optional()
      .describe("which edges of the case show: a groove stops short of an edge that shows"),
    bottom: z
      .strictObject({ up: lengthOrZero.describe("from the sides' lower ends to the bottom's underside") })
      .optional()
      .describe("the bottom; at the very end of the sides when left out"),
    top: z
      .strictObject({
        down: lengthOrZero.describe("from the sides' upper ends to the top panel's upper face; 0: flush"),
      })
      .optional()
      .describe("the top panel; flush when left out"),
    back: back.optional(),
    kick: z
      .strictObject({ setBack: lengthOrZero.optional().describe("from the sides' front edges to the kick's face") })
      .optional()
      .describe("a toe kick, as high as the bottom is up; none when left out"),
    bays: inside.optional(),
  })
  .describe("one case");

const cases = z
  .array(box, says("a list of one or more cases", 'write "cases": [ { ... } ]'))
  .min(1, says("a list of one or more cases", 'write "cases": [ { ... } ]'));

export const projectSchema = z
  .strictObject({
    $schema: z.string().optional().describe("address of this schema, for editors"),
    job,
    unit: z
      .enum(["in", "mm"], says('"in" or "mm"', "choose one of the two"))
      .describe("unit of every bare number here, and of the paper"),
    step: size
      .optional()
      .describe(
        "what printed lengths are rounded to: a whole multiple of 1/64 in or of 0.1 mm, at most 1/16 in; 1/16 in or 0.1 mm when left out",
      ),
    paper: paperOverrides.optional(),
    stock: stockOverrides.optional(),
    tooling: toolingOverrides.optional(),
    joinery: joinery.optional(),
    cases,
  })
  .describe("A Dryfit project: one job of plywood cases");

export type ProjectFile = z.infer<typeof projectSchema>;
export type CaseFile = z.infer<typeof box>;
export type BayFile = z.infer<typeof bay>;
export type JoineryFile = z.infer<typeof joinery>;

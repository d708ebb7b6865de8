/** The project file as a maker writes it. Shape only: lengths become millimetres, and ids are looked up, afterwards. */
import { z } from "zod";
import { FOLDER_NAME, isFolderName } from "../checks/folder-name.ts";
import { asBuilt } from "./as-built.ts";
import { box, joinery, joints } from "./case.ts";
import { lengthOrZero, minutes, says, size, text } from "./fields.ts";
import { finish } from "./finish.ts";
import { layout } from "./layout.ts";
import { moisture } from "./moisture.ts";
import { paperOverrides, stockOverrides, toolingOverrides } from "./shop.ts";
import { worktop } from "./worktop.ts";

const date = z.iso.date(says('a date as year-month-day, such as "2026-11-20"', 'write it like "2026-11-20"'));

const MOST_REVISIONS = 40;
const revision = z
  .strictObject({
    revision: text.describe('its mark, such as "A"'),
    date: date.describe("when it was given out"),
    words: text.describe("what it changed, in a few words"),
  })
  .describe("one line of the revision table");

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
    projection: z
      .enum(["first", "third"], says('"first" or "third"', "choose one of the two"))
      .optional()
      .describe(
        "first or third angle: the plan under the front view, or over it; third when left out. The title block shows which",
      ),
    date: date.describe("date of this revision; the paper shows no other"),
    revision: text.describe('revision mark, such as "A": the same on every drawing and label'),
    revisions: z
      .array(revision, says("a list of revisions", 'write "revisions": [ { ... } ]'))
      .max(MOST_REVISIONS, says(`at most ${MOST_REVISIONS} revisions`, "leave the oldest out"))
      .optional()
      .describe("the revision table of the cover, the oldest first; the last is this one, with its mark and date"),
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

const doorway = z
  .strictObject({ width: size, height: size })
  .describe("the narrowest opening on the way to its place: what has to pass it is checked");

const MOST_JOINTS = 200;
const jointsSays = says(`a whole number from 1 to ${MOST_JOINTS}`, "write it like 8, without quotes");
const glue = z
  .strictObject({
    openMinutes: minutes.optional().describe("how long spread glue may wait before the joint is closed"),
    minutesPerJoint: minutes.optional().describe("how long one joint takes to spread and close"),
    mostJoints: z
      .number(jointsSays)
      .int(jointsSays)
      .min(1, jointsSays)
      .max(MOST_JOINTS, jointsSays)
      .optional()
      .describe("most joints to one glue-up, whatever the minutes say"),
  })
  .describe("the glue's time: how much is glued up at once follows from it");

const wallBehind = z
  .strictObject({
    skirting: z.strictObject({ height: size, thickness: size }).describe("the board along the foot of the wall"),
    clearance: lengthOrZero.optional().describe("kept above and before the skirting; 1/8 in or 3 mm when left out"),
    pass: z
      .enum(["notch", "stand off"], says('"notch" or "stand off"', "choose one of the two"))
      .optional()
      .describe("sides notched over the skirting, or all cases off the wall by its thickness; notch when left out"),
  })
  .describe("the wall behind the rearmost cases, where it has a skirting");

const walls = z
  .strictObject({
    left: lengthOrZero.optional(),
    right: lengthOrZero.optional(),
    back: wallBehind.optional(),
    scribe: z
      .strictObject({ left: lengthOrZero.optional(), right: lengthOrZero.optional(), back: lengthOrZero.optional() })
      .optional()
      .describe(
        "how much wider the outer stile of a face frame, and a worktop, are left at that wall, to be scribed to it; none when left out",
      ),
  })
  .describe(
    "walls round the place: how far those that run forward stand clear of the outermost cases; none when left out",
  );

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
    joints: joints.optional(),
    doorway: doorway.optional(),
    glue: glue.optional(),
    layout: layout.optional(),
    walls: walls.optional(),
    floor: z
      .strictObject({ out: lengthOrZero.describe("its highest point over its lowest, under the piece") })
      .optional()
      .describe("the floor where it will stand; not known when left out"),
    asBuilt: asBuilt.optional(),
    finish: finish.optional(),
    moisture: moisture.optional(),
    cases,
    worktops: z
      .array(worktop, says("a list of worktops", 'write "worktops": [ { ... } ]'))
      .max(20, says("at most 20 worktops", "make two jobs of it"))
      .optional(),
  })
  .describe("A Dryfit project: one job of plywood cases");

export type ProjectFile = z.infer<typeof projectSchema>;

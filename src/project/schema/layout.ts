/** How parts are laid on sheets and boards: what a job asks for beyond the fewest. */
import { z } from "zod";
import { lengthOrZero, says, size, text, twoWays, yesOrNo } from "./fields.ts";

const seedSays = says("a whole number from 1 to 1000000", "write it like 1, without quotes");

const [LEAST_LEVELS, MOST_LEVELS] = [2, 6];
const levelsSays = says("a whole number from 2 to 6", "write it like 3, without quotes");

const MOST_NAMES = 100;
const namesSays = says(
  "a list of parts, each by its role or by its own name",
  'write it like ["drawerFace"] or ["bench door 1/slab", "bench door 2/slab"]',
);
const parts = z
  .array(text, namesSays)
  .min(1, namesSays)
  .max(MOST_NAMES, namesSays)
  .describe("roles, such as drawerFace, or single parts by the name that set.json calls their key");

const MOST_LISTS = 50;
const listOf = <T extends z.ZodType>(each: T, written: string) => {
  const listSays = says("a list, one entry for each", `write [${written}]`);
  return z.array(each, listSays).max(MOST_LISTS, listSays);
};

const grain = z
  .strictObject({
    parts,
    grain: z
      .enum(["wish", "none"], twoWays("wish", "none"))
      .describe(
        "wish: along the sheet's, unless turning it saves stock; none: either way. What is not named keeps to the grain",
      ),
  })
  .describe("parts whose length need not lie along the grain of a stock that has one");

const together = z
  .strictObject({
    parts,
    must: yesOrNo
      .optional()
      .describe("true: even where that takes more stock; false, a wish that gives way to that, when left out"),
  })
  .describe(
    "parts cut from one strip, in the order in which they will be seen, left to right or bottom to top, so that the figure runs through",
  );

const oversize = z
  .strictObject({
    parts,
    length: lengthOrZero.optional().describe("left beyond its finished length, over both ends together"),
    width: lengthOrZero.optional().describe("left beyond its finished width, over both edges together"),
  })
  .describe("panels cut from the sheet with so much over, and trimmed to their finished size before they are grooved");

export const layout = z
  .strictObject({
    seed: z
      .number(seedSays)
      .int(seedSays)
      .min(1, seedSays)
      .max(1_000_000, seedSays)
      .optional()
      .describe("another one lays the parts otherwise, as good or nearly so; 1 when left out"),
    effort: z
      .enum(["quick", "normal", "long"], says('"quick", "normal" or "long"', "choose one of the three"))
      .optional()
      .describe("how long better layouts are looked for; normal when left out"),
    levels: z
      .number(levelsSays)
      .int(levelsSays)
      .min(LEAST_LEVELS, levelsSays)
      .max(MOST_LEVELS, levelsSays)
      .optional()
      .describe(
        "how many times the cuts of a sheet turn: 2, rips then crosscuts; 3, each piece ripped once more; more only where that saves a sheet; when left out, 4 for a stock that up to 50 parts are cut from, 3 for more",
      ),
    first: z
      .enum(["rip", "crosscut"], twoWays("rip", "crosscut"))
      .optional()
      .describe(
        "the cuts that each sheet and board begins with, along its length or across it, unless that takes more stock; whichever serve best when left out",
      ),
    keep: z
      .strictObject({ length: size.describe("of its longer side"), width: size })
      .optional()
      .describe(
        "the least offcut worth keeping, however it lies; 300 by 150 mm of a sheet, 300 by 40 mm of a board when left out",
      ),
    grain: listOf(grain, '{ "parts": ["filler"], "grain": "none" }').optional(),
    together: listOf(together, '{ "parts": ["drawerFace"] }').optional(),
    oversize: listOf(oversize, '{ "parts": ["slab"], "length": 10, "width": 10 }').optional(),
    early: parts
      .optional()
      .describe("parts that are wanted first: they come from the first sheets, as far as sizes allow"),
  })
  .describe("how parts are laid on sheets: the same seed and effort give the same layout on any machine");

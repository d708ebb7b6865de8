/** Bays as a maker writes them: columns and rows inside one another, and loose shelves or drawers in what is not divided. */
import { z } from "zod";
import { stack } from "./drawers.ts";
import { says, size, text } from "./fields.ts";

const looseSays = says("a whole number from 1 to 20", "write it like 3, without quotes");
const loose = z
  .number(looseSays)
  .int(looseSays)
  .min(1, looseSays)
  .max(20, looseSays)
  .describe("loose shelves on pins in this bay, which is not divided");

const door = z
  .enum(
    ["left", "right", "pair", "sliding"],
    says('"left", "right", "pair" or "sliding"', "name the side that its hinges are on, or say that it slides"),
  )
  .describe(
    "a door before this bay, divided or not: on which side its hinges are, or two doors hinged outside; or doors that slide in it, undivided",
  );

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
    loose: loose.optional(),
    drawers: stack.optional(),
    door: door.optional(),
  })
  .describe("a clear space inside the case");

const MOST_BAYS = 60;
const severalBays = says(
  `a list of 2 to ${MOST_BAYS} bays`,
  'list each bay, even an undivided one: [{ "size": 12 }, {}]',
);
const bays = z.array(bay, severalBays).min(2, severalBays).max(MOST_BAYS, severalBays);

export const inside = z
  .strictObject({
    name: bay.shape.name,
    get columns() {
      return bays.optional().describe("bays side by side, left to right, a divider between each two");
    },
    get rows() {
      return bays.optional().describe("bays one above the other, bottom to top, a shelf between each two");
    },
    loose: loose.optional(),
    drawers: stack.optional(),
    door: door.optional(),
  })
  .describe("how the inside is divided; one clear space when left out");

export type BayFile = z.infer<typeof bay>;

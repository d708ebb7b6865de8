/** What a maker measured on the piece as it stands. */
import { z } from "zod";
import { says, size, text } from "./fields.ts";

const eitherSays = says("a width, a height, or both", 'write it like { "width": "35 15/16" }');
const measured = z
  .strictObject({
    width: size.optional().describe("of an assembly over all, at its front; of an opening, clear"),
    height: size.optional().describe("the same, upright"),
  })
  .refine(({ width, height }) => width !== undefined || height !== undefined, eitherSays);

export const asBuilt = z
  .record(text, measured)
  .describe(
    'measured on the piece itself, by the name of an assembly, such as "bench", or of one of its openings, such as "bench/bay 1": parts already cut keep their sizes, what is made after them follows',
  );

/** What is done at the saw, the router, the drill and the bench. */
import { z } from "zod";
import { face, mark, mm } from "./values.ts";

const run = z.strictObject({
  mark,
  feature: z.number().int().describe("index in the part's features"),
  face,
  datum: face,
  from: mm.describe("along the run, local"),
  to: mm,
  stopped: z.boolean().describe("this run stops in the wood"),
  board: z
    .boolean()
    .describe("router only: too little room on the part for the straightedge, a board as thick beside it makes some"),
});

export const setting = z.strictObject({
  n: z.number().int(),
  tool: z.enum(["table saw", "router"]),
  carrier: z.enum(["fence", "sled", "straightedge"]).describe("what guides the part or the tool"),
  operation: z.enum(["groove", "rabbet", "shoulder"]),
  cutter: z.string(),
  width: mm,
  depth: mm,
  fence: mm.describe("from the datum to the wall nearer to it"),
  sacrificial: z
    .boolean()
    .describe(
      "the cut opens to the datum itself: the cutter runs into a sacrificial face, and `fence` is to the inner wall",
    ),
  straightedge: z
    .strictObject({ base: mm, bit: mm, near: mm, far: mm.nullable(), spacer: mm })
    .nullable()
    .describe(
      "router only: full width of the base and the bit reckoned with, and the distances from the datum to the edge the router rides on, for the near and far wall passes",
    ),
  stopped: z.boolean().describe("at least one run stops"),
  holds: z.array(mark),
  test: z.string(),
  caution: z.string(),
  runs: z.array(run),
});

export const settingsCount = z
  .strictObject({
    count: z.number().int(),
    least: z.number().int().describe("no choice of datums makes fewer, under the rules: proved"),
    proved: z.boolean().describe("the count is the least there can be"),
    fromLowEnds: z
      .number()
      .int()
      .describe("what it would be with every groove measured from its low end or front edge"),
  })
  .describe("how many settings there are for the grooves, rabbets and shoulders");

export const drilling = z
  .strictObject({
    n: z.number().int(),
    diameter: mm,
    depth: mm,
    holds: z.string().describe("what goes into the holes"),
    rows: z.array(
      z.strictObject({
        mark,
        row: z.string(),
        features: z.array(z.number().int()),
        face,
        datum: face.describe("the end that the first hole is measured from"),
        first: mm.describe("from that end to the first hole's middle"),
        pitch: mm,
        count: z.number().int(),
        edge: face.describe("the edge or end that the row keeps its distance from"),
        distance: mm,
      }),
    ),
    test: z.string(),
    caution: z.string(),
  })
  .describe("holes of one diameter and depth, row by row");

export const handWork = z.strictObject({ mark, features: z.array(z.number().int()), text: z.string() });

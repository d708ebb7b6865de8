/** What is done at the saw, the router, the drill and the bench. */
import { z } from "zod";
import { face, mark, mm } from "./values.ts";

const stop = z
  .strictObject({
    edge: face.describe("the end or edge that the cut keeps clear of"),
    leave: mm.describe("left uncut there, from the edge as it is then (before a lipping that comes later)"),
    block: mm.describe(
      "router: from that edge into the part to the block that the base runs against, negative beyond the edge; saw: from where the cutter breaks the table's surface to the block that the leading end runs against; where the cut runs into another groove, so that it does not leave that one again",
    ),
  })
  .describe("where a run stops short");

const run = z.strictObject({
  mark,
  feature: z.number().int().describe("index in the part's features"),
  face,
  datum: face,
  from: mm.describe("along the run, local"),
  to: mm,
  stopped: z.boolean().describe("this run stops in the wood"),
  stops: z.array(stop),
  board: z
    .boolean()
    .describe("router only: too little room on the part for the straightedge, a board as thick beside it makes some"),
  notes: z.array(z.string()).describe("what this part needs beside: support, a push stick"),
});

export const setting = z.strictObject({
  n: z.number().int(),
  group: z.number().int(),
  tool: z.enum(["table saw", "router"]),
  carrier: z.enum(["fence", "sled", "straightedge"]).describe("what guides the part or the tool"),
  operation: z.enum(["groove", "rabbet", "lap", "shoulder"]),
  cutter: z.string(),
  width: mm,
  depth: mm,
  fence: mm.describe("from the datum to the wall nearer to it"),
  side: z
    .enum(["left", "right"])
    .nullable()
    .describe("saw only: of the cutter, on which fence or stop stands for the operator"),
  sacrificial: z
    .boolean()
    .describe(
      "the cut opens to the datum itself: the cutter runs into a sacrificial face, and `fence` is to the inner wall",
    ),
  straightedge: z
    .strictObject({ base: mm, ahead: mm, bit: mm, near: mm, far: mm.nullable(), spacer: mm })
    .nullable()
    .describe(
      "router only: twice the distance from the bit's middle to the side that rides, from there to the edge that goes first, the bit reckoned with, and the distances from the datum to the edge the router rides on, for the near and far wall passes",
    ),
  depths: z.array(mm).describe("how deep the cutter stands, pass by pass; the last is the groove's depth"),
  ramp: z
    .strictObject({ radius: mm, length: mm })
    .nullable()
    .describe("saw only: the slope that a cutter of this radius leaves before each stop, to be chiselled"),
  stopped: z.boolean().describe("at least one run stops"),
  holds: z.array(mark),
  test: z.string(),
  caution: z.string(),
  runs: z.array(run),
});

export const group = z
  .strictObject({
    n: z.number().int(),
    kind: z.enum(["case", "frame", "doors", "drawers", "worktop"]),
    title: z.string(),
    parts: z.array(mark),
    gate: z
      .strictObject({
        text: z.string().describe("what must be true before its first cut"),
        boxes: z.array(z.strictObject({ label: z.string(), target: mm })).describe("as-built figures to be written in"),
      })
      .describe("between it and what comes before"),
  })
  .describe("what is sized and grooved together: of each group every part is at its size before its first groove");

export const sizing = z
  .strictObject({
    group: z.number().int(),
    fence: mm,
    guide: z
      .enum(["fence", "stop", "line", "straightedge"])
      .describe(
        "fence: the piece runs along it; stop: shorter along the cut than across it, so sled or gauge carries it and a stop sets the distance; line: carried likewise, but to a knifed line beyond the stop's reach; straightedge: farther than fence or stop reach",
      ),
    trim: z
      .boolean()
      .describe(
        "panels cut from their sheet with something over, to their finished size: after all cuts of the sheets",
      ),
    cuts: z.array(z.strictObject({ sheet: z.number().int(), cuts: z.array(z.number().int()) })),
    rips: z.array(z.string()).describe("pieces from boards, and panels cut oversize, that are ripped to this width"),
    crosscuts: z.array(z.string()).describe("the same that are cut to this length"),
    caution: z.string(),
  })
  .describe("cuts of the sheet layouts, rips and crosscuts of milled boards that share a fence distance");

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
    group: z.number().int(),
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

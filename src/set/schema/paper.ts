/** What goes on to paper beside drawings: sticks, labels, steps, what to buy, and tables of other thicknesses. */
import { z } from "zod";
import { defects, face, mark, mm, vec } from "./values.ts";

export const stick = z.strictObject({
  name: z.string(),
  axis: z.enum(["x", "y", "z"]).describe("direction in the case"),
  length: mm,
  parts: z.array(
    z.strictObject({
      mark,
      datum: face,
      offset: mm.describe("where the part's datum end lies on the stick"),
      length: mm,
    }),
  ),
  marks: z.array(
    z.strictObject({
      kind: z
        .enum(["groove", "seat", "end", "line"])
        .describe("seat: where the end of another part lies on this one's edge"),
      at: mm,
      width: mm,
      holds: z.array(mark),
      parts: z.array(mark).describe("parts that take this mark"),
    }),
  ),
  print: z.strictObject({ x: z.number(), y: z.number() }),
  tiles: z.array(
    z.strictObject({
      page: z.number().int(),
      from: mm,
      to: mm,
      x: mm,
      y: mm,
      direction: z.enum(["right", "down"]),
    }),
  ),
  long: z
    .array(z.strictObject({ from: mm, to: mm }))
    .describe("the stick on long pages for a roll: one, or several where no page of a PDF is long enough"),
});

export const label = z.strictObject({
  mark,
  text: z.string().describe("what its QR code says"),
  spot: z
    .strictObject({ page: z.number().int(), x: mm, y: mm })
    .nullable()
    .describe("page of labels.pdf and upper left corner; null: not printed, the label in the shop is still true"),
});

export const rackPiece = z
  .strictObject({
    id: z.string().nullable().describe("its name on its sheet or board; null: in the rack before, and not used"),
    stock: z.string(),
    label: z.string().describe("what is written on it"),
    length: mm.describe("along the grain, rounded down"),
    width: mm,
    defects,
    text: z.string().nullable().describe("what the QR code of its label says; null: it has its label"),
    spot: label.shape.spot,
  })
  .describe("an offcut that the next job finds in the rack");

export const reprint = z
  .strictObject({
    revision: z.string().describe("of the set whose labels and sticks are already in the shop"),
    parts: z
      .array(
        z.strictObject({
          mark,
          why: z.array(z.enum(["new", "size", "joinery", "hand", "stock", "name", "look-alikes"])),
        }),
      )
      .describe("parts whose labels are printed anew, and why"),
    withdrawn: z.array(z.strictObject({ mark, name: z.string() })).describe("parts that are no more: their labels go"),
    sticks: z.array(z.string()).describe("sticks that are printed, by name: the others have no tiles"),
    withdrawnSticks: z.array(z.string()).describe("sticks that are no longer true, by name"),
  })
  .nullable()
  .describe("null: everything is printed; else the labels and sticks of what changed since an older set");

/** What a step is done by: a list or a view among the drawings, or the sticks. */
const shownOn = z.enum([
  "views",
  "taken apart",
  "face frame",
  "doors",
  "drawers",
  "worktop",
  "purchase list",
  "thickness and rounding",
  "cut list",
  "sheet layouts",
  "board layouts",
  "settings",
  "part drawings",
  "story sticks",
]);

export const step = z.strictObject({
  n: z.number().int(),
  title: z.string(),
  needs: z.array(z.number().int()).describe("steps that come first; those that these need come before them"),
  parts: z.array(mark),
  settings: z.array(z.number().int()),
  drawings: z.array(shownOn).describe("that have to lie at hand"),
  hardware: z
    .array(z.strictObject({ what: z.string(), sizes: z.array(mm), count: z.number().int(), unit: z.string() }))
    .describe("bought, and fixed on in this step"),
  clamps: z
    .strictObject({
      count: z.number().int(),
      opens: mm,
      cauls: z
        .array(z.strictObject({ count: z.number().int(), length: mm }))
        .describe("at once, of each length, over joints farther in than a clamp's throat"),
    })
    .nullable()
    .describe("of a glue-up: how many at once, and how far the longest opens"),
  now: z.array(z.string()).describe("what is easier now than later"),
  text: z.array(z.string()),
  cautions: z.array(z.string()),
  boxes: z.array(z.strictObject({ label: z.string(), target: mm.nullable() })).describe("write-in boxes"),
  moves: z
    .array(
      z.strictObject({
        assembly: z.string(),
        n: z.number().int(),
        spacers: z
          .array(z.tuple([vec, vec]))
          .describe("what parts are propped on while this move is made: boxes in the assembly"),
      }),
    )
    .describe("moves of an order that belong to this step: pictured one by one"),
});

export const finish = z
  .strictObject({
    name: z.string(),
    kind: z.enum(["film", "oil"]),
    parts: z.array(mark),
    area: z.number().describe("m2 of their faces, edges and ends that no other part of their assembly covers"),
    coats: z.number().int(),
    litres: z.number().describe("all coats, by the coverage that the job gives, nothing over"),
    dry: z.number().describe("hours from coat to coat"),
    before: z.boolean().describe("before the parts are put together"),
  })
  .describe("what goes over the wood, in the order in which it goes on");

export const purchase = z.strictObject({
  what: z.string(),
  size: z.string(),
  quantity: z.number(),
  unit: z.string(),
  price: z.number().nullable(),
  note: z.string(),
});

export const sensitivity = z
  .strictObject({
    stock: z.string(),
    thicknesses: z
      .array(mm)
      .describe("likely measured thicknesses, the thinnest first; that of the set itself is always among them"),
    impossible: z.array(mm).describe("of these, those with which the piece could not be made as it is designed"),
    tick: mm.describe("what a calliper is read to: `each` of a row is the change over so much"),
    rows: z.array(
      z.strictObject({
        marks: z.array(mark),
        what: z.string().describe("length, width, or which figure of which groove, notch or hole"),
        values: z
          .array(mm.nullable())
          .describe("one for each thickness, as it would be printed; null where the piece could not be made"),
        each: mm
          .nullable()
          .describe("what the figure gains for each tick that the stock is thicker, before rounding; null: not evenly"),
      }),
    ),
  })
  .describe("the figures that change when a stock measures otherwise");

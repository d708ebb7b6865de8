/** What the shop's own files say, and how a job may override it: stock, tooling, paper and label formats. */
import { z } from "zod";
import { count, length, lengthOrZero, mass, says, size, text, yesOrNo } from "./fields.ts";

const unit = z
  .enum(["in", "mm"], says('"in" or "mm"', "choose one of the two"))
  .describe("unit of every bare number in this file");
const $schema = z.string().optional();
const sheetSize = z.strictObject({ length: size.describe("along the grain"), width: size });
const STOCK_ID = /^[A-Za-z0-9][A-Za-z0-9._-]*$/;
const stockId = z
  .string()
  .max(40, says("an id of at most 40 characters", "shorten it"))
  .regex(STOCK_ID, says('an id of letters, digits, "-", "_" and "."', 'write it like "ply-18mm"'));
const faces = z.union([z.literal(1), z.literal(2)], says("1 or 2", "choose one of the two, without quotes"));
const density = z
  .number(says("kilograms per cubic metre, such as 600", "write it like 600, without quotes"))
  .min(50, says("a density from 50 to 3000 kg/m3", "give it in kilograms per cubic metre"))
  .max(3000, says("a density from 50 to 3000 kg/m3", "give it in kilograms per cubic metre"));
const price = z
  .number(says("a number, in the shop's own money", "write it like 85.5, without quotes"))
  .nonnegative(says("a price of zero or more", "leave it out where it is not known"))
  .max(1e7, says("a price of at most 10000000", "give the price of one sheet"));
const modulusSays = says(
  "a modulus of elasticity from 500 to 30000 N/mm2",
  "write it like 6550; 1,000,000 psi are 6895 N/mm2",
);
const modulus = z.number(modulusSays).min(500, modulusSays).max(30000, modulusSays);
const coefficientSays = says(
  "a fraction of the width for each point of moisture, from 0.0005 to 0.006",
  "write it like 0.00353",
);
const coefficient = z.number(coefficientSays).min(0.0005, coefficientSays).max(0.006, coefficientSays);
const readingSays = says("a measured thickness, or a list of them", 'write it like "23/32" or [17.6, 17.7, 17.6]');

const toBeHadSays = says("a whole number from 1 to 500", "leave it out where there are always enough");
const toBeHad = z.number(toBeHadSays).int(toBeHadSays).min(1, toBeHadSays).max(500, toBeHadSays);
const MOST_OFFCUTS = 100;
const MOST_DEFECTS = 20;
const offcuts = z
  .array(
    z.strictObject({
      label: text.max(30, says("a label of at most 30 characters", "shorten it")).describe("what is written on it"),
      length: size.describe("along the grain"),
      width: size,
      defects: z
        .array(
          z.strictObject({ from: lengthOrZero, to: size }),
          says("a list of ranges along the length", 'write [{ "from": ..., "to": ... }]'),
        )
        .max(MOST_DEFECTS, says(`at most ${MOST_DEFECTS} defects of one offcut`, "join those that lie close"))
        .optional()
        .describe("knots, splits, bad ends: each from and to, along the length from the end that bears the label"),
    }),
    says("a list of offcuts", 'write [{ "label": ..., "length": ..., "width": ... }]'),
  )
  .max(MOST_OFFCUTS, says(`at most ${MOST_OFFCUTS} offcuts of one stock`, "leave the smallest out"));
const sizes = z
  .array(
    sheetSize.extend({ price: price.optional().describe("of one"), count: toBeHad.optional().describe("to be had") }),
    says("a list of further sizes", 'write [{ "length": ..., "width": ..., "price": ... }]'),
  )
  .max(5, says("at most 5 further sizes", "leave out what is never the cheapest"));

const stock = z.strictObject({
  name: text.describe("as it stands on lists and labels"),
  nominal: size.describe("the thickness it is sold by"),
  measured: z
    .union([size, z.array(size, readingSays).min(1, readingSays).max(50, readingSays)], readingSays)
    .optional()
    .describe("thickness by calliper, one reading or several: every size follows it"),
  sheet: sheetSize.optional().describe("one full sheet"),
  boards: z
    .strictObject({
      rough: size.describe("thickness before planing"),
      length: size.describe("longest to be had"),
      width: size.describe("widest to be had"),
      spare: z
        .number(says("a share from 0 to 2", "write 0.25 for a quarter more"))
        .min(0, says("a share from 0 to 2", "write 0.25 for a quarter more"))
        .max(2, says("a share from 0 to 2", "write 0.25 for a quarter more"))
        .optional()
        .describe("bought beyond what the parts take, as a share of it"),
      dressed: yesOrNo
        .optional()
        .describe(
          'true: bought planed, as framing lumber is, and only cut to length; "rough" and "width" are then its dressed sizes',
        ),
    })
    .optional()
    .describe('solid wood in boards, in place of "sheet"; "nominal" is then the thickness it is planed to'),
  trim: lengthOrZero.optional().describe("taken off each edge of a sheet, its cut included"),
  grain: yesOrNo.optional().describe("false: no grain to be seen, parts may be turned on the sheet"),
  goodFaces: faces.optional().describe("faces fit to be seen"),
  density: density.optional().describe("kg/m3"),
  stiffness: z
    .strictObject({
      along: modulus.describe("a part bent along the grain of its face"),
      across: modulus.describe("bent across it"),
      source: text.describe("who says so, as it stands on the checks page"),
    })
    .optional()
    .describe("modulus of elasticity in bending, N/mm2: the sag of shelves follows it"),
  solid: yesOrNo.optional().describe("true: edge-glued solid wood, which moves across its grain"),
  species: z
    .strictObject({
      name: text,
      tangential: coefficient.describe("flat-sawn: fraction of its width for each point of moisture"),
      radial: coefficient.describe("quarter-sawn"),
      source: text.describe("who says so, as it stands on the checks page"),
    })
    .optional()
    .describe("of solid wood: how much it moves across its grain"),
  limits: z
    .strictObject({ least: size, most: size, source: text })
    .optional()
    .describe("thickness that the standard it is sold by allows: a reading outside is noted"),
  price: price.optional().describe("one sheet, in the shop's own money"),
  count: toBeHad.optional().describe("sheets to be had, where they are few"),
  sizes: sizes
    .optional()
    .describe("further sizes that its sheets come in: the cheapest are taken, by area unless each size has its price"),
  offcuts: offcuts
    .optional()
    .describe(
      "pieces of it in the rack, or boards, cut true: used before any is bought; a job's list stands for the shop's",
    ),
});

const saw = z.strictObject({
  kerf: size.describe("width of the cut"),
  bladeRadius: size,
  rip: size.describe("farthest the fence stands from the blade"),
  ripOther: lengthOrZero
    .optional()
    .describe("the same with the fence on the other side of the blade; 0 or left out: it does not go there"),
  narrowest: size.describe("narrowest strip that is ripped between fence and blade"),
  sled: size.describe("longest part that the sled or mitre gauge carries across"),
  sledDepth: size.describe("widest part that it carries, measured along the cut"),
  stop: size.describe("farthest that its stop stands from the cutter"),
  stopped: z
    .enum(["router", "saw"], says('"router" or "saw"', "choose one of the two"))
    .describe(
      "who cuts a groove that stops short of one end: the router, unless the shop is used to doing it at the saw",
    ),
  dado: z
    .strictObject({ least: size, most: size, radius: size })
    .describe("the grooving cutter: the widths it can be set to, and its radius"),
});
const bit = z.strictObject({
  name: text,
  diameter: size.describe("true, by calliper"),
  reach: size.describe("deepest cut below the base"),
});
const bitSays = says("a list of one or more straight bits", 'write [{ "name": ..., "diameter": ..., "reach": ... }]');
const bits = z.array(bit, bitSays).min(1, bitSays).max(50, bitSays);
const router = z.strictObject({
  base: size.describe("width of the base, across the cut"),
  ride: size.optional().describe("bit's middle to the side that rides on the straightedge; left out: half the base"),
  plunge: size.describe("deepest cut in one pass"),
  bits,
});
const machine = z.strictObject({ width: size.describe("widest board it takes") });

const paperSize = z.strictObject({ width: size, height: size });
const pitch = z.strictObject({
  x: size.describe("left edge to left edge"),
  y: size.describe("upper edge to upper edge"),
});
const labelSize = z.strictObject({ width: size, height: size });
const scaleSays = says(
  "a printed scale from 0.9 to 1.1: the check bar as measured, divided by its true length; or what its bars measure",
  'for a 100 mm bar that measures 98.9 mm write 0.989, or { "100 mm": 98.9 }',
);
const bar = size.optional();
const scale = z.union(
  [
    z.number().min(0.9).max(1.1),
    z.strictObject({
      "100 mm": bar.describe("what this bar measures, in mm unless it says so"),
      "4 in": bar.describe("what this bar measures, in inches unless it says so"),
      "250 mm": bar,
      "10 in": bar,
    }),
  ],
  scaleSays,
);
const printer = z.strictObject({
  x: scale.optional().describe("across the paper as it is held"),
  y: scale.optional().describe("down the paper as it is held"),
});
const dpiSays = says("dots an inch from 150 to 1200", "look it up in the label printer's manual: often 203 or 300");
const offset = z.strictObject({
  x: length.optional().describe("to the right; to the left with a minus"),
  y: length.optional().describe("down the page; up with a minus"),
});

const labelFormat = z.strictObject({
  paper: z
    .union([text, paperSize], says("the name of a paper size, or its width and height", 'write it like "A4"'))
    .describe("a paper size by name, or the single label's own"),
  columns: count,
  rows: count,
  label: labelSize,
  left: length.describe("paper's left edge to the first label"),
  top: length.describe("paper's upper edge to the first label"),
  pitch,
  cutLines: yesOrNo.describe("plain paper: lines to cut along are drawn"),
  offset: offset.optional().describe("moves all that is printed, where the printer draws the paper in askew"),
  scale: printer.optional().describe("the printer's own error on this paper, where it differs from that of the sticks"),
  dpi: z
    .number(dpiSays)
    .int(dpiSays)
    .min(150, dpiSays)
    .max(1200, dpiSays)
    .optional()
    .describe("a label printer's dots an inch: the code's modules are whole dots"),
});

export const stockFile = z.strictObject({ $schema, unit, stock: z.record(stockId, stock) });
const clamps = z.strictObject({
  throat: size.describe("how far in from an edge a clamp reaches, bar to jaw's middle"),
});
const lift = mass.describe("what one person handles at the saw: a heavier sheet is cut into two pieces first");

export const toolingFile = z.strictObject({
  $schema,
  unit,
  saw,
  router,
  planer: machine,
  jointer: machine,
  clamps,
  lift: lift.optional(),
});
export const paperFile = z.strictObject({
  $schema,
  unit,
  sizes: z.record(text, paperSize),
  labels: z.record(text, labelFormat),
  printers: z.record(text, printer).optional().describe("printers by name, each as its check bars were measured"),
  print: text.optional().describe("the printer that jobs are printed on, if they do not say"),
});

export const stockOverrides = z
  .record(stockId, stock.partial().extend({ sheet: sheetSize.optional() }))
  .describe("this job's own stock, and what differs from shared/stock.json: the measured thickness, above all");

export const toolingOverrides = z
  .strictObject({
    saw: saw.partial().extend({ dado: saw.shape.dado.partial().optional() }).optional(),
    router: router.partial().optional(),
    lift: lift.optional(),
    planer: machine.optional(),
    jointer: machine.optional(),
    clamps: clamps.optional(),
  })
  .describe("what differs from shared/tooling.json in this job");

const turn = z.enum(["portrait", "landscape"], says('"portrait" or "landscape"', "choose one of the two"));
const paperSays = says("a paper size", 'write it like "A4" or "Letter landscape"');
const somePaper = z.union(
  [
    text,
    z.strictObject({
      name: text,
      turn: turn.optional(),
      width: size.optional().describe("for a paper that the shop's list does not hold"),
      height: size.optional(),
    }),
  ],
  paperSays,
);
const START_MOST = 200;
const startSays = says(`a whole number from 1 to ${START_MOST}`, "count the labels row by row: the first is 1");
const printerWish = z.union(
  [text, printer],
  says("the name of a printer of the shop, or what its check bars measure", 'write { "x": 0.989, "y": 0.996 }'),
);

export const paperOverrides = z
  .strictObject({
    drawings: somePaper.optional().describe('paper of the drawings, such as "A3 landscape"'),
    sticks: somePaper.optional().describe("paper that the full-scale sticks are tiled on"),
    labels: z
      .union(
        [
          text,
          labelFormat.partial().extend({
            format: text.optional().describe("the format to start from"),
            pitch: pitch.optional(),
            start: z
              .number(startSays)
              .int(startSays)
              .min(1, startSays)
              .max(START_MOST, startSays)
              .optional()
              .describe("the first label still there on a part-used page, counted row by row from 1"),
          }),
        ],
        says("the name of a label format, or its measurements", 'write it like "A4 3 x 8"'),
      )
      .optional()
      .describe("label format by name, or what differs from it for the pack in hand"),
    print: printerWish
      .optional()
      .describe("the printer's own error, from the check bars: sticks and labels are corrected by it"),
    roll: printerWish.optional().describe("the same of the roll printer or plotter that whole sticks are printed on"),
  })
  .describe("what the set is printed on");

export type StockEntry = z.infer<typeof stockOverrides>[string];
export type ToolingFile = z.infer<typeof toolingFile>;
export type ToolingOverrides = z.infer<typeof toolingOverrides>;
export type PaperFile = z.infer<typeof paperFile>;
export type PaperOverrides = z.infer<typeof paperOverrides>;
export type PrinterEntry = z.infer<typeof printer>;

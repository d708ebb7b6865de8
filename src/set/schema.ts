/** set.json: everything the paper shows, as numbers. Lengths in mm, masses in kg; versioned; documented by the JSON Schema made from this. */
import { z } from "zod";

const mm = z.number();
const vec = z.tuple([mm, mm, mm]);
const signedAxis = z.enum(["+x", "-x", "+y", "-y", "+z", "-z"]);
const place = z
  .strictObject({ at: vec, l: signedAxis, w: signedAxis, t: signedAxis })
  .describe("Local origin and the direction of the local l, w and t axes, in the frame around");
export const face = z.enum(["l0", "l1", "w0", "w1", "t0", "t1"]);
const axis = z.enum(["l", "w", "t"]);
const mark = z.string();

const paperSize = z.strictObject({ name: z.string(), width: mm, height: mm });

const job = z.strictObject({
  name: z.string().describe("the folder under out/"),
  number: z.string(),
  title: z.string(),
  client: z.string().nullable(),
  drawnBy: z.string().nullable(),
  date: z.string(),
  revision: z.string(),
  unit: z.enum(["in", "mm"]),
  step: mm.describe("rounding step of every printed length"),
  address: z.string().nullable(),
  notes: z.array(z.string()),
  draft: z.boolean(),
  doorway: z.strictObject({ width: mm, height: mm }).nullable().describe("narrowest opening on the way to its place"),
});

const paper = z.strictObject({
  drawings: paperSize,
  sticks: paperSize,
  labels: z.strictObject({
    name: z.string(),
    page: paperSize,
    columns: z.number().int(),
    rows: z.number().int(),
    label: z.strictObject({ width: mm, height: mm }),
    left: mm,
    top: mm,
    pitch: z.strictObject({ x: mm, y: mm }),
    cutLines: z.boolean(),
  }),
  print: z.strictObject({ x: z.number(), y: z.number() }),
});

const stock = z.strictObject({
  id: z.string(),
  name: z.string(),
  nominal: mm,
  thickness: mm.describe("mean of the readings: lengths follow it"),
  thickest: mm.describe("grooves follow it"),
  readings: z.array(mm),
  sheet: z.strictObject({ length: mm, width: mm }),
  trim: mm,
  grain: z.boolean(),
  goodFaces: z.union([z.literal(1), z.literal(2)]),
  density: z.number(),
  stiffness: z
    .strictObject({ along: z.number(), across: z.number(), source: z.string() })
    .describe("modulus of elasticity in bending, N/mm2, along and across the grain of the face"),
  solid: z.boolean().describe("solid wood, which moves across its grain; false: a panel that keeps its size"),
  limits: z
    .strictObject({ least: mm, most: mm, source: z.string() })
    .nullable()
    .describe("thickness that the standard it is sold by allows"),
  price: z.number().nullable(),
});

const fits = z.strictObject({
  allowance: mm.describe("added to the thickest reading of the entering stock: groove width"),
  clearance: mm.describe("at each end of a loose shelf, before rounding"),
  slip: mm.describe("stated gap of a slip joint at each edge, before rounding (rounding may add up to one step)"),
});

const assembly = z.strictObject({
  name: z.string(),
  kind: z.enum(["case", "base"]),
  in: z.string().nullable().describe("the assembly around it; null: the room"),
  place,
  size: vec.describe("x, y, z over all"),
  travel: z.strictObject({ kind: z.literal("none") }),
  borrows: z.array(mark).describe("parts of an assembly beside it that parts of this one enter: a shared side"),
  fits,
  diagonals: z
    .strictObject({ outside: mm, front: mm, width: mm, height: mm })
    .describe(
      "outside: over the outer corners of the sides, and the legs it is made of; front: the same at the front edges, whose lower corners are those of the toe space where there is one; of a base: over its outer corners, lying",
    ),
});

const feature = z.strictObject({
  kind: z
    .enum(["groove", "rabbet", "notch", "shoulder", "hole"])
    .describe("shoulder: the rabbet at a part's own end that leaves the tongue standing"),
  face: face.describe("the face it is cut into; for a notch, the edge it opens to"),
  along: axis,
  at: mm.describe("lower wall, local, across the run"),
  width: mm,
  depth: mm,
  from: mm,
  to: mm,
  ends: z
    .tuple([z.enum(["through", "square", "open"]), z.enum(["through", "square", "open"])])
    .describe("open: short of the part's own end, but into another groove as deep"),
  axis: axis.describe("the prism's axis"),
  outline: z
    .array(z.union([z.tuple([mm, mm]), z.tuple([mm, mm, z.number()])]))
    .describe(
      "closed, in the other two local axes in l, w, t order; a third number is the bulge of the line that follows: the tangent of a quarter of its arc, so that two points with 1 make a circle",
    ),
  box: z.tuple([vec, vec]).describe("the outline's own box where it is no rectangle"),
  holds: mark.nullable(),
  runOuts: z.array(z.tuple([mm, mm])).describe("stretches of the run, local, that nothing enters by design"),
  row: z.string().nullable().describe("holes drilled in one row share its name"),
  lipping: z.boolean().describe("a corner that is left open because the lipping ends there: nothing to cut"),
  reason: z.string().describe("in a maker's words: 'shelf 7 enters', 'clears the stopped groove in 3'"),
});

const lipping = z
  .strictObject({
    edge: face,
    name: z.string(),
    thickness: mm.describe("taken off the size the panel is cut to"),
    from: mm.describe("along the edge, local"),
    to: mm,
    lipped: z.enum(["before", "after"]).describe("before or after the grooves are cut"),
  })
  .describe("a strip or band glued to an edge: part of the finished part, a piece of its own");

const part = z.strictObject({
  mark,
  key: z.string(),
  pattern: z.string(),
  name: z.string(),
  role: z.enum([
    "side",
    "bottom",
    "top",
    "divider",
    "shelf",
    "back",
    "kick",
    "stretcher",
    "filler",
    "looseShelf",
    "plinth",
  ]),
  assembly: z.string(),
  case: z.string(),
  hand: z.enum(["left", "right"]).nullable(),
  material: z.string().describe("stock id"),
  length: mm,
  width: mm,
  thickness: mm,
  grain: z.enum(["length", "none"]),
  mass: z.number(),
  place: place.nullable(),
  inside: face.nullable().describe("the face towards the inside of the case, where the part has one"),
  show: z.array(face).describe("faces that must be good"),
  edges: z.array(face).describe("edges that show"),
  features: z.array(feature),
  lippings: z.array(lipping),
  cut: z.strictObject({ length: mm, width: mm }).describe("what the panel is cut to: the finished size less lippings"),
  /** "between + joints = cut length", where it applies. */
  sums: z.array(
    z.strictObject({
      axis: z.enum(["l", "w"]),
      between: mm,
      joints: z.tuple([mm, mm]).describe("what it goes in at the low and the high end, rounding included"),
      total: mm,
    }),
  ),
  alike: z.array(mark).describe("look-alikes: easily taken for this part"),
  same: z.array(mark).describe("interchangeable with this part"),
});

const piece = z.strictObject({
  id: z.string(),
  mark,
  stock: z.string(),
  length: mm,
  width: mm,
  thickness: mm,
  state: z.enum(["rough", "oversize", "final"]),
  kind: z.enum(["panel", "lipping"]),
});

const joint = z.strictObject({
  entering: mark,
  receiving: mark,
  kind: z
    .enum(["housed", "tongue", "butt", "face", "edge", "pin"])
    .describe(
      "housed: whole thickness in a groove; tongue: part of it; butt: end against face; face: face on face, or a panel laid on edges; edge: edge against edge; pin: a loose shelf between the parts that hold its pins",
    ),
  fit: z.enum(["seated", "slip", "floating"]),
  depth: mm,
  gap: z.tuple([mm, mm]).describe("between the entering end and its seat"),
  rounding: mm.describe("what rounding adds to the gap at the seat"),
  loose: mm.describe("groove width less the entering thickness; 0 where there is no groove"),
  fixings: z.string(),
  fasteners: z
    .strictObject({
      kind: z.enum(["screw", "dowel"]),
      size: z
        .strictObject({ diameter: mm, length: mm })
        .nullable()
        .describe("of a dowel; a screw is chosen by the shop"),
      along: axis,
      at: mm.describe("across, from the receiving part's local origin"),
      positions: z.array(mm).describe("along, from the receiving part's local origin"),
    })
    .nullable()
    .describe("where they go through the receiving part's face, in its own coordinates"),
  receivingFace: face,
  enteringEnd: face,
});

const run = z.strictObject({
  mark,
  feature: z.number().int().describe("index in the part's features"),
  face,
  datum: face,
  from: mm.describe("along the run, local"),
  to: mm,
});

const setting = z.strictObject({
  n: z.number().int(),
  tool: z.enum(["table saw", "router"]),
  carrier: z.enum(["fence", "sled", "straightedge"]).describe("what guides the part or the tool"),
  operation: z.enum(["groove", "rabbet", "shoulder"]),
  cutter: z.string(),
  width: mm,
  depth: mm,
  fence: mm.describe("from the datum to the wall nearer to it"),
  straightedge: z
    .strictObject({ base: mm, bit: mm, near: mm, far: mm.nullable(), spacer: mm })
    .nullable()
    .describe(
      "router only: full width of the base and the bit reckoned with, and the distances from the datum to the edge the router rides on, for the near and far wall passes",
    ),
  stopped: z.boolean(),
  holds: z.array(mark),
  test: z.string(),
  caution: z.string(),
  runs: z.array(run),
});

const drilling = z
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

const handWork = z.strictObject({ mark, features: z.array(z.number().int()), text: z.string() });

const sheet = z.strictObject({
  n: z.number().int(),
  stock: z.string(),
  length: mm,
  width: mm,
  trim: mm,
  kerf: mm,
  parts: z.array(z.strictObject({ id: z.string(), mark, x: mm, y: mm, length: mm, width: mm, turned: z.boolean() })),
  cuts: z.array(
    z.strictObject({
      n: z.number().int(),
      piece: z.string(),
      makes: z.array(z.string()),
      across: z.enum(["x", "y"]).describe("the coordinate that `at` measures"),
      at: mm,
      from: mm,
      to: mm,
      fence: mm.describe("from the reference edge to the blade"),
      reference: z.enum(["x0", "x1", "y0", "y1"]).describe("edge of the piece that goes against the fence"),
    }),
  ),
  offcuts: z.array(z.strictObject({ id: z.string(), x: mm, y: mm, length: mm, width: mm })),
  bound: z.number().int().describe("fewest sheets of this stock that any layout could need"),
  boundText: z.string(),
});

const stick = z.strictObject({
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
      kind: z.enum(["groove", "end", "line"]),
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
});

const label = z.strictObject({ mark, text: z.string(), page: z.number().int(), x: mm, y: mm });

const check = z.strictObject({
  id: z.string(),
  level: z.enum(["ok", "note", "warning", "failure"]),
  parts: z.array(mark),
  text: z.string().describe("what, where, how much"),
  rule: z.string().nullable().describe("the rule it was held against, and its source"),
  change: z.string().nullable().describe("what to change"),
});

const body = z.strictObject({
  parts: z.array(mark),
  travel: vec.describe("the way it travels in its assembly, each figure -1, 0 or 1; several bodies move together"),
});

const move = z.strictObject({
  n: z.number().int().describe("in the order of its assembly, from 1"),
  bring: z.array(body).describe("what is brought: one body, or several at the same time"),
  to: z.array(mark).describe("parts standing ready that it joins"),
  slides: z.boolean().describe("it slides along a groove that holds it, rather than straight into it"),
  held: z.number().int().describe("bodies not yet joined that are held at once in this move"),
  group: z.number().int().describe("the glue-up it belongs to"),
});

const order = z
  .strictObject({
    assembly: z.string(),
    finished: z.array(z.array(mark)).describe("parts declared one finished glue-up before the rest is put together"),
    moves: z.array(move),
    holds: z.number().int().describe("most bodies held at once in any move"),
    proved: z.boolean().describe("no order holds fewer"),
    glueUps: z.array(
      z.strictObject({
        n: z.number().int(),
        parts: z.array(mark),
        joints: z.number().int(),
        minutes: z.number().nullable(),
      }),
    ),
    locked: z
      .strictObject({ parts: z.array(mark), text: z.string(), change: z.string() })
      .nullable()
      .describe("parts that cannot be brought together, and what locks them"),
  })
  .describe("how an assembly goes together, found by taking it apart");

const sensitivity = z
  .strictObject({
    stock: z.string(),
    thicknesses: z.array(mm).describe("likely measured thicknesses, the thinnest first"),
    impossible: z.array(mm).describe("of these, those with which the piece could not be made as it is designed"),
    rows: z.array(
      z.strictObject({
        marks: z.array(mark),
        what: z.string().describe("length, width, or which wall of which groove"),
        values: z
          .array(mm.nullable())
          .describe("one for each thickness, as it would be printed; null where the piece could not be made"),
      }),
    ),
  })
  .describe("the figures that change when a stock measures otherwise");

const purchase = z.strictObject({
  what: z.string(),
  size: z.string(),
  quantity: z.number(),
  unit: z.string(),
  price: z.number().nullable(),
  note: z.string(),
});

const opening = z.strictObject({
  name: z.string(),
  case: z.string(),
  at: vec.describe("front-left-bottom clear corner, in the case"),
  width: mm,
  height: mm,
  depth: mm,
  diagonal: mm,
});

const step = z.strictObject({
  n: z.number().int(),
  title: z.string(),
  parts: z.array(mark),
  settings: z.array(z.number().int()),
  text: z.array(z.string()),
  cautions: z.array(z.string()),
  boxes: z.array(z.strictObject({ label: z.string(), target: mm.nullable() })).describe("write-in boxes"),
  moves: z
    .array(z.strictObject({ assembly: z.string(), n: z.number().int() }))
    .describe("moves of an order that belong to this step: pictured one by one"),
});

export const setSchema = z.strictObject({
  version: z.literal(1),
  job,
  paper,
  stock: z.array(stock),
  assemblies: z.array(assembly),
  openings: z.array(opening),
  parts: z.array(part),
  pieces: z.array(piece),
  joints: z.array(joint),
  settings: z.array(setting),
  drilling: z.array(drilling),
  handWork: z.array(handWork),
  sheets: z.array(sheet),
  sticks: z.array(stick),
  labels: z.array(label),
  orders: z.array(order),
  checks: z.array(check),
  rounding: z
    .strictObject({ largest: mm, mark: mark.nullable(), what: z.string() })
    .describe("the largest rounding of any length, wall or depth"),
  sensitivity: z.array(sensitivity),
  purchase: z.array(purchase),
  steps: z.array(step),
  mass: z.number(),
  lastMark: z.number().int().describe("highest mark ever given in this job: later parts take numbers above it"),
});

export type DryfitSet = z.infer<typeof setSchema>;
export type SetPart = DryfitSet["parts"][number];
export type SetFeature = SetPart["features"][number];
export type SetJoint = DryfitSet["joints"][number];
export type SetSetting = DryfitSet["settings"][number];
export type SetSheet = DryfitSet["sheets"][number];
export type SetStick = DryfitSet["sticks"][number];
export type SetLabel = DryfitSet["labels"][number];
export type SetCheck = DryfitSet["checks"][number];
export type SetStep = DryfitSet["steps"][number];
export type SetStock = DryfitSet["stock"][number];
export type SetAssembly = DryfitSet["assemblies"][number];
export type SetDrilling = DryfitSet["drilling"][number];
export type SetOrder = DryfitSet["orders"][number];
export type SetMove = SetOrder["moves"][number];
export type SetSensitivity = DryfitSet["sensitivity"][number];
export type SetLipping = SetPart["lippings"][number];
export type SetOpening = DryfitSet["openings"][number];
export type SetPurchase = DryfitSet["purchase"][number];
export type Face = z.infer<typeof face>;

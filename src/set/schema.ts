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
  price: z.number().nullable(),
});

const fits = z.strictObject({
  allowance: mm.describe("added to the thickest reading of the entering stock: groove width"),
  slip: mm.describe("stated gap of a slip joint at each edge, before rounding (rounding may add up to one step)"),
});

const assembly = z.strictObject({
  name: z.string(),
  kind: z.enum(["case"]),
  in: z.string().nullable().describe("the assembly around it; null: the room"),
  place,
  size: vec.describe("x, y, z over all"),
  travel: z.strictObject({ kind: z.literal("none") }),
  fits,
  diagonals: z
    .strictObject({ outside: mm, front: mm, width: mm, height: mm })
    .describe(
      "outside: over the outer corners of the sides, and the legs it is made of; front: the same at the front edges, whose lower corners are those of the toe space where there is one",
    ),
});

const feature = z.strictObject({
  kind: z.enum(["groove", "rabbet", "notch"]),
  face: face.describe("the face it is cut into; for a notch, the edge it opens to"),
  along: axis,
  at: mm.describe("lower wall, local, across the run"),
  width: mm,
  depth: mm,
  from: mm,
  to: mm,
  ends: z.tuple([z.enum(["through", "square"]), z.enum(["through", "square"])]),
  axis: axis.describe("the prism's axis"),
  outline: z.array(z.tuple([mm, mm])).describe("closed, in the other two local axes in l, w, t order"),
  box: z.tuple([vec, vec]),
  holds: mark.nullable(),
  runOuts: z.array(z.tuple([mm, mm])).describe("stretches of the run, local, that nothing enters by design"),
  reason: z.string().describe("in a maker's words: 'shelf 7 enters', 'clears the stopped groove in 3'"),
});

const part = z.strictObject({
  mark,
  key: z.string(),
  pattern: z.string(),
  name: z.string(),
  role: z.enum(["side", "bottom", "top", "divider", "shelf", "back", "kick"]),
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
});

const joint = z.strictObject({
  entering: mark,
  receiving: mark,
  kind: z.enum(["housed", "butt", "face"]),
  fit: z.enum(["seated", "slip"]),
  depth: mm,
  gap: z.tuple([mm, mm]).describe("between the entering end and its seat"),
  loose: mm.describe("groove width less the entering thickness; 0 where there is no groove"),
  fixings: z.string(),
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
  operation: z.enum(["groove", "rabbet"]),
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
  text: z.string(),
});

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
  handWork: z.array(handWork),
  sheets: z.array(sheet),
  sticks: z.array(stick),
  labels: z.array(label),
  checks: z.array(check),
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
export type SetOpening = DryfitSet["openings"][number];
export type SetPurchase = DryfitSet["purchase"][number];
export type Face = z.infer<typeof face>;

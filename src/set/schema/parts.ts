/** Parts with their features, the pieces they are cut from, the assemblies they stand in and the bays left between them. */
import { z } from "zod";
import { axis, face, mark, mm, place, signedAxis, vec } from "./values.ts";

const fits = z.strictObject({
  allowance: mm.describe("added to the thickest reading of the entering stock: groove width"),
  clearance: mm.describe("at each end of a loose shelf, before rounding"),
  slip: mm.describe("stated gap of a slip joint at each edge, before rounding (rounding may add up to one step)"),
  slipAcross: mm.describe("the same at the edges of a door's panel: across its grain, where solid wood moves"),
});

const travel = z
  .discriminatedUnion("kind", [
    z.strictObject({ kind: z.literal("none") }),
    z.strictObject({
      kind: z.literal("swing"),
      pivot: vec.describe("a point of the upright axis that it turns about"),
      range: z.tuple([z.number(), z.number()]).describe("degrees, anticlockwise seen from above"),
    }),
    z.strictObject({ kind: z.enum(["slide", "pull"]), axis: signedAxis, range: z.tuple([mm, mm]) }),
  ])
  .describe("how it moves in use, in its own coordinates, from where it stands closed");

export const assembly = z.strictObject({
  name: z.string(),
  kind: z
    .enum(["case", "base", "frame", "door", "drawer", "packing", "return", "worktop"])
    .describe(
      "return: what takes a face frame round an end of its case, glued on piece by piece; packing: strips fixed in a case beside the openings of its drawers, to carry these",
    ),
  in: z.string().nullable().describe("the assembly around it; null: the room"),
  place,
  size: vec.describe("x, y, z over all"),
  travel,
  feet: z
    .strictObject({
      height: mm,
      diameter: mm,
      middles: z.array(z.tuple([mm, mm])).describe("x and y in the assembly's own axes"),
      hole: z.strictObject({ diameter: mm, depth: mm }).describe("for its stem, in what stands on it"),
      range: z.strictObject({ down: mm, up: mm }).nullable().describe("how much lower and higher each can be set"),
      rating: z.number().nullable().describe("kg that one carries"),
    })
    .nullable()
    .describe("of a base that is nothing but bought feet"),
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
    .enum([
      "groove",
      "rabbet",
      "notch",
      "shoulder",
      "lap",
      "socket",
      "stub mortise",
      "hole",
      "mortise",
      "slot",
      "shape",
      "edge",
      "mitre",
    ])
    .describe(
      "mitre: an edge sawn off at 45 degrees, the corner between it and a broad face; edge: moulded along an edge by a bit with a bearing, its profile the outline; shape: cut out of an edge along its outline; lap: half the thickness of two members, where they lie over each other; socket: between the tails or the pins of a dovetailed corner, its outline a trapezoid; stub mortise: in an edge, for the tenon of another part; mortise: with round ends, into an end or edge, for half a loose tenon; shoulder: the rabbet at a part's own end that leaves the tongue standing; slot: right through, for a screw to travel in, or for one without play a round hole",
    ),
  face: face.describe("the face it is cut into; for a notch, the edge it opens to"),
  along: axis,
  at: mm.describe("lower wall, local, across the run"),
  width: mm,
  depth: mm,
  from: mm,
  to: mm,
  ends: z
    .tuple([z.enum(["through", "square", "open", "round"]), z.enum(["through", "square", "open", "round"])])
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

const line = z
  .strictObject({
    face: face.describe("a broad face; of a track's bolts an edge or an end too"),
    along: axis,
    at: mm.describe("across, from the local origin"),
    from: mm.describe("along, from the local origin"),
    to: mm,
    points: z.array(mm).describe("along: where screws go, or bolts"),
    bolt: z
      .strictObject({
        diameter: mm,
        into: mm.describe("how deep it goes in from the face, on through the part where that is thinner"),
      })
      .nullable()
      .describe("null: screws of a slide"),
    holds: z.array(mark).describe("what is fixed there carries these; none of a track"),
    what: z.string().describe("in a maker's words: 'middle of the slide of chest drawer 2'"),
  })
  .describe("drawn on a face, not cut: where something is fixed");

export const part = z.strictObject({
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
    "stile",
    "rail",
    "return",
    "returnStrip",
    "drawerFront",
    "drawerSide",
    "drawerBack",
    "drawerBottom",
    "drawerFace",
    "packing",
    "runner",
    "doorStile",
    "doorRail",
    "doorPanel",
    "slab",
    "worktop",
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
  lines: z.array(line),
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

export const piece = z.strictObject({
  id: z.string(),
  mark,
  stock: z.string(),
  length: mm,
  width: mm,
  thickness: mm,
  state: z.enum(["rough", "oversize", "final"]),
  kind: z
    .enum(["panel", "lipping", "board"])
    .describe("board: cut from solid stock in the rough, to be jointed, planed, ripped and crosscut"),
  grain: z
    .enum(["along", "wish", "any"])
    .describe("its length along that of its sheet or board; wished along, unless that takes more stock; either way"),
});

/** By what hardware does, whatever it is called on paper. */
export const HARDWARE_KINDS = [
  "feet",
  "hinge",
  "knob",
  "slides",
  "slide screws",
  "worktop screws",
  "track",
  "track bolts",
  "track stops",
  "door guides",
  "hangers",
] as const;

export const hardware = z
  .strictObject({
    kind: z.enum(HARDWARE_KINDS),
    what: z.string(),
    sizes: z.array(mm).describe("what tells it from others of its kind, largest first"),
    count: z.number().int(),
    unit: z.string().describe("what is counted: hinges, pairs of slides"),
    assembly: z.string(),
    parts: z.array(mark).describe("that it is fixed to"),
    where: z.string().describe("in a maker's words, up to what it is of: 'on the left edge of'"),
    of: z.string().nullable().describe("the assembly that it is for or on; null: where says it all"),
  })
  .describe("bought and fixed on; to be measured before a hole is drilled for it");

export const asBuilt = z
  .strictObject({
    assembly: z.string(),
    opening: z.string().nullable().describe("null: the assembly over all"),
    way: z.enum(["width", "height"]),
    printed: mm,
    measured: mm,
  })
  .describe("measured on the piece itself: parts already cut keep their sizes, what follows goes by it");

export const opening = z.strictObject({
  name: z.string(),
  case: z.string(),
  at: vec.describe("front-left-bottom clear corner, in the case"),
  width: mm,
  height: mm,
  depth: mm,
  diagonal: mm,
});

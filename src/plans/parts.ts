/** Parts and joints of the printed model as set.json lists them, in each part's own coordinates. */
import { type AxisIndex, axisOf, type SignedAxis, signOf, toInner } from "../base/geometry.ts";
import { type Mm, SAME } from "../base/length.ts";
import { opposite, planeOf } from "../model/contacts.ts";
import type { AssemblyModel, Feature, Joint, Model, Part, Travel } from "../model/model.ts";
import { MILLING } from "../project/defaults.ts";
import type {
  DryfitSet,
  SetAssembly,
  SetDoor,
  SetFeature,
  SetJoint,
  SetLipping,
  SetOpening,
  SetPart,
  SetStock,
  SetWorktop,
} from "../set/schema.ts";
import { handOf, isMirrored, looksAlike, patternText } from "./hand.ts";
import { linesOn } from "./lines.ts";
import { faceTowards, LOCAL, localFeature, localIndex, placeOf, sizeOf } from "./local.ts";
import { massOf } from "./mass.ts";

export type Marks = ReadonlyMap<string, string>;

export const markIn = (marks: Marks, key: string): string => {
  const mark = marks.get(key);
  if (mark === undefined) throw new Error(`${key} has no mark`);
  return mark;
};

export function planParts(model: Model, marks: Marks, stock: readonly SetStock[], step: Mm): SetPart[] {
  // What enters a shared side may belong to the case beside.
  const names = new Map(
    model.assemblies.flatMap(({ parts }) => parts.map(({ key, name }) => [key, `${name} ${markIn(marks, key)}`])),
  );
  const bare = model.assemblies.flatMap((one) =>
    one.parts.map((part) => ({
      ...barePart(part, one, names, marks, stock),
      lines: linesOn(part, one, model.assemblies, marks),
    })),
  );
  const patterns = bare.map(patternText);
  return bare.map((part, i): SetPart => {
    const first = patterns.indexOf(patterns[i]!);
    // Where the job has its mirror image too, of the other hand, the two are a pair however little tells them apart.
    const strict = handOf(part, part.key, SAME);
    const isOfPair = bare.some(
      (other, j) =>
        patterns[j] !== patterns[i] && isMirrored(part, other, SAME) && handOf(other, other.key, SAME) !== strict,
    );
    return {
      ...part,
      pattern: `P${bare[first]!.mark}`,
      hand: isOfPair ? strict : handOf(part, part.key, handTolerance(part, model, stock, step)),
      same: bare.filter((_, j) => j !== i && patterns[j] === patterns[i]).map(({ mark }) => mark),
      alike: bare.filter((other, j) => j !== i && looksAlike(part, other)).map(({ mark }) => mark),
    };
  });
}

/** A wall and both ends of its part may each lie a step off the middle, and the allowance and the spread of readings all lie to one side. */
function handTolerance(part: SetPart, model: Model, stock: readonly SetStock[], step: Mm): Mm {
  const { allowance } = model.assemblies.find(({ name }) => name === part.assembly)!.design.joinery;
  return 3 * step + allowance + Math.max(...stock.map(({ thickness, thickest }) => thickest - thickness));
}

function barePart(
  part: Part,
  one: AssemblyModel,
  names: ReadonlyMap<string, string>,
  marks: Marks,
  stock: readonly SetStock[],
): SetPart {
  const found = stock.find(({ id }) => id === part.stock);
  if (!found) throw new Error(`${part.key} is made of ${part.stock}, which the job does not list`);
  const place = placeOf(part);
  const [length, width, thickness] = sizeOf(part);
  const features = part.features.map((feature) =>
    localFeature(part, feature, (key) => markIn(marks, key), reasonOf(feature, names)),
  );
  const shown: SetPart = {
    mark: markIn(marks, part.key),
    key: part.key,
    pattern: "",
    name: part.name,
    role: part.role,
    assembly: one.name,
    case: one.name,
    hand: null,
    material: part.stock,
    length,
    width,
    thickness,
    grain: found.grain ? "length" : "none",
    mass: 0,
    place: { at: [...place.at], l: place.l, w: place.w, t: place.t },
    inside: part.inside === null ? null : faceTowards(place, part.inside),
    show: part.show.map((direction) => faceTowards(place, direction)),
    edges: part.edges.map((direction) => faceTowards(place, direction)),
    features,
    lippings: part.lippings.map((lipping) => localLipping(part, lipping, features, length, width)),
    lines: [],
    cut: cutSize(part, length, width),
    sums: (["l", "w"] as const).flatMap((axis) => sumOf(part, one, axis)),
    alike: [],
    same: [],
  };
  return { ...shown, mass: massOf(shown, found) };
}

function reasonOf(feature: Feature, names: ReadonlyMap<string, string>): string {
  const other = feature.holds === null ? null : names.get(feature.holds);
  if (other === undefined) throw new Error(`${feature.holds} is no part of the job`);
  switch (feature.kind) {
    case "groove":
    case "rabbet":
      return `${other} enters`;
    case "notch":
      return other === null ? feature.reason : `${feature.reason} in ${other}`;
    case "shape":
      return feature.reason;
    case "shoulder":
      return `${feature.reason} that enters ${other}`;
    case "slot":
      return `${feature.reason} ${other}`;
    case "hole":
      return other === null ? feature.reason : `${feature.reason} to ${other}`;
  }
}

/** "Between + joints = cut length": what is clear between the two faces a part enters, and how far it goes in at each end. */
function sumOf(part: Part, one: AssemblyModel, axis: "l" | "w"): SetPart["sums"] {
  const forward = part.frame[axis];
  const byKey = partsAround(one);
  const ends = [opposite(forward), forward].map((direction) => {
    const joint = one.joints.find(
      ({ entering, depth, direction: d }) => entering === part.key && depth > 0 && d === direction,
    );
    if (!joint) return null;
    const face = planeOf(byKey.get(joint.receiving)!.box, opposite(direction));
    return { face, goesIn: signOf(direction) * (planeOf(part.box, direction) - face) };
  });
  const [low, high] = ends;
  if (!low || !high) return [];
  const between = Math.abs(high.face - low.face);
  const size = part.box[1][axisOf(forward)] - part.box[0][axisOf(forward)];
  return [{ axis, between, joints: [low.goesIn, high.goesIn], total: size }];
}

const FIXINGS: Record<Joint["kind"], string> = {
  housed: "glue",
  tongue: "glue",
  butt: "glue",
  face: "glue and screws",
  edge: "none: edge against edge",
  pin: "none: it lies on its pins",
};

const BEHIND: Record<AssemblyModel["design"]["back"]["fit"], string> = {
  captured: "no glue: the back stays loose",
  rabbeted: "no glue: it only touches the back",
  applied: "screws",
  none: "none",
};

/** A back in grooves stays loose, and what only touches it is not fixed to it; one in rabbets is pinned. */
function fixingsOf(joint: Joint, receiving: Part, one: AssemblyModel, groove: SetFeature | undefined): string {
  // A drawer's front is moved until its gaps are even, and screwed.
  if (receiving.role === "drawerFace") return "no glue: it only touches the front";
  if (joint.kind === "face" && receiving.role === "drawerFront") return "no glue: screws in holes a little too large";
  if (joint.fit === "slip") return groove?.kind === "rabbet" ? "panel pins" : "loose in its groove";
  if (joint.kind !== "butt") return FIXINGS[joint.kind];
  if (receiving.role === "back") return BEHIND[one.design.back.fit];
  return joint.fixing === "glue" ? FIXINGS.butt : `glue and ${joint.fixing}`;
}

/** A case's own parts, and those of the case beside it that it enters. */
const partsAround = (one: AssemblyModel): Map<string, Part> =>
  new Map([...one.parts, ...one.borrowed].map((part) => [part.key, part]));

export function planJointList(model: Model, marks: Marks, parts: readonly SetPart[]): SetJoint[] {
  const byMark = new Map(parts.map((part) => [part.mark, part]));
  return model.assemblies.flatMap((one) => {
    const byKey = partsAround(one);
    return one.joints.map((joint): SetJoint => {
      const entering = byKey.get(joint.entering)!;
      const receiving = byKey.get(joint.receiving)!;
      const { gap } = joint;
      const mark = markIn(marks, joint.entering);
      const groove = byMark
        .get(markIn(marks, joint.receiving))!
        .features.find(({ kind, holds }) => (kind === "groove" || kind === "rabbet") && holds === mark);
      return {
        entering: mark,
        receiving: markIn(marks, joint.receiving),
        kind: joint.kind,
        fit: joint.fit,
        depth: joint.depth,
        gap: [gap, gap],
        rounding: gap - joint.slip,
        loose: joint.depth > 0 ? (groove?.width ?? joint.width) - tongueOf(joint, byMark.get(mark)!) : 0,
        fixings: fixingsOf(joint, receiving, one, groove),
        fasteners: localFasteners(joint, receiving),
        receivingFace: faceTowards(placeOf(receiving), opposite(joint.direction)),
        enteringEnd: faceTowards(placeOf(entering), joint.direction),
      };
    });
  });
}

/** What of a part's thickness enters. */
const tongueOf = ({ shoulders }: Joint, { thickness }: SetPart): Mm =>
  thickness - shoulders.reduce((sum, { depth }) => sum + depth, 0);

/** Where screws or dowels go, on the receiving part. */
function localFasteners({ fasteners, dowel }: Joint, receiving: Part): SetJoint["fasteners"] {
  if (fasteners === null) return null;
  const place = placeOf(receiving);
  const local = (axis: AxisIndex, at: Mm): Mm => {
    const point: [Mm, Mm, Mm] = [...place.at];
    point[axis] = at;
    return toInner(place, point)[localIndex(place, axis)];
  };
  return {
    kind: fasteners.kind,
    size: dowel === null ? null : { diameter: dowel.diameter, length: dowel.length },
    along: LOCAL[localIndex(place, fasteners.along)]!,
    at: local(fasteners.across, fasteners.at),
    positions: fasteners.positions.map((at) => local(fasteners.along, at)).sort((a, b) => a - b),
  };
}

/** From shoulder to shoulder on a part whose corners enter others; from the toe notch up on a side that has one. */
function localLipping(
  part: Part,
  { edge, name, thickness, lipped }: Part["lippings"][number],
  features: readonly SetFeature[],
  length: Mm,
  width: Mm,
): SetLipping {
  const face = faceTowards(placeOf(part), edge);
  const isWidth = face[0] === "w";
  const run = isWidth ? 0 : 1;
  const whole = isWidth ? length : width;
  const taken = features.filter(({ kind, lipping, box }) => {
    const reaches = face[1] === "0" ? box[0][1 - run]! < SAME : box[1][1 - run]! > (isWidth ? width : length) - SAME;
    return kind === "notch" && reaches && (lipping || box[1][1 - run]! - box[0][1 - run]! > thickness - SAME);
  });
  // Along the ends, between the strips on the edges that run past them.
  const past = (side: SignedAxis): Mm =>
    isWidth ? 0 : (part.lippings.find((other) => other.edge === side)?.thickness ?? 0);
  const [low, high] = [past(opposite(part.frame.w)), past(part.frame.w)];
  const from = Math.max(low, ...taken.filter(({ box }) => box[0][run] < SAME).map(({ box }) => box[1][run]));
  const to = Math.min(
    whole - high,
    ...taken.filter(({ box }) => box[1][run] > whole - SAME).map(({ box }) => box[0][run]),
  );
  return { edge: face, name, thickness, from, to, lipped };
}

/** What the panel itself is cut to. */
function cutSize(part: Part, length: Mm, width: Mm): SetPart["cut"] {
  const off = (axis: "l" | "w"): Mm =>
    part.lippings
      .filter(({ edge }) => axisOf(edge) === axisOf(part.frame[axis]))
      .reduce((sum, { thickness }) => sum + thickness, 0);
  return { length: length - off("l"), width: width - off("w") };
}

export function planOpenings(model: Model): SetOpening[] {
  return model.assemblies.flatMap((one) => {
    const byKey = partsAround(one);
    const box = (key: string): Part["box"] => byKey.get(key)!.box;
    return one.openings.map(({ name, left, right, below, above }): SetOpening => {
      const x = box(left)[1][0];
      const z = box(below)[1][2];
      const width = box(right)[0][0] - x;
      const height = box(above)[0][2] - z;
      const rear = one.parts.find(({ role }) => role === "back");
      const depth = rear ? rear.box[0][1] : one.size[1];
      return { name, case: one.name, at: [x, 0, z], width, height, depth, diagonal: Math.hypot(width, height) };
    });
  });
}

/** The set's own arrays: what a model holds is not to be changed. */
const travelOf = (travel: Travel): SetAssembly["travel"] =>
  travel.kind === "none"
    ? travel
    : travel.kind === "swing"
      ? { ...travel, pivot: [...travel.pivot], range: [...travel.range] }
      : { ...travel, range: [...travel.range] };

/** Cases and their bases as assemblies standing in the room. */
export function planAssemblies(model: Model, marks: Marks): DryfitSet["assemblies"] {
  return model.assemblies.map((one) => ({
    name: one.name,
    kind: one.kind,
    in: null,
    place: { at: [...one.at], l: "+x", w: "+y", t: "+z" },
    size: [...one.size],
    travel: travelOf(one.travel),
    borrows: one.borrowed.map(({ key }) => markIn(marks, key)),
    fits: {
      allowance: one.design.joinery.allowance,
      ...slipsOf(one),
      clearance: one.pinRows.length > 0 ? one.design.pins.clearance : 0,
    },
    diagonals: diagonalsOf(one),
  }));
}

/** Of a back in the case; of the panel in a door. */
function slipsOf({ parts, design }: AssemblyModel): { slip: Mm; slipAcross: Mm } {
  const slips = parts.find((part) => part.slips !== null)?.slips;
  const { slip } = design.joinery;
  return slips ? { slip: slips.l, slipAcross: slips.w } : { slip, slipAcross: slip };
}

const lengthOf = ([from, to]: readonly [number, number]): number => to - from;

/** Over the outer corners, from the front; of a base, a worktop or a drawer's box, lying, from above; of a frame, over its own. */
function diagonalsOf({ kind, size, parts, drawer }: AssemblyModel): DryfitSet["assemblies"][number]["diagonals"] {
  if (kind === "base" || kind === "worktop" || drawer !== null) {
    const [width, depth] = drawer === null ? size : [lengthOf(drawer.box.x), lengthOf(drawer.box.y)];
    const diagonal = Math.hypot(width, depth);
    return { outside: diagonal, front: diagonal, width, height: depth };
  }
  if (kind === "frame" || kind === "packing" || kind === "door") {
    const diagonal = Math.hypot(size[0], size[2]);
    return { outside: diagonal, front: diagonal, width: size[0], height: size[2] };
  }
  const shell = parts.filter(({ role }) => role === "side" || role === "bottom" || role === "top");
  const height = Math.max(...shell.map(({ box }) => box[1][2])) - Math.min(...shell.map(({ box }) => box[0][2]));
  // A toe space takes the lower front corners; the next ones up are where it ends.
  const toe = Math.max(0, ...shell.flatMap(({ notches }) => notches.map(({ depth }) => depth)));
  return {
    outside: Math.hypot(size[0], height),
    front: Math.hypot(size[0], height - toe),
    width: size[0],
    height,
  };
}

/** "12a": a part's pieces by letter. */
export const pieceId = (mark: string, i: number): string => `${mark}${String.fromCharCode(97 + i)}`;

/** A panel is cut to its final size; a board with so much to plane, to joint and to trim, as far as the stock gives it. */
function inTheRough(
  stock: SetStock,
  { mark, cut, thickness }: Pick<SetPart, "mark" | "cut" | "thickness">,
): DryfitSet["pieces"] {
  if (stock.boards === null)
    return [{ id: mark, mark, stock: stock.id, ...cut, thickness, state: "final", kind: "panel" }];
  const { rough, length, width, dressed } = stock.boards;
  const upTo = (finished: Mm, allowance: Mm, most: Mm): Mm => Math.max(finished, Math.min(finished + allowance, most));
  if (dressed) {
    const long = upTo(cut.length, MILLING.length, length);
    return [
      { id: mark, mark, stock: stock.id, length: long, width: cut.width, thickness, state: "oversize", kind: "board" },
    ];
  }
  const piece = (id: string, across: Mm): DryfitSet["pieces"][number] => ({
    id,
    mark,
    stock: stock.id,
    length: upTo(cut.length, MILLING.length, length),
    width: upTo(across, MILLING.width, width),
    thickness: rough,
    state: "rough",
    kind: "board",
  });
  if (cut.width <= width + SAME) return [piece(mark, cut.width)];
  // Wider than any board: glued up.
  const n = Math.ceil(cut.width / Math.max(width - MILLING.width, SAME) - SAME);
  return Array.from({ length: n }, (_, i) => piece(pieceId(mark, i), cut.width / n));
}

/** Longer by a horn at each end, which comes off when its door is glued up. */
const horned = (piece: DryfitSet["pieces"][number], horn: Mm): DryfitSet["pieces"][number] =>
  horn < SAME
    ? piece
    : { ...piece, length: piece.length + 2 * horn, state: piece.state === "final" ? "oversize" : piece.state };
/** What each board of a glued-up worktop is milled from. */
function boardsOf({ glued, mark }: SetWorktop, { id, boards }: SetStock): DryfitSet["pieces"] {
  return glued!.boards.map(({ piece, width }) => ({
    id: piece,
    mark,
    stock: id,
    length: glued!.length + MILLING.length,
    width: width + MILLING.width,
    thickness: boards!.rough,
    state: "rough",
    kind: "board",
  }));
}

function bodyOf(
  part: SetPart,
  stock: SetStock,
  doors: readonly SetDoor[],
  worktops: readonly SetWorktop[],
): DryfitSet["pieces"] {
  const worktop = worktops.find(({ mark }) => mark === part.mark);
  if (worktop !== undefined && worktop.glued !== null) return boardsOf(worktop, stock);
  const door = part.role === "doorStile" ? doors.find(({ assembly }) => assembly === part.assembly) : undefined;
  return inTheRough(stock, part).map((piece) => horned(piece, door?.horns ?? 0));
}

/** The panel of each part, or what it is milled from, and each of its lippings. */
export const planPieces = (
  parts: readonly SetPart[],
  stock: readonly SetStock[],
  doors: readonly SetDoor[],
  worktops: readonly SetWorktop[],
): DryfitSet["pieces"] =>
  parts.flatMap((part): DryfitSet["pieces"] => {
    const { mark, material, thickness, lippings } = part;
    return [
      ...bodyOf(part, stock.find(({ id }) => id === material)!, doors, worktops),
      ...lippings.map((lipping, i): DryfitSet["pieces"][number] => ({
        id: pieceId(mark, i),
        mark,
        stock: lipping.name,
        length: lipping.to - lipping.from,
        width: thickness,
        thickness: lipping.thickness,
        state: "final",
        kind: "lipping",
      })),
    ];
  });

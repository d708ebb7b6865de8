/** Parts and joints of the printed model as set.json lists them, in each part's own coordinates. */
import { axisOf, type SignedAxis, signOf } from "../base/geometry.ts";
import { type Mm, SAME } from "../base/length.ts";
import { opposite, planeOf } from "../model/contacts.ts";
import type { AssemblyModel, Feature, Model, Part } from "../model/model.ts";
import { handOf, handTolerance, isMirrored, looksAlike, patternText } from "../set/hand.ts";
import type { SetFeature, SetLipping, SetPart, SetStock } from "../set/schema.ts";
import { linesOn } from "./lines.ts";
import { faceTowards, localFeature, placeOf, sizeOf } from "./local.ts";
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
      hand: isOfPair ? strict : handOf(part, part.key, toleranceOf(part, model, stock, step)),
      same: bare.filter((_, j) => j !== i && patterns[j] === patterns[i]).map(({ mark }) => mark),
      alike: bare.filter((other, j) => j !== i && looksAlike(part, other)).map(({ mark }) => mark),
    };
  });
}

const toleranceOf = (part: SetPart, model: Model, stock: readonly SetStock[], step: Mm): Mm =>
  handTolerance(step, model.assemblies.find(({ name }) => name === part.assembly)!.design.joinery.allowance, stock);

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
    case "stub mortise":
      return `${other} enters`;
    case "socket":
      return `${feature.reason} of ${other} enters`;
    case "lap":
      return `${feature.reason} for ${other}`;
    case "notch":
      return other === null ? feature.reason : `${feature.reason} in ${other}`;
    case "shape":
    case "edge":
    case "mitre":
      return feature.reason;
    case "shoulder":
      return `${feature.reason} that enters ${other}`;
    case "slot":
      return `${feature.reason} ${other}`;
    case "mortise":
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

/** A case's own parts, and those of the case beside it that it enters. */
export const partsAround = (one: AssemblyModel): Map<string, Part> =>
  new Map([...one.parts, ...one.borrowed].map((part) => [part.key, part]));

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

/** Parts and joints of the printed model as set.json lists them, in each part's own coordinates. */
import { axisOf, signOf } from "../base/geometry.ts";
import type { Mm } from "../base/length.ts";
import { opposite, planeOf } from "../model/contacts.ts";
import type { CaseModel, Feature, Joint, Model, Part } from "../model/model.ts";
import { seatGap } from "../model/seat.ts";
import type { DryfitSet, SetFeature, SetJoint, SetOpening, SetPart, SetStock } from "../set/schema.ts";
import { handOf, looksAlike, patternText } from "./hand.ts";
import { faceTowards, localFeature, placeOf, sizeOf } from "./local.ts";
import { massOf } from "./mass.ts";

export type Marks = ReadonlyMap<string, string>;

const markIn = (marks: Marks, key: string): string => {
  const mark = marks.get(key);
  if (mark === undefined) throw new Error(`${key} has no mark`);
  return mark;
};

export function planParts(model: Model, marks: Marks, stock: readonly SetStock[], step: Mm): SetPart[] {
  const bare = model.cases.flatMap((one) => one.parts.map((part) => barePart(part, one, marks, stock)));
  const patterns = bare.map(patternText);
  return bare.map((part, i): SetPart => {
    const first = patterns.indexOf(patterns[i]!);
    return {
      ...part,
      pattern: `P${bare[first]!.mark}`,
      hand: handOf(part, part.key, handTolerance(part, model, stock, step)),
      same: bare.filter((_, j) => j !== i && patterns[j] === patterns[i]).map(({ mark }) => mark),
      alike: bare.filter((other, j) => j !== i && looksAlike(part, other)).map(({ mark }) => mark),
    };
  });
}

/** A wall and both ends of its part may each lie a step off the middle, and the allowance and the spread of readings all lie to one side. */
function handTolerance(part: SetPart, model: Model, stock: readonly SetStock[], step: Mm): Mm {
  const { allowance } = model.cases.find(({ name }) => name === part.assembly)!.design.joinery;
  return 3 * step + allowance + Math.max(...stock.map(({ thickness, thickest }) => thickest - thickness));
}

function barePart(part: Part, one: CaseModel, marks: Marks, stock: readonly SetStock[]): SetPart {
  const found = stock.find(({ id }) => id === part.stock);
  if (!found) throw new Error(`${part.key} is made of ${part.stock}, which the job does not list`);
  const place = placeOf(part);
  const [length, width, thickness] = sizeOf(part);
  const names = new Map(one.parts.map(({ key, name }) => [key, `${name} ${markIn(marks, key)}`]));
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
    lippings: [],
    cut: { length, width },
    sums: (["l", "w"] as const).flatMap((axis) => sumOf(part, one, axis)),
    alike: [],
    same: [],
  };
  return { ...shown, mass: massOf(shown, found) };
}

function reasonOf(feature: Feature, names: ReadonlyMap<string, string>): string {
  const other = feature.holds === null ? null : names.get(feature.holds)!;
  if (feature.kind === "notch") return other === null ? feature.reason : `${feature.reason} in ${other}`;
  return `${other} enters`;
}

/** "Between + joints = cut length": what is clear between the two faces a part enters, and how far it goes in at each end. */
function sumOf(part: Part, one: CaseModel, axis: "l" | "w"): SetPart["sums"] {
  const forward = part.frame[axis];
  const byKey = new Map(one.parts.map((other) => [other.key, other]));
  const ends = [opposite(forward), forward].map((direction) => {
    const joint = one.joints.find(
      ({ entering, kind, direction: d }) => entering === part.key && kind === "housed" && d === direction,
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

const FIXINGS: Record<Joint["kind"], Record<Joint["fit"], string>> = {
  housed: { seated: "glue", slip: "loose in its groove" },
  butt: { seated: "glue", slip: "none" },
  face: { seated: "glue and screws", slip: "none" },
};

/** What only touches a back in grooves is not fixed to it: the back stays loose. */
const fixingsOf = (joint: Joint, receiving: Part, one: CaseModel): string => {
  if (joint.kind !== "butt" || receiving.role !== "back") return FIXINGS[joint.kind][joint.fit];
  return one.design.back.fit === "applied" ? "screws" : "no glue: the back stays loose";
};

export function planJointList(model: Model, marks: Marks, parts: readonly SetPart[]): SetJoint[] {
  const byMark = new Map(parts.map((part) => [part.mark, part]));
  return model.cases.flatMap((one) => {
    const byKey = new Map(one.parts.map((part) => [part.key, part]));
    return one.joints.map((joint): SetJoint => {
      const entering = byKey.get(joint.entering)!;
      const receiving = byKey.get(joint.receiving)!;
      const gap = seatGap(joint, byKey);
      const mark = markIn(marks, joint.entering);
      const groove = byMark
        .get(markIn(marks, joint.receiving))!
        .features.find(({ kind, holds }) => kind !== "notch" && holds === mark);
      return {
        entering: mark,
        receiving: markIn(marks, joint.receiving),
        kind: joint.kind,
        fit: joint.fit,
        depth: joint.depth,
        gap: [gap, gap],
        rounding: gap - joint.slip,
        loose: groove ? looseWidth(groove, byMark.get(mark)!) : 0,
        fixings: fixingsOf(joint, receiving, one),
        fasteners: null,
        receivingFace: faceTowards(placeOf(receiving), opposite(joint.direction)),
        enteringEnd: faceTowards(placeOf(entering), joint.direction),
      };
    });
  });
}

const looseWidth = (groove: SetFeature, entering: SetPart): number => groove.width - entering.thickness;

export function planOpenings(model: Model): SetOpening[] {
  return model.cases.flatMap((one) => {
    const box = (key: string): Part["box"] => one.parts.find((part) => part.key === key)!.box;
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

/** The cases as assemblies standing in the room. */
export function planAssemblies(model: Model): DryfitSet["assemblies"] {
  return model.cases.map((one) => {
    const sides = one.parts.filter(({ role }) => role === "side");
    const height = Math.min(...sides.map(({ box }) => box[1][2] - box[0][2]));
    // A toe space takes the lower front corners; the next ones up are where it ends.
    const toe = Math.max(0, ...sides.flatMap(({ notches }) => notches.map(({ depth }) => depth)));
    return {
      name: one.name,
      kind: "case",
      in: null,
      place: { at: [...one.at], l: "+x", w: "+y", t: "+z" },
      size: [...one.size],
      travel: { kind: "none" },
      borrows: [],
      fits: { allowance: one.design.joinery.allowance, slip: one.design.joinery.slip },
      diagonals: {
        outside: Math.hypot(one.size[0], height),
        front: Math.hypot(one.size[0], height - toe),
        width: one.size[0],
        height,
      },
    };
  });
}

/** A part is one piece for now: cut to its final size. */
export const planPieces = (parts: readonly SetPart[]): DryfitSet["pieces"] =>
  parts.map(({ mark, material, length, width, thickness }) => ({
    id: mark,
    mark,
    stock: material,
    length,
    width,
    thickness,
    state: "final",
    kind: "panel",
  }));

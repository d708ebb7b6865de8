/** Joints of the printed model as set.json lists them: what enters what, how deep, with which gap, held by what. */
import { type AxisIndex, toInner } from "../base/geometry.ts";
import type { Mm } from "../base/length.ts";
import { goesOver, opposite } from "../model/contacts.ts";
import type { AssemblyModel, Joint, Model, Part } from "../model/model.ts";
import { tenonLength } from "../project/frame-joints.ts";
import type { SetFeature, SetJoint, SetPart } from "../set/schema.ts";
import { faceTowards, LOCAL, localIndex, placeOf } from "./local.ts";
import { type Marks, markIn, partsAround } from "./parts.ts";

const FIXINGS: Record<Joint["kind"], string> = {
  housed: "glue",
  tongue: "glue",
  butt: "glue",
  lap: "glue",
  dovetail: "glue",
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

export function planJointList(model: Model, marks: Marks, parts: readonly SetPart[]): SetJoint[] {
  const byMark = new Map(parts.map((part) => [part.mark, part]));
  return model.assemblies.flatMap((one) => {
    const byKey = partsAround(one);
    return one.joints.map((joint, i): SetJoint => {
      const entering = byKey.get(joint.entering)!;
      const receiving = byKey.get(joint.receiving)!;
      const { gap } = joint;
      const mark = markIn(marks, joint.entering);
      const groove = byMark
        .get(markIn(marks, joint.receiving))!
        .features.find(
          ({ kind, holds }) => (kind === "groove" || kind === "rabbet" || kind === "stub mortise") && holds === mark,
        );
      return {
        entering: mark,
        receiving: markIn(marks, joint.receiving),
        kind: joint.kind,
        fit: joint.fit,
        depth: joint.depth,
        gap: [gap, gap],
        rounding: gap - joint.slip,
        loose:
          joint.depth > 0 && !goesOver(joint) ? (groove?.width ?? joint.width) - tongueOf(joint, byMark.get(mark)!) : 0,
        fixings: fixingsOf(joint, receiving, one, groove),
        fasteners: localFasteners(joint, receiving, mortisesOf(joint, marks, byMark)),
        receivingFace: faceTowards(placeOf(receiving), opposite(joint.direction)),
        enteringEnd: faceTowards(placeOf(entering), joint.direction),
        mating: one.kind === "frame" ? letterOf(i) : null,
      };
    });
  });
}

/** Without those that are read as figures. */
const LETTERS = "ABCDEFGHJKLMNPRSTUVWXYZ";
export const letterOf = (n: number): string => {
  const letter = LETTERS[n % LETTERS.length]!;
  return n < LETTERS.length ? letter : letterOf(Math.floor(n / LETTERS.length) - 1) + letter;
};

/** What of a part's thickness enters. */
const tongueOf = ({ shoulders }: Joint, { thickness }: SetPart): Mm =>
  thickness - shoulders.reduce((sum, { depth }) => sum + depth, 0);

/** How deep a mortise goes into the one part, and into the other. */
const mortisesOf = ({ entering, receiving }: Joint, marks: Marks, parts: ReadonlyMap<string, SetPart>): Mm[] => {
  const [one, other] = [markIn(marks, entering), markIn(marks, receiving)];
  const into = (mark: string, holds: string): Mm[] =>
    parts
      .get(mark)!
      .features.filter((feature) => feature.kind === "mortise" && feature.holds === holds)
      .slice(0, 1)
      .map(({ depth }) => depth);
  return [...into(one, other), ...into(other, one)];
};

/** `deep`: how deep its two mortises are. */
function tenonIn({ tenon }: Joint, deep: readonly Mm[]): NonNullable<SetJoint["fasteners"]>["tenon"] {
  if (tenon === null) return null;
  const { thickness, width, depth, slack } = tenon;
  const length = tenonLength(tenon, depth);
  return { thickness, width, length, spare: deep.reduce((sum, one) => sum + one, -length), slack };
}

/** Where screws, dowels or loose tenons go, on the receiving part. */
function localFasteners(joint: Joint, receiving: Part, deep: readonly Mm[]): SetJoint["fasteners"] {
  const { fasteners, dowel } = joint;
  if (fasteners === null) return null;
  const place = placeOf(receiving);
  const local = (axis: AxisIndex, at: Mm): Mm => {
    const point: [Mm, Mm, Mm] = [...place.at];
    point[axis] = at;
    return toInner(place, point)[localIndex(place, axis)];
  };
  return {
    kind: fasteners.kind,
    tenon: tenonIn(joint, deep),
    size: dowel === null ? null : { diameter: dowel.diameter, length: dowel.length },
    along: LOCAL[localIndex(place, fasteners.along)]!,
    at: local(fasteners.across, fasteners.at),
    positions: fasteners.positions.map((at) => local(fasteners.along, at)).sort((a, b) => a - b),
  };
}

/** What holds parts together once they are there, and which way each joint closes. */
import { AXES, type AxisIndex, type Box, intersectBoxes, signOf } from "../../base/geometry.ts";
import type { Mm } from "../../base/length.ts";
import type { SetJoint } from "../../set/schema.ts";
import { WAYS } from "./ways.ts";
import { axisIn, featureBox, TOUCH, type Wood } from "./wood.ts";

/** Two parts that meet; `a` enters `b`. Indices. */
export type Bond = {
  a: number;
  b: number;
  out: number; // way in which `a` leaves straight
  holds: boolean; // the two stay together by themselves: something enters, or is glued or screwed
  loose: boolean; // it stands in its groove, but keeps nothing else together: a back with its slip, a shelf on pins
  enters: boolean; // one lies in a groove of the other
  glued: boolean;
  dowelled: boolean;
  pins: boolean;
};

/** A tongue in its groove: indices, and the axis that the groove runs along. */
export type Housing = { owner: number; entering: number; run: AxisIndex };

/** A joint takes glue or screws unless it says that it takes none. */
const isFixed = ({ fixings }: SetJoint): boolean => /glue|screw|dowel|tenon/.test(fixings) && !fixings.startsWith("no");
export const takesGlue = ({ fixings }: SetJoint): boolean => fixings.startsWith("glue");

/** From the joints of the set; where it states none for these parts, from where their wood meets. */
export function bondsOf(wood: readonly Wood[], joints: readonly SetJoint[], step: Mm): Bond[] {
  const byMark = new Map(wood.map(({ part }, i) => [part.mark, i]));
  const stated = joints.flatMap((joint): Bond[] => {
    const [a, b] = [byMark.get(joint.entering), byMark.get(joint.receiving)];
    if (a === undefined || b === undefined) return [];
    return [
      {
        a,
        b,
        out: outOf(wood[b]!, joint.receivingFace),
        holds: joint.depth > 0 || joint.kind === "pin" || isFixed(joint),
        loose: joint.fit !== "seated",
        enters: joint.depth > 0,
        glued: takesGlue(joint),
        dowelled: joint.fasteners?.kind === "dowel" || joint.fasteners?.kind === "tenon",
        pins: joint.kind === "pin",
      },
    ];
  });
  return stated.length > 0 ? stated : touching(wood, step);
}

/** The way out of a part through one of its faces. */
function outOf({ place }: Wood, face: SetJoint["receivingFace"]): number {
  const letter = face[0] as "l" | "w" | "t";
  const outward = signOf(place[letter]) * (face[1] === "1" ? 1 : -1);
  return axisIn(place, letter) * 2 + (outward > 0 ? 0 : 1);
}

function touching(wood: readonly Wood[], step: Mm): Bond[] {
  return wood.flatMap((one, i) =>
    wood.slice(i + 1).flatMap((other, j): Bond[] => {
      const out = meetingFace(one, other, step);
      if (out === null) return [];
      const bond = { holds: true, loose: false, enters: false, glued: true, dowelled: false, pins: false };
      return [{ a: i, b: i + 1 + j, out, ...bond }];
    }),
  );
}

/** Where one's wood lies against the other's, within rounding: the way out of it, for the one; null where they stand apart. */
function meetingFace(one: Wood, other: Wood, step: Mm): number | null {
  if (!AXES.every((axis) => gapOf(one.bounds, other.bounds, axis) <= step + TOUCH)) return null;
  for (const a of one.cells) {
    for (const b of other.cells) {
      const axis = AXES.find(
        (each) =>
          Math.abs(gapOf(a, b, each)) <= step + TOUCH &&
          AXES.every((across) => across === each || gapOf(a, b, across) < -TOUCH),
      );
      if (axis !== undefined) return axis * 2 + (a[0][axis] > b[0][axis] ? 0 : 1);
    }
  }
  return null;
}

const gapOf = (a: Box, b: Box, axis: AxisIndex): Mm => Math.max(a[0][axis] - b[1][axis], b[0][axis] - a[1][axis]);

/** Every groove with wood of another part in it. */
export function housingsOf(wood: readonly Wood[]): Housing[] {
  return wood.flatMap((owner, o) =>
    owner.part.features
      .filter(({ kind }) => kind === "groove")
      .flatMap((feature) => {
        const groove = featureBox(owner, feature);
        const run = axisIn(owner.place, feature.along);
        return wood.flatMap((entering, e) =>
          e !== o &&
          (feature.holds ?? entering.part.mark) === entering.part.mark &&
          intersectBoxes(entering.bounds, groove, TOUCH) &&
          entering.cells.some((cell) => intersectBoxes(cell, groove, TOUCH))
            ? [{ owner: o, entering: e, run }]
            : [],
        );
      }),
  );
}

/** Dowels and loose tenons let the two part along their own length alone: true where `way` is another. */
export const isPinned = ({ a, dowelled, out }: Bond, mover: number, way: number): boolean =>
  dowelled && way !== (mover === a ? out : out ^ 1);

/** The same for any velocity of one against the other. */
export const isPinnedAgainst = ({ dowelled, out }: Bond, v: readonly number[]): boolean =>
  dowelled && !WAYS[out]!.every((part, axis) => (part === 0) === (v[axis] === 0) && part * v[axis]! >= 0);

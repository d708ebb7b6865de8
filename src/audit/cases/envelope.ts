/** The outside of a case: nothing stands out of it, and what should be flush with it is. */
import type { AxisIndex } from "../../base/geometry.ts";
import type { Mm } from "../../base/length.ts";
import type { DryfitSet, SetCheck } from "../../set/schema.ts";
import { flushReach } from "../limits.ts";
import { cutAwayAll, drawnOut, sharedBox, TOUCH } from "../solids/boxes.ts";
import {
  type Direction,
  ENDS,
  inFrontOf,
  insideEnvelope,
  mayMeet,
  outward,
  reachOf,
  type Solid,
} from "../solids/solid.ts";
import { amount, endOf, failure, nameOf, where } from "../words.ts";

/** Ends that stand out of the case, or stop short of being flush with it. */
export function checkEnvelope(set: DryfitSet, solids: readonly Solid[]): SetCheck[] {
  const { job } = set;
  return solids.flatMap((solid) => {
    const checks: SetCheck[] = [];
    for (const face of ["l0", "l1", "w0", "w1", "t0", "t1"] as const) {
      const direction = outward(solid, face);
      const inside = insideEnvelope(solid, direction);
      if (inside < -TOUCH && !entersBeside(solid, direction, solids)) {
        checks.push(
          failure(
            "envelope",
            [solid.part],
            `The ${endOf(face)} of ${nameOf(solid.part)} stands ${amount(-inside, job)} outside ${solid.assembly.name}, ${where(solid.bounds, solid.assembly, job)}. Change: shorten or move it by ${amount(-inside, job)}.`,
          ),
        );
      }
      // A loose shelf lies clear of everything by its clearance, and a drawer's box is flush with nothing of its front.
      if (solid.part.role === "looseShelf" || ["drawer", "packing", "return"].includes(solid.assembly.kind)) continue;
      if (face[0] === "t" || isApplied(solid, solids) || inside <= job.step + TOUCH || inside > flushReach(job.step))
        continue;
      // An end behind other wood is not seen, and is judged where it meets that wood.
      const open = inFrontOf(solid, direction, inside);
      const cover = solids
        .filter((other) => other !== solid && mayMeet(other, solid))
        .flatMap((other) => other.cells)
        .filter((cell) => open.some((box) => sharedBox(cell, box)))
        .map((cell) => drawnOut(cell, direction.axis, ...outsideOf(solid, direction.axis)));
      if (cutAwayAll(open, cover).length === 0) continue;
      checks.push(
        failure(
          "flush",
          [solid.part],
          `The ${endOf(face)} of ${nameOf(solid.part)} is not flush with the outside of ${solid.assembly.name}: it stops ${amount(inside, job)} short of it, ${where(solid.bounds, solid.assembly, job)}, and rounding leaves at most ${amount(job.step, job)}. Change: lengthen it by ${amount(inside - job.step, job)} or more.`,
        ),
      );
    }
    return checks;
  });
}

/** From where to where its case reaches, along an axis. */
const outsideOf = ({ assembly: { origin, size } }: Solid, axis: AxisIndex): [Mm, Mm] => [
  origin[axis],
  origin[axis] + size[axis],
];

/** What stands out of its case only as far as it enters the side that it shares with the case beside it. */
const entersBeside = (solid: Solid, { axis, sign }: Direction, solids: readonly Solid[]): boolean =>
  solids.some(
    (other) =>
      solid.assembly.borrows.includes(other.part.mark) &&
      other.directions[2].axis === axis &&
      (reachOf(other, axis, sign) - reachOf(solid, axis, sign)) * sign > TOUCH,
  );

/** A back that lies behind the other parts instead of among them: its face covers their edges. */
const isApplied = (solid: Solid, solids: readonly Solid[]): boolean =>
  solid.part.role === "back" &&
  solids
    .filter((other) => other.assembly === solid.assembly && other.part.role === "side")
    .every((side) => side.bounds[1][1] <= solid.bounds[0][1] + TOUCH);

/**
 * The edges of an applied back keep with the outside of the case, or with the outer face of a panel set in from it. The panel lies on the
 * nearest step (half a step either way), the back's edge on the step inwards (less than one): so it stands out by half a step at most and
 * stays back by less than one and a half, and a mistake of two steps is always outside of that.
 */
export function checkAppliedBacks(set: DryfitSet, solids: readonly Solid[]): SetCheck[] {
  const { job } = set;
  return solids
    .filter((solid) => isApplied(solid, solids))
    .flatMap((back) =>
      ENDS.flatMap((end) => {
        const { axis, sign } = outward(back, end);
        const [nearest] = planesBehind(back, { axis, sign }, solids, job.step)
          .map(({ plane, panel }) => ({ least: (plane - reachOf(back, axis, sign)) * sign, panel }))
          .sort((a, b) => Math.abs(a.least) - Math.abs(b.least));
        const { least, panel } = nearest!;
        // Where two sections of a back meet, their edges keep with each other: judged where ends reach.
        if (meetsSection(back, { axis, sign }, solids, job.step)) return [];
        if (least >= -job.step / 2 - TOUCH && least < 1.5 * job.step - TOUCH) return [];
        return failure(
          "flush",
          panel === null ? [back.part] : [back.part, panel.part],
          `The ${endOf(end)} of ${nameOf(back.part)} ${least > 0 ? "stays back from" : "stands out beyond"} ${panel === null ? "the outside of its case" : nameOf(panel.part)} by ${amount(Math.abs(least), job)}, ${where(back.bounds, back.assembly, job)}. Change: ${least > 0 ? "lengthen" : "shorten"} it by as much.`,
        );
      }),
    );
}

const meetsSection = (back: Solid, { axis, sign }: Direction, solids: readonly Solid[], step: Mm): boolean =>
  solids.some(
    (other) =>
      other !== back &&
      other.part.role === "back" &&
      other.assembly === back.assembly &&
      (reachOf(other, axis, -sign as 1 | -1) - reachOf(back, axis, sign)) * sign >= -TOUCH &&
      (reachOf(other, axis, -sign as 1 | -1) - reachOf(back, axis, sign)) * sign <= step + TOUCH,
  );

/** Where an applied back's edge may end: with a panel that it covers, or with the outside of the case. */
type Plane = { plane: Mm; panel: Solid | null };

/** What an applied back's edge may keep with: the panel it covers there; the outside of the case, where that panel is flush or far from it. */
function planesBehind(back: Solid, { axis, sign }: Direction, solids: readonly Solid[], step: Mm): Plane[] {
  const outside = outsideOf(back, axis)[sign === 1 ? 1 : 0];
  const panels = solids
    .filter((solid) => solid.assembly === back.assembly && ["side", "bottom", "top"].includes(solid.part.role))
    .filter((panel) => panel.directions[2].axis === axis)
    .map((panel) => ({ plane: reachOf(panel, axis, sign), panel }))
    .sort((a, b) => (b.plane - a.plane) * sign);
  const outermost = panels[0];
  if (outermost === undefined) return [{ plane: outside, panel: null }];
  const setIn = (outside - outermost.plane) * sign;
  if (setIn < 1.5 * step) return [{ plane: outside, panel: outermost.panel }];
  // Between flush and far, both would be in reach of a back two steps off: the panel alone decides.
  return setIn < 6 * step ? [outermost] : [outermost, { plane: outside, panel: null }];
}

/** A board of a base with no other farther out; a side, and a filler strip, always. */
function isOutermost(solid: Solid, solids: readonly Solid[]): boolean {
  const { role } = solid.part;
  if (role !== "plinth") return role === "side" || role === "filler";
  const { axis } = solid.directions[2];
  const others = solids.filter(
    (other) => other !== solid && other.assembly === solid.assembly && other.directions[2].axis === axis,
  );
  return ([1, -1] as const).some((sign) =>
    others.every((other) => (reachOf(other, axis, sign) - reachOf(solid, axis, sign)) * sign < 0),
  );
}

/**
 * A side bounds its case, and so does a board of a base but for its ribs: one of its faces is the outside. Filler strips fill up to it: a top
 * that is screwed down on them rocks on one that is low.
 */
export function checkOuterFaces(set: DryfitSet, solids: readonly Solid[]): SetCheck[] {
  return [...checkBounds(set, solids), ...checkFrameFaces(set, solids)];
}

/** The members of a frame are flush with each other, before and behind: it is glued to the case and sanded as one. */
function checkFrameFaces({ job }: DryfitSet, solids: readonly Solid[]): SetCheck[] {
  return solids
    .filter(({ assembly }) => assembly.kind === "frame")
    .flatMap((solid) => {
      const [before, behind] = [-1, 1].map((sign) =>
        Math.abs(insideEnvelope(solid, { axis: 1, sign: sign as 1 | -1 })),
      );
      const off = Math.max(before!, behind!);
      if (off <= TOUCH) return [];
      return failure(
        "flush",
        [solid.part],
        `A face of ${nameOf(solid.part)} is ${amount(off, job)} off that of ${solid.assembly.name}, ${where(solid.bounds, solid.assembly, job)}. Change: its thickness, or where it stands.`,
      );
    });
}

function checkBounds(set: DryfitSet, solids: readonly Solid[]): SetCheck[] {
  const { job } = set;
  return solids.flatMap((solid) => {
    const inside = (["t0", "t1"] as const).map((face) => insideEnvelope(solid, outward(solid, face)));
    const least = Math.min(...inside.map(Math.abs));
    if (!isOutermost(solid, solids) || least <= job.step + TOUCH) return [];
    return [
      failure(
        "flush",
        [solid.part],
        `The outer face of ${nameOf(solid.part)} is ${amount(least, job)} inside the outside of ${solid.assembly.name}, ${where(solid.bounds, solid.assembly, job)}. Change: move it out, or make ${solid.assembly.name} smaller.`,
      ),
    ];
  });
}

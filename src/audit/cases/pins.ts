/** Loose shelves: as short at each end as the clearance says, and on four pins at one height. */
import type { Mm } from "../../base/length.ts";
import type { DryfitSet, Face, SetCheck } from "../../set/schema.ts";
import { isAsWide, isForPin, isInLine } from "../joints/dowels.ts";
import { around, sharedBox, sharedBoxes, TOUCH } from "../solids/boxes.ts";
import type { Neighbours } from "../solids/neighbours.ts";
import {
  faceTowards,
  type Hole,
  inFrontOfHole,
  localAxis,
  mayMeet,
  outward,
  placeBox,
  reachOf,
  type Solid,
} from "../solids/solid.ts";
import { amount, failure, nameOf, where } from "../words.ts";

/** Farther than any bay is wide. */
const FAR: Mm = 1e5;

/** A loose shelf's end before the part that holds its pins. */
export type Pinned = { shelf: Solid; end: Face; holder: Solid; holderFace: Face; gap: Mm };

/** The nearest part straight before an end, at the shelf's own height and depth. */
function holderOf(shelf: Solid, end: Face, solids: readonly Solid[]): Pinned | null {
  const { axis, sign } = outward(shelf, end);
  let nearest: Pinned | null = null;
  for (const holder of solids) {
    if (holder === shelf || !mayMeet(holder, shelf) || holder.directions[2].axis !== axis) continue;
    const gap = (reachOf(holder, axis, -sign as 1 | -1) - reachOf(shelf, axis, sign)) * sign;
    if (gap < -TOUCH || (nearest && gap >= nearest.gap)) continue;
    const [lo, hi]: [number[], number[]] = [[...shelf.bounds[0]], [...shelf.bounds[1]]];
    lo[axis] = holder.bounds[0][axis];
    hi[axis] = holder.bounds[1][axis];
    const before = [lo, hi] as unknown as typeof shelf.bounds;
    if (sharedBox(before, holder.bounds) === null) continue;
    nearest = { shelf, end, holder, holderFace: faceTowards(holder, axis, -sign as 1 | -1), gap };
  }
  return nearest;
}

export const pinnedEnds = (solids: readonly Solid[]): Pinned[] =>
  solids
    .filter(({ part }) => part.role === "looseShelf")
    .flatMap((shelf) => (["l0", "l1"] as const).flatMap((end) => holderOf(shelf, end, solids) ?? []));

export function checkPins(set: DryfitSet, solids: readonly Solid[], pinned: readonly Pinned[]): SetCheck[] {
  const { job } = set;
  return solids
    .filter(({ part }) => part.role === "looseShelf")
    .flatMap((shelf) =>
      (["l0", "l1"] as const).flatMap((end): SetCheck[] => {
        const own = pinned.find((each) => each.shelf === shelf && each.end === end);
        if (!own)
          return [
            failure(
              "pins",
              [shelf.part],
              `Nothing stands before ${end} of ${nameOf(shelf.part)} to hold its pins. Change: put it in a bay that is closed at both ends.`,
            ),
          ];
        return [...checkRoom(own, job), ...checkSupport(own, job)];
      }),
    );
}

/** The clearance, and one rounding step more at most. */
function checkRoom({ shelf, end, holder, gap }: Pinned, job: DryfitSet["job"]): SetCheck[] {
  const { clearance } = shelf.assembly.fits;
  if (gap >= clearance - TOUCH && gap <= clearance + job.step + TOUCH) return [];
  return [
    failure(
      "pins",
      [shelf.part, holder.part],
      `${end} of ${nameOf(shelf.part)} stands ${amount(gap, job)} off ${nameOf(holder.part)}; ${amount(clearance, job)} to ${amount(clearance + job.step, job)} is its clearance. Change: the shelf's length, or its place.`,
    ),
  ];
}

/** A pin near the front and one near the back, each with its upper side at the shelf's underside. */
function checkSupport({ shelf, holder, holderFace }: Pinned, job: DryfitSet["job"]): SetCheck[] {
  const under = shelf.bounds[0][2];
  const middle = (shelf.bounds[0][1] + shelf.bounds[1][1]) / 2;
  const standing = holder.part.features
    .filter(({ kind, face, axis }) => kind === "hole" && face === holderFace && localAxis(axis) === 2)
    .map(({ box }) => placeBox(holder.part.place!, box))
    // The upper side of a hole is its middle and half its diameter: what a pin carries.
    .filter((box) => Math.abs(box[1][2] - under) < TOUCH)
    .filter((box) => box[0][1] >= shelf.bounds[0][1] - TOUCH && box[1][1] <= shelf.bounds[1][1] + TOUCH)
    .map((box) => (box[0][1] + box[1][1]) / 2);
  if (standing.some((y) => y < middle) && standing.some((y) => y > middle)) return [];
  return [
    failure(
      "pins",
      [shelf.part, holder.part],
      `${nameOf(shelf.part)} has its underside at ${amount(under, job)}, but ${nameOf(holder.part)} has no pin hole near the front and one near the back that carry it there. Change: the shelf's height, or the holes.`,
    ),
  ];
}

/** The part whose wood stands straight before a hole, across its bay; loose shelves are no end of a bay. */
function acrossFrom(hole: Hole, solids: readonly Solid[]): Solid | undefined {
  const out = inFrontOfHole(hole, FAR);
  const distance = (solid: Solid): Mm => {
    const shared = sharedBoxes(solid.hull, [out]);
    if (shared.length === 0) return Number.POSITIVE_INFINITY;
    const near = around(shared)[hole.inward === 1 ? 1 : 0][hole.depth];
    return Math.abs(hole.box[hole.inward === 1 ? 0 : 1][hole.depth] - near);
  };
  const others = solids.filter(
    (solid) => solid !== hole.owner && mayMeet(solid, hole.owner) && solid.part.role !== "looseShelf",
  );
  const [nearest] = others.sort((a, b) => distance(a) - distance(b));
  return nearest && Number.isFinite(distance(nearest)) ? nearest : undefined;
}

/** Wherever the shelf is put, its four pins stand at one height: each hole has its like straight across the bay. */
export function checkRows(set: DryfitSet, solids: readonly Solid[], near: Neighbours): SetCheck[] {
  const { job } = set;
  return solids.flatMap((solid) => {
    const odd = solid.holes
      .filter((hole) => isForPin(hole, near, job.step))
      .map((hole) => ({ hole, other: acrossFrom(hole, solids) }))
      .filter(({ hole, other }) => !other?.holes.some((each) => isInLine(hole, each) && isAsWide(hole, each)));
    const [first] = odd;
    if (first === undefined) return [];
    const { hole, other } = first;
    return [
      failure(
        "pins",
        [solid.part, ...(other ? [other.part] : [])],
        `${odd.length} pin ${odd.length === 1 ? "hole" : "holes"} of ${nameOf(solid.part)} ${odd.length === 1 ? "has" : "have"} no hole straight across the bay in ${other ? nameOf(other.part) : "any part"}, the first ${where(hole.box, solid.assembly, job)}. Change: drill the rows of a bay alike.`,
      ),
    ];
  });
}

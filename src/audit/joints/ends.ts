/** Ends and edges that meet nothing inside a groove: butted against a face, flush with the outside of the case, or free. */
import type { Box } from "../../base/geometry.ts";
import type { Mm } from "../../base/length.ts";
import type { DryfitSet, Face, SetCheck } from "../../set/schema.ts";
import { nearMissReach } from "../limits.ts";
import { around, cutAwayAll, drawnOut, sharedBox, TOUCH } from "../solids/boxes.ts";
import type { Neighbours } from "../solids/neighbours.ts";
import {
  cellsAtEnd,
  type Direction,
  ENDS,
  faceTowards,
  inFrontOf,
  insideEnvelope,
  mayMeet,
  outward,
  reachOf,
  type Solid,
} from "../solids/solid.ts";
import { amount, endOf, failure, nameOf, where } from "../words.ts";
import type { Housing } from "./grooves.ts";
import type { Lapped } from "./laps.ts";

/** An end or edge of one part against another part, outside any groove. */
export type Contact = { entering: Solid; end: Face; receiving: Solid; receivingFace: Face; gap: Mm };

type Facing = { gap: Mm; region: Box };

/** The nearest wood of another part straight in front of an end; not where anything else stands between, or inside a third part's groove. */
function nearestFacing(
  solid: Solid,
  direction: Direction,
  other: Solid,
  between: readonly Solid[],
  reach: Mm,
): Facing | null {
  const { axis, sign } = direction;
  const plane = reachOf(solid, axis, sign);
  let nearest: Facing | null = null;
  for (const end of cellsAtEnd(solid, axis, sign)) {
    for (const cell of other.cells) {
      const gap = (cell[sign === 1 ? 0 : 1][axis] - plane) * sign;
      if (gap < -TOUCH || gap > reach + TOUCH || (nearest && gap >= nearest.gap)) continue;
      const overlap = sharedBox(drawnOut(end, axis, 0, 1), drawnOut(cell, axis, 0, 1));
      if (!overlap) continue;
      const [from, to] = sign === 1 ? [plane, plane + gap] : [plane - gap, plane];
      const blockers = between.flatMap((each) =>
        each.cells
          .filter((box) => box[0][axis] < to - TOUCH && box[1][axis] > from + TOUCH)
          .map((box) => drawnOut(box, axis, 0, 1)),
      );
      const grooves = between.flatMap(({ channels }) =>
        channels
          .filter(({ box }) => box[0][axis] <= to + TOUCH && box[1][axis] >= from - TOUCH)
          .map(({ box }) => drawnOut(box, axis, 0, 1)),
      );
      const seen = cutAwayAll([overlap], [...blockers, ...grooves]);
      if (seen.length > 0) nearest = { gap: Math.max(0, gap), region: drawnOut(overlap, axis, from, to) };
    }
  }
  return nearest;
}

const FACES: readonly Face[] = [...ENDS, "t0", "t1"];

/** Every butted end, and every end that was meant to reach a face and does not. */
export function findContacts(
  set: DryfitSet,
  solids: readonly Solid[],
  housings: readonly Housing[],
  lapped: readonly Lapped[],
  near: Neighbours,
): { contacts: Contact[]; checks: SetCheck[] } {
  const { job } = set;
  const reach = nearMissReach(job.step);
  const contacts: Contact[] = [];
  const checks: SetCheck[] = [];
  // A loose shelf touches nothing but its pins.
  for (const solid of solids.filter(({ part }) => part.role !== "looseShelf")) {
    const neighbours = near.of(solid).filter(({ part }) => part.role !== "looseShelf");
    // A housed pair is judged at its groove: its walls, its floor and both ends of its run.
    const housed = [
      ...housings.map(({ entering, channel }) => [entering, channel.owner]),
      ...lapped.map(({ entering, receiving }) => [entering, receiving]),
    ].flatMap((pair) => (pair.includes(solid) ? pair.filter((one) => one !== solid) : []));
    for (const end of FACES) {
      const direction = outward(solid, end);
      for (const other of neighbours.filter((each) => !housed.includes(each))) {
        const between = neighbours.filter((each) => each !== other);
        const facing = nearestFacing(solid, direction, other, between, reach);
        if (!facing) continue;
        if (facing.gap <= job.step + TOUCH) {
          const receivingFace = faceTowards(other, direction.axis, -direction.sign as 1 | -1);
          contacts.push({ entering: solid, end, receiving: other, receivingFace, gap: facing.gap });
          continue;
        }
        // A face tells only of what no end tells: another face, once for both, or a wall inside the other part.
        const faces = faceTowards(other, direction.axis, -direction.sign as 1 | -1)[0] === "t";
        const atEnd = Math.abs(gapBetween(solid, direction, other) - facing.gap) < TOUCH;
        if (end[0] === "t" && (faces ? solids.indexOf(other) < solids.indexOf(solid) : atEnd)) continue;
        checks.push(
          failure(
            "reach",
            [solid.part, other.part],
            `The ${endOf(end)} of ${nameOf(solid.part)} does not reach ${nameOf(other.part)}: ${amount(facing.gap, job)} is left ${where(facing.region, solid.assembly, job)}, and rounding opens at most ${amount(job.step, job)}. Change: lengthen ${nameOf(solid.part)} by ${amount(facing.gap - job.step, job)} or more, or move one of the two.`,
          ),
        );
      }
    }
  }
  return { contacts: onePerPair(contacts), checks };
}

/** From one part's outermost plane to the other's. */
const gapBetween = (solid: Solid, { axis, sign }: Direction, other: Solid): Mm =>
  (reachOf(other, axis, -sign as 1 | -1) - reachOf(solid, axis, sign)) * sign;

/** Two edges that face each other are one contact, found from both sides: kept as the first part's. */
const onePerPair = (contacts: readonly Contact[]): Contact[] =>
  contacts.filter(
    (contact, i) =>
      !contacts.some(
        (other, j) =>
          j < i &&
          other.entering === contact.receiving &&
          other.receiving === contact.entering &&
          other.end === contact.receivingFace &&
          other.receivingFace === contact.end,
      ),
  );

/** The next part straight in front of an end, however far. */
function nearestBefore(solid: Solid, direction: Direction, solids: readonly Solid[]): { other: Solid; gap: Mm } | null {
  let nearest: { other: Solid; gap: Mm } | null = null;
  for (const other of solids) {
    if (other === solid || !mayMeet(other, solid)) continue;
    const facing = nearestFacing(solid, direction, other, [], solid.assembly.size[direction.axis]);
    if (facing && (!nearest || facing.gap < nearest.gap)) nearest = { other, gap: facing.gap };
  }
  return nearest;
}

const SPANNING: readonly string[] = [
  "side",
  "bottom",
  "top",
  "stretcher",
  "divider",
  "shelf",
  "kick",
  "filler",
  "plinth",
  "drawerFront",
  "drawerBack",
];

/** Ends that carry load or stiffen the case must rest on something: in a groove, against a face, or at the outside of the case. */
export function checkFreeEnds(
  set: DryfitSet,
  solids: readonly Solid[],
  housings: readonly Housing[],
  contacts: readonly Contact[],
  lapped: readonly Lapped[],
): SetCheck[] {
  const held = solids
    .filter((solid) => SPANNING.includes(solid.part.role))
    .flatMap((solid) =>
      (["l0", "l1"] as const).flatMap((end) => {
        const isHeld =
          housings.some((housing) => housing.entering === solid && housing.end === end) ||
          contacts.some(
            (contact) =>
              (contact.entering === solid && contact.end === end) ||
              (contact.receiving === solid && contact.receivingFace === end),
          ) ||
          insideEnvelope(solid, outward(solid, end)) <= set.job.step + TOUCH;
        if (isHeld) return [];
        const direction = outward(solid, end);
        const nearest = nearestBefore(solid, direction, solids);
        const next = nearest ? `; ${nameOf(nearest.other.part)} is ${amount(nearest.gap, set.job)} away` : "";
        return failure(
          "free-end",
          nearest ? [solid.part, nearest.other.part] : [solid.part],
          `The ${endOf(end)} of ${nameOf(solid.part)} rests on nothing${next}, ${where(around(inFrontOf(solid, direction, 0)), solid.assembly, set.job)}. Change: lengthen it to the next part, or give that part a groove for it.`,
        );
      }),
    );
  return [...held, ...alone(set, solids, housings, [...contacts, ...lapped])];
}

/** A part that meets no other is held by nothing: only a loose shelf, what is fixed to a case beside its drawers, or one that is all there is, may be so. */
function alone(
  set: DryfitSet,
  solids: readonly Solid[],
  housings: readonly Housing[],
  contacts: readonly Pick<Contact, "entering" | "receiving">[],
): SetCheck[] {
  const met = new Set([
    ...housings.flatMap(({ entering, channel }) => [entering, channel.owner]),
    ...contacts.flatMap(({ entering, receiving }) => [entering, receiving]),
  ]);
  return solids
    .filter(
      (solid) =>
        !met.has(solid) && solid.part.role !== "looseShelf" && !["packing", "return"].includes(solid.assembly.kind),
    )
    .filter(({ assembly }) => set.parts.filter((part) => part.assembly === assembly.name).length > 1)
    .map((solid) =>
      failure(
        "free-end",
        [solid.part],
        `${nameOf(solid.part)} meets no other part, ${where(solid.bounds, solid.assembly, set.job)}. Change: its size, or its place.`,
      ),
    );
}

/**
 * Non-directional blocking graphs of one assembly: for each of the six ways out, which part stands in the way of which. Found once for
 * every pair of parts and every way; any part of the assembly is then taken apart by looking up. The idea, and that the least set which can
 * leave with a part is all that can be reached from it in the graph, are R. H. Wilson's and J.-C. Latombe's ("Geometric reasoning about
 * mechanical assembly", Artificial Intelligence 71, 1994).
 */

import type { Mm } from "../../base/length.ts";
import type { SetJoint } from "../../set/schema.ts";
import { bit, has, indicesOf, NONE, type Parts } from "./bits.ts";
import { type Bond, bondsOf, type Housing, housingsOf, isPinned, isPinnedAgainst } from "./bonds.ts";
import { isInTheWay } from "./sweep.ts";
import { opposite, type Velocity, WAYS } from "./ways.ts";
import type { Wood } from "./wood.ts";

export type Blocking = {
  wood: readonly Wood[];
  bonds: readonly Bond[];
  housings: readonly Housing[];
  all: Parts;
  borrowed: Parts;
  /** By way, then by part: what stands in its way. */
  inTheWay: readonly (readonly Parts[])[];
  /** By part: what it holds to once together. */
  linked: readonly Parts[];
  /** By part: what it stands in loosely. */
  loose: readonly Parts[];
  /** By part: all that is one body with it from the start, itself among them. */
  glued: readonly Parts[];
  /** Whether one part, at a velocity against another, leaves it freely. */
  leaves: (a: number, b: number, v: Velocity) => boolean;
  /** How often wood was swept against wood. */
  sweeps: number;
};

/** `finished`: sets of parts that are one body before the rest comes. */
export function blockingOf(
  wood: readonly Wood[],
  joints: readonly SetJoint[],
  step: Mm,
  finished: readonly Parts[] = [],
): Blocking {
  const bonds = bondsOf(wood, joints, step);
  const inTheWay = WAYS.map(() => wood.map(() => NONE));
  let sweeps = 0;
  const block = (a: number, b: number, way: number): void => {
    inTheWay[way]![a]! |= bit(b);
    inTheWay[opposite(way)]![b]! |= bit(a);
  };
  for (let a = 0; a < wood.length; a++) {
    for (let b = a + 1; b < wood.length; b++) {
      for (const [way, velocity] of WAYS.entries()) {
        sweeps++;
        if (isInTheWay(wood[a]!, wood[b]!, velocity)) block(a, b, way);
      }
    }
  }
  for (const bond of bonds.filter(({ dowelled }) => dowelled)) {
    for (const way of WAYS.keys()) if (isPinned(bond, bond.a, way)) block(bond.a, bond.b, way);
  }
  const linkedBy = (chosen: (bond: Bond) => boolean, both = true): Parts[] =>
    wood.map((_, i) =>
      bonds
        .filter(chosen)
        .reduce((set, { a, b }) => (a === i ? set | bit(b) : both && b === i ? set | bit(a) : set), NONE),
    );
  const borrowed = wood.reduce((set, one, i) => (one.borrowed ? set | bit(i) : set), NONE);
  const groups = [...finished, borrowed];
  return {
    wood,
    bonds,
    housings: housingsOf(wood),
    all: wood.reduce((set, _, i) => set | bit(i), NONE),
    borrowed,
    inTheWay,
    linked: linkedBy(({ holds, loose }) => holds && !loose),
    loose: linkedBy(({ holds, loose }) => holds && loose, false),
    glued: wood.map((_, i) => groups.filter((group) => has(group, i)).reduce((set, group) => set | group, bit(i))),
    leaves: leavingOf(wood, bonds),
    sweeps,
  };
}

function leavingOf(wood: readonly Wood[], bonds: readonly Bond[]): Blocking["leaves"] {
  const known = new Map<string, boolean>();
  return (a, b, v) => {
    const key = `${a} ${b} ${v}`;
    const found = known.get(key);
    if (found !== undefined) return found;
    const pinned = bonds.some(
      (bond) =>
        (bond.a === a && bond.b === b && isPinnedAgainst(bond, v)) ||
        (bond.a === b && bond.b === a && isPinnedAgainst(bond, [-v[0], -v[1], -v[2]])),
    );
    const free = !pinned && !isInTheWay(wood[a]!, wood[b]!, v);
    known.set(key, free);
    return free;
  };
}

/** The least set that can leave `all` with a part: what is in its way comes along, and what is in the way of that. */
export function leavingWith({ inTheWay, glued }: Blocking, all: Parts, part: number, way: number): Parts {
  const graph = inTheWay[way]!;
  let set = glued[part]! & all;
  let fresh = set;
  while (fresh !== NONE) {
    let next = NONE;
    for (const i of indicesOf(fresh)) next |= graph[i]! & all;
    for (const i of indicesOf(next & ~set)) next |= glued[i]! & all;
    fresh = next & ~set;
    set |= fresh;
  }
  return set;
}

/** A set's bodies: parts that hold together, and what stands loose in one of them. The one with the first part comes first. */
export function bodiesOf({ linked, loose, glued }: Blocking, all: Parts): Parts[] {
  const bodies: Parts[] = [];
  let left = all;
  while (left !== NONE) {
    let body = left & -left;
    let fresh = body;
    while (fresh !== NONE) {
      let next = NONE;
      for (const i of indicesOf(fresh)) next |= linked[i]! | glued[i]!;
      fresh = next & all & ~body;
      body |= fresh;
    }
    bodies.push(body);
    left &= ~body;
  }
  // A loose part goes with one body that it stands in; it does not keep two together.
  for (const body of [...bodies]) {
    const members = indicesOf(body);
    const hosts = loose[members[0]!]! & all;
    if (members.length > 1 || hosts === NONE) continue;
    bodies.splice(bodies.indexOf(body), 1);
    const host = bodies.findIndex((other) => (hosts & other) !== NONE);
    bodies[host]! |= body;
  }
  return bodies.sort((a, b) => (indicesOf(a)[0]! < indicesOf(b)[0]! ? -1 : 1));
}

/** Whether a set is one body that is never taken apart here. */
export const isWhole = ({ glued }: Blocking, set: Parts): boolean => {
  const [first] = indicesOf(set);
  return first === undefined || (set & ~glued[first]!) === NONE;
};

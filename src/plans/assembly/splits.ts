/** The ways in which something that is together can come apart in one motion, the one that a maker would undo first at the head. */

import { has, indicesOf, NONE, type Parts } from "./bits.ts";
import { type Blocking, bodiesOf, leavingWith } from "./blocking.ts";
import { axisOfWay, BACK, FRONT, isStill, less, opposite, UP, type Velocity, WAYS } from "./ways.ts";

/** Bodies that part in one motion. A body that stands has a velocity of nothing. */
export type Split = { bodies: { parts: Parts; leaves: Velocity }[]; slides: boolean };

/** Every least set that can leave with some part, some way: one split for each. */
export function splitsOf(blocking: Blocking, all: Parts): Split[] {
  const known = new Set<string>();
  const splits: Split[] = [];
  for (const way of WAYS.keys()) {
    for (const part of indicesOf(all)) {
      const set = leavingWith(blocking, all, part, way);
      const key = `${way} ${set}`;
      if (set === all || known.has(key)) continue;
      known.add(key);
      known.add(`${opposite(way)} ${all & ~set}`);
      splits.push(splitAt(blocking, set, all & ~set, way));
    }
  }
  return inMakersOrder(blocking, splits);
}

/** One set leaves the other: told as the smaller leaving the larger, or the upper the lower. */
export function splitAt(blocking: Blocking, leaving: Parts, staying: Parts, way: number): Split {
  const turned = isMovedInstead(blocking, leaving, staying, way);
  const [mover, rest, out] = turned ? [staying, leaving, opposite(way)] : [leaving, staying, way];
  const still: Velocity = [0, 0, 0];
  return {
    bodies: [
      ...bodiesOf(blocking, mover).map((parts) => ({ parts, leaves: WAYS[out]! })),
      ...bodiesOf(blocking, rest).map((parts) => ({ parts, leaves: still })),
    ],
    slides: blocking.housings.some(
      ({ owner, entering, run }) =>
        run === axisOfWay(out) &&
        ((has(mover, owner) && has(rest, entering)) || (has(rest, owner) && has(mover, entering))),
    ),
  };
}

/** Whether the set that was to leave is better left standing, and the other one moved. */
function isMovedInstead(blocking: Blocking, leaving: Parts, staying: Parts, way: number): boolean {
  const { borrowed, bonds, wood } = blocking;
  if ((leaving & borrowed) !== NONE) return true;
  if ((staying & borrowed) !== NONE) return false;
  const [a, b] = [indicesOf(leaving), indicesOf(staying)];
  // What comes from above is let down; a case that is closed round is not lifted on to its own bottom.
  if (axisOfWay(way) === axisOfWay(UP)) {
    const isClosed = (set: readonly number[]): boolean => set.filter((i) => wood[i]!.part.role === "side").length > 1;
    const [upper, lower] = way === UP ? [a, b] : [b, a];
    if (!(isClosed(upper) && lower.length < upper.length)) return way !== UP;
  }
  const joints = (set: readonly number[]): number =>
    bonds.filter((bond) => set.includes(bond.a) || set.includes(bond.b)).length;
  const order = a.length - b.length || joints(a) - joints(b) || b[0]! - a[0]!;
  return order > 0;
}

/** What is put on or in when all else stands, and its ways out then. */
const LIKES: Readonly<Record<string, readonly number[]>> = {
  looseShelf: [FRONT],
  back: [BACK, UP],
  kick: [FRONT],
  filler: [UP],
  drawerFace: [FRONT],
};

/**
 * Figures to sort by, the least first. What is undone first is put together last: loose shelves; backs, kicks, filler strips and the
 * applied fronts of drawers where nothing stands over them; what goes straight into every glued joint, for along it the glue would be wiped off; sides, which close the
 * case; single parts before several; what comes down before what comes from the ends; the part with most joints; what needs no sliding;
 * and of two alike the upper, then the one to the right. Common practice, no source.
 */
function rankOf(blocking: Blocking, split: Split): number[] {
  const { wood, bonds } = blocking;
  const moving = split.bodies.filter(({ leaves }) => !isStill(leaves));
  const mover = moving.reduce((set, { parts }) => set | parts, NONE);
  const rest = split.bodies.reduce((set, { parts }) => set | parts, NONE) & ~mover;
  const members = indicesOf(mover);
  const between = bonds.filter(({ a, b }) => (has(mover, a) && has(rest, b)) || (has(rest, a) && has(mover, b)));
  const way = WAYS.indexOf(moving[0]!.leaves);
  const rubbed = between.filter(({ a, out, glued }) => glued && way !== (has(mover, a) ? out : opposite(out)));
  const role = wood[members[0]!]!.part.role;
  const likes = members.every((i) => wood[i]!.part.role === role) ? (LIKES[role] ?? []) : [];
  const covers = likes.length > 0 && (likes.includes(way) || !between.some(({ enters }) => enters));
  const lowest = Math.min(...members.map((i) => wood[i]!.bounds[0][2]));
  const leftmost = Math.min(...members.map((i) => wood[i]!.bounds[0][0]));
  return [
    split.bodies.length,
    role === "looseShelf" && covers ? 0 : 1,
    covers ? 0 : 1,
    covers && !likes.includes(way) ? 1 : 0,
    rubbed.length,
    role === "side" && members.length === 1 ? 0 : 1,
    members.length === 1 ? 0 : 1,
    WAY_RANK[way]!,
    -between.length,
    split.slides ? 1 : 0,
    -lowest,
    -leftmost,
    -members[0]!,
  ];
}

/** By the way out, right, left, back, front, up, down: let down first of all, lifted in from below last. */
const WAY_RANK: readonly number[] = [1, 1, 2, 2, 0, 3];

export function inMakersOrder(blocking: Blocking, splits: readonly Split[]): Split[] {
  return splits
    .map((split) => ({ split, rank: rankOf(blocking, split) }))
    .sort((x, y) => {
      const i = x.rank.findIndex((figure, j) => figure !== y.rank[j]);
      return i < 0 ? 0 : x.rank[i]! - y.rank[i]!;
    })
    .map(({ split }) => split);
}

/** Whether a motion of several bodies runs along a groove that holds one of them. */
export const slidesAlong = ({ housings }: Blocking, bodies: Split["bodies"]): boolean =>
  housings.some(({ owner, entering, run }) => {
    const of = (i: number): Velocity => bodies.find(({ parts }) => has(parts, i))?.leaves ?? [0, 0, 0];
    return less(of(entering), of(owner))[run] !== 0;
  });

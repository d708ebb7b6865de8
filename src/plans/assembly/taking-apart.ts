/**
 * Takes an assembly apart in the model, as few bodies at a time as can be; the same motions the other way round put it together. What is
 * in one piece after a motion is taken apart by itself: it is put together by itself on the bench.
 */

import { indicesOf, NONE, type Parts } from "./bits.ts";
import { type Blocking, bodiesOf, isWhole, leavingWith } from "./blocking.ts";
import { type Split, splitAt, splitsOf } from "./splits.ts";
import { type Budget, movesBorrowed, splitsTogether } from "./together.ts";
import { WAYS } from "./ways.ts";

/** One motion, and how each of its bodies came to be. */
export type Apart = { split: Split; inner: Apart[] };

export type Taken = { apart: Apart[]; holds: number; proved: boolean };

/** Up to so many bodies at once every way is tried; beyond, the first that is found. */
export const EXACT = 4;
/** So many things looked at for one number of bodies, in each of the two manners; a search that ends here proves nothing. */
export const BUDGET = 1500;

/** What no motion takes apart; empty where all comes apart. Taking something away never puts anything in the way: any order finds the same. */
export function lockedIn(blocking: Blocking, all: Parts = blocking.all): Parts[] {
  if (isWhole(blocking, all)) return [];
  for (const way of WAYS.keys()) {
    for (const part of indicesOf(all)) {
      const set = leavingWith(blocking, all, part, way);
      if (set !== all) {
        const pieces = [...bodiesOf(blocking, set), ...bodiesOf(blocking, all & ~set)];
        return pieces.flatMap((piece) => lockedIn(blocking, piece));
      }
    }
  }
  const first = splitsTogether(blocking, all, EXACT, budgetOf(BUDGET).take).next();
  if (!first.done) return first.value.bodies.flatMap(({ parts }) => lockedIn(blocking, parts));
  return [all];
}

/** Throws where something is locked: to be asked first. */
export function takeApart(blocking: Blocking, all: Parts = blocking.all): Taken {
  if (isWhole(blocking, all)) return { apart: [], holds: 1, proved: true };
  let proved = true;
  for (let most = 2; most <= indicesOf(all).length; most++) {
    const quick = search(blocking, all, most, "least sets");
    if (quick.found) return { apart: [quick.found], holds: holdsOf(quick.found), proved };
    if (most > EXACT) continue;
    const whole = search(blocking, all, most, "every set");
    if (whole.found) return { apart: [whole.found], holds: holdsOf(whole.found), proved };
    if (whole.ended) proved = false;
  }
  throw new Error(`No order was found for ${blocking.wood.map(({ part }) => part.mark).join(", ")}`);
}

const holdsOf = ({ split, inner }: Apart): number => Math.max(split.bodies.length, ...inner.map(holdsOf));

function budgetOf(most: number): { take: Budget; ended: () => boolean } {
  let left = most;
  return { take: () => left-- > 0, ended: () => left < 0 };
}

/** Depth first, in the maker's order, with what failed kept in mind. */
function search(
  blocking: Blocking,
  all: Parts,
  most: number,
  manner: "least sets" | "every set",
): { found: Apart | null; ended: boolean } {
  const budget = budgetOf(BUDGET);
  const known = new Map<Parts, Apart | null>();
  const open = (set: Parts): Apart | null => {
    const before = known.get(set);
    if (before !== undefined) return before;
    if (!budget.take()) return null;
    let found: Apart | null = null;
    for (const split of manner === "least sets"
      ? splitsOf(blocking, set)
      : everySplit(blocking, set, most, budget.take)) {
      if (split.bodies.length > most) continue;
      const inner = openAll(split);
      if (inner) {
        found = { split, inner };
        break;
      }
    }
    // A search that was broken off has not shown that there is nothing.
    if (found || !budget.ended()) known.set(set, found);
    return found;
  };
  const openAll = (split: Split): Apart[] | null => {
    const inner: Apart[] = [];
    for (const { parts } of split.bodies) {
      if (isWhole(blocking, parts)) continue;
      const apart = open(parts);
      if (!apart) return null;
      inner.push(apart);
    }
    return inner;
  };
  return { found: open(all), ended: budget.ended() };
}

/** Least sets first, then every other set that can leave, then bodies that part at once. */
function* everySplit(blocking: Blocking, all: Parts, most: number, budget: Budget): Generator<Split> {
  yield* splitsOf(blocking, all);
  for (const way of WAYS.keys()) {
    if (way % 2 === 1) continue; // what leaves one way is what is left the other way
    for (const set of closedSets(blocking, all, way, budget)) yield splitAt(blocking, set, all & ~set, way);
  }
  for (const split of splitsTogether(blocking, all, most, budget)) if (!movesBorrowed(blocking, split)) yield split;
}

/** Every set that can leave one way: what is in the way of its parts is in it. */
function* closedSets(blocking: Blocking, all: Parts, way: number, budget: Budget): Generator<Parts> {
  const least = [...new Set(indicesOf(all).map((part) => leavingWith(blocking, all, part, way)))];
  const seen = new Set<Parts>([NONE]);
  let ring: Parts[] = [NONE];
  while (ring.length > 0) {
    const next: Parts[] = [];
    for (const set of ring) {
      for (const one of least) {
        const union = set | one;
        if (union === all || seen.has(union)) continue;
        if (!budget()) return;
        seen.add(union);
        next.push(union);
        yield union;
      }
    }
    ring = next;
  }
}

/** The motions of an order, each the other way round: what stands is put together before what is brought to it. */
export const motionsOf = (apart: readonly Apart[]): Split[] =>
  apart.flatMap(({ split, inner }) => [...[...inner].reverse().flatMap((one) => motionsOf([one])), split]);

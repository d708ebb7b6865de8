/**
 * Several bodies that part at the same time, each at a velocity of its own: what no two hands can undo. Velocities are -1, 0 and 1 on
 * each axis, one body stands, and every pair is swept along the difference of its velocities.
 */

import { has, indicesOf, NONE, type Parts } from "./bits.ts";
import { type Blocking, bodiesOf } from "./blocking.ts";
import { type Split, slidesAlong } from "./splits.ts";
import { isStill, less, VELOCITIES, type Velocity } from "./ways.ts";

/** Tells a search that it has looked at one more; false: that is enough. */
export type Budget = () => boolean;

/** Every way in which at most `most` bodies part at once; stops where the budget ends. */
export function* splitsTogether(blocking: Blocking, all: Parts, most: number, budget: Budget): Generator<Split> {
  const units = unitsOf(blocking, all);
  const chosen: Velocity[] = [];
  function* choose(): Generator<Split> {
    if (chosen.length === units.length) {
      const split = splitBy(blocking, units, chosen);
      if (split.bodies.length > 1 && split.bodies.length <= most && split.bodies.some(({ leaves }) => isStill(leaves)))
        yield split;
      return;
    }
    const used = new Set(chosen.map(String));
    for (const v of VELOCITIES) {
      if (used.size >= most && !used.has(String(v))) continue;
      if (!chosen.every((other, i) => canLeave(blocking, units[chosen.length]!, units[i]!, less(v, other)))) continue;
      if (!budget()) return;
      chosen.push(v);
      yield* choose();
      chosen.pop();
    }
  }
  yield* choose();
}

const canLeave = ({ leaves }: Blocking, a: Parts, b: Parts, v: Velocity): boolean =>
  isStill(v) || indicesOf(a).every((i) => indicesOf(b).every((j) => leaves(i, j, v)));

/** What is never taken apart here, each next to one before it where it can be, so that a wrong choice shows at once. */
function unitsOf({ glued, linked, inTheWay }: Blocking, all: Parts): Parts[] {
  const units: Parts[] = [];
  let left = all;
  let near = all;
  while (left !== NONE) {
    const [first] = indicesOf((left & near) === NONE ? left : left & near);
    const unit = glued[first!]! & all;
    units.push(unit);
    left &= ~unit;
    if (near === all) near = NONE;
    for (const i of indicesOf(unit)) near |= linked[i]! | inTheWay.reduce((set, graph) => set | graph[i]!, NONE);
  }
  return units;
}

function splitBy(blocking: Blocking, units: readonly Parts[], velocities: readonly Velocity[]): Split {
  const groups = new Map<string, { parts: Parts; leaves: Velocity }>();
  for (const [i, v] of velocities.entries()) {
    const group = groups.get(String(v)) ?? { parts: NONE, leaves: v };
    group.parts |= units[i]!;
    groups.set(String(v), group);
  }
  const bodies = [...groups.values()].flatMap(({ parts, leaves }) =>
    bodiesOf(blocking, parts).map((body) => ({ parts: body, leaves })),
  );
  const moving = bodies.filter(({ leaves }) => !isStill(leaves));
  const standing = bodies.filter(({ leaves }) => isStill(leaves));
  const sorted = [...moving, ...standing];
  return { bodies: sorted, slides: slidesAlong(blocking, sorted) };
}

/** What is borrowed stands where it is. */
export const movesBorrowed = ({ borrowed }: Blocking, { bodies }: Split): boolean =>
  bodies.some(({ parts, leaves }) => !isStill(leaves) && indicesOf(borrowed).some((i) => has(parts, i)));

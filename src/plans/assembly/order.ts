/** The order in which each assembly goes together: taken apart in the model, and told the other way round. */
import type { Mm } from "../../base/length.ts";
import type { GlueTime } from "../../project/project.ts";
import type { SetAssembly, SetOrder } from "../../set/schema.ts";
import { has, indicesOf, NONE, type Parts, setOf } from "./bits.ts";
import { type Blocking, blockingOf, bodiesOf } from "./blocking.ts";
import { planGlueUps, type Ungrouped } from "./glue-ups.ts";
import { explainLock } from "./locked.ts";
import type { Split } from "./splits.ts";
import { lockedIn, motionsOf, takeApart } from "./taking-apart.ts";
import { isStill, reversed } from "./ways.ts";
import { type OrderInput, woodOf } from "./wood.ts";

export type OrdersInput = OrderInput & {
  step: Mm;
  /** Lists of marks, each declared one finished glue-up. */
  finished: readonly (readonly string[])[];
  glue: GlueTime | null;
};

/** Strips beside drawers are fixed to the case one by one. */
export const planOrders = (input: OrdersInput): SetOrder[] =>
  input.assemblies
    .filter(({ kind, feet }) => kind !== "packing" && kind !== "return" && feet === null)
    .map((assembly) => planOrder(assembly, input));

function planOrder(assembly: SetAssembly, input: OrdersInput): SetOrder {
  const wood = woodOf(assembly, input);
  const loose = blockingOf(wood, input.joints, input.step);
  const finished = finishedIn(loose, input.finished);
  const blocking = finished.length === 0 ? loose : blockingOf(wood, input.joints, input.step, finished);
  const marksOf = (set: Parts): string[] => indicesOf(set).map((i) => wood[i]!.part.mark);
  const order = { assembly: assembly.name, finished: finished.map(marksOf) };
  // A finished glue-up is put together like any other thing, by itself and first.
  for (const group of [...finished, blocking.all]) {
    const stuck = lockedIn(group === blocking.all ? blocking : loose, group);
    if (stuck.length === 0) continue;
    const within = group === blocking.all ? finished : [];
    return {
      ...order,
      moves: [],
      holds: 0,
      proved: false,
      glueUps: [],
      locked: explainLock(assembly, { ...input, wood, finished: within, group }, stuck),
    };
  }
  const taken = [...finished.map((group) => takeApart(loose, group)), takeApart(blocking)];
  const moves = taken.flatMap(({ apart }, i) =>
    motionsOf(apart).map((split, j) => moveOf(blocking, split, i > 0 && j === 0)),
  );
  return {
    ...order,
    ...planGlueUps(moves, input.glue),
    holds: Math.max(1, ...taken.map(({ holds }) => holds)),
    proved: taken.every(({ proved }) => proved),
    locked: null,
  };
}

/** Declared glue-ups as sets of parts of one assembly, those with parts in common made one; what does not hold together is no glue-up. */
export function finishedIn(blocking: Blocking, lists: readonly (readonly string[])[]): Parts[] {
  let groups: Parts[] = [];
  for (const list of lists) {
    const own = setOf([...blocking.wood.keys()].filter((i) => list.includes(blocking.wood[i]!.part.mark)));
    const common = groups.filter((group) => (group & own) !== NONE);
    groups = [...groups.filter((group) => !common.includes(group)), common.reduce((set, group) => set | group, own)];
  }
  return groups.flatMap((group) => bodiesOf(blocking, group)).filter((group) => indicesOf(group).length > 1);
}

function moveOf({ wood, bonds }: Blocking, { bodies, slides }: Split, apart: boolean): Ungrouped {
  const moving = bodies.filter(({ leaves }) => !isStill(leaves));
  const standing = bodies.filter(({ leaves }) => isStill(leaves)).reduce((set, { parts }) => set | parts, NONE);
  const mover = moving.reduce((set, { parts }) => set | parts, NONE);
  const closed = bonds.filter(({ a, b }) => bodies.some(({ parts }) => has(parts, a) !== has(parts, b)));
  const within = closed.filter(({ a, b }) => [a, b].every((i) => has(mover, i) || has(standing, i)));
  const met = setOf(within.flatMap(({ a, b }) => [a, b]).filter((i) => has(standing, i)));
  return {
    bring: moving.map(({ parts, leaves }) => ({
      parts: indicesOf(parts).map((i) => wood[i]!.part.mark),
      travel: reversed(leaves),
    })),
    to: indicesOf(met).map((i) => wood[i]!.part.mark),
    slides,
    held: bodies.length,
    joints: within.filter(({ glued }) => glued).length,
    apart,
  };
}

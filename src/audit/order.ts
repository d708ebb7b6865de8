/** The order of assembly, carried out with the dry fit's own solids: nothing may stand in the way of any move, and nothing may be left over. */
import type { Box } from "../base/geometry.ts";
import type { DryfitSet, SetCheck, SetOrder } from "../set/schema.ts";
import { TOUCH } from "./boxes.ts";
import type { Solid } from "./solid.ts";
import { failure, nameAll, nameOf, partsOf } from "./words.ts";

type Travel = readonly [number, number, number];

/** Whether a box that comes from far off and travels so would meet another on its way, before it is where it belongs. */
export function isHit(a: Box, b: Box, travel: Travel): boolean {
  // At time -t it lies t travels back; the times at which the two overlap on every axis.
  let [from, to] = [0, Number.POSITIVE_INFINITY];
  for (const axis of [0, 1, 2] as const) {
    const [low, high] = [b[0][axis] - a[1][axis] + TOUCH, b[1][axis] - a[0][axis] - TOUCH];
    const v = -travel[axis];
    if (v === 0) {
      if (low >= 0 || high <= 0) return false;
      continue;
    }
    const [one, other] = [low / v, high / v];
    from = Math.max(from, Math.min(one, other));
    to = Math.min(to, Math.max(one, other));
  }
  return from < to;
}

const minus = (a: Travel, b: Travel): Travel => [a[0] - b[0], a[1] - b[1], a[2] - b[2]];
const STILL: Travel = [0, 0, 0];

export function checkOrder(set: DryfitSet, solids: readonly Solid[]): SetCheck[] {
  return [
    ...set.orders.flatMap((order) => (order.locked === null ? carryOut(order, set, solids) : [])),
    ...withoutOrder(set, solids),
  ];
}

/** A set that tells orders tells one for each assembly; one that tells none, such as a single spoiled part, is judged by its wood alone. */
function withoutOrder(set: DryfitSet, solids: readonly Solid[]): SetCheck[] {
  if (set.orders.length === 0) return [];
  const told = set.orders.map(({ assembly }) => assembly);
  return set.assemblies.flatMap(({ name }) => {
    const own = partsOf(solids.filter(({ part }) => part.assembly === name));
    if (told.includes(name) || own.length < 2) return [];
    return [failure("assembly-order", own, `No order is told for ${name}. Change: tell one.`)];
  });
}

function carryOut(order: SetOrder, set: DryfitSet, solids: readonly Solid[]): SetCheck[] {
  const assembly = set.assemblies.find(({ name }) => name === order.assembly);
  if (!assembly) {
    return [
      failure(
        "assembly-order",
        [],
        `An order is told for ${order.assembly}, which is no assembly of the set. Change: its name.`,
      ),
    ];
  }
  const own = solids.filter(({ part }) => part.assembly === assembly.name);
  const all = [...own, ...solids.filter(({ part }) => assembly.borrows.includes(part.mark))];
  const byMark = new Map(all.map((solid) => [solid.part.mark, solid]));
  const checks: SetCheck[] = [];
  const fail = (parts: readonly Solid[], text: string): void => {
    checks.push(failure("assembly-order", partsOf(parts), `Move ${text} Change: the order.`));
  };
  // Which parts hold together so far; at first each stands by itself.
  let bodies = all.map((solid) => [solid]);
  const bodyOf = (solid: Solid): Solid[] => bodies.find((body) => body.includes(solid))!;
  let most = 1;
  for (const { n, bring, to, held } of order.moves) {
    const missing = [...bring.flatMap(({ parts }) => parts), ...to].filter((mark) => !byMark.has(mark));
    if (missing.length > 0) {
      fail(
        [],
        `${n} of ${assembly.name} speaks of ${missing.join(", ")}, which ${missing.length === 1 ? "is" : "are"} not in it.`,
      );
      continue;
    }
    const moving = bring.map(({ parts, travel }) => ({ solids: parts.map((mark) => byMark.get(mark)!), travel }));
    for (const { solids: together } of moving) {
      const whole = new Set(together.flatMap(bodyOf));
      if (whole.size === together.length) continue;
      const others = [...whole].filter((solid) => !together.includes(solid));
      fail(
        others,
        `${n} of ${assembly.name} brings ${nameAll(partsOf(together))}, but ${nameAll(partsOf(others))} would come along.`,
      );
    }
    const standing = [...new Set(to.map((mark) => byMark.get(mark)!).flatMap(bodyOf))];
    const groups = [...moving, { solids: standing, travel: STILL }];
    const bodiesHeld = moving.length + new Set(standing.map(bodyOf)).size;
    most = Math.max(most, bodiesHeld);
    if (bodiesHeld !== held)
      fail(standing, `${n} of ${assembly.name} holds ${bodiesHeld} bodies at once, not ${held} as it says.`);
    groups.forEach((one, i) => {
      for (const other of groups.slice(i + 1)) {
        const travel = minus(one.travel, other.travel);
        for (const a of one.solids) {
          for (const b of other.solids) {
            if (!a.cells.some((x) => b.cells.some((y) => isHit(x, y, travel)))) continue;
            fail([a, b], `${n} of ${assembly.name}: ${nameOf(b.part)} stands in the way of ${nameOf(a.part)}.`);
          }
        }
      }
    });
    const joined = groups.flatMap((group) => group.solids.flatMap(bodyOf));
    bodies = [...bodies.filter((body) => !body.some((solid) => joined.includes(solid))), [...new Set(joined)]];
  }
  if (order.holds !== most) {
    checks.push(
      failure(
        "assembly-order",
        partsOf(all),
        `The order of ${assembly.name} holds ${most} bodies at once, not ${order.holds} as it says. Change: the figure.`,
      ),
    );
  }
  const brought = new Set(order.moves.flatMap(({ bring }) => bring.flatMap(({ parts }) => parts)));
  const standing = all.filter(({ part }) => !brought.has(part.mark));
  if (standing.length > 1) {
    checks.push(
      failure(
        "assembly-order",
        partsOf(standing),
        `The order of ${assembly.name} begins with one part, but ${nameAll(partsOf(standing))} are never brought. Change: a move for each but the first.`,
      ),
    );
  }
  const lonely = bodies.filter((body) => body.length === 1 && order.moves.length > 0).flat();
  if (bodies.length > 1 && all.length > 1) {
    const left = lonely.length > 0 ? lonely : bodies[0]!;
    checks.push(
      failure(
        "assembly-order",
        partsOf(left),
        `The order of ${assembly.name} leaves ${bodies.length} pieces that are not joined, ${nameAll(partsOf(left))} among them. Change: a move for each.`,
      ),
    );
  }
  return checks;
}

/** The order of assembly, carried out with the dry fit's own solids: nothing may stand in the way of any move, and nothing may be left over. */
import type { Box } from "../../base/geometry.ts";
import type { DryfitSet, SetCheck, SetOrder } from "../../set/schema.ts";
import { isInLine } from "../joints/dowels.ts";
import type { Housing } from "../joints/grooves.ts";
import { TOUCH } from "../solids/boxes.ts";
import type { Hole, Solid } from "../solids/solid.ts";
import { failure, nameAll, nameOf, partsOf } from "../words.ts";

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
/** Farther apart than this, two mouths are not one dowel's: a rounding step is less. */
const MOUTHS = 3;
const STILL: Travel = [0, 0, 0];

export function checkOrder(set: DryfitSet, solids: readonly Solid[], housings: readonly Housing[]): SetCheck[] {
  return [
    ...set.orders.flatMap((order) => (order.locked === null ? carryOut(order, set, solids, housings) : [])),
    ...withoutOrder(set, solids),
  ];
}

/** A set that tells orders tells one for each assembly; one that tells none, such as a single spoiled part, is judged by its wood alone. */
function withoutOrder(set: DryfitSet, solids: readonly Solid[]): SetCheck[] {
  if (set.orders.length === 0) return [];
  const told = set.orders.map(({ assembly }) => assembly);
  return set.assemblies.flatMap(({ name, kind }) => {
    // Strips beside drawers, and what goes round the end of a case, are fixed to the case one by one.
    if (kind === "packing" || kind === "return") return [];
    const own = partsOf(solids.filter(({ part }) => part.assembly === name));
    if (told.includes(name) || own.length < 2) return [];
    return [failure("assembly-order", own, `No order is told for ${name}. Change: tell one.`)];
  });
}

/** What dowels or loose tenons go into. */
const pinned = ({ holes, mortises }: Solid): Hole[] => [...holes, ...mortises];

/** Holes that face each other and go on in one line: a dowel's. */
const dowelled = (solids: readonly Solid[]): [Hole, Hole][] =>
  solids.flatMap((solid, i) =>
    solids.slice(i + 1).flatMap((other) =>
      pinned(solid).flatMap((hole) => {
        const mate = pinned(other).find((each) => isInLine(hole, each) && facesUp(hole, each));
        return mate ? [[hole, mate] as [Hole, Hole]] : [];
      }),
    ),
  );

/** Their mouths lie against each other: not across a bay. */
const facesUp = (a: Hole, b: Hole): boolean => {
  const mouth = ({ box, depth, inward }: Hole): number => box[inward === 1 ? 0 : 1][depth];
  return Math.abs(mouth(a) - mouth(b)) < MOUTHS;
};

/** A glue-up has the parts of its moves, and as many joints as these close with glue. */
function checkGlueUps(order: SetOrder, set: DryfitSet, all: readonly Solid[]): SetCheck[] {
  const checks: SetCheck[] = [];
  const bodies = new Map(all.map(({ part }) => [part.mark, new Set([part.mark])]));
  const count = new Map<number, number>();
  for (const { bring, to, group } of order.moves) {
    const sets = [...bring.map(({ parts }) => parts), to].map(
      (marks) => new Set(marks.flatMap((mark) => [...(bodies.get(mark) ?? [])])),
    );
    const home = (mark: string): number => sets.findIndex((one) => one.has(mark));
    const closed = set.joints.filter(
      ({ entering, receiving, fixings }) =>
        fixings.startsWith("glue") && home(entering) >= 0 && home(receiving) >= 0 && home(entering) !== home(receiving),
    );
    count.set(group, (count.get(group) ?? 0) + closed.length);
    const whole = new Set(sets.flatMap((one) => [...one]));
    for (const mark of whole) bodies.set(mark, whole);
  }
  for (const { n, parts, joints } of order.glueUps) {
    const moves = order.moves.filter(({ group }) => group === n);
    const wanted = new Set(moves.flatMap(({ bring, to }) => [...bring.flatMap((body) => body.parts), ...to]));
    const wrong =
      wanted.size !== parts.length || parts.some((mark) => !wanted.has(mark))
        ? "does not have the parts of its moves"
        : set.joints.length > 0 && count.get(n) !== joints
          ? `closes ${count.get(n)} glued joints, not ${joints}`
          : null;
    if (wrong === null) continue;
    const own = partsOf(all.filter(({ part }) => parts.includes(part.mark)));
    checks.push(failure("assembly-order", own, `Glue-up ${n} of ${order.assembly} ${wrong}. Change: the glue-up.`));
  }
  return checks;
}

function carryOut(order: SetOrder, set: DryfitSet, solids: readonly Solid[], housings: readonly Housing[]): SetCheck[] {
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
  checks.push(...checkGlueUps(order, set, all));
  for (const { n, bring, to, held, slides } of order.moves) {
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
    const travelOf = (solid: Solid): Travel | undefined => groups.find((group) => group.solids.includes(solid))?.travel;
    const against = (a: Solid, b: Solid): Travel | null => {
      const [one, other] = [travelOf(a), travelOf(b)];
      return one === undefined || other === undefined ? null : minus(one, other);
    };
    const along = housings.some(
      ({ channel, entering }) =>
        channel.feature.kind === "groove" && (against(entering, channel.owner)?.[channel.run] ?? 0) !== 0,
    );
    if (along !== slides) {
      fail(
        moving.flatMap((group) => group.solids),
        `${n} of ${assembly.name} is told as ${slides ? "a slide along a groove, but it goes straight in" : "going straight in, but it slides along a groove"}.`,
      );
    }
    for (const [a, b] of dowelled(groups.flatMap((group) => group.solids))) {
      const travel = against(a.owner, b.owner);
      const sideways = travel?.some((part, axis) => axis !== a.depth && part !== 0);
      if (!sideways) continue;
      fail(
        [a.owner, b.owner],
        `${n} of ${assembly.name}: the dowels between ${nameOf(a.owner.part)} and ${nameOf(b.owner.part)} go in straight only.`,
      );
    }
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

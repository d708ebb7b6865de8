/** Faults of orders of assembly, and of glue-ups: the parts are right, and one move is not. */
import type { DryfitSet, SetMove, SetOrder, SetPart } from "../../../src/set/schema.ts";
import type { Excluded, Fault, Planted } from "./faults.ts";

type Edit = (order: SetOrder) => void;

export function plantOrderFaults(set: DryfitSet): Planted {
  const faults: Fault[] = [];
  const excluded: Excluded[] = [];
  set.orders.forEach((order, i) => {
    const own = set.parts.filter(({ assembly }) => assembly === order.assembly).map(({ mark }) => mark);
    const mark = `order of ${order.assembly}`;
    const plant = (kind: string, blame: string[], edit: Edit): void => {
      const orders = structuredClone(set.orders);
      edit(orders[i]!);
      faults.push({ kind: `order ${kind}`, mark, blame, set: { ...set, orders } });
    };
    if (order.moves.length === 0) {
      excluded.push({ kind: "order", mark, reason: "one part needs no order" });
      return;
    }
    plant("that holds one more than told", own, (each) => {
      each.holds -= 1;
    });
    const leaveOut = (kind: string, reason: string): void => {
      excluded.push({ kind: `order ${kind}`, mark, reason });
    };
    order.moves.forEach((move, j) => {
      plantMove(move, j, own, set.parts, plant, leaveOut);
    });
    order.glueUps.forEach(({ parts }, j) => {
      plant("with a glue-up of one part too few", parts, (each) => {
        each.glueUps[j]!.parts.pop();
      });
    });
  });
  if (set.assemblies.length > 1) {
    set.orders.forEach((order, i) => {
      if (order.moves.length === 0) return;
      const blame = set.parts.filter(({ assembly }) => assembly === order.assembly).map(({ mark }) => mark);
      const orders = set.orders.filter((_, j) => j !== i);
      if (orders.length > 0)
        faults.push({ kind: "order missing", mark: order.assembly, blame, set: { ...set, orders } });
    });
  }
  return { faults, excluded };
}

/** Whether one of these lies in a groove of one of those, or the other way about. */
const isHoused = (some: readonly string[], others: readonly string[], parts: readonly SetPart[]): boolean =>
  parts.some(({ mark, features }) =>
    features.some(
      ({ kind, holds }) =>
        (kind === "groove" || kind === "rabbet") &&
        holds !== null &&
        ((some.includes(mark) && others.includes(holds)) || (others.includes(mark) && some.includes(holds))),
    ),
  );

function plantMove(
  move: SetMove,
  index: number,
  own: string[],
  parts: readonly SetPart[],
  plant: (kind: string, blame: string[], edit: Edit) => void,
  leaveOut: (kind: string, reason: string) => void,
): void {
  const brought = move.bring.flatMap(({ parts }) => parts);
  const met = [...brought, ...move.to];
  plant("with a move missing", own, (each) => {
    each.moves.splice(index, 1);
  });
  plant("that holds one body fewer in a move than told", move.to, (each) => {
    each.moves[index]!.held += 1;
  });
  if (move.slides) leaveOut("with a move from the other side", "it slides, and may do so either way");
  else if (!isHoused(brought, move.to, parts))
    leaveOut("with a move from the other side", "it only butts, and may come either way");
  else if (move.bring.length > 1) leaveOut("with a move from the other side", "several bodies come at once");
  else
    plant("with a move from the other side", met, (each) => {
      const body = each.moves[index]!.bring[0]!;
      body.travel = body.travel.map((part) => (part === 0 ? 0 : -part)) as typeof body.travel;
    });
  plant(move.slides ? "with a slide told as straight" : "with a straight move told as a slide", brought, (each) => {
    each.moves[index]!.slides = !move.slides;
  });
  if (move.bring[0]!.parts.length === 1) leaveOut("with a part left out of a move", "one part comes by itself");
  else
    plant("with a part left out of a move", own, (each) => {
      each.moves[index]!.bring[0]!.parts.pop();
    });
}

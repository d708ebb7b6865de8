/** Whether each assembly goes together, and how many hands it asks for. */
import type { SetCheck, SetOrder } from "../../set/schema.ts";
import { checkOf } from "./input.ts";

const RULE =
  "an assembly can be put together if it can be taken apart: for each way, which part is in whose way, and which parts lock each other (directional blocking graphs, Wilson and Latombe 1994)";

export const checkOrders = (orders: readonly SetOrder[]): SetCheck[] =>
  orders.map(({ assembly, moves, holds, proved, locked }) => {
    if (locked !== null) {
      return checkOf("assembly-order", "failure", locked.parts, {
        text: `${assembly} cannot be put together: ${locked.text}`,
        rule: RULE,
        change: locked.change,
      });
    }
    const hands = proved ? "no order needs fewer" : "the best found: fewer may do";
    return checkOf("assembly-order", "ok", [], {
      text: `${assembly} goes together in ${moves.length} ${moves.length === 1 ? "move" : "moves"}, at most ${holds} ${holds === 1 ? "body" : "bodies"} held at once (${hands}).`,
      rule: RULE,
    });
  });

/** Whether each assembly goes together, how many hands it asks for, and whether the glue stays open long enough. */
import { listInWords } from "../../base/words.ts";
import type { GlueTime } from "../../project/project.ts";
import type { DryfitSet, SetCheck, SetOrder } from "../../set/schema.ts";
import { overlongMoves } from "../assembly/glue-ups.ts";
import { checkOf } from "./input.ts";

const RULE =
  "an assembly can be put together if it can be taken apart: for each way, which part is in whose way, and which parts lock each other (directional blocking graphs, Wilson and Latombe 1994)";

export const checkOrders = (orders: readonly SetOrder[]): SetCheck[] =>
  orders.flatMap(({ assembly, moves, holds, proved, locked }): SetCheck[] => {
    if (locked !== null)
      return [
        checkOf("assembly-order", "failure", locked.parts, {
          text: `${assembly} cannot be put together: ${locked.text}`,
          rule: RULE,
          change: locked.change,
        }),
      ];
    // Of one part: there is nothing to put together.
    if (moves.length === 0) return [];
    const hands = proved ? "no order needs fewer" : "the best found: fewer may do";
    return [
      checkOf("assembly-order", "ok", [], {
        text: `${assembly} goes together in ${moves.length} ${moves.length === 1 ? "move" : "moves"}, at most ${holds} ${holds === 1 ? "body" : "bodies"} held at once (${hands}).`,
        rule: RULE,
      }),
    ];
  });

const GLUE_RULE =
  "what is glued in one go is spread and closed while the glue is open: the job's own minutes for each joint and open time";

/** Moves that take longer than the glue stays open, however the glue-ups are parted. */
export function checkGlueUps(
  orders: readonly SetOrder[],
  { parts, joints, glue }: Pick<DryfitSet, "parts" | "joints"> & { glue: GlueTime | null },
): SetCheck[] {
  if (glue === null) return [];
  const named = (marks: readonly string[]): string =>
    listInWords(marks.map((mark) => `${parts.find((part) => part.mark === mark)!.name} ${mark}`));
  return orders.flatMap((order) =>
    overlongMoves(order, joints, glue).map(({ move, joints: count, minutes }) => {
      const brought = move.bring.flatMap((body) => body.parts);
      const least = Math.ceil(minutes);
      return checkOf("glue-up", "warning", brought, {
        text: `In ${order.assembly}, move ${move.n} closes ${count} joints at once (${named(brought)} with ${named(move.to)}): about ${least} minutes at ${glue.minutesPerJoint} a joint, and the glue stays open ${glue.openMinutes}.`,
        rule: GLUE_RULE,
        change: `a slower glue, open ${least} minutes or more ("glue.openMinutes"); a helper who spreads while you close (a shorter "glue.minutesPerJoint"); or glue fewer of the joints: dry sub-assemblies that slide in, or a part joined with screws ("joints")`,
      });
    }),
  );
}

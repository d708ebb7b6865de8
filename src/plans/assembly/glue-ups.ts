/** Glue-ups: moves in their order, as many to a group as can be spread and closed before the glue sets. */
import type { GlueTime } from "../../project/project.ts";
import type { SetMove, SetOrder } from "../../set/schema.ts";

/** A move before its glue-up is known; `joints`: how many joints it closes that take glue. `apart`: it begins a glue-up of its own. */
export type Ungrouped = Omit<SetMove, "group" | "n"> & { joints: number; apart: boolean };

/** Joints to a glue-up: so many as the job says, or as the open time holds; at least one. */
export function mostJoints(glue: GlueTime | null): number {
  if (glue === null) return Number.POSITIVE_INFINITY;
  return Math.max(1, glue.mostJoints ?? Math.floor(glue.openMinutes / glue.minutesPerJoint + 1e-9));
}

export function planGlueUps(moves: readonly Ungrouped[], glue: GlueTime | null): Pick<SetOrder, "moves" | "glueUps"> {
  const most = mostJoints(glue);
  const glueUps: SetOrder["glueUps"] = [];
  const grouped = moves.map(({ joints, apart, ...move }, i): SetMove => {
    let last = glueUps.at(-1);
    // A move without glue, such as a loose shelf's, waits for nothing.
    if (last === undefined || apart || (joints > 0 && last.joints > 0 && last.joints + joints > most)) {
      last = { n: glueUps.length + 1, parts: [], joints: 0, minutes: null };
      glueUps.push(last);
    }
    const parts = [...move.bring.flatMap((body) => body.parts), ...move.to];
    last.parts.push(...parts.filter((mark) => !last.parts.includes(mark)));
    last.joints += joints;
    return { n: i + 1, ...move, group: last.n };
  });
  const minutesOf = (joints: number): number | null => (glue === null ? null : joints * glue.minutesPerJoint);
  return { moves: grouped, glueUps: glueUps.map((one) => ({ ...one, minutes: minutesOf(one.joints) })) };
}

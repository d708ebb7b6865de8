/** Glue-ups: moves in their order, as many to a group as can be spread and closed before the glue sets. */
import type { GlueTime } from "../../project/project.ts";
import type { SetJoint, SetMove, SetOrder } from "../../set/schema.ts";
import { takesGlue } from "./bonds.ts";

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

export type Overlong = { move: SetMove; joints: number; minutes: number };

/** Single moves that close more joints than can be spread and closed while the glue is open: no glue-up can be made of them. */
export function overlongMoves({ moves, glueUps }: SetOrder, joints: readonly SetJoint[], glue: GlueTime): Overlong[] {
  return glueUps.flatMap(({ n, joints: all, minutes }): Overlong[] => {
    if (minutes === null || minutes <= glue.openMinutes + 1e-9) return [];
    const counted = moves
      .filter(({ group }) => group === n)
      .map((move) => ({ move, joints: closedBy(move, joints) }))
      .sort((a, b) => b.joints - a.joints);
    const [most] = counted;
    // Several moves in one glue-up are there because the job gives the number of joints itself.
    return most === undefined || most.joints < all ? [] : [{ ...most, minutes: most.joints * glue.minutesPerJoint }];
  });
}

/** Joints with glue between what a move brings and what stands ready. */
function closedBy({ bring, to }: SetMove, joints: readonly SetJoint[]): number {
  const bodies = [...bring.map(({ parts }) => parts), to];
  const bodyOf = (mark: string): number => bodies.findIndex((marks) => marks.includes(mark));
  return joints.filter((joint) => {
    const [a, b] = [bodyOf(joint.entering), bodyOf(joint.receiving)];
    return takesGlue(joint) && a >= 0 && b >= 0 && a !== b;
  }).length;
}

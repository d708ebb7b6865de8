/** What is left on to be scribed: is there a wall at that side, something that is scribed to it, and does that reach it? */
import { formatLengthWithUnit, type Mm, SAME } from "../../base/length.ts";
import type { Problem } from "../../base/problem.ts";
import { inputProblem } from "../file/problems.ts";
import type { Project } from "../project.ts";

export function checkScribe(project: Project): Problem[] {
  const { walls, cases, worktops, unit } = project;
  const show = (length: Mm): string => formatLengthWithUnit(length, unit);
  return (["left", "right", "back"] as const).flatMap((side): Problem[] => {
    const allowance = walls.scribe[side];
    if (allowance < SAME) return [];
    const problem = (found: string, expected: string, remedy: string): Problem[] => [
      inputProblem(project, `walls.scribe.${side}`, found, expected, remedy),
    ];
    const beyond = [
      ...(side === "back" ? [] : cases.flatMap(({ frame }) => (frame === null ? [] : [frame.overhang]))),
      ...worktops.map(({ overhang }) => overhang[side]),
    ];
    if (beyond.length === 0)
      return problem(
        `${show(allowance)} to scribe at the ${side}, and nothing there that is scribed`,
        side === "back" ? "a worktop" : "a face frame or a worktop",
        "take it out",
      );
    const lipped = worktops.find(({ lipping }) => lipping?.edges.includes(side) === true);
    if (lipped !== undefined)
      return problem(
        `${show(allowance)} to scribe at the ${side}, where ${lipped.name} has a lipping`,
        "an edge without a lipping: it would be planed through",
        'name the other edges in the "edges" of its "lipping"',
      );
    if (side === "back") return [];
    if (cases.some(({ frame }) => frame?.returns?.sides.includes(side) === true))
      return problem(
        `${show(allowance)} to scribe at the ${side}, where a face frame goes round the end of its case`,
        "a frame without a return at a wall",
        'name the other end in the "sides" of "returns", or take "scribe" out',
      );
    const clear = walls[side];
    if (clear === null)
      return problem(
        `${show(allowance)} to scribe at the ${side}, where there is no wall`,
        `"${side}" under "walls": how far it stands clear of the cases`,
        `give "${side}", 0 where they stand against it`,
      );
    const reaches = Math.max(...beyond) + allowance;
    return clear <= reaches + SAME
      ? []
      : problem(
          `${show(allowance)} to scribe at the ${side}, which reaches ${show(reaches)} beyond the cases, and the wall stands ${show(clear)} off`,
          `at least ${show(clear - Math.max(...beyond))}`,
          "leave more on, or set the cases nearer to the wall",
        );
  });
}

/** Is there wood enough beside, and length enough in, the grooves that the design asks for? As printed: rounding may take some of it. */

import { formatLengthWithUnit, type Mm, SAME } from "../../base/length.ts";
import type { Problem } from "../../base/problem.ts";
import { rounderOf } from "../../base/step.ts";
import type { Case } from "../case.ts";
import { LEAST_BESIDE, LEAST_GROOVE } from "../defaults.ts";
import { designProblem } from "../file/problems.ts";
import { quote } from "../file/words.ts";
import { jointsIn } from "../places.ts";
import { joineryPath, type Project } from "../project.ts";
import type { Role } from "../role.ts";
import { clearDepth, stockIn, thicknessIn } from "./clear-inside.ts";

export function checkGrooves(project: Project, design: Case): Problem[] {
  return [...checkWood(project, design), ...checkSetBack(project, design)];
}

/** Wood left between a groove and the end or edge that it runs along. */
function checkWood(project: Project, design: Case): Problem[] {
  const round = rounderOf(project.step);
  const show = (length: Mm): string => formatLengthWithUnit(length, project.unit);
  const name = quote(design.name);
  const problems: Problem[] = [];
  /** Behind or above the groove of a part that lies so far in; the wall of a back is rounded away from the edge. */
  const leftBeyond = (size: Mm, inset: Mm, role: Role): Mm => {
    const { thickness, thickest } = stockIn(design, project.stock, role);
    const wall = size - inset - thickness;
    const width = thickest + design.joinery.allowance;
    const printedWall = role === "back" ? round.down(wall) : round.nearest(wall);
    return Math.min(size - wall, round.down(size) - printedWall) - width;
  };

  // More than the coarsest step, so a raised bottom stays raised once rounded, and there is height for a kick.
  const { up } = design.bottom;
  if (up > 0 && up < LEAST_BESIDE - SAME) {
    problems.push(
      designProblem(
        project,
        `${design.path}.bottom.up`,
        `the bottom of ${name} is raised ${show(up)}, and so little wood is left below its grooves`,
        `0, or at least ${show(LEAST_BESIDE)} of wood below the grooves`,
        "write 0 for a bottom at the very end of the sides, or raise it more",
      ),
    );
  }
  const { down } = design.top;
  if (down > 0 && leftBeyond(design.height, down, "top") <= LEAST_BESIDE + SAME) {
    problems.push(
      designProblem(
        project,
        `${design.path}.top.${design.top.fillers === null ? "down" : "fillers"}`,
        `the top panel of ${name} is set down ${show(down)}, and its grooves break out of the sides' upper ends`,
        `${design.top.fillers === null ? "0, or more" : "more"} than ${show(LEAST_BESIDE)} of wood above the grooves`,
        design.top.fillers === null
          ? "write 0 for a flush top panel, or set it down more"
          : 'choose a thicker stock for "filler"',
      ),
    );
  }
  const { back } = design;
  if (back.fit === "captured" && leftBeyond(design.depth, back.setIn, "back") <= LEAST_BESIDE + SAME) {
    problems.push(
      designProblem(
        project,
        `${design.path}.back.setIn`,
        `the back of ${name} is set in ${show(back.setIn)}, and its grooves break out of the back edges`,
        `more than ${show(LEAST_BESIDE)} of wood behind the grooves`,
        'set the back in more, or write "fit": "rabbeted" and leave "setIn" out',
      ),
    );
  }
  return problems;
}

/** How far grooves stop short of front edges, at most: by the set-back where an edge shows, and behind every lipping. */
function frontStop({ edges, lippings, joinery }: Case, roles: readonly Role[]): { stop: Mm; bySetBack: boolean } {
  const lipped = new Set(lippings.flatMap((one) => one.roles));
  const thickest = Math.max(0, ...lippings.map(({ thickness }) => thickness));
  const bySetBack = edges.front === "shows" && roles.some((role) => !lipped.has(role));
  return { stop: Math.max(thickest, bySetBack ? joinery.setBack : 0), bySetBack };
}

/** Least size from front to back of a part that the sides hold, so that enough of it is held behind where its grooves stop. */
export const heldAfter = (design: Case): Mm => frontStop(design, ["side"]).stop + LEAST_GROOVE;

/** What is left of a groove from front to back where it stops short of edges that show. */
function checkSetBack(project: Project, design: Case): Problem[] {
  const { setBack } = design.joinery;
  const show = (length: Mm): string => formatLengthWithUnit(length, project.unit);
  const depth = clearDepth(design, thicknessIn(design, project.stock));
  const receiving = jointsIn(design).filter(({ kind }) => kind !== "butt");
  const front = frontStop(
    design,
    receiving.map((joint) => joint.receiving.role),
  );
  // With a back in the case, what the back edges ask for lies behind it.
  const isBack = design.edges.back === "shows" && design.back.fit === "none";
  const edges = [...(front.bySetBack ? ["front"] : []), ...(isBack ? ["back"] : [])];
  if (edges.length === 0 || depth - front.stop - (isBack ? setBack : 0) >= LEAST_GROOVE - SAME) return [];
  const where = edges.length === 1 ? `the ${edges[0]} edge` : "front and back edge each";
  return [
    designProblem(
      project,
      joineryPath(project, design, "setBack"),
      `grooves that stop ${show(setBack)} short of ${where} in ${quote(design.name)}, which is ${show(depth)} deep inside`,
      `at least ${show(LEAST_GROOVE)} of groove`,
      'give a smaller "setBack" in "joinery", or make the case deeper',
    ),
  ];
}

/** A face frame: does it cover the case's edges, and is it cut from boards that are wide and long enough? */
import { SAME } from "../../base/length.ts";
import type { Problem } from "../../base/problem.ts";
import type { Case, Project } from "../project.ts";
import { faultsOf } from "./case-faults.ts";
import { ceilingRole, frameFoot, thicknessIn } from "./clear-inside.ts";

export function checkFrame(project: Project, design: Case): Problem[] {
  const { frame } = design;
  if (frame === null) return [];
  const { problems, add, addInput, name, show } = faultsOf(project, design);
  const thickness = thicknessIn(design, project.stock);
  const boards = project.stock.find(({ id }) => id === design.stock.stile)!;
  if (boards.boards === null) {
    addInput(
      "frame.stock",
      `a face frame of ${boards.name}, which comes in sheets`,
      'a stock with "boards"',
      "choose solid wood, or add such a stock to the job",
    );
    return problems;
  }
  if (design.shares !== null || project.cases.some(({ shares }) => shares?.left === design.name)) {
    add(
      "frame",
      `a face frame before ${name}, which shares a side with the case beside it`,
      "a case with both sides of its own",
      "give each case its own sides, or make the two one case with a divider",
    );
  }
  const foot = frameFoot(design);
  const least = thickness("side") + frame.overhang;
  if (frame.stile < least - SAME) {
    add(
      "frame.stile",
      `stiles ${show(frame.stile)} wide before ${name}, whose sides are ${show(thickness("side"))} thick and set in by the overhang of ${show(frame.overhang)}`,
      `at least ${show(least)}, so that no edge of a side shows`,
      "make the stiles wider, or the overhang less",
    );
  }
  const upper = design.bottom.up + thickness("bottom") - foot;
  if (typeof frame.bottomRail === "number" && frame.bottomRail > upper + project.step) {
    add(
      "frame.bottomRail",
      `a bottom rail ${show(frame.bottomRail)} wide, flush with the bottom of ${name}, which lies ${show(upper)} over the frame's lower end`,
      `at most ${show(upper)}`,
      'make the rail narrower, or write "omit": ["bottomRail"]',
    );
  }
  const head = design.top.down + thickness(ceilingRole(design));
  if (frame.topRail !== null && frame.topRail < head - project.step) {
    add(
      "frame.topRail",
      `a top rail ${show(frame.topRail)} wide before ${name}, whose top panel's underside lies ${show(head)} below the top`,
      `at least ${show(head)}, so that no edge of it shows`,
      'make the rail wider, or leave "topRail" out',
    );
  }
  const widest = Math.max(
    frame.stile,
    frame.midStile,
    frame.topRail ?? head,
    frame.midRail ?? 0,
    frame.bottomRail === "to the end" ? upper : (frame.bottomRail ?? 0),
  );
  if (widest > boards.boards.width + SAME) {
    add(
      "frame",
      `a member ${show(widest)} wide before ${name}, from boards at most ${show(boards.boards.width)} wide`,
      "members no wider than the boards",
      "make it narrower, or choose wider boards",
    );
  }
  const longest = Math.max(design.height - foot, design.width + 2 * frame.overhang - 2 * frame.stile);
  if (longest > boards.boards.length + SAME) {
    add(
      "frame",
      `a member ${show(longest)} long before ${name}, from boards at most ${show(boards.boards.length)} long`,
      "members no longer than the boards",
      "choose longer boards, or make two cases of it",
    );
  }
  return problems;
}

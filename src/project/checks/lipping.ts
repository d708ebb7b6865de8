/** Lippings: is there an edge for them, and panel enough behind them? */
import { type Mm, SAME } from "../../base/length.ts";
import type { Problem } from "../../base/problem.ts";
import type { Case } from "../case.ts";
import { LEAST_PANEL } from "../defaults.ts";
import type { Project } from "../project.ts";
import { ROLE_NAMES, type Role } from "../role.ts";
import { faultsOf } from "./case-faults.ts";
import { clearInside, thicknessIn } from "./clear-inside.ts";

export function checkLippings(project: Project, design: Case): Problem[] {
  const { problems, add, addInput, name, show } = faultsOf(project, design);
  const { depth } = clearInside(design, thicknessIn(design, project.stock));
  const sides = design.back.fit === "applied" ? depth : design.depth;
  const widthOf = (role: Role): Mm => {
    if (role === "stretcher") return design.top.stretcher;
    if (role === "looseShelf") return depth - design.pins.clearance;
    return role === "shelf" || role === "divider" ? depth : sides;
  };
  if (design.lippings.length > 0 && design.edges.front === "covered") {
    addInput(
      "edges.front",
      `front edges of ${name} that are "covered", and lippings on them`,
      "one of the two: a lipping is itself what covers the edge",
      'leave "front" out of "edges", or the lippings',
    );
  }
  design.lippings.forEach(({ thickness, roles }, i) => {
    const used = roles.filter((role) => role !== "stretcher" || design.top.fit === "stretchers");
    const narrow = used.find((role) => widthOf(role) - thickness < LEAST_PANEL - SAME);
    if (narrow === undefined) return;
    add(
      `lippings[${i}].thickness`,
      `a lipping of ${show(thickness)} on the ${ROLE_NAMES[narrow]} of ${name}, ${show(widthOf(narrow))} from front to back`,
      `at least ${show(LEAST_PANEL)} of panel behind it`,
      "take a thinner lipping, or leave this part out of it",
    );
  });
  return problems;
}

/** A back that is more than one panel in grooves: are there columns for its sections, and is it thick enough to house what meets it? */
import type { Problem } from "../../base/problem.ts";
import type { Case } from "../case.ts";
import { LEAST_HOUSING } from "../defaults.ts";
import { quote } from "../file/words.ts";
import type { Project } from "../project.ts";
import { faultsOf } from "./case-faults.ts";
import { stockIn } from "./clear-inside.ts";

export function checkBack(project: Project, design: Case): Problem[] {
  const { problems, add, addInput, name, show } = faultsOf(project, design);
  const { back, bays, joinery } = design;
  if (back.fit === "none") return problems;
  if (back.sections && bays.kind !== "columns") {
    addInput(
      "back.sections",
      `a back in sections in ${name}, whose bays do not begin with "columns"`,
      "a section for each of the outermost columns",
      'begin the bays with "columns", or write "sections": false',
    );
  }
  const { nominal } = stockIn(design, project.stock, "back");
  if (back.houses && back.sections && back.fit !== "captured") {
    addInput(
      "back.houses",
      `"houses" and "sections" for a back of ${name} that is ${quote(back.fit)}`,
      "one of the two: such sections meet on the dividers' rear edges, and cannot house them",
      'write "fit": "captured", or "houses": false',
    );
  } else if (back.houses && bays.kind !== "open" && joinery.depth === null && nominal < LEAST_HOUSING) {
    add(
      "back.houses",
      `the back of ${name} is ${show(nominal)} thick, too thin to house shelves and dividers`,
      `a back of ${show(LEAST_HOUSING)} or more`,
      'choose a thicker stock for it, write "houses": false, or give "depth" under "joinery" yourself',
    );
  }
  return problems;
}

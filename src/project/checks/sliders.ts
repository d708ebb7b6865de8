/** Doors that slide in grooves: do the bays and the case agree, is the bay free for them, and can the parts above and below take the grooves? */
import { type Mm, SAME } from "../../base/length.ts";
import type { Problem } from "../../base/problem.ts";
import type { Bay } from "../bay.ts";
import { sliderBays } from "../case/bays.ts";
import type { Case } from "../case.ts";
import { LEAST_APART, SLIDER_HELD } from "../defaults.ts";
import type { Sliders } from "../doors.ts";
import { quote } from "../file/words.ts";
import type { Project } from "../project.ts";
import { type CaseFaults, faultsOf } from "./case-faults.ts";
import { ceilingRole, clearDepth, stockIn, thicknessIn } from "./clear-inside.ts";
import { checkMake } from "./doors.ts";

export function checkSliders(project: Project, design: Case): Problem[] {
  const faults = faultsOf(project, design);
  const { sliders } = design;
  const bays = sliderBays(design.bays);
  if (sliders === null) {
    for (const bay of bays)
      faults.addInput(
        keyOf(bay, design),
        `a sliding door in ${faults.name}, ${design.doors === null ? "which does not say how its doors are made" : "whose doors hang on hinges"}`,
        '"doors" with "fit": "sliding" in the case',
        design.doors === null
          ? 'add "doors": { "kind": ..., "stock": ..., "fit": "sliding" } to the case'
          : 'write "left", "right" or "pair", or put the bay into a case of its own',
      );
    return faults.problems;
  }
  if (bays.length === 0)
    faults.addInput(
      "doors",
      `how the sliding doors of ${faults.name} are made, and no bay has one`,
      'a bay with "door": "sliding"',
      'add "door": "sliding" to a bay, or take "doors" out',
    );
  for (const bay of bays) checkFree(bay, design, faults);
  checkMake(sliders.make, "doors", design, project, faults);
  checkGrooves(sliders, design, project, faults);
  return faults.problems;
}

const keyOf = (bay: Bay, design: Case): string => `${bay.path.slice(design.path.length + 1)}.door`;

/** The doors run inside the bay, from side to side, behind its front. */
function checkFree(bay: Bay, design: Case, { add, name }: CaseFaults): void {
  const own = bay.name === null ? "a bay" : quote(bay.name);
  const stands =
    bay.kind === "columns" ? "dividers" : bay.kind === "rows" ? "shelves" : bay.drawers.length > 0 ? "drawers" : null;
  if (stands === null) return;
  add(
    keyOf(bay, design),
    `doors that slide in ${own} of ${name}, whose ${stands} come to the front`,
    "a bay with nothing in it where the doors run",
    `put "door": "sliding" into each bay that it is divided into, or leave the ${stands} out`,
  );
}

function checkGrooves({ grooves, pull, make }: Sliders, design: Case, project: Project, faults: CaseFaults): void {
  const { add, show, name } = faults;
  const { upper, lower, play, apart, setIn, spare } = grooves;
  const stock = (role: Parameters<typeof stockIn>[2]) => stockIn(design, project.stock, role);
  const door = stock(make.kind === "slab" ? "slab" : "doorStile");
  const held = upper - lower - spare;
  const least = SLIDER_HELD[project.unit];
  if (held < least - SAME)
    add(
      "doors.grooves",
      `sliding doors in ${name} that their upper grooves hold by ${show(Math.max(0, held))}: ${show(upper)} deep, less ${show(lower)} below and ${show(spare)} to spare`,
      `at least ${show(least)}`,
      `an "upper" of ${show(lower + spare + least)} or more, or less "lower"`,
    );
  const bays = sliderBays(design.bays);
  const between = bays.some(({ path }) => path.includes(".rows["));
  // In a list of rows a shelf may be what bounds the bay.
  const roles = [ceilingRole(design), "bottom", ...(between ? (["shelf"] as const) : [])] as const;
  for (const role of roles) {
    const { nominal } = stock(role);
    const deepest = role === "bottom" ? lower : upper;
    if (deepest > nominal / 2 + SAME)
      add(
        `doors.grooves`,
        `grooves for sliding doors ${show(deepest)} deep in ${name}, in stock of ${show(nominal)}`,
        `at most ${show(nominal / 2)}, half of what they are cut into`,
        'less "upper", or a thicker stock for that part',
      );
  }
  if (apart < LEAST_APART[project.unit] - SAME)
    add(
      "doors.grooves",
      `grooves for sliding doors ${show(apart)} apart in ${name}`,
      `at least ${show(LEAST_APART[project.unit])} of wood between them (Fine Woodworking 2004)`,
      'more "apart"',
    );
  const deep = clearDepth(design, thicknessIn(design, project.stock));
  const taken = setIn + 2 * (door.thickest + play) + apart;
  if (taken > deep - least)
    add(
      "doors",
      `sliding doors whose two grooves take ${show(taken)} of the depth of ${name}, which is ${show(deep)} inside`,
      "grooves before the back",
      "a deeper case, or thinner doors",
    );
  checkPull(pull, door.nominal, make.kind === "slab" ? null : make.stile, faults);
}

/** Is there wood behind a recess, and round it? */
function checkPull(pull: Sliders["pull"], nominal: Mm, stile: Mm | null, { add, show, name }: CaseFaults): void {
  if (pull === null) return;
  const { fromEdge, diameter, depth } = pull;
  if (depth > nominal / 2 + SAME)
    add(
      "doors.pull.depth",
      `a recess ${show(depth)} deep in doors of ${show(nominal)}, in ${name}`,
      `at most ${show(nominal / 2)}, half of it`,
      'less "depth", or thicker doors',
    );
  if (fromEdge < diameter / 2 + SAME || (stile !== null && fromEdge + diameter / 2 > stile - SAME))
    add(
      "doors.pull",
      `a recess ${show(diameter)} across, its middle ${show(fromEdge)} from the edge${stile === null ? "" : `, in stiles ${show(stile)} wide`}, in ${name}`,
      "wood all round it",
      stile === null ? 'more "fromEdge"' : 'a smaller recess, wider stiles, or another "fromEdge"',
    );
}

/** Doors: do the bays and the case agree that there are any, are their members cut from what suits them, and is there an opening to close? */
import { type Mm, SAME } from "../../base/length.ts";
import type { Problem } from "../../base/problem.ts";
import type { Bay } from "../bay.ts";
import type { Case } from "../case.ts";
import { LEAST_CHEEK } from "../defaults.ts";
import type { DoorMake } from "../door-make.ts";
import { quote } from "../file/words.ts";
import type { Project } from "../project.ts";
import { type CaseFaults, faultsOf } from "./case-faults.ts";
import { stockIn, thicknessIn } from "./clear-inside.ts";

export function checkDoors(project: Project, design: Case): Problem[] {
  const faults = faultsOf(project, design);
  const { doors } = design;
  const hung = baysWithDoors(design.bays).filter(({ bay }) => bay.door !== "sliding");
  if (doors === null) {
    // Before sliding doors a hinged one is a fault of its own.
    if (design.track !== null) return [];
    for (const { bay } of hung)
      faults.addInput(
        `${bay.path.slice(design.path.length + 1)}.door`,
        design.sliders === null
          ? `a door in ${faults.name}, which does not say how its doors are made`
          : `a door on hinges in ${faults.name}, whose doors slide`,
        design.sliders === null ? '"doors" in the case' : '"sliding"',
        design.sliders === null
          ? 'add "doors": { "kind": ..., "stock": ..., "fit": ..., "hinges": ... } to the case'
          : 'write "door": "sliding", or put the bay into a case of its own',
      );
    return faults.problems;
  }
  if (hung.length === 0)
    faults.addInput(
      "doors",
      `how the doors of ${faults.name} are made, and no bay has one`,
      'a bay with "door"',
      'add "door": "left", "right" or "pair" to a bay, or take "doors" out',
    );
  for (const { bay, inside } of hung) checkPlace(bay, inside, design, project, faults);
  checkMake(doors.make, "doors", design, project, faults);
  return faults.problems;
}

type WithDoor = { bay: Bay; inside: boolean };

/** Bays with a door; `inside`: of another bay that has one. */
const baysWithDoors = (bay: Bay, inside = false): WithDoor[] => [
  ...(bay.door === null ? [] : [{ bay, inside }]),
  ...(bay.kind === "open" ? [] : bay.bays.flatMap((child) => baysWithDoors(child, inside || bay.door !== null))),
];

/** Is there an opening of its own before the bay, and does nothing stand where the door closes? */
function checkPlace(bay: Bay, inside: boolean, design: Case, project: Project, { add, show, name }: CaseFaults): void {
  const key = `${bay.path.slice(design.path.length + 1)}.door`;
  const own = bay.name === null ? "a bay" : quote(bay.name);
  const { frame, doors } = design;
  if (inside)
    add(key, `a door before ${own}, behind another door`, "one door before another bay", "take one of the two out");
  if (frame !== null && !hasOpening(bay, design))
    add(
      key,
      `a door before ${own} of ${name}, where the face frame leaves no opening of its own`,
      "stiles and rails all round it",
      'take "midRail" or "bottomRail" out of "omit", or put the door before the whole column',
    );
  if (doors === null || doors.fit.kind === "overlay") return;
  const thickness = thicknessIn(design, project.stock);
  const deep = thickness(doors.make.kind === "slab" ? "slab" : "doorStile");
  const before = frame === null ? 0 : thickness("stile");
  if (bay.kind === "open" || deep <= before + SAME) return;
  const stands = bay.kind === "rows" ? "shelves" : "dividers";
  add(
    key,
    `an inset door ${show(deep)} thick before ${own} of ${name}, whose ${stands} come to ${before > 0 ? `${show(before)} behind the frame's face` : "the front"}`,
    `nothing within ${show(deep)} of the front`,
    before > 0
      ? "make the doors no thicker than the frame, or overlay them"
      : "overlay the doors, or stand a face frame before the case, as thick as they are",
  );
}

/** Whether a frame has members on all four sides of a bay. */
function hasOpening(bay: Bay, { frame, bays }: Case): boolean {
  if (frame === null) return true;
  const path = pathTo(bays, bay);
  // Below a bay that is lowest in every list of rows around it runs the bottom rail; above each other, mid rails.
  const rows = path.filter(({ parent }) => parent.kind === "rows");
  const isLowest = rows.every(({ index }) => index === 0);
  const isWhole = rows.length === 0;
  if (frame.midRail === null && !isWhole) return false;
  return frame.bottomRail !== null || !isLowest;
}

type Step = { parent: Bay; index: number };
function pathTo(from: Bay, to: Bay): Step[] {
  if (from.kind === "open") return [];
  return from.bays.flatMap((child, index) => {
    const isOn = child === to || (to.path.startsWith(child.path) && /^[.[]/.test(to.path.slice(child.path.length)));
    return isOn ? [{ parent: from, index }, ...pathTo(child, to)] : [];
  });
}

/** Is there wood on both sides of the groove, and in a stile behind it? */
export function checkMake(
  make: DoorMake,
  key: "doors" | "track",
  design: Case,
  project: Project,
  { add, show, name }: CaseFaults,
): void {
  if (make.kind === "slab") return;
  const [stock, panel] = [stockIn(design, project.stock, "doorStile"), stockIn(design, project.stock, "doorPanel")];
  const cheek = (stock.thickness - panel.thickness) / 2;
  if (cheek < LEAST_CHEEK - SAME)
    add(
      `${key}.panel.stock`,
      `a panel ${show(panel.thickness)} thick in door members ${show(stock.thickness)} thick, in ${name}: ${cheek > 0 ? show(cheek) : "no wood"} beside its groove`,
      `at least ${show(LEAST_CHEEK)}`,
      "choose a thinner panel, or thicker members",
    );
  const widths: [string, Mm][] = [
    ["stile", make.stile],
    ["topRail", make.topRail],
    ["bottomRail", make.bottomRail],
    ...make.midRails.map(({ width }): [string, Mm] => ["midRails", width]),
  ];
  for (const [member, width] of widths) {
    // A mid rail is grooved on both edges.
    const grooves = member === "midRails" ? 2 : 1;
    const least = (grooves + 1) * make.stick;
    if (width < least - SAME)
      add(
        `${key}.${member}`,
        `a door member ${show(width)} wide, grooved ${show(make.stick)} deep${grooves === 2 ? " on both edges" : ""}, in ${name}`,
        `at least ${show(least)}, ${grooves === 2 ? "three times" : "twice"} the groove`,
        'make it wider, or "stickDepth" less',
      );
    if (stock.boards !== null && width > stock.boards.width + SAME)
      add(
        `${key}.${member}`,
        `a door member ${show(width)} wide, from boards at most ${show(stock.boards.width)} wide, in ${name}`,
        "members no wider than the boards",
        "make it narrower, or choose wider boards",
      );
  }
  if (panel.boards !== null)
    add(
      `${key}.panel.stock`,
      `door panels of ${panel.name}, which comes in boards, in ${name}`,
      'a stock with a "sheet": plywood, or edge-glued wood marked "solid"',
      "glue up the panels first, and give what that makes as a stock of its own",
    );
  if (make.clearance !== null && make.clearance / 2 > make.stick - project.step)
    add(
      `${key}.panel.clearance`,
      `${show(make.clearance)} of clearance in all round a panel whose grooves are ${show(make.stick)} deep, in ${name}`,
      `at most ${show(2 * make.stick - 2 * project.step)}, so that it is held`,
      'less clearance, or a deeper "stickDepth"',
    );
}

/** Loose shelves: do the bay and its neighbours take the holes, and does each shelf find a hole and its room? */
import { type Mm, SAME } from "../../base/length.ts";
import type { Problem } from "../../base/problem.ts";
import type { Bay } from "../bay.ts";
import { hasBetween, hasLoose, looseBays } from "../case/bays.ts";
import type { Case } from "../case.ts";
import { DEEPEST_HOLE, LEAST_BESIDE, LEAST_CLEAR, LOOSEST_SHELF, ROWS_APART } from "../defaults.ts";
import { quote } from "../file/words.ts";
import type { Project } from "../project.ts";
import { ROLE_NAMES, type Role } from "../role.ts";
import { faultsOf } from "./case-faults.ts";
import { eachBay } from "./clear-bays.ts";
import { clearDepth, stockIn, thicknessIn } from "./clear-inside.ts";
import { frontTaken } from "./front-taken.ts";

export function checkPins(project: Project, design: Case): Problem[] {
  if (!hasLoose(design.bays)) return [];
  return [...checkHoles(project, design), ...checkRows(project, design), ...checkPinnedBays(project, design)];
}

/** The holes themselves: pin to pin, and into what they are drilled. */
function checkHoles(project: Project, design: Case): Problem[] {
  const { problems, add, name, show } = faultsOf(project, design);
  const { diameter, depth, pitch } = design.pins;
  const drilled: Role[] = hasBetween(design.bays, "divider") ? ["side", "divider"] : ["side"];
  for (const role of drilled) {
    const { thickness } = stockIn(design, project.stock, role);
    if (depth > DEEPEST_HOLE * thickness + SAME) {
      add(
        "pins.depth",
        `pin holes ${show(depth)} deep in the ${ROLE_NAMES[role]} of ${name}, measured ${show(thickness)} thick`,
        `at most two thirds of its thickness, ${show(DEEPEST_HOLE * thickness)}`,
        'give a smaller "depth" in "pins", or choose a thicker stock',
      );
    }
  }
  if (pitch < diameter + LEAST_BESIDE - SAME) {
    add(
      "pins.pitch",
      `pin holes ${show(diameter)} wide in ${name}, ${show(pitch)} from middle to middle`,
      `at least ${show(LEAST_BESIDE)} of wood between two holes`,
      "give a larger pitch, or thinner pins",
    );
  }
  return problems;
}

/** Front row and rear row. */
function checkRows(project: Project, design: Case): Problem[] {
  const { problems, add, name, show } = faultsOf(project, design);
  const { diameter, fromFront, fromBack, clearance } = design.pins;
  const depth = clearDepth(design, thicknessIn(design, project.stock));
  const lipping = Math.max(
    0,
    ...design.lippings.filter(({ roles }) => roles.some(isDrilled)).map(({ thickness }) => thickness),
  );
  const front = diameter / 2 + LEAST_BESIDE + lipping;
  if (fromFront < front - SAME) {
    add(
      "pins.fromFront",
      `a front row of pins ${show(fromFront)} from the front edge in ${name}`,
      `at least ${show(front)}, so that ${show(LEAST_BESIDE)} of ${lipping > 0 ? "panel is left behind the lipping" : "wood is left before it"}`,
      "move it back",
    );
  }
  const rear = diameter / 2 + Math.max(clearance, LEAST_BESIDE + project.step);
  if (fromBack < rear - SAME) {
    add(
      "pins.fromBack",
      `a rear row of pins ${show(fromBack)} from the back in ${name}, where the loose shelves end ${show(clearance)} before it`,
      `at least ${show(rear)}, so that the shelf lies on the whole pin, with wood behind the hole`,
      "move it forward",
    );
  }
  const taken = Math.max(0, ...looseBays(design.bays).map(({ path }) => frontTaken(design, path, project.stock)));
  const apart = depth - taken - fromFront - fromBack;
  if (apart < ROWS_APART - SAME) {
    const behind = taken > 0 ? `the doors, which take ${show(taken)} of it,` : "the front";
    add(
      "pins.fromFront",
      `two rows of pins in ${name}, ${show(depth)} deep inside: ${show(fromFront)} from ${behind} and ${show(fromBack)} from the back`,
      `at least ${show(ROWS_APART)} between them, or the shelf tips`,
      "move the rows outwards, or make the case deeper",
    );
  }
  // Printed, the back stands up to half a step nearer.
  if (clearance < project.step / 2 - SAME) {
    add(
      "pins.clearance",
      `loose shelves that stay ${show(clearance)} clear in ${name}, where rounding may take up to ${show(project.step / 2)}`,
      `at least half a rounding step, ${show(project.step / 2)}`,
      'give a larger clearance, or make "step" finer',
    );
  }
  if (clearance > LOOSEST_SHELF + SAME) {
    add(
      "pins.clearance",
      `loose shelves ${show(clearance)} short at each end in ${name}`,
      `at most ${show(LOOSEST_SHELF)}, or they slip off their pins`,
      "make them longer: give a smaller clearance",
    );
  }
  return problems;
}

const isDrilled = (role: Role): boolean => role === "side" || role === "divider";

/** Height of each bay with loose shelves. */
function checkPinnedBays(project: Project, design: Case): Problem[] {
  const { problems, add, name, show } = faultsOf(project, design);
  const { diameter, pitch, margin } = design.pins;
  const shelf = thicknessIn(design, project.stock)("looseShelf");
  // A shelf on the highest hole still goes under the ceiling.
  const head = diameter / 2 + shelf + LEAST_CLEAR;
  if (margin < head - SAME) {
    add(
      "pins.margin",
      `pin holes up to ${show(margin)} from the ceiling of a bay in ${name}, whose loose shelves are ${show(shelf)} thick`,
      `at least ${show(head)}`,
      "give a larger margin",
    );
  }
  eachBay(design, thicknessIn(design, project.stock), (bay, { z }) => {
    if (bay.kind !== "open" || bay.loose === 0 || z === null) return;
    const height = z[1] - z[0];
    const least = leastHeight(bay.loose, shelf, design);
    if (height >= least - SAME) return;
    const count = bay.loose === 1 ? "a loose shelf" : `${bay.loose} loose shelves`;
    add(
      `${bay.path.slice(design.path.length + 1)}.loose`,
      `${count} in ${nameOf(bay, name)}, ${show(height)} high inside`,
      `at least ${show(least)}: a margin of ${show(margin)} at floor and ceiling${bay.loose === 1 ? "" : `, and room on each shelf with holes ${show(pitch)} apart`}`,
      bay.loose === 1
        ? 'make the bay higher, or "margin" in "pins" smaller'
        : "make the bay higher, or take fewer shelves",
    );
  });
  return problems;
}

const nameOf = (bay: Bay, caseName: string): string => (bay.name === null ? `a bay of ${caseName}` : quote(bay.name));

/** Spread evenly and each moved to its nearest hole, at most half a pitch, the shelves still leave room on each other. */
function leastHeight(loose: number, shelf: Mm, { pins: { pitch, margin } }: Case): Mm {
  const holes = Math.ceil((shelf + LEAST_CLEAR) / pitch - SAME);
  const apart = holes === 1 ? pitch : Math.max((holes + 1) * pitch, margin);
  const spread = loose === 1 ? 0 : (loose + 1) * apart;
  return Math.max(2 * margin + (loose - 1) * holes * pitch, spread);
}

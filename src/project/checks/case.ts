/** Does each case make sense in the shop? Speaks of cases and parts by name. */

import { type Box, intersectBoxes } from "../../base/geometry.ts";
import { formatLengthWithUnit, type Mm, SAME } from "../../base/length.ts";
import type { Problem } from "../../base/problem.ts";
import { baseHeight } from "../case/cases.ts";
import { isDoorRole } from "../case/doors.ts";
import { isDrawerRole } from "../case/drawers.ts";
import type { Case } from "../case.ts";
import { LEAST_CLEAR } from "../defaults.ts";
import { designProblem, inputProblem } from "../file/problems.ts";
import { quote } from "../file/words.ts";
import type { Project } from "../project.ts";
import { ROLES, type Role } from "../role.ts";
import { checkBack } from "./back.ts";
import { checkBase } from "./base.ts";
import { checkBays } from "./bays.ts";
import { faultsOf } from "./case-faults.ts";
import { clearInside, thicknessIn } from "./clear-inside.ts";
import { checkDoors } from "./doors.ts";
import { checkDrawers } from "./drawers.ts";
import { checkFrame } from "./frame.ts";
import { checkGrooves } from "./groove.ts";
import { checkJoints } from "./joints.ts";
import { checkLippings } from "./lipping.ts";
import { checkNamed } from "./named.ts";
import { checkPins } from "./pin.ts";
import { checkScribe } from "./scribe.ts";
import { checkShares } from "./share.ts";
import { checkSliders } from "./sliders.ts";
import { checkTop } from "./top.ts";
import { checkTrack } from "./track.ts";
import { checkSkirting } from "./walls.ts";

/** Every case by itself, then beside the others. */
export function checkCases(project: Project): Problem[] {
  return [
    ...project.cases.flatMap((design) => {
      const room = checkRoom(project, design);
      const inside = room.length > 0 ? [] : checkInside(project, design);
      return [
        ...room,
        ...inside,
        ...checkBack(project, design),
        ...checkBase(project, design),
        ...checkSkirting(project, design),
        ...checkFrame(project, design),
        ...checkDrawers(project, design),
        ...checkPanels(project, design),
        ...checkDoors(project, design),
        ...checkSliders(project, design),
        ...checkTrack(project, design),
        ...checkJoints(project, design),
      ];
    }),
    ...checkScribe(project),
    ...checkNames(project),
    ...checkNamed(project),
    ...checkShares(project),
    ...checkOverlaps(project),
  ];
}

/** What is cut from panels needs a stock that comes in sheets. */
function checkPanels(project: Project, design: Case): Problem[] {
  const { problems, addInput } = faultsOf(project, design);
  const others: readonly Role[] = ["stile", "rail", "return", "returnStrip", "plinth", "worktop"]; // judged where they are asked for
  const panels = ROLES.filter((role) => !others.includes(role) && !isDrawerRole(role) && !isDoorRole(role)).map(
    (role) => design.stock[role],
  );
  for (const id of new Set(panels)) {
    const stock = project.stock.find((one) => one.id === id);
    if (stock === undefined || stock.boards === null) continue;
    addInput(
      "stock",
      `panels of ${stock.name}, which comes in boards`,
      'a stock with a "sheet"',
      "choose a panel stock for the parts of the case",
    );
  }
  return problems;
}

const checkInside = (project: Project, design: Case): Problem[] => [
  ...checkBays(project, design),
  ...checkGrooves(project, design),
  ...checkTop(project, design),
  ...checkLippings(project, design),
  ...checkPins(project, design),
];

/** Is anything left inside, once sides, bottom, top panel and back are taken off? */
function checkRoom(project: Project, design: Case): Problem[] {
  const thickness = thicknessIn(design, project.stock);
  const show = (length: Mm): string => formatLengthWithUnit(length, project.unit);
  const clear = clearInside(design, thickness);
  const name = quote(design.name);
  const problems: Problem[] = [];
  const add = (key: string, found: string, expected: string, remedy: string): void => {
    problems.push(designProblem(project, `${design.path}.${key}`, found, expected, remedy));
  };

  if (clear.width < LEAST_CLEAR - SAME) {
    const sides = design.width - clear.width;
    add(
      "width",
      `${name} is ${show(design.width)} wide, and its ${design.shares === null ? "sides take" : "side takes"} ${show(sides)}`,
      `at least ${show(sides + LEAST_CLEAR)}`,
      "make it wider",
    );
  }
  if (clear.height < LEAST_CLEAR - SAME) {
    const taken = design.height - clear.height;
    add(
      "height",
      `${name} is ${show(design.height)} high, and bottom and ${design.top.fit === "stretchers" ? "stretchers" : "top panel"} with what is below and above them take ${show(taken)}`,
      `at least ${show(taken + LEAST_CLEAR)}`,
      design.top.fit === "stretchers"
        ? "make it higher, or the bottom lower"
        : "make it higher, the bottom lower or the top panel higher",
    );
  }
  if (clear.depth < LEAST_CLEAR - SAME) {
    const back = design.depth - clear.depth;
    add(
      "depth",
      back < SAME
        ? `${name} is ${show(design.depth)} deep`
        : `${name} is ${show(design.depth)} deep, and its back takes ${show(back)}`,
      `at least ${show(back + LEAST_CLEAR)}`,
      back < SAME ? "make it deeper" : "make it deeper, or set the back in less",
    );
  }
  return problems;
}

/** Names of the single cases, several of a kind numbered, and of the bases under them. */
const namesOf = ({ name, quantity, plinth, feet }: Case): string[] => {
  const names = quantity === 1 ? [name] : Array.from({ length: quantity }, (_, i) => `${name} ${i + 1}`);
  const base = plinth !== null ? "plinth" : feet !== null ? "feet" : null;
  return base === null ? names : names.flatMap((one) => [one, `${one} ${base}`]);
};

function checkNames(project: Project): Problem[] {
  const seen = new Map<string, Case>();
  return project.cases.flatMap((design) => {
    const names = namesOf(design);
    const taken = names.find((name) => seen.has(name.toLowerCase()));
    for (const name of names) if (!seen.has(name.toLowerCase())) seen.set(name.toLowerCase(), design);
    if (taken === undefined) return [];
    const path = `${design.path}.name`;
    return [
      inputProblem(
        project,
        path,
        `a second case is called ${quote(taken)}`,
        "a name of its own for each case",
        "give this one another name",
      ),
    ];
  });
}

/** What each of a kind takes up, its base with it. */
const boxesOf = (design: Case): Box[] =>
  Array.from({ length: design.quantity }, (_, i) => {
    const [x, y, z] = design.at;
    const left = x + i * design.width;
    return [
      [left, y, z - baseHeight(design)],
      [left + design.width, y + design.depth, z + design.height],
    ];
  });

function checkOverlaps(project: Project): Problem[] {
  const problems: Problem[] = [];
  project.cases.forEach((one, i) => {
    const blocker = project.cases
      .slice(0, i)
      .find((other) => boxesOf(other).some((a) => boxesOf(one).some((b) => intersectBoxes(a, b, SAME) !== null)));
    if (blocker === undefined) return;
    problems.push(
      designProblem(
        project,
        `${one.path}.at`,
        `${quote(one.name)} stands in the same place as ${quote(blocker.name)}`,
        "cases beside, behind or on top of each other",
        'change its "at", or leave it out to stand it beside the case before',
      ),
    );
  });
  return problems;
}

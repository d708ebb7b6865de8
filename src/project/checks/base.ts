/** What a case stands on: is there a toe space, once rounded, and wood behind it? */
import { SAME } from "../../base/length.ts";
import type { Problem } from "../../base/problem.ts";
import { rounderOf } from "../../base/step.ts";
import { baseHeight } from "../case/cases.ts";
import type { Case } from "../case.ts";
import { DEEPEST_HOLE, LEAST_BESIDE, LEAST_CLEAR, LEAST_FOOT, LEAST_PLINTH } from "../defaults.ts";
import type { Project } from "../project.ts";
import { faultsOf } from "./case-faults.ts";
import { clearInside, stockIn, thicknessIn } from "./clear-inside.ts";

export const checkBase = (project: Project, design: Case): Problem[] => [
  ...checkKick(project, design),
  ...checkPlinth(project, design),
  ...checkFeet(project, design),
];

function checkKick(project: Project, design: Case): Problem[] {
  if (design.kick === null) return [];
  const { step } = project;
  const thickness = thicknessIn(design, project.stock);
  const { problems, add, name, show } = faultsOf(project, design);
  const { setBack, fit } = design.kick;
  const round = rounderOf(step);
  if (design.bottom.up < SAME) {
    add(
      "kick",
      `a kick under ${name}, whose bottom stands on the floor`,
      "a bottom that is raised by the height of the kick",
      'add "bottom": { "up": 80 } or the like',
    );
  }
  if (setBack < step - SAME) {
    add(
      "kick.setBack",
      `a kick set back ${show(setBack)} in ${name}, which leaves no toe space`,
      `at least the rounding step of ${show(step)}`,
      "set it back more",
    );
  }
  // An applied back lies behind the sides; any other ends above the kick.
  const sides = design.back.fit === "applied" ? clearInside(design, thickness).depth : design.depth;
  const behind = round.down(sides) - round.nearest(setBack) - thickness("kick");
  if (behind < -SAME) {
    add(
      "kick.setBack",
      `a kick set back ${show(setBack)} in ${name}, whose sides are ${show(sides)} deep`,
      "a kick within the depth of the sides",
      "set it back less",
    );
  } else if (fit === "applied" && behind < LEAST_FOOT - SAME) {
    add(
      "kick.setBack",
      `an applied kick set back ${show(setBack)} in ${name}, whose toe notches leave ${show(behind)} of the sides' lower ends to stand on`,
      `at least ${show(LEAST_FOOT)} behind the kick`,
      'set it back less, or write "fit": "between"',
    );
  }
  const lipping = design.lippings.find(({ roles }) => roles.includes("side"));
  if (lipping !== undefined && setBack > step - SAME && setBack < lipping.thickness + step - SAME) {
    add(
      "kick.setBack",
      `a kick set back ${show(setBack)} in ${name}, whose sides have a lipping of ${show(lipping.thickness)}: the toe notch would end in it`,
      `at least ${show(lipping.thickness + step)}`,
      "set it back more, or take a thinner lipping",
    );
  }
  return problems;
}

/** How a base of its own is spoken of. */
const BASES = {
  plinth: { one: "a plinth", its: "its plinth is" },
  feet: { one: "feet", its: "its feet are" },
};

/** A case on a base ends where its sides do, and stands as high as the base is. */
function checkStandsOn(base: keyof typeof BASES, project: Project, design: Case): Problem[] {
  const { problems, add, addInput, name, show } = faultsOf(project, design);
  const { bottom, at } = design;
  const { one, its } = BASES[base];
  const height = baseHeight(design);
  if (bottom.up > SAME) {
    addInput(
      "bottom.up",
      `a bottom that is raised ${show(bottom.up)} in ${name}, which stands on ${one}`,
      `a bottom at the very end of the sides, on the ${base}`,
      `write "up": 0, or keep the raised bottom and leave the ${base} out`,
    );
  }
  if (at[2] < height - SAME) {
    add(
      "at",
      `${name} stands ${show(at[2])} above the floor, and ${its} ${show(height)} high`,
      `a case that stands on its ${base}`,
      `write ${show(height)} as the third length of "at", or leave "at" out`,
    );
  }
  return problems;
}

function checkFeet(project: Project, design: Case): Problem[] {
  const { feet, bottom, width, depth } = design;
  if (feet === null) return [];
  const { problems, add, name, show } = faultsOf(project, design);
  const thickness = thicknessIn(design, project.stock);
  const { diameter, fromEnds, fromEdges, hole } = feet;
  const beside = bottom.fit === "under" ? 0 : thickness("side");
  const least = Math.max(diameter / 2, beside + LEAST_BESIDE + hole.diameter / 2);
  if (fromEnds < least - SAME) {
    add(
      "feet.fromEnds",
      `feet ${show(fromEnds)} from the ends of ${name}`,
      `at least ${show(least)}: the foot under the case, its hole in the bottom`,
      "set them in more",
    );
  }
  if (fromEdges < diameter / 2 - SAME) {
    add(
      "feet.fromEdges",
      `feet ${show(fromEdges)} from the front of ${name}`,
      `at least ${show(diameter / 2)}: the whole foot under the case`,
      "set them in more",
    );
  }
  const clear = Math.min(width - 2 * fromEnds, depth - 2 * fromEdges) - diameter;
  if (clear < -SAME) {
    add(
      "feet",
      `feet of ${show(diameter)} under ${name}, ${show(-clear)} into each other`,
      "feet beside each other",
      "set them in less, or take smaller ones",
    );
  }
  const deepest = DEEPEST_HOLE * thickness("bottom");
  if (hole.depth > deepest + SAME) {
    add(
      "feet.hole",
      `holes ${show(hole.depth)} deep for the feet of ${name}, in a bottom of ${show(thickness("bottom"))}`,
      `at most ${show(deepest)}`,
      "drill less deep, or take a thicker bottom",
    );
  }
  return [...problems, ...checkStandsOn("feet", project, design)];
}

function checkPlinth(project: Project, design: Case): Problem[] {
  const { plinth, width, depth } = design;
  if (plinth === null) return [];
  const { problems, add, addInput, name, show } = faultsOf(project, design);
  const board = thicknessIn(design, project.stock)("plinth");
  const { height, setBack, inset } = plinth;
  const { boards, name: stock } = stockIn(design, project.stock, "plinth");
  if (boards !== null && !boards.dressed) {
    addInput(
      "stock.plinth",
      `a plinth of ${stock}, boards in the rough`,
      "a panel stock, or lumber that is bought dressed",
      'choose another stock for it, or write "dressed": true where the boards come planed',
    );
  } else if (boards !== null && height > boards.width + SAME) {
    add(
      "plinth.height",
      `a plinth ${show(height)} high under ${name}, of lumber ${show(boards.width)} wide`,
      `at most ${show(boards.width)}`,
      "make it lower, or choose wider lumber",
    );
  }
  if (height < LEAST_PLINTH - SAME) {
    add(
      "plinth.height",
      `a plinth ${show(height)} high under ${name}`,
      `at least ${show(LEAST_PLINTH)}`,
      "make it higher, or leave it out",
    );
  }
  // Two boards one behind the other, two ends beside each other, and room to reach between them.
  const least = 2 * board + LEAST_CLEAR;
  if (width - 2 * inset < least - SAME) {
    add(
      "plinth.inset",
      `a plinth ${show(inset)} inside each end of ${name}, which is ${show(width)} wide`,
      `a plinth at least ${show(least)} wide`,
      "set it in less",
    );
  }
  if (depth - setBack - inset < least - SAME) {
    add(
      "plinth.setBack",
      `a plinth ${show(setBack)} behind the front and ${show(inset)} before the rear of ${name}, which is ${show(depth)} deep`,
      `a plinth at least ${show(least)} deep`,
      "set it back and in less",
    );
  }
  return [...problems, ...checkStandsOn("plinth", project, design)];
}

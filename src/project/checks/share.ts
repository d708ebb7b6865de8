/** A side shared by two cases: do they stand side by side, and is the side there for everything that enters it? */
import { isSame, SAME } from "../../base/length.ts";
import type { Problem } from "../../base/problem.ts";
import type { Case } from "../case.ts";
import { nearest } from "../file/nearest.ts";
import { choice, quote } from "../file/words.ts";
import type { Project } from "../project.ts";
import { type CaseFaults, faultsOf } from "./case-faults.ts";
import { clearDepth, stockIn, thicknessIn } from "./clear-inside.ts";

export const checkShares = (project: Project): Problem[] =>
  project.cases.flatMap((design, i) => {
    if (design.shares === null) return [];
    const faults = faultsOf(project, design);
    const lender = lenderOf(project, design.shares.left, i, faults);
    if (lender !== null) {
      if (checkAlone(design, lender, faults)) checkPlace(design, lender, faults);
      if (faults.problems.length === 0) checkCover(project, design, lender, faults);
      if (faults.problems.length === 0) checkBacks(design, lender, faults);
    }
    return faults.problems;
  });

/** The case that the file names, if it is one of those before. */
function lenderOf({ cases }: Project, left: string, i: number, { addInput, name }: CaseFaults): Case | null {
  const before = cases.slice(0, i);
  const lender = before.find((one) => one.name === left);
  if (lender !== undefined) return lender;
  const known = before.map((one) => one.name);
  const near = nearest(left, known);
  const isItself = left === cases[i]!.name;
  const isLater = cases.slice(i + 1).some((one) => one.name === left);
  const itself = `${name} would share a side with itself`;
  const other = `${name} shares a side of ${quote(left)}, ${isLater ? "which comes after it" : "and no case is called so"}`;
  const remedies = [
    ...(isLater ? [`put ${quote(left)} before it`] : []),
    ...(near === null || isItself ? [] : [`did you mean ${quote(near)}?`]),
    'name a case before this one, or take "shares" out',
  ];
  const expected = known.length === 0 ? "a case before this one" : choice(known);
  addInput("shares.left", isItself ? itself : other, expected, remedies[0]!);
  return null;
}

/** One of several alike has no side that could be told from the others'. */
function checkAlone(design: Case, lender: Case, { addInput, name }: CaseFaults): boolean {
  const several = [design, lender].find(({ quantity }) => quantity > 1);
  if (several === undefined) return true;
  addInput(
    several === design ? "quantity" : "shares.left",
    `${name} shares a side of ${quote(lender.name)}, and there are ${several.quantity} of ${quote(several.name)}`,
    "one of each",
    "list each case by itself, with a name of its own",
  );
  return false;
}

/** A shelf that goes on into a back behind the shared side would run its corner into the neighbour's back, which covers that side's edge. */
function checkBacks(design: Case, lender: Case, { add, name }: CaseFaults): void {
  const { back } = design;
  if (back.fit !== "applied" || !back.houses || lender.back.fit !== "applied") return;
  add(
    "back.houses",
    `shelves and dividers of ${name} housed in an applied back, beside the applied back of ${quote(lender.name)} on the side that both share`,
    "a back in grooves or in a rabbet where a side is shared, or shelves that end at the back",
    'leave "houses" out, or choose another "fit" for the backs',
  );
}

function checkPlace(design: Case, lender: Case, { add, name, show }: CaseFaults): void {
  const [x, y, z] = design.at;
  const right = lender.at[0] + lender.width;
  if (isSame(x, right) && isSame(y, lender.at[1]) && isSame(z, lender.at[2])) return;
  add(
    "at",
    `${name} shares the right side of ${quote(lender.name)}, and stands at ${show(x)}, ${show(y)}, ${show(z)}`,
    `a case that begins at that side's outer face, with the same front and the same floor: ${show(right)}, ${show(lender.at[1])}, ${show(lender.at[2])}`,
    'leave "at" out, and it stands there',
  );
}

/** The side takes in the bottom, the top panel and the back of the case that shares it, and may not be cut away where they enter. */
function checkCover(project: Project, design: Case, lender: Case, { add, name, show }: CaseFaults): void {
  const own = thicknessIn(design, project.stock);
  const theirs = thicknessIn(lender, project.stock);
  const side = `the right side of ${quote(lender.name)}`;
  const foot = lender.bottom.fit === "under" ? theirs("bottom") : 0;
  const head = lender.top.fit === "over" ? lender.height - theirs("top") : lender.height;
  const low = design.bottom.up;
  if (low < foot - SAME) {
    add(
      "bottom",
      `the bottom of ${name} lies lower than ${side} begins, ${show(foot)} up`,
      `a bottom at least ${show(foot)} up, so that its end meets the side`,
      `raise the bottom, or let the bottom of ${quote(lender.name)} lie between its sides`,
    );
  }
  const high = design.height - design.top.down;
  if (high > head + SAME) {
    add(
      "height",
      `${name} reaches ${show(high)} up, and ${side} ends ${show(head)} up`,
      `at most ${show(head)}`,
      `make ${name} lower, or ${quote(lender.name)} higher`,
    );
  }
  const rear = lender.back.fit === "applied" ? clearDepth(lender, theirs) : lender.depth;
  const deep = design.back.fit === "applied" ? clearDepth(design, own) : design.depth;
  if (deep > rear + SAME) {
    add(
      "depth",
      `${name} is ${show(deep)} deep to its parts' rear edges, and ${side} ${show(rear)}`,
      `at most ${show(rear)}`,
      `make ${name} less deep, or ${quote(lender.name)} deeper`,
    );
  }
  if (lender.kick === null) return;
  const { kick } = design;
  const isAlike =
    kick !== null &&
    kick.fit === lender.kick.fit &&
    isSame(kick.setBack, lender.kick.setBack) &&
    isSame(low, lender.bottom.up) &&
    (kick.fit === "between" ||
      isSame(stockIn(design, project.stock, "kick").thickness, stockIn(lender, project.stock, "kick").thickness));
  if (isAlike || (kick === null && low >= lender.bottom.up - SAME)) return;
  add(
    kick === null ? "bottom" : "kick",
    kick === null
      ? `the bottom of ${name} is ${show(low)} up, where ${side} has its toe notch, ${show(lender.bottom.up)} high`
      : `a kick of ${name} unlike that of ${quote(lender.name)}, whose side they share`,
    kick === null
      ? `a bottom at least ${show(lender.bottom.up)} up`
      : "the same fit, set-back and height, and stock as thick",
    kick === null ? "raise the bottom, or give it the same kick" : "give both the same kick, or this one none",
  );
}

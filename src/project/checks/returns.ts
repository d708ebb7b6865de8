/** Side returns of a face frame: is there room at that end, is the stock right, and is wood left in the mitred stile? */
import { isSame, type Mm, SAME } from "../../base/length.ts";
import type { Case } from "../case.ts";
import { dowelFor } from "../defaults.ts";
import type { SideReturns } from "../face-frame.ts";
import { quote } from "../file/words.ts";
import { looseTenon, stubTenon } from "../frame-joints.ts";
import { framedCases } from "../framed.ts";
import type { Project } from "../project.ts";
import type { CaseFaults } from "./case-faults.ts";
import { frameFoot, stockIn } from "./clear-inside.ts";

/** Wood between the heel of a mitre and what is mortised or drilled in from the other edge (common practice, no source). */
const LEAST_BEHIND: Mm = 5;
/** A strip lies across the grain of a solid side, or on plywood that keeps its size, while it moves itself: no wider (common practice, no source). */
const WIDEST_STRIP: Mm = 152.4;

export function checkReturns(project: Project, design: Case, faults: CaseFaults): void {
  const returns = design.frame?.returns ?? null;
  if (returns === null) return;
  const { add, addInput, name, show } = faults;
  const own = stockIn(design, project.stock, "return");
  const frame = stockIn(design, project.stock, "stile");
  if (own.boards === null) {
    addInput(
      "frame.returns.stock",
      `side returns of ${own.name}, which comes in sheets`,
      'a stock with "boards"',
      "choose solid wood, or leave it out: the frame's own stock is taken",
    );
    return;
  }
  if (design.quantity > 1 && design.frame!.over === null)
    addInput(
      "frame.returns",
      `side returns on ${design.quantity} cases ${name}, which stand beside each other`,
      "a case with nothing beside that end",
      'write the cases one by one, with "returns" at the open ends alone',
    );
  const row = framedCases(design.frame!, design, project.cases);
  const ends = returns.sides.map((side) => ({ side, end: side === "left" ? row[0]! : row.at(-1)! }));
  for (const { side, end } of ends) checkRoom(side, project, end, own.thickness, faults);
  if (returns.fit === "mitred" && !isSame(own.thickness, frame.thickness))
    add(
      "frame.returns.stock",
      `a return ${show(own.thickness)} thick mitred with stiles ${show(frame.thickness)} thick on ${name}`,
      "one thickness: at 45 degrees both are cut alike",
      'plane them alike, or say "fit": "butted"',
    );
  const least = returns.fit === "mitred" ? own.thickness + LEAST_BEHIND : LEAST_BEHIND;
  if (returns.width < least - SAME)
    add(
      "frame.returns.width",
      `a return ${show(returns.width)} wide on ${name}${returns.fit === "mitred" ? `, of which the mitre takes ${show(own.thickness)}` : ""}`,
      `at least ${show(least)}`,
      "make it wider",
    );
  const before = returns.fit === "mitred" ? frame.thickness : 0;
  const shallow = ends.map(({ end }) => end).reduce((a, b) => (b.depth < a.depth ? b : a));
  const behind = shallow.depth - (returns.width - before);
  if (behind < -SAME)
    add(
      "frame.returns.width",
      `a return that reaches ${show(returns.width - before)} along the sides of ${quote(shallow.name)}, which are ${show(shallow.depth)} deep`,
      `at most ${show(shallow.depth + before)} wide`,
      "make it narrower",
    );
  const widest = Math.max(returns.width, returns.strip ?? 0);
  if (widest > own.boards.width + SAME)
    add(
      "frame.returns",
      `a member ${show(widest)} wide on the side of ${name}, from boards at most ${show(own.boards.width)} wide`,
      "members no wider than the boards",
      "make it narrower, or choose wider boards",
    );
  const long = design.height - frameFoot(design);
  if (long > own.boards.length + SAME)
    add(
      "frame.returns",
      `returns ${show(long)} long on ${name}, from boards at most ${show(own.boards.length)} long`,
      "returns no longer than the boards",
      "choose longer boards",
    );
  const skirting = ends.find(({ end }) => end.skirting !== null)?.end.skirting ?? null;
  checkStrip(returns, behind, { ...design, skirting }, faults);
  if (returns.fit === "mitred") checkStile(project, design, own.thickness, faults);
}

/** The end of the case has to be open: nothing else stands where the return comes. */
function checkRoom(
  side: "left" | "right",
  project: Project,
  design: Case,
  thickness: Mm,
  { add, show }: CaseFaults,
): void {
  const { at, height, depth } = design;
  const width = design.quantity * design.width;
  const x: readonly [Mm, Mm] =
    side === "left" ? [at[0] - thickness, at[0]] : [at[0] + width, at[0] + width + thickness];
  const meets = (from: Mm, to: Mm, low: Mm, high: Mm): boolean => from < high - SAME && low < to - SAME;
  const other = project.cases.find(
    (one) =>
      one.path !== design.path &&
      meets(x[0], x[1], one.at[0], one.at[0] + one.quantity * one.width) &&
      meets(at[1], at[1] + depth, one.at[1], one.at[1] + one.depth) &&
      meets(at[2], at[2] + height, one.at[2], one.at[2] + one.height),
  );
  if (other !== undefined)
    add(
      "frame.returns.sides",
      `a return ${show(thickness)} thick at the ${side} end of ${quote(design.name)}, where ${quote(other.name)} stands`,
      `an open end, ${show(thickness)} clear`,
      'name the other end in "sides", or move the cases apart with "at"',
    );
}

function checkStrip({ strip }: SideReturns, behind: Mm, design: Case, { add, show, name }: CaseFaults): void {
  if (strip === null) return;
  if (behind < LEAST_BEHIND)
    add(
      "frame.returns.strip",
      `a strip ${show(Math.max(0, behind))} long behind the returns of ${name}`,
      `at least ${show(LEAST_BEHIND)}`,
      'leave "strip" out, or make the returns narrower',
    );
  const most = Math.min(WIDEST_STRIP, design.height - frameFoot(design));
  if (strip > most + SAME)
    add(
      "frame.returns.strip",
      `a strip ${show(strip)} wide glued along the side of ${name}`,
      `at most ${show(most)}: it moves across its width, and the side does not`,
      "make it narrower",
    );
  if (design.skirting !== null)
    add(
      "frame.returns.strip",
      `a strip along the lower edge of the sides of ${name}, which are notched over the skirting there`,
      "sides that stand on the floor to their rear edges",
      'leave "strip" out, or let the piece stand off the wall',
    );
}

/** What comes into the stile from its inner edge stays clear of the slope. */
function checkStile({ unit }: Project, design: Case, taken: Mm, { add, show, name }: CaseFaults): void {
  const { joint, stile, midRail, topRail, tenon } = design.frame!;
  if (joint === "half laps") {
    add(
      "frame.joint",
      `half laps through to the outer edges of the stiles of ${name}, which are mitred`,
      "joints that end inside the stile",
      'choose "loose tenons" or "dowels", or say "fit": "butted"',
    );
    return;
  }
  const section = { thickness: taken, width: Math.min(topRail ?? stile, midRail ?? stile), behind: stile };
  const deep =
    joint === "loose tenons"
      ? looseTenon(section, tenon, unit).depth
      : joint === "stub tenons"
        ? stubTenon(taken, tenon, unit).length
        : joint === "dowels"
          ? dowelFor(taken).length / 2 + dowelFor(taken).spare
          : 0;
  // At the rear face the slope comes in by the whole thickness.
  if (stile < taken + deep + LEAST_BEHIND - SAME)
    add(
      "frame.stile",
      `mitred stiles ${show(stile)} wide on ${name}, of which the mitre takes ${show(taken)} and the ${joint} go ${show(deep)} in`,
      `at least ${show(taken + deep + LEAST_BEHIND)}`,
      'make the stiles wider, or say "fit": "butted"',
    );
}

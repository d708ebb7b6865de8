/** A face frame: does it cover the case's edges, and is it cut from boards that are wide and long enough? */
import { type Mm, SAME } from "../../base/length.ts";
import type { Problem } from "../../base/problem.ts";
import { listInWords } from "../../base/words.ts";
import { hasBetween } from "../case/bays.ts";
import type { Case } from "../case.ts";
import type { LowerEdge } from "../face-frame.ts";
import { quote } from "../file/words.ts";
import { deepestTenon, looseTenon, stubTenon } from "../frame-joints.ts";
import { framedCases, framedCount, framedWidth, isTold } from "../framed.ts";
import type { Project } from "../project.ts";
import { faultsOf } from "./case-faults.ts";
import { ceilingRole, frameFoot, isFrameDown, overhangsOf, thicknessIn } from "./clear-inside.ts";
import { checkFrameRow } from "./frame-row.ts";
import { checkReturns } from "./returns.ts";

/** Wood beside a tenon, at least (common practice, no source). */
const LEAST_BESIDE_TENON = 5;
/** Wood that stays over what is cut out, and the least between two feet (common practice, no source). */
const LEAST_OVER = 25;
const LEAST_BETWEEN = 50;

export function checkFrame(project: Project, design: Case): Problem[] {
  const { frame } = design;
  if (frame === null || !isTold(frame, design)) return [];
  const faults = faultsOf(project, design);
  const { problems, add, addInput, show } = faults;
  const row = framedCases(frame, design, project.cases);
  const name = listInWords(row.map((one) => quote(one.name)));
  const several = framedCount(frame, design, project.cases) > 1;
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
  for (const one of row) {
    const beside = project.cases.filter(({ name, shares }) => shares?.left === one.name || one.shares?.left === name);
    for (const other of beside.filter((each) => !row.includes(each)))
      add(
        "frame",
        `a face frame before ${quote(one.name)}, which shares a side with ${quote(other.name)}`,
        "one frame before both, or a case with both sides of its own",
        'name both in "over", or give each case its own sides',
      );
  }
  if (several) checkFrameRow(project, row, frame, faults);
  checkReturns(project, design, faults);
  const foot = frameFoot(design);
  const overhangs = overhangsOf(design, thickness);
  const whole = framedWidth(frame, design, project.cases) + overhangs[0] + overhangs[1];
  const overhang = Math.max(...overhangs);
  const thickest = Math.max(...row.map((one) => thicknessIn(one, project.stock)("side")));
  const least = thickest + overhang;
  if (frame.stile < least - SAME) {
    add(
      "frame.stile",
      `stiles ${show(frame.stile)} wide before ${name}, whose sides are ${show(thickest)} thick and set in by the overhang of ${show(overhang)}`,
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
  if (frame.lower !== null) checkLower(frame.lower, upper);
  const head = Math.max(...row.map((one) => one.top.down + thicknessIn(one, project.stock)(ceilingRole(one))));
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
    several ? frame.jointStile : 0,
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
  if (frame.joint === "loose tenons") checkTenons(head, upper);
  if (frame.joint === "stub tenons") checkStubs(head, upper);
  const longest = Math.max(design.height - foot, whole - 2 * frame.stile);
  if (longest > boards.boards.length + SAME) {
    add(
      "frame",
      `a member ${show(longest)} long before ${name}, from boards at most ${show(boards.boards.length)} long`,
      "members no longer than the boards",
      several
        ? "choose longer boards, or give each case a frame of its own"
        : "choose longer boards, or make two cases of it",
    );
  }
  return problems;

  /** Widths of the stiles that stand between rails. */
  function midStiles(): Mm[] {
    const { midStile, jointStile } = frame!;
    return [
      ...(row.some(({ bays }) => hasBetween(bays, "divider")) ? [midStile] : []),
      ...(several ? [jointStile] : []),
    ];
  }

  function checkThickness(thick: Mm): void {
    if (thick <= boards.thickness / 2 + SAME) return;
    add(
      "frame.tenon.thickness",
      `tenons ${show(thick)} thick in the frame of ${name}, which is ${show(boards.thickness)} thick`,
      `at most ${show(boards.thickness / 2)}, half of it; a third is usual`,
      "make the tenons thinner",
    );
  }

  /** Rails end on stiles, and mid stiles on rails: a stub goes at most half through what it ends on. */
  function checkStubs(topRail: Mm, bottomRail: Mm): void {
    const { tenon, stile } = frame!;
    const stub = stubTenon(boards.thickness, tenon, project.unit);
    checkThickness(stub.thickness);
    const rails = [
      frame!.topRail ?? topRail,
      ...(frame!.bottomRail === null ? [] : [frame!.bottomRail === "to the end" ? bottomRail : frame!.bottomRail]),
    ];
    const mids = midStiles();
    const behind = Math.min(stile, ...mids, ...(mids.length > 0 ? rails : []));
    if (stub.length <= behind / 2 + SAME) return;
    add(
      tenon.length === null ? "frame.joint" : "frame.tenon.length",
      `stub tenons ${show(stub.length)} long in the frame of ${name}, whose narrowest member that takes one is ${show(behind)} wide`,
      `at most ${show(behind / 2)}, half of it`,
      'make the tenons shorter ("tenon": { "length": ... }), or that member wider',
    );
  }

  /** By the narrowest member that ends at another, and the narrowest that one ends at. */
  function checkTenons(topRail: Mm, bottomRail: Mm): void {
    const { tenon, stile, midRail } = frame!;
    const uprights = midStiles();
    const rails = [
      frame!.topRail ?? topRail,
      ...(frame!.bottomRail === null ? [] : [frame!.bottomRail === "to the end" ? bottomRail : frame!.bottomRail]),
    ];
    const mids = row.some(({ bays }) => hasBetween(bays, "shelf")) && midRail !== null ? [midRail] : [];
    const ending = Math.min(...rails, ...mids, ...uprights);
    const behind = Math.min(stile, ...uprights, ...(uprights.length > 0 ? rails : []));
    const sized = looseTenon({ thickness: boards.thickness, width: ending, behind }, tenon, project.unit);
    checkThickness(sized.thickness);
    const wide = ending - 2 * LEAST_BESIDE_TENON;
    if (tenon.width !== null && tenon.width > wide + SAME)
      add(
        "frame.tenon.width",
        `tenons ${show(tenon.width)} wide in the frame of ${name}, whose narrowest member is ${show(ending)}`,
        `at most ${show(wide)}, so that wood is left beside them`,
        "make the tenons narrower",
      );
    if (sized.width < sized.thickness - SAME)
      add(
        tenon.width === null ? "frame.joint" : "frame.tenon.width",
        `tenons ${show(sized.width)} wide and ${show(sized.thickness)} thick in the frame of ${name}, whose narrowest member is ${show(ending)}`,
        "tenons at least as wide as thick",
        'make that member wider, or the tenons thinner; or "joint": "pocket screws"',
      );
    const deep = deepestTenon(behind, project.unit);
    if (tenon.length !== null && tenon.length > deep + SAME)
      add(
        "frame.tenon.length",
        `tenons ${show(tenon.length)} long in the frame of ${name}, half of them in members ${show(behind)} wide`,
        `at most ${show(deep)}: their mortises go two thirds through`,
        "make the tenons shorter",
      );
  }

  function checkLower({ form, foot, rise, relief }: LowerEdge, rail: Mm): void {
    const { stile, bottomRail } = frame!;
    if (bottomRail !== "to the end" || !isFrameDown(design)) {
      add(
        "frame.lower",
        `a shaped lower edge on the bottom rail of ${name}, which does not reach the floor`,
        "a bottom rail down to the floor",
        'leave "bottomRail" and the kick out, or the shape',
      );
      return;
    }
    if (foot < stile + SAME) {
      add(
        "frame.lower.foot",
        `feet ${show(foot)} wide on ${name}, whose stiles are ${show(stile)}`,
        `more than ${show(stile)}: the stile stands on the foot`,
        "make the feet wider",
      );
    }
    if (rise > rail - LEAST_OVER + SAME) {
      add(
        "frame.lower.rise",
        `a rise of ${show(rise)} in the bottom rail of ${name}, which is ${show(rail)} wide`,
        `at most ${show(rail - LEAST_OVER)}, so that ${show(LEAST_OVER)} of wood stays over it`,
        "make the rise less, or set the bottom higher",
      );
    }
    const between = whole - 2 * foot - 2 * relief;
    const least = form === "arch" ? Math.max(LEAST_BETWEEN, 2 * rise) : LEAST_BETWEEN;
    if (between < least - SAME) {
      add(
        "frame.lower",
        `feet that leave ${show(Math.max(0, between))} between them under ${name}`,
        `at least ${show(least)}`,
        form === "arch" ? "make the feet narrower, or the rise less" : "make the feet narrower, or slope them less",
      );
    }
  }
}

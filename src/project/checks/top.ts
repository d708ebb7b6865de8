/** What takes the top panel's place or lies on it: is a stretcher wide enough to be held, and do the filler strips lie clear of each other? */
import { SAME } from "../../base/length.ts";
import type { Problem } from "../../base/problem.ts";
import type { Bay } from "../bay.ts";
import type { Case } from "../case.ts";
import { LEAST_CLEAR, LEAST_STRIP } from "../defaults.ts";
import type { Project } from "../project.ts";
import { faultsOf } from "./case-faults.ts";
import { eachBay } from "./clear-bays.ts";
import { clearInside, thicknessIn } from "./clear-inside.ts";
import { heldAfter } from "./groove.ts";

export const checkTop = (project: Project, design: Case): Problem[] => [
  ...checkStretchers(project, design),
  ...checkFillers(project, design),
];

function checkStretchers(project: Project, design: Case): Problem[] {
  const { fit, stretcher } = design.top;
  if (fit !== "stretchers") return [];
  const { problems, add, name, show } = faultsOf(project, design);
  const { depth } = clearInside(design, thicknessIn(design, project.stock));
  if (2 * stretcher > depth - LEAST_CLEAR + SAME) {
    add(
      "top.width",
      `two stretchers ${show(stretcher)} wide in ${name}, which is ${show(depth)} deep inside`,
      `at least ${show(LEAST_CLEAR)} between them`,
      'make them narrower, or write "fit": "between" for a top panel',
    );
  }
  const least = heldAfter(design);
  if (stretcher < least - SAME) {
    add(
      "top.width",
      `stretchers ${show(stretcher)} wide in ${name}`,
      `at least ${show(least)}, so that enough of the front one is held where its grooves stop short`,
      "make them wider",
    );
  }
  return problems;
}

function checkFillers(project: Project, design: Case): Problem[] {
  const strip = design.top.fillers;
  if (strip === null) return [];
  const { problems, add, name, show } = faultsOf(project, design);
  const thickness = thicknessIn(design, project.stock);
  const { depth, width } = clearInside(design, thickness);
  const rear = design.back.fit === "applied" ? depth : design.depth;
  if (strip < LEAST_STRIP - SAME) {
    add(
      "top.fillers",
      `filler strips ${show(strip)} wide in ${name}`,
      `at least ${show(LEAST_STRIP)}, to take a screw without splitting`,
      "make them wider",
    );
  }
  if (2 * strip > rear - LEAST_CLEAR + SAME) {
    add(
      "top.fillers",
      `filler strips ${show(strip)} wide along front and back of ${name}, which is ${show(rear)} deep there`,
      `at least ${show(LEAST_CLEAR)} between them`,
      "make them narrower",
    );
  }
  const left = design.shares === null ? thickness("side") : 0;
  const middles = dividersUnderTop(design, thickness("divider"), thickness);
  const starts = [left, ...middles.map((middle) => middle - strip / 2), left + width - strip];
  const tight = starts.findIndex((start, i) => i > 0 && start - (starts[i - 1]! + strip) < LEAST_CLEAR - SAME);
  if (tight > 0) {
    const gap = starts[tight]! - starts[tight - 1]! - strip;
    add(
      "top.fillers",
      `filler strips ${show(strip)} wide in ${name}, two of which ${gap < -SAME ? `lap by ${show(-gap)}` : `lie ${show(Math.max(0, gap))} apart`}`,
      `at least ${show(LEAST_CLEAR)} between strips over neighbouring dividers and sides`,
      "make them narrower, or the bays wider",
    );
  }
  return problems;
}

/** Middles of the dividers that reach the top panel, from left to right. */
function dividersUnderTop(design: Case, divider: number, thickness: Parameters<typeof eachBay>[1]): number[] {
  const upper = new Set<Bay>();
  const mark = (bay: Bay): void => {
    if (bay.kind === "open") return;
    if (bay.kind === "columns") upper.add(bay);
    for (const child of bay.kind === "columns" ? bay.bays : bay.bays.slice(-1)) mark(child);
  };
  mark(design.bays);
  const middles: number[] = [];
  eachBay(design, thickness, (bay, { x }, division) => {
    if (!upper.has(bay) || x === null || division === null || !("sizes" in division)) return;
    let at = x[0];
    for (const size of division.sizes.slice(0, -1)) {
      middles.push(at + size + divider / 2);
      at += size + divider;
    }
  });
  return middles.sort((a, b) => a - b);
}

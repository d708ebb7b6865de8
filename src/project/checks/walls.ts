/** The wall behind: does each case that stands before its skirting pass it? */
import { SAME } from "../../base/length.ts";
import type { Problem } from "../../base/problem.ts";
import type { Case } from "../case.ts";
import { LEAST_BESIDE, LEAST_FOOT } from "../defaults.ts";
import type { Project } from "../project.ts";
import { faultsOf } from "./case-faults.ts";

const STAND_OFF = 'write "pass": "stand off" for the wall';

export function checkSkirting(project: Project, design: Case): Problem[] {
  const { walls } = project;
  const { skirting, plinth, bottom, kick, depth, at } = design;
  if (walls.back?.pass !== "notch" || design.at[1] + depth < wallOf(project) - SAME) return [];
  const { problems, add, name, show } = faultsOf(project, design);
  const need = walls.back.skirting.thickness + walls.back.clearance;
  if (plinth !== null && at[2] - plinth.height < walls.back.skirting.height && plinth.inset < need - SAME) {
    add(
      "plinth.inset",
      `a plinth ${show(plinth.inset)} before the rear of ${name}, where the wall has a skirting`,
      `at least ${show(need)}: the skirting and its clearance`,
      `set it in more, or ${STAND_OFF}`,
    );
  }
  if (skirting === null) return problems;
  if (bottom.fit === "under" || bottom.up < skirting.height + LEAST_BESIDE - SAME) {
    add(
      "bottom",
      `the bottom of ${name} ${bottom.fit === "under" ? "under its sides" : `${show(bottom.up)} up`}, with notches ${show(skirting.height)} high in the sides over the skirting of the wall`,
      `a bottom between the sides, at least ${show(skirting.height + LEAST_BESIDE)} up`,
      `raise it, stand the case on a higher plinth, or ${STAND_OFF}`,
    );
  }
  const toe = kick === null ? 0 : kick.setBack;
  const foot = depth - toe - skirting.depth;
  if (foot < LEAST_FOOT - SAME) {
    add(
      "depth",
      `notches ${show(skirting.depth)} deep over the skirting in ${name}, whose sides then stand on ${show(foot)}`,
      `at least ${show(LEAST_FOOT)} to stand on`,
      `make the case deeper, or ${STAND_OFF}`,
    );
  }
  return problems;
}

const wallOf = ({ cases }: Project): number => Math.max(...cases.map(({ at, depth }) => at[1] + depth));

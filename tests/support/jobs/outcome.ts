/** What becomes of a project file: a set that the dry fit has looked at, or the problems for which it was refused. */
import { dryFit } from "../../../src/audit/dryfit.ts";
import { type Problem, ProblemsFound } from "../../../src/base/problem.ts";
import { planJoinery, planModels } from "../../../src/plans/set.ts";
import { planSizing } from "../../../src/plans/settings/index.ts";
import { tidy } from "../../../src/plans/tidy.ts";
import type { Project } from "../../../src/project/project.ts";
import { readProjectText } from "../../../src/project/read.ts";
import type { DryfitSet, SetCheck } from "../../../src/set/schema.ts";

export type Outcome =
  | { kind: "made"; project: Project; set: DryfitSet; failures: SetCheck[] }
  | { kind: "refused"; problems: Problem[] };

/** The set without its paper: the dry fit needs no more. */
export function joinerySet(project: Project): DryfitSet {
  const plan = planJoinery(project, planModels(project, null), { draft: false, olderSet: null });
  return tidy({
    ...plan,
    layout: {
      seed: 1,
      effort: "normal",
      levels: null,
      first: null,
      keep: null,
      wishes: [],
      repeatable: true,
    },
    sheets: [],
    boards: [],
    sizing: planSizing({ ...plan, sheets: [] }, project.tooling.saw),
    sticks: [],
    labels: [],
    rack: [],
    reprint: null,
    finishes: [],
    purchase: [],
    steps: [],
    sensitivity: [],
  });
}

/** The same, looked over by the dry fit. */
export function proved(project: Project): DryfitSet {
  const set = joinerySet(project);
  return { ...set, checks: [...dryFit(set), ...set.checks] };
}

export function outcomeOf(text: string): Outcome {
  try {
    const { project } = readProjectText(text, "random.json");
    const set = joinerySet(project);
    const checks = [...dryFit(set), ...set.checks];
    return { kind: "made", project, set, failures: checks.filter(({ level }) => level === "failure") };
  } catch (error) {
    if (error instanceof ProblemsFound) return { kind: "refused", problems: [...error.problems] };
    throw error;
  }
}

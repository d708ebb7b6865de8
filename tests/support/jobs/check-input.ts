/** What the checks look at, of a project as text or as read: the same plans as in a set, open to a test's edits. */
import type { CheckInput } from "../../../src/plans/checks/input.ts";
import { planJoinery, planModels } from "../../../src/plans/set.ts";
import type { Project } from "../../../src/project/project.ts";
import type { SetCheck } from "../../../src/set/schema.ts";
import { readText } from "./project-file.ts";

export function checkInputOf(job: Project | string): CheckInput {
  const project = typeof job === "string" ? readText(job).project : job;
  const models = planModels(project, null);
  const joinery = planJoinery(project, models, { draft: false, olderSet: null });
  const { unit, step, tooling, doorway, moisture, finishes, floorOut } = project;
  return { ...joinery, ...models, unit, step, tooling, doorway, moisture, finishes, floorOut };
}

export const byId = (checks: readonly SetCheck[], id: string, level?: SetCheck["level"]): SetCheck[] =>
  checks.filter((check) => check.id === id && (level === undefined || check.level === level));

/** A job of one case in millimetres, 18 mm plywood that measures 17.6; `more` is put into the case, `job` into the job. */
export const caseJob = (
  [width, height, depth]: readonly [number, number, number],
  more: Record<string, unknown> = {},
  job: Record<string, unknown> = {},
): string =>
  JSON.stringify({
    job: { number: "1", title: "Case", date: "2026-11-20", revision: "A" },
    unit: "mm",
    stock: { "ply-18mm": { measured: 17.6 }, "ply-6mm": { measured: 5.7 } },
    cases: [{ name: "case", width, height, depth, stock: { all: "ply-18mm", back: "ply-6mm" }, ...more }],
    ...job,
  });

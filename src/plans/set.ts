/** The whole set as plain data: exact model, printed model, then every plan, in the order in which they need each other. */
import { ProblemsFound } from "../base/problem.ts";
import { deriveModel } from "../model/derive.ts";
import type { Model } from "../model/model.ts";
import { roundModel } from "../printed/round.ts";
import { type Project, whereIn } from "../project/project.ts";
import type { DryfitSet, SetCheck } from "../set/schema.ts";
import { planChecks } from "./checks.ts";
import { planHandWork } from "./hand-work.ts";
import { planLabels } from "./labels.ts";
import { assignMarks } from "./marks.ts";
import { planAssemblies, planJointList, planOpenings, planParts, planPieces } from "./parts.ts";
import { planPurchase } from "./purchase.ts";
import { planSettings } from "./settings.ts";
import { planSheets } from "./sheets.ts";
import { planSteps } from "./steps.ts";
import { planSticks } from "./sticks.ts";

export type SetOptions = { draft: boolean; olderSet: DryfitSet | null };

/** Throws ProblemsFound where the piece cannot be made: a part too thin to house another, a part larger than any sheet. */
export function planSet(project: Project, options: SetOptions): DryfitSet {
  const exact = deriveModel(project);
  const printed = roundModel(exact, project);
  return tidy(planPrinted(project, exact, printed, options));
}

function planPrinted(project: Project, exact: Model, printed: Model, { draft, olderSet }: SetOptions): DryfitSet {
  const { unit, step, stock, tooling, paper } = project;
  const job: DryfitSet["job"] = { name: project.name, ...project.job, unit, step, draft };
  const keys = printed.cases.flatMap(({ parts }) => parts.map(({ key }) => key));
  const marks = assignMarks(keys, olderSet);
  const parts = planParts(printed, marks, stock);
  const joints = planJointList(printed, marks, parts);
  const assemblies = planAssemblies(printed);
  const openings = planOpenings(printed);
  const pieces = planPieces(parts);
  const { settings, noTool } = planSettings({ parts, stock, tooling, unit });
  const handWork = planHandWork(parts, unit);
  const layouts = planSheets({ pieces, stock, kerf: tooling.saw.kerf, unit });
  failOnLayouts(project, printed, marks, layouts.problems);
  const { sheets } = layouts;
  const sticks = planSticks({ parts, assemblies, paper, job });
  const labels = planLabels({ parts, paper, job });
  const purchase = planPurchase({ stock, sheets, parts, joints, unit });
  const checks: SetCheck[] = [
    ...noTool.map(({ mark, text }): SetCheck => ({ id: "no-tool", level: "failure", parts: [mark], text })),
    ...planChecks({ parts, joints, assemblies, stock, sheets, unit, step, exact, printed, marks }),
  ];
  const steps = planSteps({ parts, settings, handWork, sheets, assemblies, openings, stock, unit, model: printed });
  return {
    version: 1,
    job,
    paper,
    stock,
    assemblies,
    openings,
    parts,
    pieces,
    joints,
    settings,
    handWork,
    sheets,
    sticks,
    labels,
    checks,
    purchase,
    steps,
    mass: parts.reduce((sum, { mass }) => sum + mass, 0),
    lastMark: Math.max(olderSet?.lastMark ?? 0, ...parts.map(({ mark }) => Number(mark))),
  };
}

/** A part larger than any sheet is named where the project file speaks of it. */
function failOnLayouts(
  project: Project,
  printed: Model,
  marks: ReadonlyMap<string, string>,
  problems: ReturnType<typeof planSheets>["problems"],
): void {
  if (problems.length === 0) return;
  const parts = printed.cases.flatMap((one) => one.parts);
  throw new ProblemsFound(
    problems.map((problem) => ({
      level: "error" as const,
      kind: "design" as const,
      where: whereIn(project, parts.find(({ key }) => marks.get(key) === problem.mark)?.path ?? ""),
      found: problem.text,
      expected: problem.expected,
      remedy: problem.remedy,
    })),
  );
}

const PLACES = 1e6;

/** Float noise below a nanometre is taken off every number, so that two routes to a length give the same bytes. */
function tidy<T>(value: T): T {
  if (typeof value === "number") return (Math.round(value * PLACES) / PLACES + 0) as T;
  if (Array.isArray(value)) return value.map(tidy) as T;
  if (value !== null && typeof value === "object") {
    return Object.fromEntries(Object.entries(value).map(([key, inner]) => [key, tidy(inner)])) as T;
  }
  return value;
}

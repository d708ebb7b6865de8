/** From a checked project to the exact model: contacts, depths, sizes, features, in that order. */
import { formatLengthWithUnit, type Mm } from "../base/length.ts";
import { type Problem, ProblemsFound } from "../base/problem.ts";
import { type Case, type Project, whereIn } from "../project/project.ts";
import { layCarcase, type StockTable } from "./carcase.ts";
import { cut } from "./cut.ts";
import { type JointPlan, LEAST_HOUSING, planJoints } from "./joints.ts";
import type { CaseModel, Model } from "./model.ts";
import { EXACT, seat } from "./seat.ts";

/** Throws ProblemsFound where a part is too thin for the joint it receives. */
export function deriveModel(project: Project): Model {
  const stock: StockTable = new Map(project.stock.map((one) => [one.id, one]));
  const problems: Problem[] = [];
  const cases = project.cases.flatMap((design) =>
    Array.from({ length: design.quantity }, (_, instance) => deriveCase(project, design, instance, stock, problems)),
  );
  if (problems.length > 0) throw new ProblemsFound(problems);
  return { cases };
}

function deriveCase(
  project: Project,
  design: Case,
  instance: number,
  stock: StockTable,
  problems: Problem[],
): CaseModel {
  const name = design.quantity > 1 ? `${design.name} ${instance + 1}` : design.name;
  const carcase = layCarcase(design, name, stock);
  const plan = planJoints(carcase.parts, design, stock, project.unit);
  // Instances share their design, so they share its problems: say each once.
  if (instance === 0) problems.push(...problemsOf(project, design, plan));
  const seated = seat(carcase.parts, plan.joints, EXACT);
  return {
    name,
    design,
    at: [design.at[0] + instance * design.width, design.at[1], design.at[2]],
    size: [design.width, design.depth, design.height],
    parts: cut(seated, plan.joints, EXACT),
    joints: plan.joints,
    openings: carcase.openings,
    thirds: plan.thirds,
  };
}

/** Depths over half a part's thickness were found by the reader; what receives what is known only now. */
function problemsOf(project: Project, design: Case, { tooThin }: JointPlan): Problem[] {
  const show = (length: Mm): string => formatLengthWithUnit(length, project.unit);
  return tooThin
    .filter(({ part }, i) => tooThin.findIndex((other) => other.part.key === part.key) === i)
    .map(({ part, stock }) => ({
      level: "error",
      kind: "design",
      where: whereIn(project, `${design.path}.stock`),
      found: `the ${part.name} of "${design.name}" is ${show(stock.nominal)} thick and would have to house another part`,
      expected: `a part of ${show(LEAST_HOUSING)} or more where grooves are cut`,
      remedy: 'choose a thicker stock for it, or give "depth" under "joinery" yourself',
    }));
}

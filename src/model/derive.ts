/** From a checked project to the exact model: contacts, depths, sizes, features, in that order. */

import { formatLengthWithUnit, type Mm } from "../base/length.ts";
import { type Problem, ProblemsFound } from "../base/problem.ts";
import type { Case } from "../project/case.ts";
import { LEAST_HOUSING } from "../project/defaults.ts";
import { type Project, whereIn } from "../project/project.ts";
import { asBuiltFaults } from "./as-built.ts";
import { layCarcase, type StockTable } from "./cases/carcase.ts";
import { layFeet } from "./cases/feet.ts";
import { layPlinth, plinthSize } from "./cases/plinth.ts";
import { gather, rowsOf, spread } from "./cases/row.ts";
import { cut } from "./cut.ts";
import { EXACT, type Grid } from "./grid.ts";
import { planJoints, type TooThin } from "./joints.ts";
import { type AssemblyModel, BARE, type Joint, type Model, type Part } from "./model.ts";
import { seat, settle } from "./seat.ts";
import { layStages } from "./stages.ts";

/** Throws ProblemsFound where a part is too thin for the joint it receives. */
export function deriveModel(project: Project): Model {
  const stock: StockTable = new Map(project.stock.map((one) => [one.id, one]));
  const problems: Problem[] = [];
  const laid = project.cases.flatMap((design) =>
    Array.from({ length: design.quantity }, (_, instance) => layCase(design, instance, stock)).flat(),
  );
  const joined = new Map(
    rowsOf(laid).flatMap((row) => joinRow(row, project, stock, problems).map((one) => [one.name, one])),
  );
  if (problems.length > 0) throw new ProblemsFound(problems);
  const cases = laid.map(({ name }) => joined.get(name)!);
  const assemblies = layStages(cases, { project, stock, grid: EXACT }, (one, { faults }) => {
    problems.push(...faults(one, project));
    return joinRow([one], project, stock, problems)[0]!;
  });
  problems.push(...asBuiltFaults(project, assemblies), ...finishFaults(project, assemblies));
  if (problems.length > 0) throw new ProblemsFound(problems);
  return { assemblies };
}

/** A case at its butt sizes, with the base under it. */
function layCase(design: Case, instance: number, stock: StockTable): AssemblyModel[] {
  const name = design.quantity > 1 ? `${design.name} ${instance + 1}` : design.name;
  const [x, y, z] = [design.at[0] + instance * design.width, design.at[1], design.at[2]];
  const lender = design.shares === null ? null : `${design.shares.left}/side-right`;
  const carcase = layCarcase(design, name, stock, lender);
  const one: AssemblyModel = {
    ...BARE,
    name,
    kind: "case",
    design,
    at: [x, y, z],
    size: [design.width, design.depth, design.height],
    ...carcase,
  };
  const { plinth, feet } = design;
  if (feet !== null) return [layFeet(design, feet, name, one.at, `${name}/bottom`), one];
  if (plinth === null) return [one];
  const base: AssemblyModel = {
    ...BARE,
    name: `${name} plinth`,
    kind: "base",
    design,
    at: [x + plinth.inset, y + plinth.setBack, z - plinth.height],
    size: plinthSize(design, plinth),
    parts: layPlinth(design, plinth, `${name} plinth`, stock),
  };
  return [base, one];
}

/** A finish for parts that the job has none of. */
function finishFaults(project: Project, assemblies: readonly AssemblyModel[]): Problem[] {
  const roles = new Set(assemblies.flatMap(({ parts }) => parts.map(({ role }) => role)));
  return project.finishes.flatMap(({ path, name, roles: on }) =>
    (on ?? [])
      .filter((role) => !roles.has(role))
      .map(
        (role): Problem => ({
          level: "error",
          kind: "input",
          where: whereIn(project, `${path}.parts`),
          found: `${name} on parts of the role "${role}", of which there are none`,
          expected: `roles that the job has: ${[...roles].join(", ")}`,
          remedy: "take the role out",
        }),
      ),
  );
}

const caseOf = (key: string): string => key.slice(0, key.indexOf("/"));

function joinRow(row: AssemblyModel[], project: Project, stock: StockTable, problems: Problem[]): AssemblyModel[] {
  const owner = (part: Part): AssemblyModel => row.find(({ name }) => name === caseOf(part.key))!;
  const pinRows = row.flatMap((one) => one.pinRows);
  const plan = planJoints(gather(row), pinRows, {
    designOf: (part) => owner(part).design,
    mayMeet: (entering, receiving) =>
      owner(entering) === owner(receiving) || receiving.key === `${owner(entering).design.shares?.left}/side-right`,
    stock,
    unit: project.unit,
  });
  problems.push(...problemsOf(project, plan.tooThin, owner));
  const joints = new Map(row.map((one) => [one, plan.joints.filter(({ entering }) => caseOf(entering) === one.name)]));
  const joined = row.map((one) => ({
    ...one,
    joints: joints.get(one)!,
    thirds: plan.thirds.filter(({ receiving }) => caseOf(receiving) === one.name),
  }));
  return fitRow(joined, EXACT);
}

/** A row with its joints known, seated and cut: for the exact model and for the printed one alike. */
export function fitRow(row: AssemblyModel[], grid: Grid): AssemblyModel[] {
  const joints = row.flatMap((one) => one.joints);
  const seated = seat(gather(row), joints, grid);
  const settled = settle(joints, seated, grid);
  const parts = cut(
    seated,
    settled,
    row.flatMap((one) => one.pinRows),
    grid,
  );
  const own = (one: AssemblyModel): Joint[] => settled.filter(({ entering }) => caseOf(entering) === one.name);
  return spread(
    row.map((one) => ({ ...one, joints: own(one) })),
    parts,
  );
}

/** Depths over half a part's thickness were found by the reader; what receives what is known only now. */
function problemsOf(project: Project, tooThin: readonly TooThin[], owner: (part: Part) => AssemblyModel): Problem[] {
  const show = (length: Mm): string => formatLengthWithUnit(length, project.unit);
  return tooThin
    .filter(({ part }, i) => tooThin.findIndex((other) => other.part.key === part.key) === i)
    .filter(({ part }) => isFirst(owner(part)))
    .map(({ part, stock }) => ({
      level: "error",
      kind: "design",
      where: whereIn(project, `${owner(part).design.path}.stock`),
      found: `the ${part.name} of "${owner(part).design.name}" is ${show(stock.nominal)} thick and would have to house another part`,
      expected: `a part of ${show(LEAST_HOUSING)} or more where grooves are cut`,
      remedy: 'choose a thicker stock for it, or give "depth" under "joinery" yourself',
    }));
}

/** Instances share their design, so they share its problems: say each once. */
const isFirst = ({ name, design }: AssemblyModel): boolean => design.quantity === 1 || name === `${design.name} 1`;

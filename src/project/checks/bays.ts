/** Do the bays add up? Clear sizes and what stands between them must come to the clear space they divide. */
import { formatLengthWithUnit, type Mm, SAME, type Unit } from "../../base/length.ts";
import type { Problem } from "../../base/problem.ts";
import type { Bay } from "../bay.ts";
import type { Case } from "../case.ts";
import { LEAST_CLEAR } from "../defaults.ts";
import { designProblem } from "../file/problems.ts";
import { quote } from "../file/words.ts";
import type { Project } from "../project.ts";
import { eachBay } from "./clear-bays.ts";
import { thicknessIn } from "./clear-inside.ts";

/** A difference may be finer than the paper prints. */
function difference(length: Mm, unit: Unit): string {
  const finest = unit === "mm" ? 0.05 : 0.0254;
  return length < finest ? `less than ${formatLengthWithUnit(finest, unit)}` : formatLengthWithUnit(length, unit);
}

export function checkBays(project: Project, design: Case): Problem[] {
  const thickness = thicknessIn(design, project.stock);
  const problems: Problem[] = [];

  eachBay(design, thickness, (bay, { x, z }, division) => {
    if (bay.kind === "open" || division === null) return;
    const run = bay.kind === "columns" ? x! : z!;
    if ("sizes" in division) problems.push(...narrowProblem(project, design, bay, division.sizes));
    else problems.push(sumProblem(project, design, bay, run[1] - run[0], division.over));
  });
  return problems;
}

/** Of the bays side by side or above each other that are too narrow, the first: the others are so for the same reason. */
function narrowProblem(
  project: Project,
  design: Case,
  bay: Bay & { kind: "columns" | "rows" },
  sizes: readonly Mm[],
): Problem[] {
  const i = sizes.findIndex((size) => size < LEAST_CLEAR - SAME);
  const child = bay.bays[i];
  if (child === undefined) return [];
  const columns = bay.kind === "columns";
  const name = child.name === null ? `a bay of ${quote(bay.name ?? design.name)}` : quote(child.name);
  const { unit } = project;
  return [
    designProblem(
      project,
      "clear" in child.size ? `${child.path}.size` : child.path,
      `${name} would be ${difference(sizes[i]!, unit)} ${columns ? "wide" : "high"} inside`,
      `at least ${formatLengthWithUnit(LEAST_CLEAR, unit)}`,
      "clear" in child.size
        ? "give it a larger size"
        : `make the bays beside it smaller or fewer, or the case ${columns ? "wider" : "higher"}`,
    ),
  ];
}

function sumProblem(
  project: Project,
  design: Case,
  bay: Bay & { kind: "columns" | "rows" },
  space: Mm,
  over: Mm,
): Problem {
  const { unit } = project;
  const columns = bay.kind === "columns";
  const show = (length: Mm): string => formatLengthWithUnit(length, unit);
  const what = columns ? "columns and the dividers between them" : "rows and the shelves between them";
  const where = `in ${quote(bay.name ?? design.name)}, ${show(space)} ${columns ? "wide" : "high"} inside`;
  const path = `${bay.path}.${bay.kind}`;
  const shared = bay.bays.some(({ size }) => "share" in size);
  if (shared) {
    const text = over < SAME ? "leaving nothing for those without a size" : `${difference(over, unit)} too much`;
    return designProblem(
      project,
      path,
      `the sizes of the ${what} come to ${show(space + over)} ${where}: ${text}`,
      `sizes that leave something of the ${show(space)}`,
      `make the bays smaller, or the case ${columns ? "wider" : "higher"}`,
    );
  }
  const amount = difference(Math.abs(over), unit);
  return designProblem(
    project,
    path,
    `the ${what} come to ${show(space + over)} ${where}: ${amount} too ${over > 0 ? "much" : "little"}`,
    `a total of ${show(space)}`,
    over > 0
      ? `make the bays smaller, or the case ${columns ? "wider" : "higher"}`
      : 'leave out the "size" of one bay, and it takes what is left',
  );
}

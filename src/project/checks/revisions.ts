/** The revision table agrees with itself and with the title block: else two pages of one set would say different things. */
import type { Problem } from "../../base/problem.ts";
import { inputProblem } from "../file/problems.ts";
import { quote } from "../file/words.ts";
import type { Project } from "../project.ts";

export function checkRevisions(project: Project): Problem[] {
  const { revision, date, revisions } = project.job;
  const problems = revisions.flatMap((one, i): Problem[] => [
    ...twice(project, i, one.revision),
    ...backwards(project, i, one.date),
  ]);
  const last = revisions.at(-1);
  if (last === undefined) return problems;
  const path = `job.revisions[${revisions.length - 1}]`;
  if (last.revision !== revision) {
    problems.push(
      inputProblem(
        project,
        `${path}.revision`,
        `the last revision of the table is ${quote(last.revision)}`,
        `the job's own, ${quote(revision)}`,
        "add a line for this revision, or change job.revision",
      ),
    );
  } else if (last.date !== date) {
    problems.push(
      inputProblem(
        project,
        `${path}.date`,
        `revision ${quote(revision)} is of ${last.date} in the table`,
        `the job's own date, ${date}`,
        "give both the same date",
      ),
    );
  }
  return problems;
}

function twice({ job, ...project }: Project, i: number, revision: string): Problem[] {
  const first = job.revisions.findIndex((one) => one.revision === revision);
  if (first === i) return [];
  return [
    inputProblem(
      project,
      `job.revisions[${i}].revision`,
      `revision ${quote(revision)} is in the table twice`,
      "a mark of its own for each revision",
      "give the later one the next letter",
    ),
  ];
}

function backwards({ job, ...project }: Project, i: number, date: string): Problem[] {
  const before = job.revisions[i - 1];
  if (before === undefined || before.date <= date) return [];
  return [
    inputProblem(
      project,
      `job.revisions[${i}].date`,
      `${date}, after a revision of ${before.date}`,
      "the oldest revision first",
      "change the date, or put the revisions in their order",
    ),
  ];
}

/** A problem is data: where, what was found, what was expected, what to try. Printing it is one function. */

export type Where = { file: string; line: number; column: number; path: string };

export type Problem = {
  level: "error" | "warning";
  /** "input": the call or the file is at fault (exit 2). "design": the file reads, but the piece cannot be made (exit 1). */
  kind: "input" | "design";
  where: Where | null;
  found: string;
  expected: string;
  remedy: string;
};

/** Thrown by a stage that cannot go on; carries every problem it found, in the order of the file. */
export class ProblemsFound extends Error {
  constructor(readonly problems: Problem[]) {
    super(problems.map(formatProblem).join("\n"));
    this.name = "ProblemsFound";
  }
}

/**
 * projects/bookcase.json:12:7  cases[0].height
 *   error: found "30 ells"
 *   expected: a length, such as 30, "30 1/4" or "762 mm"
 *   try: ...
 */
export function formatProblem(problem: Problem): string {
  const { where } = problem;
  const path = where?.path ? `  ${where.path}` : "";
  const head = where ? [`${where.file}:${where.line}:${where.column}${path}`] : [];
  return [
    ...head,
    `  ${problem.level}: ${problem.found}`,
    `  expected: ${problem.expected}`,
    `  try: ${problem.remedy}`,
  ].join("\n");
}

/** Collects what is wrong with one case, each at its key. */
import { formatLengthWithUnit, type Mm } from "../../base/length.ts";
import type { Problem } from "../../base/problem.ts";
import type { Case } from "../case.ts";
import { designProblem, inputProblem } from "../file/problems.ts";
import { quote } from "../file/words.ts";
import type { Project } from "../project.ts";

type Add = (key: string, found: string, expected: string, remedy: string) => void;

/** `add`: the piece cannot be made; `addInput`: the file is at fault. `name`: the case's, quoted. */
export type CaseFaults = {
  problems: Problem[];
  add: Add;
  addInput: Add;
  name: string;
  show: (length: Mm) => string;
};

export function faultsOf(project: Project, design: Case): CaseFaults {
  const problems: Problem[] = [];
  const by =
    (make: typeof designProblem): Add =>
    (key, found, expected, remedy) => {
      problems.push(make(project, `${design.path}.${key}`, found, expected, remedy));
    };
  return {
    problems,
    add: by(designProblem),
    addInput: by(inputProblem),
    name: quote(design.name),
    show: (length) => formatLengthWithUnit(length, project.unit),
  };
}

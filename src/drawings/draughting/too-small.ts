/** Paper that a drawing does not fit: the file's fault, said as one. */
import { ProblemsFound } from "../../base/problem.ts";

export const tooSmall = (found: string, expected: string): ProblemsFound =>
  new ProblemsFound([
    { level: "error", kind: "input", where: null, found, expected, remedy: "choose larger paper for drawings" },
  ]);

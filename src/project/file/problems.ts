/** Makes the problems that the reader reports, each at its place in the file. */
import type { Problem } from "../../base/problem.ts";
import { type Project, whereIn } from "../project.ts";
import type { Source } from "./source.ts";
import { type Path, pathText } from "./words.ts";

type Lines = Pick<Project, "file" | "lines">;

const at =
  (level: Problem["level"], kind: Problem["kind"]) =>
  (lines: Lines, path: Path | string, found: string, expected: string, remedy: string): Problem => {
    const text = typeof path === "string" ? path : pathText(path);
    return { level, kind, where: whereIn(lines, text), found, expected, remedy };
  };

/** The file is at fault: exit 2. */
export const inputProblem = at("error", "input");
/** The file reads, but the piece cannot be made: exit 1. */
export const designProblem = at("error", "design");
export const warning = at("warning", "input");

/** At a key rather than at its value. */
export function atKey(source: Source, path: Path, found: string, expected: string, remedy: string): Problem {
  const text = pathText(path);
  return inputProblem({ file: source.file, lines: source.keys }, text, found, expected, remedy);
}

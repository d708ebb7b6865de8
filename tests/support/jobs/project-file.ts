/** Project files for tests: written to a folder of their own, read back as problems or as a project. */
import { mkdtempSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { formatProblem, type Problem, ProblemsFound } from "../../../src/base/problem.ts";
import { type ReadProject, readProject } from "../../../src/project/read.ts";

export function inFolder<T>(work: (folder: string) => T): T {
  const folder = mkdtempSync(join(tmpdir(), "dryfit-"));
  const clear = (): void => rmSync(folder, { recursive: true, force: true });
  let result: T;
  try {
    result = work(folder);
  } catch (error) {
    clear();
    throw error;
  }
  if (result instanceof Promise) return result.finally(clear) as T;
  clear();
  return result;
}

export const readText = (text: string | Uint8Array, name = "job.json"): ReadProject =>
  inFolder((folder) => {
    writeFileSync(join(folder, name), text);
    return readProject(join(folder, name));
  });

/** What reading the text throws; empty when it reads. */
export function problemsIn(text: string | Uint8Array, name = "job.json"): Problem[] {
  try {
    readText(text, name);
    return [];
  } catch (error) {
    if (error instanceof ProblemsFound) return error.problems;
    throw error;
  }
}

/** Word for word as they are printed, without the folder they were read from. */
export const printed = (problems: readonly Problem[]): string =>
  problems
    .map((problem) => formatProblem(problem))
    .join("\n")
    .replace(/(?:"|^)[^"\n]*dryfit-[^/"\n]*\/([^":\n]+)/gm, (found, name: string) =>
      found.startsWith('"') ? `"${name}` : name,
    );

/** A sound job of one case in inches; `change` edits its text. */
export const JOB = `{
  "job": { "number": "7", "title": "Box", "date": "2026-11-20", "revision": "A" },
  "unit": "in",
  "stock": { "three-quarter-ply": { "measured": "23/32" }, "quarter-ply": { "measured": 0.2 } },
  "cases": [
    {
      "name": "box",
      "width": 36,
      "height": 30,
      "depth": 12,
      "stock": { "all": "three-quarter-ply", "back": "quarter-ply" }
    }
  ]
}
`;

export function jobWith(...changes: readonly (readonly [old: string, fresh: string])[]): string {
  return changes.reduce((text, [old, fresh]) => {
    if (!text.includes(old)) throw new Error(`The job holds no ${old}`);
    return text.replace(old, fresh);
  }, JOB);
}

/** The job with this in its case, or in the job itself. */
export const withCase = (extra: string): string => jobWith(["12,", `12,\n      ${extra},`]);
export const withJob = (extra: string): string => jobWith(['"in",', `"in",\n  ${extra},`]);

/** The job and a second case beside the first, with this in the second, and perhaps something in the first. */
export const beside = (extra: string, first = ""): string =>
  jobWith(
    ["12,", `12,${first}`],
    [
      "  ]\n}",
      `    , { "name": "next", "width": 20, "height": 30, "depth": 12, "stock": { "all": "three-quarter-ply", "back": "quarter-ply" }, ${extra} }\n  ]\n}`,
    ],
  );

/** Two projects that would be written to one folder: the second would replace the first. */
import { resolve } from "node:path";
import { z } from "zod";
import { type Problem, ProblemsFound } from "../../base/problem.ts";
import { inputProblem } from "../file/problems.ts";
import { readSource, type Source } from "../file/source.ts";
import { quote } from "../file/words.ts";
import { nameOf } from "../read.ts";

const named = z.looseObject({ job: z.looseObject({ name: z.string() }) });

/** Null where the file cannot be read at all: its own build then says why. */
function sourceOf(file: string): Source | null {
  try {
    return readSource(file);
  } catch (error) {
    if (error instanceof ProblemsFound) return null;
    throw error;
  }
}

/** Problems of the list of files as a whole; each file is checked by its own build. */
export function checkFolders(files: readonly string[]): Problem[] {
  const taken = new Map<string, string>();
  return files.flatMap((file) => {
    const source = sourceOf(file);
    if (source === null) return [];
    const name = nameOf(source);
    const other = taken.get(name.toLowerCase()); // a file system may take "Stand" and "stand" for one folder
    taken.set(name.toLowerCase(), file);
    if (other === undefined) return [];
    if (resolve(other) === resolve(file)) {
      return [inputProblem(source, "", `${quote(file)} is named twice`, "each project once", "name it once")];
    }
    const path = named.safeParse(source.data).success ? "job.name" : "job";
    return [
      inputProblem(
        source,
        path,
        `this job would be written to the folder ${quote(name)}, and so would ${quote(other)}`,
        "a folder of its own for each job",
        'give one of them another "name" in its "job"',
      ),
    ];
  });
}

/** The example projects, and the small test projects, as sets: read and derived once a worker. */
import { readdirSync } from "node:fs";
import { fileURLToPath } from "node:url";
import { makeSet } from "../../../src/build.ts";
import type { Project } from "../../../src/project/project.ts";
import { readProject } from "../../../src/project/read.ts";
import type { DryfitSet } from "../../../src/set/schema.ts";

export const EXAMPLES = ["glaze-console", "ware-bookcase", "wedging-pair"] as const;

export const exampleFile = (name: string): string =>
  fileURLToPath(new URL(`../../../projects/${name}.json`, import.meta.url));
export const testFile = (name: string): string =>
  fileURLToPath(new URL(`../../projects/${name}.json`, import.meta.url));

export const projectOf = (file: string): Project => readProject(file).project;

/** Many tests look at one set: none may change it under the others. */
function frozen<T>(value: T): T {
  if (typeof value !== "object" || value === null || Object.isFrozen(value)) return value;
  for (const one of Object.values(value)) frozen(one);
  return Object.freeze(value);
}

const sets = new Map<string, DryfitSet>();

export function setOf(file: string): DryfitSet {
  const known = sets.get(file);
  if (known) return known;
  const set = frozen(makeSet(projectOf(file), { draft: false, olderSet: null }));
  sets.set(file, set);
  return set;
}

/** Every project of the folder, by name. */
export const everyExample = (): string[] =>
  readdirSync(new URL("../../../projects/", import.meta.url))
    .filter((name) => name.endsWith(".json"))
    .map((name) => name.replace(/\.json$/, ""))
    .sort();

export const exampleSets = (): [string, DryfitSet][] => EXAMPLES.map((name) => [name, setOf(exampleFile(name))]);

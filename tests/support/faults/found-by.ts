/** What the dry fit finds in a set in which one thing was changed. */
import { dryFit } from "../../../src/audit/dryfit.ts";
import type { DryfitSet } from "../../../src/set/schema.ts";
import { setOf, testFile } from "../jobs/examples.ts";

/** `name`: of a project of the tests. The checks that fail then. */
export function foundBy(name: string, spoil: (set: DryfitSet) => void): Set<string> {
  const set = structuredClone(setOf(testFile(name)));
  spoil(set);
  return new Set(
    dryFit(set)
      .filter(({ level }) => level === "failure")
      .map(({ id }) => id),
  );
}

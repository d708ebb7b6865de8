/** A set that differs from the one it is laid beside, under the same letter: two papers in the shop would look like one. */
import type { DryfitSet, SetCheck } from "../../set/schema.ts";
import { checkOf, PRACTICE } from "./input.ts";

export function checkRevision({ job, reprint }: Pick<DryfitSet, "job" | "reprint">): SetCheck[] {
  if (reprint === null || reprint.revision !== job.revision) return [];
  const changed = reprint.parts.map(({ mark }) => mark);
  if (changed.length + reprint.withdrawn.length === 0) return [];
  return [
    checkOf("revision", "warning", changed, {
      text: `Parts have changed, and this set still calls itself revision ${job.revision}, as the one before it did.`,
      rule: `every issue of a drawing that differs has a letter of its own, the same on every page (${PRACTICE})`,
      change: 'give the job the next letter under "revision"',
    }),
  ];
}

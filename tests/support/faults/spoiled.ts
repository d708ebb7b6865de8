/** Worked example A spoiled in one part, everything that hangs on the edit changed with it, and what the dry fit says. */
import { dryFit } from "../../../src/audit/dryfit.ts";
import type { DryfitSet, SetCheck, SetFeature, SetPart } from "../../../src/set/schema.ts";
import { workedA } from "../../fixtures/audit/worked-a.ts";
import { bare } from "./faults.ts";
import { settingsFor } from "./setting-faults.ts";

export const IN = 25.4;

/** A check as one reads it on paper: what is wrong, and what to change. */
export const spoken = ({ text, change }: SetCheck): string =>
  change === null ? text : `${text} Change: ${change.charAt(0).toLowerCase()}${change.slice(1)}`;

export const texts = (set: DryfitSet, id: string): string[] =>
  dryFit(set)
    .filter((check) => check.level === "failure" && check.id === id)
    .map(spoken);

export const partOf = (set: DryfitSet, mark: string): SetPart => set.parts.find((part) => part.mark === mark)!;

/** The bare set with one part changed, its piece cut and its grooves set to match. */
export function spoiled(mark: string, change: (part: SetPart, set: DryfitSet) => void): DryfitSet {
  const set = bare(workedA());
  const part = partOf(set, mark);
  change(part, set);
  part.cut = { length: part.length, width: part.width };
  for (const piece of set.pieces.filter((each) => each.mark === mark)) {
    Object.assign(piece, { length: part.length, width: part.width, thickness: part.thickness });
  }
  Object.assign(set, settingsFor(set));
  return set;
}

/** A feature with a new box in inches, its figures to match. */
export function reboxed(feature: SetFeature, box: [[number, number, number], [number, number, number]]): void {
  const [lo, hi] = box.map((corner) => corner.map((x) => x * IN)) as [
    [number, number, number],
    [number, number, number],
  ];
  const run = feature.along === "l" ? 0 : 1;
  const across = run === 0 ? 1 : 0;
  Object.assign(feature, {
    box: [lo, hi],
    at: lo[across],
    width: hi[across] - lo[across],
    from: lo[run],
    to: hi[run],
    depth: hi[2] - lo[2],
    outline: [
      [lo[0], lo[1]],
      [hi[0], lo[1]],
      [hi[0], hi[1]],
      [lo[0], hi[1]],
    ],
  });
}

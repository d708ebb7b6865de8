/** The cuts of a setting as they are made: grooves of a part that lie in one line are cut in one pass, whatever they hold. */
import { isHigh, lastInLine } from "../../set/facing.ts";
import type { DryfitSet, Face, SetFeature, SetSetting } from "../../set/schema.ts";
import { partOf } from "../../set/words.ts";

type Run = SetSetting["runs"][number];

/** A run from the first of the grooves in line to the last; `lowest` and `highest` say which these are. */
export type Pass = Run & { lowest: SetFeature; highest: SetFeature };

export function passesOf(set: DryfitSet, { runs }: Pick<SetSetting, "runs">): Pass[] {
  const passes: Pass[] = [];
  for (const run of runs) {
    const part = partOf(set, run.mark);
    const feature = part.features[run.feature]!;
    const [lowest, highest] = [lastInLine(part, feature, 0), lastInLine(part, feature, 1)];
    if (passes.some((pass) => pass.mark === run.mark && pass.lowest === lowest && pass.highest === highest)) continue;
    passes.push({ ...run, from: lowest.from, to: highest.to, lowest, highest });
  }
  return passes;
}

/** The groove at whose end a pass comes to that end or edge. */
export const endingAt = ({ lowest, highest }: Pass, edge: Face): SetFeature => (isHigh(edge) ? highest : lowest);

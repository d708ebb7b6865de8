/** From which end or edge each groove of a part is measured: the settings say so, and a drawing says the same. */
import { isSame, type Mm } from "../../base/length.ts";
import { isHigh, sizeAlong } from "../../set/facing.ts";
import type { DryfitSet, Face, SetFeature, SetPart } from "../../set/schema.ts";

/** The axis across a feature's run: where its walls stand. */
export const acrossRun = (feature: SetFeature): "l" | "w" => (feature.along === "w" ? "l" : "w");

/** What goes against the fence or stop when the feature is cut; a feature with no setting is marked out from the lower end or edge. */
export function datumOf(set: DryfitSet, part: SetPart, index: number): Face {
  const run = set.settings.flatMap((setting) => setting.runs).find((r) => r.mark === part.mark && r.feature === index);
  const across = acrossRun(part.features[index]!);
  return run !== undefined && run.datum[0] === across ? run.datum : `${across}0`;
}

/** Where the datum lies on the part's own axis. */
export const datumAt = (part: SetPart, datum: Face): Mm => (isHigh(datum) ? sizeAlong(part, datum[0] as "l" | "w") : 0);

/**
 * Where the wall nearer to the datum lies on the part's own axis. A rabbet open at the datum itself has no wall there:
 * it is measured to its inner one, as it is set.
 */
export function nearWall(part: SetPart, feature: SetFeature, datum: Face): Mm {
  const [near, far] = isHigh(datum)
    ? [feature.at + feature.width, feature.at]
    : [feature.at, feature.at + feature.width];
  return isSame(near, datumAt(part, datum)) ? far : near;
}

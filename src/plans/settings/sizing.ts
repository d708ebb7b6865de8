/** Sizing: cuts of the sheet layouts that share a fence distance, so that every piece that needs one is cut before the fence moves. */
import { isSame, SAME } from "../../base/length.ts";
import type { Tooling } from "../../project/tooling.ts";
import type { DryfitSet, SetSheet } from "../../set/schema.ts";

type Sizing = DryfitSet["sizing"][number];
type Cut = SetSheet["cuts"][number];

/** From wide to narrow, as the sheets come apart; of each sheet the cuts keep the order of its diagram. */
export function planSizing(sheets: readonly SetSheet[], saw: Tooling["saw"]): Sizing[] {
  const sizing: Sizing[] = [];
  for (const { n, cuts } of sheets) {
    for (const cut of cuts) {
      const guide = guideOf(cut, saw);
      const own = sizing.find((one) => one.guide === guide && isSame(one.fence, cut.fence));
      const sheet = own?.cuts.find((one) => one.sheet === n);
      if (sheet) sheet.cuts.push(cut.n);
      else if (own) own.cuts.push({ sheet: n, cuts: [cut.n] });
      else sizing.push({ fence: cut.fence, guide, cuts: [{ sheet: n, cuts: [cut.n] }] });
    }
  }
  const guides: readonly Sizing["guide"][] = ["straightedge", "fence", "stop"];
  return sizing.sort(
    (a, b) => guides.indexOf(a.guide) - guides.indexOf(b.guide) || (isSame(a.fence, b.fence) ? 0 : b.fence - a.fence),
  );
}

/** A piece runs along the fence only where the cut is at least as long as the fence is away; fence and gauge never guide one through cut. */
function guideOf({ from, to, fence }: Cut, { rip, sledDepth, stop }: Tooling["saw"]): Sizing["guide"] {
  const length = to - from;
  if (length >= fence - SAME) return fence <= rip + SAME ? "fence" : "straightedge";
  return fence <= stop + SAME && length <= sledDepth + SAME ? "stop" : "straightedge";
}

/** The limits that the dry fit judges by. */
import type { Mm } from "../base/length.ts";
import { type Channel, faceTowards, type Solid } from "./solids/solid.ts";

/**
 * Rounding opens a seat by up to one step, so a gap over one step is a mistake. A mistake that matters is one where two parts were meant to
 * meet and do not: a gap of up to three steps (one from rounding, two from the mistake) and a millimetre more. Nothing in a case is
 * designed to stand so close to a face without touching it: ends are seated (0 to one step), stand off by a slip inside their own groove
 * (judged there), or are free by a good deal more, such as the toe space.
 */
export const nearMissReach = (step: Mm): Mm => 3 * step + 1;

/** The same for an end that should be flush with the outside of its case; half a millimetre, for an outside is planned on the grid. */
export const flushReach = (step: Mm): Mm => 3 * step + 0.5;

/** What is left loose in its grooves. */
const SLIPPING: readonly string[] = ["back", "drawerBottom", "doorPanel"];

export type GapRule = { fit: "seated" | "slip"; least: Mm; most: Mm };

/** What may be left between a tongue and the floor of its groove: a back, a drawer's bottom, or a door's panel, goes in dry with its slip, everything else is seated. */
export function gapRule(entering: Solid, channel: Channel, step: Mm): GapRule {
  if (!SLIPPING.includes(entering.part.role)) return { fit: "seated", least: 0, most: step };
  const { fits } = channel.owner.assembly;
  // A panel moves across its grain: that is where it meets the groove with an edge.
  const isEdge = faceTowards(entering, channel.depth, channel.inward)[0] === "w";
  const slip = entering.part.role === "doorPanel" && isEdge ? fits.slipAcross : fits.slip;
  return { fit: "slip", least: slip, most: slip + step };
}

/** The caution for the very cut: what is off the saw, what holds the part, what the cutter runs into. The machine's manual comes first. */
import type { Task } from "./task.ts";

const SAW = {
  fence:
    "Guard and riving knife are off for this cut and go back on after it. Hold down with push blocks, hands never over the cutter. Never a through cut with this cutter, never a warped board. The saw's manual comes first.",
  sled: "Guard and riving knife are off for this cut and go back on after it. The sled or mitre gauge carries the part, fence or stop only sets the distance; hands stay clear of the cutter's path. Never a through cut with this cutter. The saw's manual comes first.",
} as const;

const SACRIFICIAL =
  "Put a sacrificial face on the fence and let the cutter run into it: the fence figure is to the rabbet's inner wall.";

const ROUTER =
  "Clamp part and straightedge. Feed away from you with the straightedge on the router's left; unplug before changing the bit. Eye, ear and dust protection. The router's manual comes first.";

export function cautionFor({ carrier, sacrificial }: Task): string {
  if (carrier === "straightedge") return ROUTER;
  return sacrificial ? `${SACRIFICIAL} ${SAW[carrier]}` : SAW[carrier];
}

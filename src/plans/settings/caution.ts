/** The caution for the very cut: what is off the saw, what holds the part, what the cutter runs into, how a stop is met. The machine's manual comes first. */
import { supportsFor } from "./support.ts";
import type { Task } from "./task.ts";

const SAW = {
  fence:
    "Guard and riving knife are off for this cut and go back on after it. Hold down with push blocks, hands never over the cutter. Never a through cut with this cutter, never a warped board. The saw's manual comes first.",
  sled: "Guard and riving knife are off for this cut and go back on after it. The sled or mitre gauge carries the part, fence or stop only sets the distance; hands stay clear of the cutter's path. Never a through cut with this cutter. The saw's manual comes first.",
} as const;

const SACRIFICIAL = {
  fence:
    "Put a sacrificial face on the fence and let the cutter run into it: the fence figure is to the rabbet's inner wall.",
  sled: "The stop is the fence with a sacrificial face, and the cutter runs into it: the figure is to the rabbet's inner wall.",
} as const;

const LAP =
  "Set the stop by its own wall; for the next pass slide the part along the gauge while it is clear of the cutter, hold it fast, and feed again: never sideways into the cutter.";

const LAP_AT_END = "At the end of the part the stop wears a sacrificial face, in case the cutter comes to it.";

const SAW_STOPPED =
  "Enter at the open end, end at the stop; never lower a part on to the turning cutter. At the stop: saw off, wait until it stands still, then lift.";

const NARROW = "Narrow: push stick and featherboard, no hand beside the fence.";

const ON_EDGE =
  "On its edge: a face on the fence nearly as high as the part is wide, featherboard against the part, push stick, no hand over the cutter.";

const LONG = "Long: support it level with the table, or it tips on to the cutter.";

const ROUTER =
  "Clamp part and straightedge. Feed away from you with the straightedge on the router's left; unplug before changing the bit. Eye, ear and dust protection. The router's manual comes first.";

const ROUTER_STOPPED = "At a stop: router off, wait until the bit stands still, then lift.";

export function cautionFor(tasks: readonly Task[]): string {
  const [{ carrier, operation, sacrificial }] = tasks as [Task];
  const stops = tasks.some(({ run }) => run.stopped);
  if (carrier === "straightedge") return stops ? `${ROUTER_STOPPED} ${ROUTER}` : ROUTER;
  const supports = new Set(tasks.flatMap(supportsFor));
  return [
    ...(operation === "lap" ? [LAP, ...(sacrificial ? [LAP_AT_END] : [])] : sacrificial ? [SACRIFICIAL[carrier]] : []),
    ...(stops ? [SAW_STOPPED] : []),
    ...(supports.has("narrow") ? [NARROW] : []),
    ...(supports.has("on edge") ? [ON_EDGE] : []),
    ...(supports.has("long") || supports.has("overhanging") ? [LONG] : []),
    SAW[carrier],
  ].join(" ");
}

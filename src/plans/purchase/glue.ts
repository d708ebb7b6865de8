/** How much glue, by the faces that it is spread on, and how long it has to stay open. */

import type { Unit } from "../../base/length.ts";
import { MM_PER_INCH } from "../../base/length.ts";
import { listInWords } from "../../base/words.ts";
import type { SetJoint, SetPart, SetPurchase } from "../../set/schema.ts";
import { runOf } from "../screws.ts";
import type { PurchaseInput } from "./input.ts";

/** Glue on both faces of a joint, for each square metre of it: 200 ml (common practice, no source; data sheets give 150 to 200 g). */
const GLUE: Record<Unit, { spread: number; step: number; unit: string }> = {
  mm: { spread: 200, step: 50, unit: "ml" },
  in: { spread: 200 / 29.5735, step: 1, unit: "fl oz" }, // US fluid ounce, 29.5735 ml
};

/** No maker's name: how much, and how long it must stay open. */
export function planGlue({ joints, parts, orders, pieces, worktops, unit, glue }: PurchaseInput): SetPurchase[] {
  const byMark = new Map(parts.map((part) => [part.mark, part]));
  const jointed = joints
    .filter(({ fixings }) => fixings.startsWith("glue"))
    .reduce((sum, joint) => sum + areaOf(joint, byMark), 0);
  const lipped = pieces
    .filter(({ kind }) => kind === "lipping")
    .reduce((sum, { length, width }) => sum + length * width, 0);
  const boarded = worktops.reduce(
    (sum, { glued, mark }) =>
      glued === null ? sum : sum + (glued.boards.length - 1) * glued.length * byMark.get(mark)!.thickness,
    0,
  );
  const area = (jointed + lipped + boarded) / 1e6;
  if (area === 0) return [];
  const { spread, step, unit: measure } = GLUE[unit];
  const longest = Math.max(0, ...orders.flatMap(({ glueUps }) => glueUps.map(({ minutes }) => minutes ?? 0)));
  const open = glue === null ? null : Math.max(glue.openMinutes, Math.ceil(longest));
  const glued = [
    ...(jointed > 0 ? ["joints"] : []),
    ...(boarded > 0 ? ["boards"] : []),
    ...(lipped > 0 ? ["lippings"] : []),
  ];
  const shown =
    unit === "mm" ? `${area.toFixed(2)} m2` : `${((area * 1e6) / (12 * MM_PER_INCH) ** 2).toFixed(1)} sq ft`;
  return [
    {
      what: "Wood glue",
      size: open === null ? "open time to suit the glue-ups" : `open time ${open} minutes or more`,
      quantity: Math.ceil((area * spread) / step) * step,
      unit: measure,
      price: null,
      note: `about ${shown} of ${listInWords(glued)}`,
    },
  ];
}

/** What glue is spread over, in mm2: where one goes into the other, the floor and both walls; else where they meet. */
function areaOf(joint: SetJoint, byMark: ReadonlyMap<string, SetPart>): number {
  const { enteringEnd, receivingFace, depth } = joint;
  const part = byMark.get(joint.entering)!;
  const other = byMark.get(joint.receiving)!;
  if (enteringEnd.startsWith("t")) return part.length * part.width;
  const across = receivingFace.startsWith("t") ? part.thickness : Math.min(part.thickness, other.thickness);
  return runOf(part, enteringEnd, other) * (across + 2 * depth);
}

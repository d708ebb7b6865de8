/** What to buy: sheets of each stock, and the screws of the joints that take them. */

import type { Mm, Unit } from "../base/length.ts";
import { formatLength, MM_PER_INCH } from "../base/length.ts";
import type { DryfitSet, SetJoint, SetPart, SetPurchase, SetSheet, SetStock } from "../set/schema.ts";

export type PurchaseInput = Pick<DryfitSet, "stock" | "sheets" | "parts" | "joints"> & { unit: Unit };

export function planPurchase({ stock, sheets, parts, joints, unit }: PurchaseInput): SetPurchase[] {
  return [...stock.flatMap((each) => planSheetLine(each, sheets, unit)), ...planScrews(joints, parts, unit)];
}

function planSheetLine(stock: SetStock, sheets: readonly SetSheet[], unit: Unit): SetPurchase[] {
  const own = sheets.filter((sheet) => sheet.stock === stock.id);
  const [first] = own;
  if (!first) return [];
  const { length, width } = stock.sheet;
  const used = own.flatMap((sheet) => sheet.parts).reduce((sum, part) => sum + part.length * part.width, 0);
  const share = Math.round((100 * used) / (own.length * length * width));
  const each = stock.price === null ? "" : `; ${stock.price.toFixed(2)} each`;
  return [
    {
      what: stock.name,
      size: `${[length, width, stock.nominal].map((size) => formatLength(size, unit)).join(" x ")} ${unit}`,
      quantity: own.length,
      unit: own.length === 1 ? "sheet" : "sheets",
      price: stock.price === null ? null : Math.round(own.length * stock.price * 100) / 100,
      note: `${first.boundText}; parts take ${share} %${each}`,
    },
  ];
}

/** One screw about every 150 mm, 6 in, and two at least, so that the joint cannot turn: common practice, no source. */
export const SCREW_SPACING: Record<Unit, Mm> = { mm: 150, in: 6 * MM_PER_INCH };
const FEWEST = 2;
/** What a screw should hold in the edge of plywood, 25 mm or 1 in: common practice, no source. */
const HOLD: Record<Unit, Mm> = { mm: 25, in: MM_PER_INCH };
/** Screws are sold in steps of 5 mm or 1/4 in. */
const SOLD: Record<Unit, Mm> = { mm: 5, in: MM_PER_INCH / 4 };

/** Screws by their length: long enough for what they go through and the hold beyond it. */
function planScrews(joints: readonly SetJoint[], parts: readonly SetPart[], unit: Unit): SetPurchase[] {
  const byMark = new Map(parts.map((part) => [part.mark, part]));
  const byLength = new Map<Mm, { count: number; joints: number }>();
  for (const joint of joints) {
    if (!joint.fixings.includes("screws")) continue;
    const entering = byMark.get(joint.entering)!;
    const receiving = byMark.get(joint.receiving)!;
    // A screw goes through the part that offers its face, into the edge or end of the other.
    const isThroughReceiving = joint.receivingFace.startsWith("t");
    const through = isThroughReceiving ? receiving : entering;
    const run = isThroughReceiving ? runOf(entering, joint.enteringEnd) : runOf(receiving, joint.receivingFace);
    const steps = Math.ceil((through.thickness + HOLD[unit]) / SOLD[unit] - 1e-6);
    const length = steps * SOLD[unit];
    const line = byLength.get(length) ?? { count: 0, joints: 0 };
    byLength.set(length, {
      count: line.count + Math.max(FEWEST, Math.floor(run / SCREW_SPACING[unit]) + 1),
      joints: line.joints + 1,
    });
  }
  return [...byLength]
    .sort(([a], [b]) => a - b)
    .map(([length, { count, joints: taking }]) => ({
      what: "Screws for the edge of plywood",
      size: `${formatLength(length, unit)} ${unit}`,
      quantity: count,
      unit: "screws",
      price: null,
      note: `${taking === 1 ? "one joint" : `${taking} joints`}, a screw about every ${formatLength(SCREW_SPACING[unit], unit)} ${unit}; drill for the shank and the thread`,
    }));
}

/** How long an end or edge is: an end runs across the part, an edge along it. */
const runOf = (part: SetPart, face: string): Mm => (face.startsWith("l") ? part.width : part.length);

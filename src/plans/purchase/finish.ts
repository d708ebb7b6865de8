/** How much of each finish. */

import type { Unit } from "../../base/length.ts";
import { MM_PER_INCH } from "../../base/length.ts";
import type { SetPurchase } from "../../set/schema.ts";
import type { PurchaseInput } from "./input.ts";

/** A tenth over, for what stays in tin and brush (common practice, no source). */
const FINISH_OVER = 1.1;
/** Tins are filled by the tenth of a litre, or by half a US liquid pint, 0.236588 l. */
const TIN: Record<Unit, { litres: number; unit: string; each: number }> = {
  mm: { litres: 0.1, unit: "l", each: 0.1 },
  in: { litres: 0.2365882365, unit: "qt", each: 0.25 },
};

export function planFinishLines({ finishes, unit }: PurchaseInput): SetPurchase[] {
  const { litres: tin, unit: measure, each } = TIN[unit];
  return finishes.map(({ name, area, coats, litres }): SetPurchase => {
    const shown =
      unit === "mm" ? `${area.toFixed(1)} m2` : `${((area * 1e6) / (12 * MM_PER_INCH) ** 2).toFixed(0)} sq ft`;
    return {
      what: name,
      size: coats === 1 ? "one coat" : `${coats} coats`,
      quantity: Math.round(Math.ceil((litres * FINISH_OVER) / tin - 1e-9) * each * 100) / 100,
      unit: measure,
      price: null,
      note: `${shown} a coat, a tenth over`,
    };
  });
}

/** Hardware, gathered by what it is. */

import { formatLength } from "../../base/length.ts";
import { listInWords } from "../../base/words.ts";
import type { SetHardware, SetPurchase } from "../../set/schema.ts";
import type { PurchaseInput } from "./input.ts";

/** Hardware of one kind and size on one line, with what it is for. */
export function planHardwareLines({ hardware, unit }: PurchaseInput): SetPurchase[] {
  const sizeOf = ({ sizes }: SetHardware): string =>
    sizes.length === 0 ? "" : `${sizes.map((size) => formatLength(size, unit)).join(" x ")} ${unit}`;
  const kindOf = (one: SetHardware): string => JSON.stringify([one.what, sizeOf(one), one.unit]);
  return [...new Set(hardware.map(kindOf))].map((kind): SetPurchase => {
    const own = hardware.filter((one) => kindOf(one) === kind);
    const first = own[0]!;
    return {
      what: first.what,
      size: sizeOf(first),
      quantity: own.reduce((sum, { count }) => sum + count, 0),
      unit: first.unit,
      price: null,
      note: `${listInWords([...new Set(own.map(({ use }) => use))])}; measure it, whatever the catalogue says, before a hole is drilled`,
    };
  });
}

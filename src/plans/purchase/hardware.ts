/** Hardware, gathered by what it is. */

import { soldSize } from "../../base/sold.ts";
import { listInWords } from "../../base/words.ts";
import type { SetHardware, SetPurchase } from "../../set/schema.ts";
import type { PurchaseInput } from "./input.ts";

/** Hardware of one kind and size on one line, with what it is for. */
export function planHardwareLines({ hardware, unit }: PurchaseInput): SetPurchase[] {
  const sizeOf = ({ sizes }: SetHardware): string => (sizes.length === 0 ? "" : soldSize(sizes, unit));
  const kindOf = (one: SetHardware): string => JSON.stringify([one.what, sizeOf(one), one.unit]);
  return [...new Set(hardware.map(kindOf))].map((kind): SetPurchase => {
    const own = hardware.filter((one) => kindOf(one) === kind);
    const first = own[0]!;
    const counted = own.reduce((sum, { count }) => sum + count, 0);
    return {
      what: first.what,
      size: sizeOf(first),
      quantity: counted,
      unit: counted === 1 ? first.unit.replace(/s$/, "") : first.unit,
      price: null,
      note: `${usesInWords(own)}; measure it, whatever the catalogue says, before a hole is drilled`,
    };
  });
}

/** "on the left edge of desk door 1 and desk door 2, and on the right edge of desk door 3": what is said of several assemblies said once. */
function usesInWords(own: readonly SetHardware[]): string {
  const places = new Map<string, string[]>();
  for (const { where, of } of own)
    places.set(where, [...new Set([...(places.get(where) ?? []), ...(of === null ? [] : [of])])]);
  const said = [...places].map(([place, names]) => (names.length === 0 ? place : `${place} ${listInWords(names)}`));
  return said.length === 1 ? said[0]! : `${said.slice(0, -1).join(", ")}, and ${said.at(-1)}`;
}

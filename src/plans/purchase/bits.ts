/** Bits that mould edges: by what is moulded, for the shop may have them. */
import { formatLength } from "../../base/length.ts";
import { listInWords } from "../../base/words.ts";
import type { SetPart, SetPurchase } from "../../set/schema.ts";
import type { PurchaseInput } from "./input.ts";

type Moulded = { part: SetPart; shape: string; size: string };

export function planBits({ parts, unit }: PurchaseInput): SetPurchase[] {
  const moulded = parts.flatMap((part): Moulded[] =>
    part.features
      .filter(({ kind }) => kind === "edge")
      .map(({ reason, depth }) => ({
        part,
        shape: reason,
        size: `${reason === "chamfer" ? "" : "R "}${formatLength(reason === "ogee" ? depth / 2 : depth, unit)} ${unit}`,
      })),
  );
  const kinds = [...new Set(moulded.map(({ shape, size }) => JSON.stringify([shape, size])))];
  return kinds.map((kind): SetPurchase => {
    const own = moulded.filter(({ shape, size }) => JSON.stringify([shape, size]) === kind);
    const first = own[0]!;
    const names = [...new Set(own.map(({ part }) => `${part.name} ${part.mark}`))];
    return {
      what: `Router bit, ${first.shape}, with a bearing`,
      size: first.size,
      quantity: 1,
      unit: "bit",
      price: null,
      note: `for the edges of ${listInWords(names)}; none to buy where the shop has one`,
    };
  });
}

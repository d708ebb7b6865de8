/** Whether one person handles what the first cut of a sheet leaves. */
import type { Tooling } from "../../project/tooling.ts";
import type { DryfitSet, SetCheck, SetSheet, SetStock } from "../../set/schema.ts";
import { formatMass } from "../../set/words.ts";
import { checkOf, PRACTICE } from "./input.ts";

type Input = Pick<DryfitSet, "sheets" | "stock"> & { tooling: Tooling; unit: "in" | "mm" };

export function checkLift({ sheets, stock, tooling: { lift }, unit }: Input): SetCheck[] {
  if (lift === null) return [];
  const stockOf = new Map(stock.map((one) => [one.id, one]));
  const heavy = sheets.flatMap((sheet) => {
    const first = heavierPiece(sheet, stockOf.get(sheet.stock)!);
    return first > lift ? [`${formatMass(first, unit)} of sheet ${sheet.n}`] : [];
  });
  const rule = `"lift" of the tooling: ${formatMass(lift, unit)} for one person; a sheet that is heavier is cut into two pieces first (${PRACTICE})`;
  if (heavy.length === 0) {
    return [
      checkOf("layout-lift", "ok", [], {
        text: "The first cut after the skims leaves pieces that one person handles.",
        rule,
      }),
    ];
  }
  return [
    checkOf("layout-lift", "note", [], {
      text: `The first cut after the skims leaves more than one person handles: ${heavy.join(", ")}.`,
      rule,
      change: "nothing: a helper for these, or a rough cut in two beside the line before the sheet goes to the saw",
    }),
  ];
}

/** Of the two pieces that the first cut after the skims leaves, or the whole sheet where none follows. */
function heavierPiece({ length, width, trim, kerf, cuts }: SetSheet, { thickness, density }: SetStock): number {
  const skims = trim > 0 ? 4 : 0;
  const inner = { x: length - 2 * trim, y: width - 2 * trim };
  const first = cuts[skims];
  const area =
    first === undefined
      ? inner.x * inner.y
      : Math.max(first.fence, inner[first.across] - first.fence - kerf) * (first.across === "x" ? inner.y : inner.x);
  return (area * thickness * density) / 1e9;
}

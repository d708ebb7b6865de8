/** What guides the cuts of a sheet: a piece that is wider than it is long at the fence twists, and is thrown back. */
import type { Mm } from "../../base/length.ts";
import type { DryfitSet, SetCheck, SetSheet } from "../../set/schema.ts";
import { TOUCH } from "../solids/boxes.ts";
import { amount, failure } from "../words.ts";

type Cut = SetSheet["cuts"][number];

/** Where a piece begins and ends across one of its cuts: at the kerfs of the cuts before it that freed it, else at the sheet's own edges. */
function reachOf({ cuts, length, width, kerf }: SetSheet, piece: string, before: number, across: Cut["across"]): Mm {
  let [from, to] = [0, across === "x" ? length : width];
  let id = piece;
  for (let i = cuts.findIndex(({ n }) => n === before) - 1; i >= 0; i--) {
    const cut = cuts[i]!;
    const side = cut.makes.indexOf(id);
    if (side === -1) continue;
    if (cut.across === across && side === 0) to = Math.min(to, cut.at);
    if (cut.across === across && side === 1) from = Math.max(from, cut.at + kerf);
    id = cut.piece;
  }
  return to - from;
}

export function checkGuides(set: DryfitSet): SetCheck[] {
  return set.sheets.flatMap((sheet) =>
    sheet.cuts.flatMap(({ n, piece, across, from, to }): SetCheck[] => {
      const row = set.sizing.find((one) => one.cuts.some((own) => own.sheet === sheet.n && own.cuts.includes(n)));
      const wide = reachOf(sheet, piece, n, across);
      if (row?.guide !== "fence" || to - from > wide - TOUCH) return [];
      return [
        failure(
          "sizing",
          [],
          `Cut ${n} of sheet ${sheet.n} runs along the fence with ${amount(to - from, set.job)} of a piece that is ${amount(wide, set.job)} wide. Change: by sled and stop, or by a straightedge.`,
        ),
      ];
    }),
  );
}

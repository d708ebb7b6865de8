/** Panels that wait for a measurement: what earlier cuts leave of their sheets holds them with something over, to be trimmed when they are measured for. */
import type { Mm } from "../../base/length.ts";
import type { DryfitSet, SetCheck, SetSheet } from "../../set/schema.ts";
import { TOUCH } from "../solids/boxes.ts";
import { amount, failure, nameOf } from "../words.ts";

type Spot = SetSheet["parts"][number];

/** How far the piece reaches that holds a part once some cuts are made: each leaves the part on one side of its kerf. */
function reachOf(
  { cuts, length, width, kerf }: SetSheet,
  part: Spot,
  isMade: (n: number) => boolean,
): Record<"x" | "y", Mm> {
  const [low, high] = [
    { x: 0, y: 0 },
    { x: length, y: width },
  ];
  for (const { n, across, at, from, to } of cuts) {
    const along = across === "x" ? part.y : part.x;
    if (!isMade(n) || along < from - TOUCH || along > to - TOUCH) continue;
    if (part[across] < at) high[across] = Math.min(high[across], at);
    else low[across] = Math.max(low[across], at + kerf);
  }
  return { x: high.x - low.x, y: high.y - low.y };
}

/** A cut that is told before a part's own group frees no figure of it; of what is as large as its sheet there is no more to be had. */
export function checkWaiting(set: DryfitSet): SetCheck[] {
  const groupOf = (mark: string): number => set.groups.find(({ parts }) => parts.includes(mark))?.n ?? 1;
  return set.sheets.flatMap((sheet) =>
    sheet.parts.flatMap((spot): SetCheck[] => {
      const part = set.parts.find(({ mark }) => mark === spot.mark);
      if (part === undefined) return [];
      const early = set.sizing
        .filter(({ group }) => group < groupOf(spot.mark))
        .flatMap(({ cuts }) => cuts.filter((one) => one.sheet === sheet.n).flatMap((one) => one.cuts));
      if (early.length === 0) return [];
      const reach = reachOf(sheet, spot, (n) => early.includes(n));
      const [x, y] = spot.turned ? [part.cut.width, part.cut.length] : [part.cut.length, part.cut.width];
      const firm = (["x", "y"] as const).filter((axis) => {
        const all = (axis === "x" ? sheet.length : sheet.width) - 2 * sheet.trim;
        return reach[axis] < (axis === "x" ? x : y) + TOUCH && reach[axis] < all - TOUCH;
      });
      return firm.map((axis) =>
        failure(
          "sizing",
          [part],
          `Sheet ${sheet.n} gives ${nameOf(part)} with ${amount(reach[axis], set.job)} and nothing over, before what it is measured for stands. Change: cut it with something over, and trim it in its own group.`,
        ),
      );
    }),
  );
}

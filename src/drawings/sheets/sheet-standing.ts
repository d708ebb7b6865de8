/** A sheet stood on its end: turned a quarter to the left, as paper held upright has room for it. */
import type { SetSheet } from "../../set/schema.ts";

type Cut = SetSheet["cuts"][number];

const EDGE_THEN = { x0: "y0", x1: "y1", y0: "x1", y1: "x0" } as const;

/**
 *      y                     x
 *      |                     |
 *      +----+           y ---+      what lay at the right end is on top,
 *      |    |  --- x         |      what lay along the lower edge is at the right
 */
export function standing(sheet: SetSheet): SetSheet {
  const stood = ({ x, y }: { x: number; y: number }, width: number): { x: number; y: number } => ({
    x: sheet.width - y - width,
    y: x,
  });
  return {
    ...sheet,
    length: sheet.width,
    width: sheet.length,
    parts: sheet.parts.map((part) => ({
      ...part,
      ...stood(part, part.turned ? part.length : part.width),
      turned: !part.turned,
    })),
    offcuts: sheet.offcuts.map((offcut) => ({
      ...offcut,
      ...stood(offcut, offcut.width),
      length: offcut.width,
      width: offcut.length,
    })),
    defects: sheet.defects.map((defect) => ({
      ...stood(defect, defect.width),
      length: defect.width,
      width: defect.length,
    })),
    cuts: sheet.cuts.map((cut): Cut => {
      const reference = EDGE_THEN[cut.reference];
      if (cut.across === "x") {
        return { ...cut, across: "y", from: sheet.width - cut.to, to: sheet.width - cut.from, reference };
      }
      return { ...cut, across: "x", at: sheet.width - cut.at - sheet.kerf, makes: cut.makes.toReversed(), reference };
    }),
  };
}

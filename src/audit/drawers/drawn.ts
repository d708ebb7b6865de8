/** A drawer's own wood in the room, and what stands round it. */
import type { AxisIndex, Box } from "../../base/geometry.ts";
import type { Mm } from "../../base/length.ts";
import type { SetDrawer, SetPart } from "../../set/schema.ts";
import { drawnOut, sharedBox, TOUCH } from "../solids/boxes.ts";
import type { Solid } from "../solids/solid.ts";
import type { Job } from "../words.ts";

/** A part's wood in the room. */
export type Standing = { solid: Solid; part: SetPart; bounds: Box; cells: Box[] };

/** A drawer's own wood, and all the rest. */
export type Drawn = {
  drawer: SetDrawer;
  own: Standing[];
  others: Standing[];
  box: Box; // round all but the applied front
  face: Standing;
  job: Job;
};

export const partsOf = ({ own }: Drawn): SetPart[] => own.map(({ part }) => part);

/** From a box straight along an axis to the nearest wood; null where there is none. */
export function nearest(
  box: Box,
  axis: AxisIndex,
  sign: 1 | -1,
  others: readonly Standing[],
): { gap: Mm; part: SetPart } | null {
  let found: { gap: Mm; part: SetPart } | null = null;
  const shadow = drawnOut(box, axis, 0, 1);
  for (const { part, bounds, cells } of others) {
    if (sharedBox(drawnOut(bounds, axis, 0, 1), shadow) === null) continue;
    for (const cell of cells) {
      const gap = sign === 1 ? cell[0][axis] - box[1][axis] : box[0][axis] - cell[1][axis];
      if (gap < -TOUCH || (found !== null && gap >= found.gap)) continue;
      if (sharedBox(drawnOut(cell, axis, 0, 1), shadow) !== null) found = { gap: Math.max(0, gap), part };
    }
  }
  return found;
}

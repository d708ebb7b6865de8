/** Mass of a part: its blank less its features, however these overlap, times the stock's density. */
import { AXES, type AxisIndex, type Box, boxVolume, type Vec } from "../base/geometry.ts";
import { SAME } from "../base/length.ts";
import { areaOf } from "../base/outline.ts";
import type { SetPart, SetStock } from "../set/schema.ts";

/** A union of boxes as boxes that do not overlap: those cells of the grid of all their coordinates that one of them covers. */
export function unionCells(boxes: readonly Box[]): Box[] {
  const cuts = AXES.map((axis) =>
    [...new Set(boxes.flatMap((box) => [box[0][axis], box[1][axis]]))].sort((a, b) => a - b),
  );
  const cells: Box[] = [];
  for (let i = 1; i < cuts[0]!.length; i++) {
    for (let j = 1; j < cuts[1]!.length; j++) {
      for (let k = 1; k < cuts[2]!.length; k++) {
        const hi: Vec = [cuts[0]![i]!, cuts[1]![j]!, cuts[2]![k]!];
        const lo: Vec = [cuts[0]![i - 1]!, cuts[1]![j - 1]!, cuts[2]![k - 1]!];
        const covered = boxes.some((box) =>
          AXES.every((axis) => box[0][axis] <= lo[axis] + SAME && box[1][axis] >= hi[axis] - SAME),
        );
        if (covered) cells.push([lo, hi]);
      }
    }
  }
  return cells;
}

/** Volume of a union of boxes, mm3. */
export const unionVolume = (boxes: readonly Box[]): number =>
  unionCells(boxes).reduce((sum, cell) => sum + boxVolume(cell), 0);

const MM3_PER_M3 = 1e9;

/** kg, from density in kg/m3. A lipping counts as panel: it is about as heavy, and a thousandth of the part. */
export function massOf(
  part: Pick<SetPart, "length" | "width" | "thickness" | "features">,
  stock: Pick<SetStock, "density">,
): number {
  const blank = part.length * part.width * part.thickness;
  const holes = part.features.filter(({ kind }) => kind === "hole");
  const shaped = part.features.filter(({ kind }) => kind === "shape");
  const moulded = part.features.filter(({ kind }) => kind === "edge");
  const mitred = part.features.filter(({ kind }) => kind === "mitre");
  const rest = part.features.filter(({ kind }) => !["hole", "shape", "edge", "mitre"].includes(kind));
  // Nothing else is cut where an edge is shaped.
  const sawn = shaped.reduce((sum, { outline }) => sum + areaOf(outline) * part.thickness, 0);
  // The corners that a cutter leaves at the ends of slots and mortises.
  const left = rest
    .filter(({ kind }) => kind === "slot" || kind === "mortise")
    .reduce((sum, { outline, width, from, to, depth }) => sum + (width * (to - from) - areaOf(outline)) * depth, 0);
  // The slopes of tails and pins.
  const sloped = rest
    .filter(({ kind }) => kind === "socket")
    .reduce((sum, { outline, box, axis }) => {
      const i = "lwt".indexOf(axis) as AxisIndex;
      return sum + boxVolume(box) - areaOf(outline) * (box[1][i] - box[0][i]);
    }, 0);
  // At a corner two of them overlap by less than a gram.
  const off = [...moulded, ...mitred].reduce((sum, { outline, from, to }) => sum + areaOf(outline) * (to - from), 0);
  const drilled = holes.reduce((sum, { width, depth }) => sum + (Math.PI / 4) * width ** 2 * depth, 0);
  const cut = unionVolume(rest.map(({ box }) => box)) - left - sloped;
  return ((blank - cut - drilled - sawn - off) / MM3_PER_M3) * stock.density;
}

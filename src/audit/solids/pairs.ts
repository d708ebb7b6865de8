/** Which boxes come near enough to each other to be worth comparing further. */
import { AXES, type AxisIndex, type Box } from "../../base/geometry.ts";
import { isNear } from "./boxes.ts";

export type NearPairs = {
  /** Indices, lower first, in order. */
  pairs: [number, number][];
  /** Pairs of boxes that were tried to find them. */
  tried: number;
};

/** Pairs of boxes within reach of each other: swept along the axis on which they lie farthest apart, so that distant ones never meet. */
export function nearPairs(boxes: readonly Box[], reach: number): NearPairs {
  const axis = widestAxis(boxes);
  const order = boxes.map((_, i) => i).sort((a, b) => boxes[a]![0][axis] - boxes[b]![0][axis] || a - b);
  const pairs: [number, number][] = [];
  let tried = 0;
  let open: number[] = [];
  for (const next of order) {
    const box = boxes[next]!;
    open = open.filter((i) => boxes[i]![1][axis] + reach >= box[0][axis]);
    tried += open.length;
    for (const i of open) if (isNear(boxes[i]!, box, reach)) pairs.push(i < next ? [i, next] : [next, i]);
    open.push(next);
  }
  return { pairs: pairs.sort((a, b) => a[0] - b[0] || a[1] - b[1]), tried };
}

/** The axis on which the fewest boxes lie over each other: the total of their lengths is least against the length of all. */
function widestAxis(boxes: readonly Box[]): AxisIndex {
  const crowd = (axis: AxisIndex): number => {
    const total = boxes.reduce((sum, [lo, hi]) => sum + hi[axis] - lo[axis], 0);
    const all = Math.max(...boxes.map(([, hi]) => hi[axis])) - Math.min(...boxes.map(([lo]) => lo[axis]));
    return all > 0 ? total / all : Number.POSITIVE_INFINITY;
  };
  return AXES.reduce((best, axis) => (crowd(axis) < crowd(best) ? axis : best));
}

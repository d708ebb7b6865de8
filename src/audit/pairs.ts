/** Which parts come near enough to each other to be worth comparing box by box. */
import type { Box } from "../base/geometry.ts";
import { isNear } from "./boxes.ts";

/** Pairs of boxes within reach of each other, as indices, lower first; sorted by where they begin so that distant ones never meet. */
export function nearPairs(boxes: readonly Box[], reach: number): [number, number][] {
  const order = boxes.map((_, i) => i).sort((a, b) => boxes[a]![0][0] - boxes[b]![0][0] || a - b);
  const pairs: [number, number][] = [];
  let open: number[] = [];
  for (const next of order) {
    const box = boxes[next]!;
    open = open.filter((i) => boxes[i]![1][0] + reach >= box[0][0]);
    for (const i of open) if (isNear(boxes[i]!, box, reach)) pairs.push(i < next ? [i, next] : [next, i]);
    open.push(next);
  }
  return pairs.sort((a, b) => a[0] - b[0] || a[1] - b[1]);
}

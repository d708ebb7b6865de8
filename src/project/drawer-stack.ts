/**
 * The heights of a stack of drawers, box and applied front of each, in an opening of known height.
 *
 *      above |                     ___ opening's upper edge
 *       box 2|========   front 2: to the upper edge less the gap, or over it by the overlap
 *     between|  - - -    two fronts part in the middle between their boxes
 *       box 1|========   front 1
 *       below|                     ___ lower edge
 */
import { type Mm, SAME } from "../base/length.ts";
import type { DrawerSize, Drawers } from "./drawers.ts";

type Range = readonly [Mm, Mm];
/** Of one drawer: from and to, over the opening's lower edge. */
export type Level = { box: Range; front: Range };

/** `over`: so much too much for the opening, or so much too little of it filled. */
export type Stack = { levels: Level[] } | { over: Mm };

type Style = Pick<Drawers, "front" | "gaps">;

/** How far a front reaches below and above its box. */
function beyond({ front, gaps }: Style, i: number, count: number): { below: Mm; above: Mm } {
  const outer = front.fit === "inset" ? -front.gap : front.overlap;
  const inner = (gaps.between - front.gap) / 2;
  return {
    below: i === 0 ? gaps.below + outer : inner,
    above: i === count - 1 ? gaps.above + outer : inner,
  };
}

/** `sizes`: from the lowest up. */
export function stackIn(height: Mm, style: Style, sizes: readonly Pick<DrawerSize, "size">[]): Stack {
  const { above, below, between } = style.gaps;
  const count = sizes.length;
  const reach = sizes.map((_, i) => beyond(style, i, count));
  const stated = sizes.map(({ size }, i): Mm | null => {
    if ("box" in size) return size.box;
    return "front" in size ? size.front - reach[i]!.below - reach[i]!.above : null;
  });
  const left = height - above - below - between * (count - 1) - stated.reduce<Mm>((sum, one) => sum + (one ?? 0), 0);
  const shares = sizes.reduce((sum, { size }) => sum + ("share" in size ? size.share : 0), 0);
  if (left < -SAME || (shares === 0 && left > SAME)) return { over: -left };
  let from = below;
  return {
    levels: sizes.map(({ size }, i): Level => {
      const high = stated[i] ?? ("share" in size ? (left * size.share) / shares : 0);
      const box: Range = [from, from + high];
      from += high + between;
      return { box, front: [box[0] - reach[i]!.below, box[1] + reach[i]!.above] };
    }),
  };
}

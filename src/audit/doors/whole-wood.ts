/**
 * Wood as one sees it from above, undivided. A grooved part comes as cells, and how they divide it is nobody's business: two strips of 6 mm that
 * lie on one another are 12 mm deep. Level by level, each cell is grown as far as wood goes on beside it.
 */
import type { Box } from "../../base/geometry.ts";
import type { Mm } from "../../base/length.ts";
import { cutAwayAll, TOUCH } from "../solids/boxes.ts";
import type { Body } from "./body.ts";

/** The same wood as boxes that overlap, each as wide and deep as its level allows. */
export function wholeWood(bodies: readonly Body[]): Body[] {
  const heaps = new Map<string, Body[]>();
  for (const body of bodies) heaps.set(body.words, [...(heaps.get(body.words) ?? []), body]);
  return [...heaps.values()].flatMap((cells) =>
    cells.length === 1 ? cells : wholeBoxes(cells.map(({ box }) => box)).map((box) => ({ ...cells[0]!, box })),
  );
}

function wholeBoxes(cells: readonly Box[]): Box[] {
  const levels = [...new Set(cells.flatMap(([lo, hi]) => [lo[2], hi[2]]))].sort((a, b) => a - b);
  const grown: Box[] = [];
  levels.slice(1).forEach((top, i) => {
    const bottom = levels[i]!;
    if (top - bottom <= TOUCH) return;
    const here = cells
      .filter(([lo, hi]) => lo[2] <= bottom + TOUCH && hi[2] >= top - TOUCH)
      .map(
        ([lo, hi]): Box => [
          [lo[0], lo[1], bottom],
          [hi[0], hi[1], top],
        ],
      );
    const wide = here.flatMap((box) => [
      growAlong(growAlong(box, 0, here), 1, here),
      growAlong(growAlong(box, 1, here), 0, here),
    ]);
    for (const box of wide) {
      // What goes on from the level below is one box with it.
      const under = grown.findIndex((one) => isSamePlan(one, box) && one[1][2] >= bottom - TOUCH);
      if (under === -1) grown.push(box);
      else grown[under] = [grown[under]![0], box[1]];
    }
  });
  return grown;
}

const isSamePlan = (a: Box, b: Box): boolean =>
  ([0, 1] as const).every((side) =>
    ([0, 1] as const).every((axis) => Math.abs(a[side][axis] - b[side][axis]) <= TOUCH),
  );

/** As far both ways as there is wood over its whole breadth. */
function growAlong(box: Box, axis: 0 | 1, wood: readonly Box[]): Box {
  const edges = (side: 0 | 1): Mm[] =>
    wood.map((one) => one[side][axis]).filter((at) => (side === 0 ? at < box[0][axis] : at > box[1][axis]));
  const reaching = (side: 0 | 1, at: Mm): Box => {
    const corners = box.map((corner) => [...corner]) as [[Mm, Mm, Mm], [Mm, Mm, Mm]];
    corners[side][axis] = at;
    return corners;
  };
  const farthest = (side: 0 | 1): Mm =>
    edges(side)
      .sort((a, b) => (side === 0 ? a - b : b - a))
      .find((at) => cutAwayAll([reaching(side, at)], wood).length === 0) ?? box[side][axis];
  const low = farthest(0);
  const high = farthest(1);
  const [lo, hi] = [[...box[0]], [...box[1]]] as [[Mm, Mm, Mm], [Mm, Mm, Mm]];
  lo[axis] = low;
  hi[axis] = high;
  return [lo, hi];
}

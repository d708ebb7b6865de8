/** What is cut out of an edge between feet, or as an arch: its outline is drawn, and each of its corners told. */

import type { Face } from "../../../../src/set/schema.ts";
import { isDrawnWith, type Spot } from "../page.ts";
import type { Placed, Reading } from "./reading.ts";

/** Corners along the outline, from one place on the edge to another; of an arch its two ends and its crown. */
export type ReadCutOut = { edge: Face; arch: boolean; corners: { l: number; w: number }[] };

const ON_EDGE = 0.01;

/** The answer is a step to take once the places are told. */
export function readCutOuts(part: Reading): () => ReadCutOut[] {
  const [view] = part.views;
  const steps = part.notesOf("cut out").map(({ edge: called, arch }): (() => ReadCutOut) => {
    const edge = part.faceCalled(called);
    const depthOf = ({ w }: { w: number }): number => (edge === "w0" ? w : part.size.w - w);
    const outline = outlines(part, view!).find((one) => {
      const ends = [one[0]!, one.at(-1)!];
      return ends.every((end) => depthOf(end) < ON_EDGE) && one.some((spot) => depthOf(spot) > 1);
    });
    if (outline === undefined) {
      part.faults.push(`nothing is drawn cut out of the ${called}`);
      return () => ({ edge, arch, corners: [] });
    }
    const crown = outline.reduce((a, b) => (depthOf(b) > depthOf(a) + 1e-6 ? b : a));
    // The crown's place along an arch is the middle of it, which is not told.
    const corners = arch ? [outline[0]!, outline.at(-1)!] : outline;
    for (const { l } of corners) part.own("l", l, "cut out");
    part.own("w", crown.w, "cut out");
    return () => ({
      edge,
      arch,
      corners: [
        ...corners.map(({ l, w }) => ({
          l: part.value("l", l),
          w: part.value("w", depthOf({ w }) < ON_EDGE ? edgeOf(part, edge) : crown.w),
        })),
        ...(arch ? [{ l: Number.NaN, w: part.value("w", crown.w) }] : []),
      ],
    });
  });
  return () => steps.map((step) => step());
}

const edgeOf = (part: Reading, edge: Face): number => (edge === "w0" ? 0 : part.size.w);

/** Lines that are drawn in one go and do not close. */
function outlines(part: Reading, view: Placed): { l: number; w: number }[][] {
  const { x0, x1, y0, y1 } = view.outline;
  const isIn = ([x, y]: Spot): boolean => x > x0 - 0.01 && x < x1 + 0.01 && y > y0 - 0.01 && y < y1 + 0.01;
  const runs: { at: number; spots: Spot[] }[] = [];
  for (const { from, to, at, ...pen } of part.page.page.strokes) {
    if (!isDrawnWith({ from, to, at, ...pen }, "outline") || !isIn(from) || !isIn(to)) continue;
    const last = runs.at(-1);
    const end = last?.spots.at(-1);
    if (last?.at === at && end !== undefined && Math.hypot(end[0] - from[0], end[1] - from[1]) < 1e-6)
      last.spots.push(to);
    else runs.push({ at, spots: [from, to] });
  }
  return runs.filter(({ spots }) => spots.length > 2).map(({ spots }) => spots.map((spot) => part.spot(view, spot)));
}

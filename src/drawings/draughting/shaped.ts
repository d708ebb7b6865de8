/** What is cut out of an edge along a line of its own: the paper shows through, and its line is drawn as it runs. */
import { chordsOf } from "../../base/outline.ts";
import { fill, lines, polygonSteps } from "../../paper/draw.ts";
import type { Pen } from "../../paper/pen.ts";
import type { Point, Shape } from "../../paper/shape.ts";
import type { SetFeature, SetPart } from "../../set/schema.ts";

const BEYOND = 0.6; // over the outline of the edge itself

export const mitresIn = (part: SetPart): SetFeature[] => part.features.filter(({ kind }) => kind === "mitre");

export const shapesIn = (part: SetPart): SetFeature[] => part.features.filter(({ kind }) => kind === "shape");

/** `spot`: where a place on the part, along its length and across its width, lies on paper. The edge that it opens to is the first line of the outline. */
export function drawShaped({ outline }: SetFeature, spot: (l: number, w: number) => Point, pen: Pen): Shape[] {
  const points = chordsOf(outline).map(([l, w]) => spot(l, w));
  const [from, to, ...rest] = points as [Point, Point, ...Point[]];
  const inner = rest[0]!;
  // Away from the wood, across the edge.
  const [du, dv] = [to[0] - from[0], to[1] - from[1]];
  const size = Math.hypot(du, dv);
  const side = Math.sign(du * (inner[1] - from[1]) - dv * (inner[0] - from[0]));
  const out = ([x, y]: Point): Point => [x + (side * dv * BEYOND) / size, y - (side * du * BEYOND) / size];
  const line = [to, ...rest, from];
  return [
    fill(1, polygonSteps([out(from), out(to), ...line])),
    lines(
      pen,
      line.slice(1).map((point, i) => [line[i]!, point]),
    ),
  ];
}

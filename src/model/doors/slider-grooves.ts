/** The grooves that sliding doors run in: cut into the parts above and below their bay, from one side of it to the other. */
import { type AxisIndex, axisOf, signOf } from "../../base/geometry.ts";
import { type Mm, SAME } from "../../base/length.ts";
import { opposite, planeOf } from "../contacts.ts";
import type { Grid } from "../grid.ts";
import type { Cut, Direction, Feature, FeatureEnd, Opening, Part } from "../model.ts";

type Range = readonly [Mm, Mm];
const RUN: AxisIndex = 0;

/** One groove: `y` in the case, `holds` the key of what runs in it. */
export type SliderGroove = { y: Range; depth: Mm; holds: string };

/** In the case's own coordinates; `above`: in the part above the bay, into its underside. */
export function cutGroove(
  { y, depth, holds }: SliderGroove,
  above: boolean,
  { left, right, above: over, below: under }: Opening,
  parts: ReadonlyMap<string, Part>,
  grid: Grid,
): Cut {
  const part = parts.get(above ? over : under)!;
  const face: Direction = above ? "-z" : "+z";
  const mouth = planeOf(part.box, face);
  const floor = mouth - signOf(face) * depth;
  const [low, high] = ([left, right] as const).map((key, i) =>
    endAt(i === 0 ? "-x" : "+x", part, parts.get(key)!, { y, depth, face }, grid),
  ) as [End, End];
  const feature: Feature = {
    kind: "groove",
    face,
    along: RUN,
    box: [
      [low.at, y[0], Math.min(mouth, floor)],
      [high.at, y[1], Math.max(mouth, floor)],
    ],
    ends: [low.end, high.end],
    holds,
    runOuts: [],
    row: null,
    lipping: false,
    reason: "a door slides in it",
  };
  return { part: part.key, feature, spare: Math.min(y[0] - part.box[0][1], part.box[1][1] - y[1]) };
}

type End = { at: Mm; end: FeatureEnd };

/**
 * Through to the part's own end where that is hidden in, or butts against, what bounds the bay; into the groove that what bounds the bay
 * stands in, where that is as deep and as wide there; else up to the face of it.
 */
function endAt(
  towards: Direction,
  part: Part,
  bound: Part,
  { y, depth, face }: { y: Range; depth: Mm; face: Direction },
  grid: Grid,
): End {
  const sign = signOf(towards);
  const own = planeOf(part.box, towards);
  if (sign * (planeOf(bound.box, towards) - own) > SAME) return { at: own, end: "through" };
  const housing = part.features.find(
    ({ kind, holds, face: cut, along, box }) =>
      (kind === "groove" || kind === "rabbet") &&
      holds === bound.key &&
      cut === face &&
      along !== RUN &&
      box[0][1] <= y[0] + SAME &&
      box[1][1] >= y[1] - SAME &&
      box[1][axisOf(face)] - box[0][axisOf(face)] >= depth - SAME,
  );
  if (housing !== undefined) return { at: planeOf(housing.box, opposite(towards)), end: "open" };
  // Never short of the face, or the door would not close.
  const at = planeOf(bound.box, opposite(towards));
  return { at: sign < 0 ? grid.end(at) : grid.start(at), end: "square" };
}

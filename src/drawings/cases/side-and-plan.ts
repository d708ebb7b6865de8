/** The side view and the plan of a case. */
import type { Mm } from "../../base/length.ts";
import type { DryfitSet, SetAssembly } from "../../set/schema.ts";
import { type Block, unionOf } from "../draughting/block.ts";
import { type DimensionStyle, drawDimensions, type Row } from "../draughting/dimension.ts";
import { drawView, VIEW_FIGURE } from "../draughting/picture.ts";
import { captioned } from "../draughting/view-title.ts";
import { FROM_ABOVE, FROM_RIGHT, type View, viewOf } from "../solids/view.ts";
import { baseOf, chainOf, heightSpans } from "./base-sizes.ts";
import type { Spans } from "./bay-sizes.ts";
import { standingSolids } from "./case-group.ts";
import type { CaseView } from "./case-view.ts";
import { markView, NO_MARKS, withAside } from "./marking.ts";

/** Rows of dimensions under a view and beside it, the nearest first. */
type Sizes = { across: Spans[]; up: Spans[] };

/** A view with its sizes, given in the view's own coordinates, and the marks that show. */
function plainBlock(set: DryfitSet, view: View, sizes: Sizes, title: string, ratio: number, withMarks: boolean): Block {
  const style: DimensionStyle = { unit: set.job.unit, ratio, size: VIEW_FIGURE };
  const picture = drawView(view, ratio);
  const { box } = picture;
  const rows = (list: Spans[], at: (place: Mm) => Mm): Row[] =>
    list.map((spans) => ({ kind: "spans", spans: spans.map(([a, b]) => [at(a), at(b)]) }));
  const dimensions = [
    drawDimensions("below", 0, rows(sizes.across, picture.x), style),
    drawDimensions("left", 0, rows(sizes.up, picture.y), style),
  ];
  const marking = withMarks ? markView(view.seen, picture, [], withAside(box)) : NO_MARKS;
  return captioned(
    {
      shapes: [...picture.shapes, ...dimensions.flatMap((d) => d.shapes), ...marking.shapes],
      box: unionOf([box, ...dimensions.flatMap((d) => d.boxes), ...marking.boxes]),
    },
    title,
    marking.note,
    box,
  );
}

export function sideAndPlanOf(set: DryfitSet, drawn: SetAssembly): CaseView[] {
  const plan = viewOf(standingSolids(set, drawn, "own"), FROM_ABOVE);
  const side = viewOf(standingSolids(set, drawn, "any"), FROM_RIGHT);
  const base = baseOf(set, drawn);
  const [width, depth, height] = drawn.size;
  const planSizes: Sizes = { across: [[[0, width]]], up: [[[0, depth]]] };
  const sideSizes: Sizes = {
    across: [base === null ? [] : chainOf(depth, base.back), [[0, depth]]],
    up: heightSpans(height, base),
  };
  return [
    {
      kind: "side",
      stands: "right",
      draw: (ratio, withMarks) => plainBlock(set, side, sideSizes, "Side view, from the right", ratio, withMarks),
    },
    {
      kind: "plan",
      stands: "above",
      draw: (ratio, withMarks) => plainBlock(set, plan, planSizes, "Plan, from above", ratio, withMarks),
    },
  ];
}

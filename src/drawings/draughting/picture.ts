/** A view on paper: its lower left corner at the origin, at a scale. */
import type { Mm } from "../../base/length.ts";
import { fill, lines, rectSteps } from "../../paper/draw.ts";
import type { Point, Rect, Shape } from "../../paper/shape.ts";
import type { Patch, View } from "../solids/view.ts";
import { unionOf } from "./block.ts";
import { withoutSpecks } from "./clip.ts";
import { hatch, type Slope } from "./hatch.ts";

export type Picture = {
  shapes: Shape[];
  box: Rect;
  x: (u: number) => Mm;
  y: (v: number) => Mm;
  /** The view's lines on paper, for whatever keeps clear of them. */
  segments: (readonly [Point, Point])[];
  rectOf: (patch: Patch) => Rect;
};

/** Figures on general views. */
export const VIEW_FIGURE: Mm = 3.5; // its fraction digits are then the least that is lettered

/** What is loose is drawn dashed, what is only beside it in the chain of neighbours. */
const LIGHT = { loose: "hidden", neighbour: "neighbour" } as const;
const PENS = ["neighbour", "hidden", "bar", "outline"] as const; // the wide lines over the narrow

/** By material: ISO 128-3 leaves the kinds of hatching to the drawing, which says what they mean. */
const PANEL_HATCH: Mm = 1.4;
const WOOD_HATCH: Mm = 2.6;
const TOO_THIN_TO_HATCH: Mm = 1.1; // a cut part thinner than this on paper is filled grey

/** What the hatching means, where a view goes through panels and solid wood alike. */
export function hatchWords({ cut, light, wood }: View): string {
  const marks = [...cut.keys()].filter((mark) => !light.has(mark));
  const kinds = new Set(marks.map((mark) => wood.has(mark)));
  return kinds.size < 2 ? "" : "hatched close: panels; wide: solid wood";
}

/** Of the thickest patch; of a slope in many levels, each a thin one, what they come to side by side. */
function thicknessOf(boxes: readonly Rect[]): Mm {
  const thickest = Math.max(...boxes.map((box) => Math.min(box.width, box.height)));
  const { width, height } = unionOf(boxes);
  const area = boxes.reduce((sum, box) => sum + box.width * box.height, 0);
  return Math.max(thickest, area / Math.max(width, height));
}

export function drawView(view: View, ratio: number): Picture {
  const { bounds } = view;
  const x = (u: number): Mm => (u - bounds.u0) * ratio;
  const y = (v: number): Mm => -(v - bounds.v0) * ratio;
  const rectOf = (patch: Patch): Rect => ({
    x: x(patch.u0),
    y: y(patch.v1),
    width: (patch.u1 - patch.u0) * ratio,
    height: (patch.v1 - patch.v0) * ratio,
  });
  const placed = view.segments.map(({ a, b, cut, look, seam }) => ({
    line: [[x(a[0]), y(a[1])] as Point, [x(b[0]), y(b[1])] as Point] as const,
    pen: look !== "fixed" ? LIGHT[look] : seam === undefined && (cut || view.cut.size === 0) ? "outline" : "bar",
  }));
  const hatched = [...view.cut].filter(([mark]) => !view.light.has(mark));
  const hatchOf = (patches: readonly Patch[], slope: Slope, spacing: Mm): Shape => {
    const boxes = patches.map(rectOf);
    return thicknessOf(boxes) < TOO_THIN_TO_HATCH ? fill(0.55, boxes.flatMap(rectSteps)) : hatch(boxes, slope, spacing);
  };
  const shapes: Shape[] = hatched.flatMap(([mark, patches], i) => {
    const [slope, other] = i % 2 === 0 ? (["rising", "falling"] as const) : (["falling", "rising"] as const);
    const spacing = view.wood.has(mark) ? WOOD_HATCH : PANEL_HATCH;
    const { core, lippings } = view.lipped.get(mark) ?? { core: patches, lippings: [] };
    // A lipping leans against what it is glued to.
    return [
      ...(core.length === 0 ? [] : [hatchOf(core, slope, spacing)]),
      ...(lippings.length === 0 ? [] : [hatchOf(lippings, other, spacing)]),
    ];
  });
  // In a section what is cut stands out; what lies behind it recedes.
  for (const pen of PENS) {
    const drawn = withoutSpecks(placed.filter((one) => one.pen === pen).map(({ line }) => line));
    if (drawn.length > 0) shapes.push(lines(pen, drawn));
  }
  return {
    shapes,
    box: { x: 0, y: y(bounds.v1), width: x(bounds.u1), height: -y(bounds.v1) },
    x,
    y,
    segments: placed.map((p) => p.line),
    rectOf,
  };
}

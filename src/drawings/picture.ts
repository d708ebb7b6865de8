/** A view on paper: its lower left corner at the origin, at a scale. */
import type { Mm } from "../base/length.ts";
import { fill, lines, rectSteps } from "../paper/draw.ts";
import type { Point, Rect, Shape } from "../paper/shape.ts";
import { hatch } from "./hatch.ts";
import type { Patch, View } from "./view.ts";

export type Picture = {
  shapes: Shape[];
  box: Rect;
  x: (u: number) => Mm;
  y: (v: number) => Mm;
  /** The view's lines on paper, for whatever keeps clear of them. */
  segments: (readonly [Point, Point])[];
  rectOf: (patch: Patch) => Rect;
};

const HATCH_SPACING: Mm = 1.4;
const TOO_THIN_TO_HATCH: Mm = 1.1; // a cut part thinner than this on paper is filled grey

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
  const placed = view.segments.map(({ a, b, cut }) => ({
    line: [[x(a[0]), y(a[1])] as Point, [x(b[0]), y(b[1])] as Point] as const,
    cut,
  }));
  const isSection = view.cut.size > 0;
  const shapes: Shape[] = [...view.cut.values()].map((patches, i) => {
    const boxes = patches.map(rectOf);
    const thickest = Math.max(...boxes.map((box) => Math.min(box.width, box.height)));
    return thickest < TOO_THIN_TO_HATCH
      ? fill(0.55, boxes.flatMap(rectSteps))
      : hatch(boxes, i % 2 === 0 ? "rising" : "falling", HATCH_SPACING);
  });
  // In a section what is cut stands out; what lies behind it recedes.
  shapes.push(
    lines(
      isSection ? "bar" : "outline",
      placed.filter((p) => !p.cut).map((p) => p.line),
    ),
    lines(
      "outline",
      placed.filter((p) => p.cut).map((p) => p.line),
    ),
  );
  return {
    shapes,
    box: { x: 0, y: y(bounds.v1), width: x(bounds.u1), height: -y(bounds.v1) },
    x,
    y,
    segments: placed.map((p) => p.line),
    rectOf,
  };
}

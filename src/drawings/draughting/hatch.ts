/** Hatching as explicit lines clipped to rectangles; lines of one slope and spacing carry on from one rectangle into the next. */
import type { Mm } from "../../base/length.ts";
import { lines } from "../../paper/draw.ts";
import type { Pen } from "../../paper/pen.ts";
import type { Point, Rect, Shape } from "../../paper/shape.ts";

export type Slope = "rising" | "falling";

export function hatch(boxes: readonly Rect[], slope: Slope, spacing: Mm, pen: Pen = "hatch"): Shape {
  const segments: (readonly [Point, Point])[] = [];
  const step = spacing * Math.SQRT2; // along an axis, for lines at 45 degrees
  for (const { x, y, width, height } of boxes) {
    // On paper y is down: a rising line has x + y constant, a falling one x - y.
    const sign = slope === "rising" ? 1 : -1;
    const corners = [x + sign * y, x + width + sign * y, x + sign * (y + height), x + width + sign * (y + height)];
    for (let k = Math.ceil(Math.min(...corners) / step); k * step < Math.max(...corners); k++) {
      const sum = k * step; // x + sign * y
      const at = (px: Mm): Point => [px, sign * (sum - px)];
      // Where the line enters and leaves the rectangle, by its x.
      const [ya, yb] = [sum - sign * y, sum - sign * (y + height)];
      const from = Math.max(x, Math.min(ya, yb));
      const to = Math.min(x + width, Math.max(ya, yb));
      if (to - from > 1e-6) segments.push([at(from), at(to)]);
    }
  }
  return lines(pen, segments);
}

/**
 * The joints of a door at full size, cut level: a stile with the panel loose in its groove, and with a rail's stub tongue in the same groove.
 * The front face lies below, as on a plan.
 *
 *      -----------+
 *      \\\\\\\\\\\+--+
 *      \\\\\\\\|  |///////   panel, or tongue
 *      \\\\\\\\\\\+--+
 *      -----------+          front face
 */
import { isSame, type Mm } from "../../base/length.ts";
import { lines } from "../../paper/draw.ts";
import type { Point, Rect, Shape } from "../../paper/shape.ts";
import { sizeAlong } from "../../set/facing.ts";
import type { DryfitSet, SetPart } from "../../set/schema.ts";
import { partOf } from "../../set/words.ts";
import { type Block, unionOf } from "../draughting/block.ts";
import { type DimensionStyle, drawDimensions } from "../draughting/dimension.ts";
import { hatch } from "../draughting/hatch.ts";
import { VIEW_FIGURE } from "../draughting/picture.ts";
import { captioned } from "../draughting/view-title.ts";

const SPACING: Mm = 1.6;
const WIDEST: Mm = 45; // a wider stile is broken off
const BODY: Mm = 30; // of what enters, beside the stile

/** The stile's groove, from its inner edge and from the front face. */
type Groove = { depth: Mm; from: Mm; to: Mm };

/** Panel and tongue in one stile; none of a door in one piece. */
export function jointBlocks(set: DryfitSet, assembly: string): Block[] {
  const parts = set.parts.filter((part) => part.assembly === assembly);
  const stile = parts.find(({ role }) => role === "doorStile");
  const rail = parts.find(({ role }) => role === "doorRail");
  const groove = stile?.features.find(({ kind, holds }) => kind === "groove" && holds !== null);
  if (stile === undefined || rail === undefined || groove === undefined) return [];
  const own: Groove = { depth: groove.depth, from: groove.at, to: groove.at + groove.width };
  return [panelBlock(set, stile, own, partOf(set, groove.holds!)), tongueBlock(set, stile, own, rail)];
}

const styleOf = (set: DryfitSet): DimensionStyle => ({ unit: set.job.unit, ratio: 1, size: VIEW_FIGURE });

/** The stile's inner edge at x = 0, its front face at y = 0, y upwards on the paper and so below zero. */
const up = (y: Mm): Mm => -y;
const box = (x0: Mm, x1: Mm, y0: Mm, y1: Mm): Rect => ({ x: x0, y: up(y1), width: x1 - x0, height: y1 - y0 });
const way = (...points: Point[]): [Point, Point][] =>
  points.slice(1).map(([x, y], i) => [
    [points[i]![0], up(points[i]![1])],
    [x, up(y)],
  ]);

function stileShapes(stile: SetPart, { depth, from, to }: Groove): { shapes: Shape[]; left: Mm } {
  const t = stile.thickness;
  const left = -Math.min(WIDEST, stile.width);
  const isWhole = isSame(-left, stile.width);
  return {
    left,
    shapes: [
      hatch([box(left, -depth, 0, t), box(-depth, 0, 0, from), box(-depth, 0, to, t)], "falling", SPACING),
      lines("outline", [
        ...way([left, 0], [0, 0], [0, from], [-depth, from], [-depth, to], [0, to], [0, t], [left, t]),
        ...(isWhole ? way([left, 0], [left, t]) : []),
      ]),
    ],
  };
}

function panelBlock(set: DryfitSet, stile: SetPart, groove: Groove, panel: SetPart): Block {
  const joint = set.joints.find(({ entering, receiving }) => entering === panel.mark && receiving === stile.mark)!;
  const { shapes, left } = stileShapes(stile, groove);
  const end = -groove.depth + joint.gap[0];
  const upper = groove.from + panel.thickness;
  const entering = [
    hatch([box(end, BODY, groove.from, upper)], "rising", SPACING),
    lines("outline", way([BODY, groove.from], [end, groove.from], [end, upper], [BODY, upper])),
  ];
  const style = styleOf(set);
  const across = drawDimensions("below", 0, [{ kind: "spans", spans: [[-groove.depth, 0]] }], style);
  const above = drawDimensions(
    "above",
    up(stile.thickness),
    [
      { kind: "spans", spans: [[-groove.depth, end]] },
      { kind: "spans", spans: [[end, 0]] },
    ],
    style,
  );
  const deep = drawDimensions(
    "right",
    BODY,
    [
      {
        kind: "spans",
        spans: [
          [up(groove.from), 0],
          [up(upper), up(groove.from)],
        ],
      },
    ],
    style,
  );
  const whole = drawDimensions(
    "left",
    left,
    [
      {
        kind: "spans",
        spans: [
          [up(groove.from), 0],
          [up(groove.to), up(groove.from)],
        ],
      },
      { kind: "spans", spans: [[up(stile.thickness), 0]] },
    ],
    style,
  );
  return captioned(
    blockOf([...shapes, ...entering], { left, right: BODY, thickness: stile.thickness }, [across, above, deep, whole]),
    `Panel ${panel.mark} in stile ${stile.mark}`,
    "full size, cut level; the front face below",
  );
}

function tongueBlock(set: DryfitSet, stile: SetPart, groove: Groove, rail: SetPart): Block {
  const { shapes, left } = stileShapes(stile, groove);
  const shoulders = rail.features.filter(({ kind, holds }) => kind === "shoulder" && holds === stile.mark);
  const cutFrom = (face: "t0" | "t1"): Mm => shoulders.find((one) => one.face === face)?.depth ?? 0;
  const [front, rear] = [cutFrom("t0"), sizeAlong(rail, "t") - cutFrom("t1")];
  const joint = set.joints.find(({ entering, receiving }) => entering === rail.mark && receiving === stile.mark)!;
  const end = -groove.depth + joint.gap[0];
  const entering = [
    hatch([box(0, BODY, 0, rail.thickness), box(end, 0, front, rear)], "rising", SPACING),
    lines(
      "outline",
      way(
        [BODY, 0],
        [0, 0],
        [0, front],
        [end, front],
        [end, rear],
        [0, rear],
        [0, rail.thickness],
        [BODY, rail.thickness],
      ),
    ),
  ];
  const style = styleOf(set);
  const across = drawDimensions("below", 0, [{ kind: "spans", spans: [[end, 0]] }], style);
  const deep = drawDimensions(
    "right",
    BODY,
    [
      {
        kind: "spans",
        spans: [
          [up(front), 0],
          [up(rear), up(front)],
          [up(rail.thickness), up(rear)],
        ],
      },
    ],
    style,
  );
  return captioned(
    blockOf([...shapes, ...entering], { left, right: BODY, thickness: stile.thickness }, [across, deep]),
    `Rail ${rail.mark} in stile ${stile.mark}`,
    "full size, cut level; the front face below",
  );
}

type Extent = { left: Mm; right: Mm; thickness: Mm };

const blockOf = (
  shapes: Shape[],
  { left, right, thickness }: Extent,
  dimensions: readonly { shapes: Shape[]; boxes: Rect[] }[],
): Block => ({
  shapes: [...shapes, ...dimensions.flatMap((one) => one.shapes)],
  box: unionOf([box(left, right, 0, thickness), ...dimensions.flatMap(({ boxes }) => boxes)]),
});

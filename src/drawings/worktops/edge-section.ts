/** The shaped edge of a worktop in section, at full size: what the router is set by. */
import { formatLengthWithUnit, type Mm } from "../../base/length.ts";
import { listInWords } from "../../base/words.ts";
import { close, lineTo, move, stroke } from "../../paper/draw.ts";
import type { PathStep, Point, Rect } from "../../paper/shape.ts";
import type { DryfitSet, SetWorktop } from "../../set/schema.ts";
import { partOf } from "../../set/words.ts";
import type { Block } from "../draughting/block.ts";
import { unionOf } from "../draughting/block.ts";
import { drawDimensions } from "../draughting/dimension.ts";
import { hatch } from "../draughting/hatch.ts";
import { VIEW_FIGURE } from "../draughting/picture.ts";
import { captioned } from "../draughting/view-title.ts";

const BEHIND: Mm = 30; // of the worktop behind its edge
const HANDLE = 0.5522847498; // cubic Bezier quarter circle

/** The edge looks to the left. Null where no edge is shaped. */
export function edgeSection(set: DryfitSet, { edge, mark }: SetWorktop): Block | null {
  if (edge === null) return null;
  const { thickness } = partOf(set, mark);
  const { unit } = set.job;
  const { shape, radius } = edge;
  const takes = shape === "ogee" ? 2 * radius : radius;
  const width = takes + BEHIND;
  const style = { unit, ratio: 1, size: VIEW_FIGURE };
  const left = drawDimensions("left", 0, [{ kind: "spans", spans: [[0, thickness]] }], style);
  const above = drawDimensions("above", 0, [{ kind: "spans", spans: [[0, takes]] }], style);
  const box = { x: 0, y: 0, width, height: thickness };
  const named =
    shape === "chamfer"
      ? `chamfer ${formatLengthWithUnit(radius, unit)}`
      : `${shape} R ${formatLengthWithUnit(radius, unit)}`;
  return captioned(
    {
      shapes: [
        hatch([...woodBeside(edge, takes, width), { x: 0, y: takes, width, height: thickness - takes }], "rising", 2),
        stroke("outline", [
          ...profile(edge, takes),
          lineTo(0, thickness),
          lineTo(width, thickness),
          lineTo(width, 0),
          close,
        ]),
        ...left.shapes,
        ...above.shapes,
      ],
      box: unionOf([box, ...left.boxes, ...above.boxes]),
    },
    "Edge, full size",
    `${named}: ${listInWords(edge.edges)}`,
    box,
  );
}

const LAYER: Mm = 0.1; // finer than the outline's pen

/** The wood behind the shape, in layers that lie inside it. */
function woodBeside(edge: NonNullable<SetWorktop["edge"]>, takes: Mm, width: Mm): Rect[] {
  const layers = Math.ceil(takes / LAYER);
  return Array.from({ length: layers }, (_, i): Rect => {
    const [from, to] = [(takes * i) / layers, (takes * (i + 1)) / layers];
    const x = Math.max(startsAt(edge, from), startsAt(edge, to));
    return { x, y: from, width: width - x, height: to - from };
  });
}

/** How far in from the edge the wood begins, so far under the upper face. */
function startsAt({ shape, radius: r }: NonNullable<SetWorktop["edge"]>, down: Mm): Mm {
  const half = (off: Mm): Mm => Math.sqrt(Math.max(0, r ** 2 - off ** 2));
  switch (shape) {
    case "chamfer":
      return r - down;
    case "roundover":
      return r - half(r - down);
    case "ogee":
      return down < r ? 2 * r - half(r - down) : half(down - r);
  }
}

/** From the upper face down to the edge. */
function profile({ shape, radius: r }: NonNullable<SetWorktop["edge"]>, takes: Mm): PathStep[] {
  const h = r * HANDLE;
  const curve = (c1: Point, c2: Point, at: Point): PathStep => ({ to: "curve", c1, c2, at });
  switch (shape) {
    case "chamfer":
      return [move(takes, 0), lineTo(0, takes)];
    case "roundover":
      return [move(r, 0), curve([r - h, 0], [0, r - h], [0, r])];
    case "ogee":
      return [move(2 * r, 0), curve([2 * r - h, 0], [r, r - h], [r, r]), curve([r, r + h], [h, 2 * r], [0, 2 * r])];
  }
}

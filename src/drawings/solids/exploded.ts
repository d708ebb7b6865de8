/**
 * The parts of a piece drawn apart along its three axes, so that each is seen: planes of parts in their order, one
 * clear of the next; what crosses planes keeps its place between them.
 */
import { AXES, type AxisIndex, type Box, type Vec } from "../../base/geometry.ts";
import { isSame, type Mm } from "../../base/length.ts";
import { type Body, bodyOf } from "./isometric.ts";
import type { Solid } from "./solid.ts";

const MOST_GAP = 0.26; // between two planes, of the piece's size along that axis
const MOST_GROWTH = 0.55; // of all gaps along an axis together

const unionOfBoxes = (boxes: readonly Box[]): Box => [
  AXES.map((i) => Math.min(...boxes.map(([lo]) => lo[i]))) as unknown as Vec,
  AXES.map((i) => Math.max(...boxes.map(([, hi]) => hi[i]))) as unknown as Vec,
];

const middleOf = ([lo, hi]: Box, axis: AxisIndex): Mm => (lo[axis] + hi[axis]) / 2;

/** The axis along which a part is thinnest. */
function thinAxis([lo, hi]: Box): AxisIndex {
  const sizes = AXES.map((i) => hi[i] - lo[i]);
  return AXES.reduce((thin, i) => (sizes[i]! < sizes[thin]! ? i : thin));
}

/** Where the planes of the parts that are thin along an axis lie, in order. */
function planesOf(boxes: readonly Box[], axis: AxisIndex): Mm[] {
  const middles = boxes.filter((box) => thinAxis(box) === axis).map((box) => middleOf(box, axis));
  return middles.sort((a, b) => a - b).filter((at, i, all) => i === 0 || !isSame(at, all[i - 1]!));
}

/** How many planes lie before a place, a place between two of them in part. */
function rankOf(at: Mm, planes: readonly Mm[]): number {
  const next = planes.findIndex((plane) => plane >= at - 1e-6);
  if (next === -1) return planes.length - 1;
  if (next === 0) return 0;
  const [a, b] = [planes[next - 1]!, planes[next]!];
  return next - 1 + (at - a) / (b - a);
}

/** Each part moved out of its place; none is drawn heavier than another. */
export function explode(solids: readonly Solid[]): Body[] {
  const boxes = solids.map((solid) => unionOfBoxes(solid.boxes));
  const whole = unionOfBoxes(boxes);
  const ways = AXES.map((axis) => {
    const planes = planesOf(boxes, axis);
    const size = whole[1][axis] - whole[0][axis];
    const gap = planes.length < 2 ? 0 : Math.min(MOST_GAP, MOST_GROWTH / (planes.length - 1)) * size;
    return (box: Box): Mm =>
      planes.length === 0 ? 0 : gap * (rankOf(middleOf(box, axis), planes) - (planes.length - 1) / 2);
  });
  return solids.map((solid, i) => bodyOf(solid, ways.map((way) => way(boxes[i]!)) as unknown as Vec));
}

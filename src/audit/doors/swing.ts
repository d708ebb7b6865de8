/**
 * Sweeps in plan: what an outline passes over as it turns about an upright line. Nothing is sampled: between the angles at which a corner of
 * one outline crosses an edge of the other nothing can change, so one look between each two of these is enough; swept outlines meet where
 * their arcs and edges cross.
 */
import type { Mm } from "../../base/length.ts";
import { TOUCH } from "../solids/boxes.ts";
import { depthOf, distance, edgesOf, type Outline, type Point, type Swing, turned, within } from "../solids/turned.ts";
import { deepest } from "./swing-depth.ts";

const angleOf = ([px, py]: Point, [x, y]: Point): number => Math.atan2(y - py, x - px);

/** Where a circle crosses a line between two points. */
function crossings(centre: Point, radius: Mm, [from, to]: readonly [Point, Point]): Point[] {
  const [dx, dy] = [to[0] - from[0], to[1] - from[1]];
  const [fx, fy] = [from[0] - centre[0], from[1] - centre[1]];
  const a = dx * dx + dy * dy;
  const b = 2 * (fx * dx + fy * dy);
  const root = b * b - 4 * a * (fx * fx + fy * fy - radius * radius);
  if (root < 0) return [];
  return [-1, 1]
    .map((sign) => (-b + sign * Math.sqrt(root)) / (2 * a))
    .filter((at) => at > -1e-9 && at < 1 + 1e-9)
    .map((at): Point => [from[0] + at * dx, from[1] + at * dy]);
}

/** Angles at which a corner of one outline comes to an edge of the other. */
function eventsOf(moving: Outline, still: Outline, swing: Swing): number[] {
  const { pivot } = swing;
  const corners = moving.flatMap((corner) =>
    edgesOf(still).flatMap((edge) =>
      crossings(pivot, distance(pivot, corner), edge).map((met) => angleOf(pivot, met) - angleOf(pivot, corner)),
    ),
  );
  const edges = still.flatMap((corner) =>
    edgesOf(moving).flatMap((edge) =>
      crossings(pivot, distance(pivot, corner), edge).map((met) => angleOf(pivot, corner) - angleOf(pivot, met)),
    ),
  );
  return [...corners, ...edges].flatMap((angle) => within(swing, angle));
}

export type Clash = { angle: number; depth: Mm };

/** The deepest that an outline comes into a still one on its way; null where it passes clear. */
export function clashOf(moving: Outline, still: Outline, swing: Swing): Clash | null {
  const { pivot, from, to } = swing;
  const near = Math.min(...edgesOf(still).map(([a, b]) => toSegment(pivot, a, b)));
  const far = Math.max(...moving.map((corner) => distance(pivot, corner)));
  if (near >= far + TOUCH && !isInside(pivot, still)) return null;
  const stops = [from, ...eventsOf(moving, still, swing), to].sort((a, b) => a - b);
  const looks = [from, to, ...stops.slice(1).map((end, i) => (stops[i]! + end) / 2)];
  const meets = looks.some((angle) => depthOf(turned(moving, pivot, angle), still) > TOUCH);
  return meets ? deepest(moving, still, swing) : null;
}

function toSegment(point: Point, a: Point, b: Point): Mm {
  return distance(point, footOn(point, a, b));
}

/** The point of a line between two points that lies nearest. */
function footOn([x, y]: Point, a: Point, b: Point): Point {
  const [dx, dy] = [b[0] - a[0], b[1] - a[1]];
  const at = Math.max(0, Math.min(1, ((x - a[0]) * dx + (y - a[1]) * dy) / (dx * dx + dy * dy)));
  return [a[0] + at * dx, a[1] + at * dy];
}

const isInside = (point: Point, outline: Outline): boolean => {
  const signs = edgesOf(outline).map(([a, b]) =>
    Math.sign((b[0] - a[0]) * (point[1] - a[1]) - (b[1] - a[1]) * (point[0] - a[0])),
  );
  return signs.every((sign) => sign >= 0) || signs.every((sign) => sign <= 0);
};

type Curve =
  | { kind: "line"; ends: readonly [Point, Point] }
  | { kind: "arc"; centre: Point; radius: Mm; from: number; span: number };

/** Every line and arc that can bound what an outline sweeps: its edges at both ends of the swing, and the paths of its corners and of the points nearest the pivot. */
function boundsOf(outline: Outline, { pivot, from, to }: Swing): Curve[] {
  const lines = [from, to].flatMap((angle) =>
    edgesOf(turned(outline, pivot, angle)).map((ends): Curve => ({ kind: "line", ends })),
  );
  const paths = [...outline, ...edgesOf(outline).map(([a, b]) => footOn(pivot, a, b))].map(
    (point): Curve => ({
      kind: "arc",
      centre: pivot,
      radius: distance(pivot, point),
      from: angleOf(pivot, point) + from,
      span: to - from,
    }),
  );
  return [...lines, ...paths];
}

const isOnArc = (arc: Extract<Curve, { kind: "arc" }>, point: Point): boolean =>
  within({ pivot: arc.centre, from: arc.from, to: arc.from + arc.span }, angleOf(arc.centre, point)).length > 0;

function meet(a: Curve, b: Curve): boolean {
  if (a.kind === "line" && b.kind === "line") return linesMeet(a.ends, b.ends);
  if (a.kind === "line") return meet(b, a);
  if (b.kind === "line") return crossings(a.centre, a.radius, b.ends).some((point) => isOnArc(a, point));
  return circlesMeet(a, b).some((point) => isOnArc(a, point) && isOnArc(b, point));
}

function linesMeet([a, b]: readonly [Point, Point], [c, d]: readonly [Point, Point]): boolean {
  const side = (p: Point, q: Point, r: Point): number => (q[0] - p[0]) * (r[1] - p[1]) - (q[1] - p[1]) * (r[0] - p[0]);
  return side(a, b, c) * side(a, b, d) < 0 && side(c, d, a) * side(c, d, b) < 0;
}

type Circle = { centre: Point; radius: Mm };
function circlesMeet({ centre: p, radius: r }: Circle, { centre: q, radius: s }: Circle): Point[] {
  const apart = distance(p, q);
  if (apart < TOUCH || apart > r + s || apart < Math.abs(r - s)) return [];
  const along = (r * r - s * s + apart * apart) / (2 * apart);
  const off = Math.sqrt(Math.max(0, r * r - along * along));
  const [ux, uy] = [(q[0] - p[0]) / apart, (q[1] - p[1]) / apart];
  return [-1, 1].map((sign): Point => [p[0] + along * ux - sign * off * uy, p[1] + along * uy + sign * off * ux]);
}

/** Whether a swept outline passes over a point. */
function sweepsOver(outline: Outline, swing: Swing, point: Point): boolean {
  const { pivot, from, to } = swing;
  const radius = distance(pivot, point);
  const turns = edgesOf(outline)
    .flatMap((edge) => crossings(pivot, radius, edge))
    .map((met) => angleOf(pivot, point) - angleOf(pivot, met))
    .flatMap((angle) => within(swing, angle));
  const stops = [from, ...turns, to].sort((a, b) => a - b);
  return stops.slice(1).some((end, i) => {
    const [back] = turned([point], pivot, -(stops[i]! + end) / 2);
    return isInside(back!, outline);
  });
}

/** Whether two swept outlines share any place: then both can be there at once, each somewhere on its way. */
export function sweepsMeet(a: Outline, swingA: Swing, b: Outline, swingB: Swing): boolean {
  const curves = boundsOf(b, swingB);
  if (boundsOf(a, swingA).some((one) => curves.some((other) => meet(one, other)))) return true;
  return (
    sweepsOver(a, swingA, turned(b, swingB.pivot, swingB.from)[0]!) ||
    sweepsOver(b, swingB, turned(a, swingA.pivot, swingA.from)[0]!)
  );
}

/** Dovetailed ends as they are seen in a part's broad face: paper shows through between tails, and between pins as far as they are open all the way. */
import { isSame, type Mm } from "../../base/length.ts";
import { fill, lines, polygonSteps } from "../../paper/draw.ts";
import type { Point, Shape } from "../../paper/shape.ts";
import { socketAt } from "../../set/dovetail.ts";
import { isHigh } from "../../set/facing.ts";
import type { SetFeature, SetPart } from "../../set/schema.ts";

const BEYOND: Mm = 0.6; // over the outline of the part itself

type Spot = (l: Mm, w: Mm) => Point;
type Line = [Point, Point];

export const socketsIn = (part: SetPart): SetFeature[] => part.features.filter(({ kind }) => kind === "socket");

/** `spot`: where a place on the part, along its length and across its width, lies on paper. */
export function drawSocket(part: SetPart, socket: SetFeature, face: "t0" | "t1", spot: Spot): Shape[] {
  const { tips, at, roots } = socketAt(part, socket);
  const end = isHigh(socket.face) ? part.length : 0;
  const baseline = isHigh(socket.face) ? part.length - socket.depth : socket.depth;
  const through: [low: Mm, high: Mm][] = socket.axis === "t" ? [at, roots] : [roots, roots];
  const shown = opening(part, through, [end, baseline], spot);
  if (socket.axis === "t") return shown;
  // The other plane of a socket between pins: wider, and seen through the opening's own edges, or narrower, and behind.
  const [pen, other] = tips === face ? (["outline", at] as const) : (["hidden", at] as const);
  return [
    ...shown,
    lines(
      pen,
      other.map((w): Line => [spot(end, w), spot(baseline, w)]),
    ),
  ];
}

/** Open from the part's end to the baseline: `widths` there. What lies on the part's own edge is no line. */
function opening(part: SetPart, [tip, root]: [Mm, Mm][], [end, baseline]: [Mm, Mm], spot: Spot): Shape[] {
  const corners: [Mm, Mm][] = [
    [end, tip![0]],
    [end, tip![1]],
    [baseline, root![1]],
    [baseline, root![0]],
  ];
  const [ox, oy] = spot(0, 0);
  const unit = (l: Mm, w: Mm): Point => {
    const [x, y] = spot(l, w);
    return [Math.sign(x - ox), Math.sign(y - oy)];
  };
  const [alongL, alongW] = [unit(part.length, 0), unit(0, part.width)];
  const isEdge = (w: Mm): boolean => isSame(w, 0) || isSame(w, part.width);
  const out = ([l, w]: [Mm, Mm]): Point => {
    const [x, y] = spot(l, w);
    const ways: Point[] = [
      ...(isSame(l, end) ? [end === 0 ? ([-alongL[0], -alongL[1]] as Point) : alongL] : []),
      ...(isEdge(w) ? [isSame(w, 0) ? ([-alongW[0], -alongW[1]] as Point) : alongW] : []),
    ];
    return ways.reduce(([u, v], way): Point => [u + way[0] * BEYOND, v + way[1] * BEYOND], [x, y] as Point);
  };
  const line = (i: number, j: number): Line => [spot(...corners[i]!), spot(...corners[j]!)];
  return [
    fill(1, polygonSteps(corners.map(out))),
    lines("outline", [
      ...(isEdge(corners[1]![1]) ? [] : [line(1, 2)]),
      line(2, 3),
      ...(isEdge(corners[0]![1]) ? [] : [line(3, 0)]),
    ]),
  ];
}

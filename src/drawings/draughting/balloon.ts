/** Marks of parts in circles, each with a leader to a dot on its part, put where they cover nothing. */
import type { Mm } from "../../base/length.ts";
import { circleSteps, fill, lines, stroke, text } from "../../paper/draw.ts";
import { measureText } from "../../paper/lettering.ts";
import type { Point, Rect, Shape } from "../../paper/shape.ts";
import { grow, isWithin, meets } from "./block.ts";
import { clipToBox } from "./clip.ts";
import { wayUpBarsAt } from "./way-up.ts";

export const MARK_SIZE: Mm = 3.5;

export const balloonRadius = (mark: string, size: Mm = MARK_SIZE): Mm =>
  Math.max(size, Math.hypot(measureText(mark, size, "bold"), size) / 2 + 0.25 * size);

export const drawBalloon = (centre: Point, mark: string, size: Mm = MARK_SIZE): Shape[] => [
  fill(1, circleSteps(centre, balloonRadius(mark, size))),
  stroke("bar", circleSteps(centre, balloonRadius(mark, size))),
  text([centre[0], centre[1] + size / 2], mark, size, { anchor: "middle", weight: "bold" }),
  ...wayUpBarsAt([centre[0], centre[1] + size / 2], mark, size, "bold"),
];

const DOT: Mm = 0.55;
const CLEAR: Mm = 0.8;
const LEADERS: readonly Mm[] = [5, 8, 12, 17, 24, 32]; // from the dot to the circle
const TURNS = 16;

/** Where along a part its dot may sit, as shares of its longer side; the middle is often taken by a dimension. */
const SHARES: readonly number[] = [0.3, 0.7, 0.5, 0.15, 0.85, 0.4, 0.6];
const MOST_PATCHES = 8;
const LINE_COST = 20; // of a line that is crossed, against a millimetre or so of leader

type Spot = { mark: string; dot: Point; centre: Point; radius: Mm };

/** `seen`: what shows of each part; `taken`: texts to keep clear of; `within`: where balloons may stand. */
export function placeBalloons(
  seen: ReadonlyMap<string, readonly Rect[]>,
  drawn: readonly (readonly [Point, Point])[],
  taken: readonly Rect[],
  within: Rect,
): { shapes: Shape[]; boxes: Rect[]; leaders: (readonly [Point, Point])[]; without: string[] } {
  const spots: Spot[] = [];
  const boxes: Rect[] = [...taken];
  const without: string[] = [];
  // The part with least to show has the fewest places: it chooses first.
  const area = (rects: readonly Rect[]): number => Math.max(...rects.map((r) => r.width * r.height));
  const order = [...seen].sort(([a, p], [b, q]) => area(p) - area(q) || a.localeCompare(b, "en", { numeric: true }));
  for (const [mark, rects] of order) {
    const spot = bestSpot(mark, rects, drawn, boxes, spots, within);
    if (spot === null) {
      without.push(mark);
      continue;
    }
    spots.push(spot);
    boxes.push(circleBox(spot));
  }
  return {
    without: without.sort((a, b) => a.localeCompare(b, "en", { numeric: true })),
    boxes: boxes.slice(taken.length),
    leaders: spots.map(leaderOf),
    shapes: [
      lines("thin", spots.map(leaderOf)),
      ...spots.flatMap((spot) => [fill(0, circleSteps(spot.dot, DOT)), ...drawBalloon(spot.centre, spot.mark)]),
    ],
  };
}

const circleBox = ({ centre, radius }: Spot): Rect => ({
  x: centre[0] - radius,
  y: centre[1] - radius,
  width: 2 * radius,
  height: 2 * radius,
});

function leaderOf({ dot, centre, radius }: Spot): readonly [Point, Point] {
  const run = Math.hypot(centre[0] - dot[0], centre[1] - dot[1]);
  const f = 1 - radius / run;
  return [dot, [dot[0] + (centre[0] - dot[0]) * f, dot[1] + (centre[1] - dot[1]) * f]];
}

function bestSpot(
  mark: string,
  rects: readonly Rect[],
  drawn: readonly (readonly [Point, Point])[],
  taken: readonly Rect[],
  others: readonly Spot[],
  within: Rect,
): Spot | null {
  const radius = balloonRadius(mark);
  let best = null as { spot: Spot; cost: number } | null;
  const largest = [...rects].sort((a, b) => b.width * b.height - a.width * a.height).slice(0, MOST_PATCHES);
  largest.forEach((rect, nth) => {
    SHARES.forEach((share, s) => {
      const dot: Point =
        rect.width > rect.height
          ? [rect.x + rect.width * share, rect.y + rect.height / 2]
          : [rect.x + rect.width / 2, rect.y + rect.height * share];
      LEADERS.forEach((leader, l) => {
        const least = l * 4 + nth * 3 + s;
        if (best !== null && least >= best.cost) return;
        for (let k = 0; k < TURNS; k++) {
          const turn = (2 * Math.PI * (k + 0.5)) / TURNS;
          const centre: Point = [
            dot[0] + Math.cos(turn) * (leader + radius),
            dot[1] - Math.sin(turn) * (leader + radius),
          ];
          const spot = { mark, dot, centre, radius };
          const most = best === null ? Number.POSITIVE_INFINITY : (best.cost - least) / LINE_COST;
          const crossed = cost(spot, drawn, taken, others, within, most);
          if (crossed === null) continue;
          const total = crossed * LINE_COST + least;
          if (best === null || total < best.cost) best = { spot, cost: total };
        }
      });
    });
  });
  return best?.spot ?? null;
}

/** How many lines of the view the circle covers and the leader crosses beyond its own part's edge; null where it may not stand, or where they are more than `most`. */
function cost(
  spot: Spot,
  drawn: readonly (readonly [Point, Point])[],
  taken: readonly Rect[],
  others: readonly Spot[],
  within: Rect,
  most: number,
): number | null {
  const box = grow(circleBox(spot), CLEAR);
  if (!isWithin(box, within) || taken.some((other) => meets(box, other))) return null;
  const leader = leaderOf(spot);
  if (taken.some((other) => clipToBox(leader[0], leader[1], grow(other, CLEAR / 2)) !== null)) return null;
  for (const other of others) {
    const [a, b] = leaderOf(other);
    if (clipToBox(a, b, box) !== null || crosses(a, b, leader[0], leader[1])) return null;
  }
  let covered = 0;
  let crossed = 0;
  // Most lines lie far away: told by their corners alone.
  const [left, right] = [Math.min(box.x, spot.dot[0]), Math.max(box.x + box.width, spot.dot[0])];
  const [top, foot] = [Math.min(box.y, spot.dot[1]), Math.max(box.y + box.height, spot.dot[1])];
  for (const [a, b] of drawn) {
    if (Math.max(a[0], b[0]) < left || Math.min(a[0], b[0]) > right) continue;
    if (Math.max(a[1], b[1]) < top || Math.min(a[1], b[1]) > foot) continue;
    if (clipToBox(a, b, box) !== null) covered++;
    if (crosses(a, b, leader[0], leader[1])) crossed++;
    if (covered * 2 + crossed - 1 > most) return null;
  }
  return covered * 2 + Math.max(0, crossed - 1);
}

/** Which side of the line through p and q a point lies on. Not inside `crosses`: it is asked millions of times. */
const sideOf = (p: Point, q: Point, r: Point): number =>
  Math.sign((q[0] - p[0]) * (r[1] - p[1]) - (q[1] - p[1]) * (r[0] - p[0]));

const crosses = (a: Point, b: Point, c: Point, d: Point): boolean =>
  sideOf(a, b, c) !== sideOf(a, b, d) && sideOf(c, d, a) !== sideOf(c, d, b);

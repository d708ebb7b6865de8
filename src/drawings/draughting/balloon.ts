/** Marks of parts in circles, each with a leader to a dot on its part, put where they cover nothing. */
import type { Mm } from "../../base/length.ts";
import { circleSteps, fill, lines, stroke, text } from "../../paper/draw.ts";
import { measureText } from "../../paper/lettering.ts";
import type { Point, Rect, Shape } from "../../paper/shape.ts";
import { grow, meets } from "./block.ts";
import { clipToBox, type Line } from "./clip.ts";
import { gridOf, type LineGrid } from "./line-grid.ts";
import { linkToPart } from "./part-link.ts";
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
const DOT_CLEAR: Mm = 0.4; // of a dot from a text
const CLEAR: Mm = 0.8;
const LEADERS: readonly Mm[] = [5, 8, 12, 17, 24, 32]; // from the dot to the circle
const TURNS = 16;

/** Where along a part its dot may sit, as shares of its longer side; the middle is often taken by a dimension. */
const SHARES: readonly number[] = [0.3, 0.7, 0.5, 0.15, 0.85, 0.4, 0.6];
const MOST_PATCHES = 8;
const LINE_COST = 20; // of a line that is crossed, against a millimetre or so of leader

type Spot = { mark: string; dot: Point; centre: Point; radius: Mm; leader: Line };

/** `seen`: what shows of each part; `taken`: texts to keep clear of; `within`: where balloons may stand; `boxes`: of circles and dots. */
export function placeBalloons(
  seen: ReadonlyMap<string, readonly Rect[]>,
  drawn: readonly Line[],
  taken: readonly Rect[],
  within: Rect,
): { shapes: Shape[]; boxes: Rect[]; leaders: Line[]; without: string[] } {
  const grid = gridOf(drawn);
  // The part with least to show has the fewest places: it chooses first.
  const area = (rects: readonly Rect[]): number => Math.max(...rects.map((r) => r.width * r.height));
  const order = [...seen].sort(([a, p], [b, q]) => area(p) - area(q) || a.localeCompare(b, "en", { numeric: true }));
  let best = placeInTurn(order, grid, taken, within);
  // What found no room chooses before all others, then.
  for (let tried = 0; tried < MOST_TRIES && best.without.length > 0 && best.without.length <= FEW; tried++) {
    const isFirst = ([mark]: (typeof order)[number]): boolean => best.without.includes(mark);
    const again = placeInTurn([...order.filter(isFirst), ...order.filter((one) => !isFirst(one))], grid, taken, within);
    if (again.without.length >= best.without.length) break;
    best = again;
  }
  const { spots, without } = best;
  return {
    without: [...without].sort((a, b) => a.localeCompare(b, "en", { numeric: true })),
    boxes: [...spots.map(circleBox), ...spots.map(({ dot }) => around(dot, DOT))],
    leaders: spots.map(({ leader }) => leader),
    shapes: [
      lines(
        "thin",
        spots.map(({ leader }) => leader),
      ),
      ...spots.flatMap((spot) => [
        fill(0, circleSteps(spot.dot, DOT)),
        ...drawBalloon(spot.centre, spot.mark),
        linkToPart(spot.mark, circleBox(spot)),
      ]),
    ],
  };
}

const MOST_TRIES = 3;
const FEW = 4; // marks without room that others are asked to make it for

function placeInTurn(
  order: readonly (readonly [string, readonly Rect[]])[],
  grid: LineGrid,
  taken: readonly Rect[],
  within: Rect,
): { spots: Spot[]; without: string[] } {
  const spots: Spot[] = [];
  const boxes: Rect[] = [...taken];
  const without: string[] = [];
  for (const [mark, rects] of order) {
    const spot =
      bestSpot(mark, rects, grid, boxes, spots, within, WAYS) ??
      bestSpot(mark, rects, grid, boxes, spots, within, MORE_WAYS);
    if (spot === null) {
      without.push(mark);
      continue;
    }
    spots.push(spot);
    boxes.push(circleBox(spot));
  }
  return { spots, without };
}

const circleBox = ({ centre, radius }: Spot): Rect => around(centre, radius);

function leaderOf(dot: Point, centre: Point, radius: Mm): Line {
  const run = Math.hypot(centre[0] - dot[0], centre[1] - dot[1]);
  const f = 1 - radius / run;
  return [dot, [dot[0] + (centre[0] - dot[0]) * f, dot[1] + (centre[1] - dot[1]) * f]];
}

function bestSpot(
  mark: string,
  rects: readonly Rect[],
  drawn: LineGrid,
  taken: readonly Rect[],
  others: readonly Spot[],
  within: Rect,
  ways: readonly Point[],
): Spot | null {
  const radius = balloonRadius(mark);
  const room = grow(within, -radius - CLEAR);
  let best = null as { spot: Spot; cost: number } | null;
  const largest = [...rects].sort((a, b) => b.width * b.height - a.width * a.height).slice(0, MOST_PATCHES);
  largest.forEach((rect, nth) => {
    SHARES.forEach((share, s) => {
      const dot: Point =
        rect.width > rect.height
          ? [rect.x + rect.width * share, rect.y + rect.height / 2]
          : [rect.x + rect.width / 2, rect.y + rect.height * share];
      if (best !== null && nth * 3 + s >= best.cost) return;
      // What is near enough to be met from this dot: what the circle's middle keeps clear of, and what a leader does.
      const reach = around(dot, LEADERS.at(-1)! + 2 * radius + CLEAR);
      const near = taken.filter((other) => meets(other, reach));
      if (near.some((other) => holds(grow(other, DOT + DOT_CLEAR), dot))) return;
      const about = near.map((other) => grow(other, radius + CLEAR));
      const beside = near.map((other) => grow(other, CLEAR / 2));
      const passing = others.filter(({ leader }) => runsThrough(leader, reach));
      LEADERS.forEach((long, l) => {
        const least = l * 4 + nth * 3 + s;
        if (best !== null && least >= best.cost) return;
        for (const [dx, dy] of ways) {
          const centre: Point = [dot[0] + dx * (long + radius), dot[1] + dy * (long + radius)];
          if (!holds(room, centre) || about.some((other) => holds(other, centre))) continue;
          const leader = leaderOf(dot, centre, radius);
          if (beside.some((other) => runsThrough(leader, other))) continue;
          const spot = { mark, dot, centre, radius, leader };
          if (passing.some((other) => isInTheWay(other.leader, spot))) continue;
          const most = best === null ? Number.POSITIVE_INFINITY : (best.cost - least) / LINE_COST;
          const crossed = cost(spot, drawn, most);
          if (crossed === null) continue;
          const total = crossed * LINE_COST + least;
          if (best === null || total < best.cost) best = { spot, cost: total };
        }
      });
    });
  });
  return best?.spot ?? null;
}

/** The ways a leader may go, none of them level or upright. */
const waysOf = (turns: number): Point[] =>
  Array.from({ length: turns }, (_, k): Point => {
    const turn = (2 * Math.PI * (k + 0.5)) / turns;
    return [Math.cos(turn), -Math.sin(turn)];
  });

const WAYS = waysOf(TURNS);
const MORE_WAYS = waysOf(4 * TURNS); // between others' circles, where there is room on none of the few

const holds = ({ x, y, width, height }: Rect, at: Point): boolean =>
  at[0] > x && at[0] < x + width && at[1] > y && at[1] < y + height;

/** Told by its corners alone where the line lies far away, as most do. */
const runsThrough = ([a, b]: Line, box: Rect): boolean =>
  Math.max(a[0], b[0]) > box.x &&
  Math.min(a[0], b[0]) < box.x + box.width &&
  Math.max(a[1], b[1]) > box.y &&
  Math.min(a[1], b[1]) < box.y + box.height &&
  clipToBox(a, b, box) !== null;

const around = ([x, y]: Point, by: Mm): Rect => ({ x: x - by, y: y - by, width: 2 * by, height: 2 * by });

const aroundCircle = ({ centre, radius }: Spot): Rect => around(centre, radius + CLEAR);

const isInTheWay = (other: Line, spot: Spot): boolean =>
  crosses(other[0], other[1], spot.leader[0], spot.leader[1]) || runsThrough(other, aroundCircle(spot));

/** How many lines of the view the circle covers and the leader crosses beyond its own part's edge; null where they are more than `most`. */
function cost(spot: Spot, drawn: LineGrid, most: number): number | null {
  const box = aroundCircle(spot);
  const [from, to] = spot.leader;
  const [left, top] = [Math.min(box.x, from[0]), Math.min(box.y, from[1])];
  const round: Rect = {
    x: left,
    y: top,
    width: Math.max(box.x + box.width, from[0]) - left,
    height: Math.max(box.y + box.height, from[1]) - top,
  };
  let covered = 0;
  let crossed = 0;
  drawn.forEachNear(round, (line) => {
    if (runsThrough(line, box)) covered++;
    if (crosses(line[0], line[1], from, to)) crossed++;
    return covered * 2 + crossed - 1 > most;
  });
  return covered * 2 + crossed - 1 > most ? null : covered * 2 + Math.max(0, crossed - 1);
}

/** Which side of the line through p and q a point lies on. Not inside `crosses`: it is asked millions of times. */
const sideOf = (p: Point, q: Point, r: Point): number =>
  Math.sign((q[0] - p[0]) * (r[1] - p[1]) - (q[1] - p[1]) * (r[0] - p[0]));

const crosses = (a: Point, b: Point, c: Point, d: Point): boolean =>
  sideOf(a, b, c) !== sideOf(a, b, d) && sideOf(c, d, a) !== sideOf(c, d, b);

/**
 * One strip of a stick at full size, in its own frame: u from where `from` lies, v from the upper long edge. Everything
 * lettered from the upper edge is lettered again from the lower one, turned, so that the strip can lie on either side.
 *
 *     |  |  2 1/4 in 1, 2   |  ticks run out to both long edges
 *     |\/|------------------|  a clear lane: walls, ends and crosses only
 *     |  |  (turned)        |
 */
import { isSame, type Mm } from "../../base/length.ts";
import { circleSteps, fill, group, line, lines, polygonSteps, stroke } from "../../paper/draw.ts";
import type { Point, Rect, Shape } from "../../paper/shape.ts";
import type { DryfitSet } from "../../set/schema.ts";
import { breakLines } from "../draughting/clip.ts";
import { hatch } from "../draughting/hatch.ts";
import type { Placed } from "../draughting/placing.ts";
import { CROSS, crossAt, laneOf, letterStrip, type Strip, TICK } from "./stick-lettering.ts";
import { endsAt, isHole, type StickMark } from "./stick-words.ts";

const RING: Mm = 1.3; // of a cross mark
const HOLE: Mm = 1; // a hole's ring in the lane, the same whatever the hole
const WASTE: Mm = 3; // hatched beyond the stick's own ends

export function drawStrip(set: DryfitSet, strip: Strip): Shape[] {
  const marks = strip.stick.marks.filter(
    (mark) => mark.at > strip.from - 1e-6 && mark.at + mark.width < strip.to + 1e-6,
  );
  const placed = letterStrip(set, strip, marks);
  return [
    ...drawEdges(strip),
    ...drawZero(strip, marks),
    ...drawMarks(set, strip, marks, placed),
    ...strip.joins.flatMap((join) => drawJoin(strip, join.at)),
    ...placed.flatMap((one) => drawTwice(one, strip.height)),
  ];
}

const drawTwice = ({ box, block }: Placed, height: Mm): Shape[] => [
  group(block.shapes, { move: [box.x, box.y] }),
  group(block.turned ?? block.shapes, { move: [box.x + box.width, height - box.y], turn: 180 }),
];

/** The same box seen from the other long edge. */
const mirrored = (box: Rect, height: Mm): Rect => ({ ...box, y: height - box.y - box.height });

/** Long edges and tile ends to cut along; the stick's own ends heavy, with the waste beyond them hatched. */
function drawEdges({ stick, from, to, height }: Strip): Shape[] {
  const end = to - from;
  const isZero = isSame(from, 0);
  const isTotal = isSame(to, stick.length);
  const cut: [Point, Point][] = [
    [
      [0, 0],
      [end, 0],
    ],
    [
      [0, height],
      [end, height],
    ],
  ];
  const upright = (u: Mm): [Point, Point] => [
    [u, 0],
    [u, height],
  ];
  if (!isZero) cut.push(upright(0));
  if (!isTotal) cut.push(upright(end));
  return [
    lines("cut", cut),
    ...(isZero
      ? [line("outline", ...upright(0)), hatch([{ x: -WASTE, y: 0, width: WASTE, height }], "rising", HATCH_PITCH)]
      : []),
    ...(isTotal
      ? [line("outline", ...upright(end)), hatch([{ x: end, y: 0, width: WASTE, height }], "rising", HATCH_PITCH)]
      : []),
  ];
}

const HATCH_PITCH: Mm = 1.4;

const WEDGE: Mm = 6;
const WEDGE_AIR: Mm = 1.5; // to the first mark
const WEDGE_OFF: Mm = 1; // from the zero line, which stays a line

/** A black wedge in the lane, its point at the zero line: no other end has one. */
function drawZero({ from, height }: Strip, marks: StickMark[]): Shape[] {
  if (!isSame(from, 0)) return [];
  const first = Math.min(...marks.flatMap(({ at }) => (isSame(at, 0) ? [] : [at])));
  const length = Math.min(WEDGE, first - WEDGE_AIR);
  if (length < WEDGE / 2) return [];
  const [top, end] = laneOf(height);
  const half = ((end - top) / 2) * (length / WEDGE);
  return [
    fill(
      0,
      polygonSteps([
        [WEDGE_OFF, height / 2],
        [length, height / 2 - half],
        [length, height / 2 + half],
      ]),
    ),
  ];
}

const FLAG: Mm = 2.2;

/** A flag at both long edges, pointing into the part whose end this is. */
const flag = (u: Mm, v: Mm, towards: 1 | -1): Shape =>
  fill(
    0,
    polygonSteps([
      [u, v - FLAG / 2],
      [u + towards * FLAG, v],
      [u, v + FLAG / 2],
    ]),
  );

/** The middle of a hole: out to both long edges and across the lane, with a ring, so that it is not taken for a wall or a stop. */
const holeLines = (u: Mm, height: Mm): [Point, Point][] =>
  [[0, TICK], laneOf(height), [height - TICK, height]].map(([from, to]) => [
    [u, from!],
    [u, to!],
  ]);

function drawMarks(set: DryfitSet, strip: Strip, marks: StickMark[], placed: Placed[]): Shape[] {
  const { height, from } = strip;
  const boxes = placed.flatMap(({ box }) => [box, mirrored(box, height)]);
  const [laneTop, laneEnd] = laneOf(height);
  // A cross stops short of an end line that runs through its band: at the middle they would make one blot.
  const isInside = (at: Mm): boolean => marks.some((band) => at > band.at + 0.5 && at < band.at + band.width - 0.5);
  const gaps = marks
    .filter(({ kind, at }) => kind !== "groove" && isInside(at))
    .map(({ at }): Rect => ({ x: at - from - 1, y: laneTop, width: 2, height: laneEnd - laneTop }));
  const walls: [Point, Point][] = [];
  const stops: [Point, Point][] = [];
  const crosses: [Point, Point][] = [];
  const flags: Shape[] = [];
  const rings: Shape[] = [];
  for (const mark of marks) {
    const u = mark.at - from;
    const full = (at: Mm): [Point, Point] => [
      [at, 0],
      [at, height],
    ];
    if (mark.kind === "seat") {
      // Nothing is cut here: a member's end, as it stands on the edge.
      const far = u + mark.width;
      walls.push(full(u), full(far));
      stops.push(
        [
          [u, laneTop],
          [far, laneTop],
        ],
        [
          [u, laneEnd],
          [far, laneEnd],
        ],
      );
    } else if (mark.kind === "groove") {
      const far = u + mark.width;
      walls.push(full(u), full(far));
      crosses.push(
        [
          [u, laneTop],
          [far, laneEnd],
        ],
        [
          [u, laneEnd],
          [far, laneTop],
        ],
      );
    } else if (isHole(set, strip.stick, mark)) {
      stops.push(...holeLines(u, height));
      rings.push(stroke("thin", circleSteps([u, height / 2], HOLE)));
    } else stops.push(full(u));
    if (mark.kind === "end") {
      const { begins, ends } = endsAt(strip.stick, mark);
      for (const v of [FLAG / 2, height - FLAG / 2]) {
        if (begins.length > 0) flags.push(flag(u, v, 1));
        if (ends.length > 0) flags.push(flag(u, v, -1));
      }
    }
  }
  return [
    lines("bar", breakLines(walls, boxes)),
    lines("thin", breakLines(stops, boxes)),
    lines("thin", breakLines(crosses, gaps)),
    ...flags,
    ...rings,
  ];
}

/** The join line on either side of the lane, and two cross marks to bring over each other. */
function drawJoin({ height, from }: Strip, at: Mm): Shape[] {
  const u = at - from;
  const [laneTop, laneEnd] = laneOf(height);
  const marks = [crossAt(height), height - crossAt(height)];
  const segments: [Point, Point][] = [
    [
      [u, 0],
      [u, laneTop],
    ],
    [
      [u, laneEnd],
      [u, height],
    ],
    ...marks.map((v): [Point, Point] => [
      [u - CROSS, v],
      [u + CROSS, v],
    ]),
  ];
  return [lines("thin", segments), ...marks.map((v) => stroke("thin", circleSteps([u, v], RING)))];
}

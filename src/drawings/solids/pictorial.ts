/**
 * A picture of the piece in cabinet projection: the front in its true shape, the depth drawn at half its length on a
 * slant, so that the top and the right side show. Boxes are painted from the farthest to the nearest.
 */
import type { Box } from "../../base/geometry.ts";
import type { Mm } from "../../base/length.ts";
import { fill, lines, polygonSteps } from "../../paper/draw.ts";
import type { Point, Rect, Shape } from "../../paper/shape.ts";
import { type Block, meets, unionOf } from "../draughting/block.ts";
import { freeStretches } from "../draughting/stretch.ts";
import type { Edge } from "./edge.ts";
import { skinOf } from "./hidden-line-skin.ts";
import type { Solid } from "./solid.ts";

const SLANT = Math.PI / 6; // 30 degrees shows more of a low piece's top than 45
const DEPTH = 0.5; // of its true length: cabinet projection's own rule

/** Greys by which way a face looks; they tell the planes apart and stay light in print. */
const GREYS = { front: 1, top: 0.95, right: 0.88 };

type Spot = readonly [x: number, y: number, z: number];
type Panel = { mark: string; box: Box; skin: readonly Edge[] };

const SAME_PLANE = 1e-4;

const project = ([x, y, z]: Spot, ratio: number): Point => [
  (x + y * DEPTH * Math.cos(SLANT)) * ratio,
  -(z + y * DEPTH * Math.sin(SLANT)) * ratio,
];

/** `a` lies wholly on the far side of a plane between them, as seen from the front, the right and above. */
const isBehind = (a: Box, b: Box): boolean =>
  a[1][0] <= b[0][0] + SAME_PLANE || a[0][1] >= b[1][1] - SAME_PLANE || a[1][2] <= b[0][2] + SAME_PLANE;

function shadowOf(box: Box): Rect {
  const [left, low] = project(box[0], 1);
  const [right, high] = project(box[1], 1);
  return { x: left, y: high, width: right - left, height: low - high };
}

/** Farthest first: a box comes after every box it may cover. */
function paintOrder(panels: readonly Panel[]): Panel[] {
  const shadows = panels.map(({ box }) => shadowOf(box));
  const after: number[][] = panels.map(() => []);
  const waits = panels.map(() => 0);
  panels.forEach((a, i) => {
    panels.forEach((b, j) => {
      if (i === j || !meets(shadows[i]!, shadows[j]!)) return;
      // Behind by one plane and in front by another: neither covers the other.
      if (!isBehind(a.box, b.box) || isBehind(b.box, a.box)) return;
      after[i]!.push(j);
      waits[j]! += 1;
    });
  });
  const order: Panel[] = [];
  const left = new Set(panels.keys());
  while (left.size > 0) {
    // Boxes that cover each other in a ring have no order; the one that waits least is painted next.
    let next = -1;
    for (const i of left) if (next === -1 || waits[i]! < waits[next]!) next = i;
    left.delete(next);
    order.push(panels[next]!);
    for (const j of after[next]!) waits[j]! -= 1;
  }
  return order;
}

type Looking = "front" | "top" | "right";
const LOOKINGS: readonly Looking[] = ["front", "top", "right"];

/** For each way a face looks: its own axis, the side of the box it is on, and the two axes it spreads over. */
const FACES: Record<Looking, { axis: 0 | 1 | 2; side: 0 | 1; across: readonly [0 | 1 | 2, 0 | 1 | 2] }> = {
  front: { axis: 1, side: 0, across: [0, 2] },
  top: { axis: 2, side: 1, across: [0, 1] },
  right: { axis: 0, side: 1, across: [1, 2] },
};

/** The edges of a box's face that are edges of its part: not those where the part's surface runs on into the next box. */
function edgesOf(panel: Panel, looking: Looking, same: readonly Panel[]): (readonly [Spot, Spot])[] {
  const { axis, side, across } = FACES[looking];
  const plane = panel.box[side][axis];
  const coplanar = same.filter((other) => other !== panel && Math.abs(other.box[side][axis] - plane) < SAME_PLANE);
  const edges: (readonly [Spot, Spot])[] = [];
  for (const [run, cross] of [across, [across[1], across[0]] as const]) {
    for (const end of [0, 1] as const) {
      const at = panel.box[end][cross];
      const runsOn = coplanar
        .filter((other) => Math.abs(other.box[(1 - end) as 0 | 1][cross] - at) < SAME_PLANE)
        .map((other) => [other.box[0][run], other.box[1][run]] as const);
      const spot = (value: number): Spot => {
        const made: [number, number, number] = [0, 0, 0];
        made[axis] = plane;
        made[cross] = at;
        made[run] = value;
        return made;
      };
      const [low, high] = [panel.box[0][run], panel.box[1][run]];
      for (const [a, b] of freeStretches(low, high, runsOn)) {
        if (b - a > SAME_PLANE) edges.push(...onSkin(panel.skin, spot(a), spot(Math.min(b, high)), run));
      }
    }
  }
  return [...edges, ...slopesOf(panel, looking)];
}

/** What of a line along an axis is an edge of the part's skin: where a box stands on another there is none. */
function onSkin(skin: readonly Edge[], a: Spot, b: Spot, run: 0 | 1 | 2): (readonly [Spot, Spot])[] {
  const isOn = (spot: Spot): boolean =>
    ([0, 1, 2] as const).every((i) => i === run || Math.abs(spot[i] - a[i]) < SAME_PLANE);
  const place = (value: number): Spot => [0, 1, 2].map((i) => (i === run ? value : a[i]!)) as unknown as Spot;
  return skin
    .filter(({ ends }) => ends.every(isOn))
    .flatMap(({ ends: [p, q] }) => {
      const [from, to] = [Math.max(a[run], Math.min(p[run], q[run])), Math.min(b[run], Math.max(p[run], q[run]))];
      return to - from > SAME_PLANE ? [[place(from), place(to)] as const] : [];
    });
}

/** The slanting edges of the skin that end at a corner of a box, on one of its faces. */
const slopesOf = ({ box, skin }: Panel, looking: Looking): (readonly [Spot, Spot])[] =>
  skin.flatMap(({ ends: [a, b], outs }) => {
    const { axis, side } = FACES[looking];
    const isSlope = ([0, 1, 2] as const).filter((i) => Math.abs(a[i] - b[i]) > SAME_PLANE).length > 1;
    const isItsOwn = outs?.some((one) => one.axis === axis && one.out === (side === 1 ? 1 : -1)) === true;
    const isCorner = (spot: Spot): boolean =>
      ([0, 1, 2] as const).every((i) => box.some((end) => Math.abs(end[i] - spot[i]) < SAME_PLANE));
    return isSlope && isItsOwn && (isCorner(a) || isCorner(b)) ? [[a, b] as const] : [];
  });

function cornersOf(box: Box, looking: Looking): Spot[] {
  const { axis, side, across } = FACES[looking];
  return (
    [
      [0, 0],
      [1, 0],
      [1, 1],
      [0, 1],
    ] as const
  ).map(([i, j]) => {
    const spot: [number, number, number] = [0, 0, 0];
    spot[axis] = box[side][axis];
    spot[across[0]] = box[i][across[0]];
    spot[across[1]] = box[j][across[1]];
    return spot;
  });
}

/** On paper, round where one face runs on into the next of its part, or a printer lets a hairline of what lies behind through; clear of the edges at its ends. */
const SEAM: { lap: Mm; clear: Mm } = { lap: 0.06, clear: 0.15 };

/** Strips over the seams at which a box's face runs on into those of other boxes of its part. */
function seamsOf({ box }: Panel, looking: Looking, same: readonly Panel[], ratio: number): Box[] {
  const { axis, side, across } = FACES[looking];
  const [lap, clear] = [SEAM.lap / ratio, SEAM.clear / ratio];
  return same.flatMap((other) =>
    across.flatMap((cross) =>
      ([0, 1] as const).flatMap((end): Box[] => {
        const run = across.find((one) => one !== cross)!;
        const isNext =
          Math.abs(other.box[side][axis] - box[side][axis]) < SAME_PLANE &&
          Math.abs(other.box[(1 - end) as 0 | 1][cross] - box[end][cross]) < SAME_PLANE;
        const from = Math.max(other.box[0][run], box[0][run]) + clear;
        const to = Math.min(other.box[1][run], box[1][run]) - clear;
        if (!isNext || to <= from) return [];
        const corner = (along: Mm, by: Mm): Spot => {
          const made: [number, number, number] = [...box[side]];
          made[cross] = box[end][cross] + by;
          made[run] = along;
          return made;
        };
        return [[corner(from, -lap), corner(to, lap)]];
      }),
    ),
  );
}

/** The piece at a scale, its lowest front left corner at the origin. */
export function drawPictorial(solids: readonly Solid[], ratio: number): Block {
  const panels = solids.flatMap(({ mark, boxes, stairs }) => {
    const skin = skinOf(boxes, stairs).edges;
    return boxes.map((box) => ({ mark, box, skin }));
  });
  const shapes: Shape[] = paintOrder(panels).flatMap((panel) => {
    const same = panels.filter((other) => other.mark === panel.mark);
    return LOOKINGS.flatMap((looking) => [
      ...[panel.box, ...seamsOf(panel, looking, same, ratio)].map((face) =>
        fill(GREYS[looking], polygonSteps(cornersOf(face, looking).map((spot) => project(spot, ratio)))),
      ),
      lines(
        "bar",
        edgesOf(panel, looking, same).map(([a, b]) => [project(a, ratio), project(b, ratio)] as const),
      ),
    ]);
  });
  const size = frameOf(solids);
  return {
    shapes: shapes.filter((shape) => shape.kind !== "path" || shape.steps.length > 0),
    box: { x: size.x * ratio, y: size.y * ratio, width: size.width * ratio, height: size.height * ratio },
  };
}

/** The rectangle the picture takes, at full size. */
const frameOf = (solids: readonly Solid[]): Rect => unionOf(solids.flatMap(({ boxes }) => boxes.map(shadowOf)));

/** How large the picture would be at full size. */
export function pictorialSize(solids: readonly Solid[]): readonly [Mm, Mm] {
  const { width, height } = frameOf(solids);
  return [width, height];
}

/** A part as a drawing sees it: its blank less its features, as boxes that do not overlap. */

import { AXES, type Box, boxOf, boxToOuter, type Place, toOuter, type Vec } from "../../base/geometry.ts";
import type { Mm } from "../../base/length.ts";
import { chordsOf } from "../../base/outline.ts";
import { socketAt } from "../../set/dovetail.ts";
import type { DryfitSet, SetAssembly, SetFeature, SetLipping, SetPart } from "../../set/schema.ts";
import { stockOf } from "../../set/words.ts";
import { moveStair, type Stair, stairsOf } from "./stair.ts";

/** Coordinates closer than this are one plane: far below a pen's width at any scale. */
const SAME_PLANE = 1e-4;

/** Ascending, each plane once. */
export function planesOf(values: readonly number[]): number[] {
  const sorted = [...values].sort((a, b) => a - b);
  return sorted.filter((value, i) => i === 0 || value - sorted[i - 1]! > SAME_PLANE);
}

const holds = (box: Box, point: Vec): boolean => AXES.every((i) => box[0][i] < point[i] && point[i] < box[1][i]);

/**
 * The boxes left of a blank once the others are taken out: the blank is cut along every face of every box taken out,
 * and the cells that are wood are joined again along the length.
 */
export function subtractBoxes(blank: Box, removed: readonly Box[]): Box[] {
  const planes = AXES.map((i) =>
    planesOf([
      blank[0][i],
      blank[1][i],
      ...removed.flatMap((box) => [box[0][i], box[1][i]]).filter((v) => v > blank[0][i] && v < blank[1][i]),
    ]),
  ) as [number[], number[], number[]];
  const left: Box[] = [];
  for (let j = 0; j + 1 < planes[1].length; j++) {
    for (let k = 0; k + 1 < planes[2].length; k++) {
      let start: number | null = null;
      for (let i = 0; i < planes[0].length; i++) {
        const lo: Vec = [planes[0][i]!, planes[1][j]!, planes[2][k]!];
        const isWood =
          i + 1 < planes[0].length &&
          !removed.some((box) => holds(box, middle(lo, [planes[0][i + 1]!, planes[1][j + 1]!, planes[2][k + 1]!])));
        if (isWood && start === null) start = lo[0];
        if (!isWood && start !== null) {
          left.push([
            [start, lo[1], lo[2]],
            [lo[0], planes[1][j + 1]!, planes[2][k + 1]!],
          ]);
          start = null;
        }
      }
    }
  }
  return left;
}

const middle = (a: Vec, b: Vec): Vec => [(a[0] + b[0]) / 2, (a[1] + b[1]) / 2, (a[2] + b[2]) / 2];

/** As many levels make a slope or an arch in a pictorial view; a flat view draws its line over them. */
const LEVELS = 24;

/** A shaped edge as boxes that lie inside its outline, level by level from the edge inwards. */
function levelsOf({ outline, box: [lo, hi], face }: SetFeature): Box[] {
  const points = chordsOf(outline);
  // Both its ends slope inwards, or neither does.
  const isUpright = points.every(([l]) => l < lo[0] + SAME_PLANE || l > hi[0] - SAME_PLANE);
  if (isUpright) return [[lo, hi]];
  const height = (hi[1] - lo[1]) / LEVELS;
  const isLow = face === "w0";
  return Array.from({ length: LEVELS }, (_, i): Box => {
    const [from, to] = isLow
      ? [lo[1] + i * height, lo[1] + (i + 1) * height]
      : [hi[1] - (i + 1) * height, hi[1] - i * height];
    const across = crossings(points, isLow ? to : from);
    const [left, right] = across.length < 2 ? [lo[0], lo[0]] : [Math.min(...across), Math.max(...across)];
    return [
      [left, from, lo[2]],
      [right, to, hi[2]],
    ];
  }).filter(([a, b]) => b[0] - a[0] > SAME_PLANE);
}

/** Where the outline crosses a level. */
const crossings = (points: readonly (readonly [number, number])[], level: number): number[] =>
  points.flatMap(([l0, w0], i) => {
    const [l1, w1] = points[(i + 1) % points.length]!;
    if (Math.abs(w0 - level) < SAME_PLANE) return [l0];
    return (w0 - level) * (w1 - level) < 0 ? [l0 + ((level - w0) / (w1 - w0)) * (l1 - l0)] : [];
  });

/** A socket of a dovetailed corner as wide as it is half way from the tails' ends to their roots: so tails and pins fill each other. */
function halfWay(part: SetPart, feature: SetFeature): Box {
  const { at, roots } = socketAt(part, feature);
  const [[l0, , t0], [l1, , t1]] = feature.box;
  return [
    [l0, (at[0] + roots[0]) / 2, t0],
    [l1, (at[1] + roots[1]) / 2, t1],
  ];
}

/**
 * The part in its own axes; holes are too small to be worth a box, and drawn as circles where they matter. A mitred edge is square here: its slope
 * lies against that of another part, and is drawn as a line where the parts are seen one by one or cut.
 */
export const solidOf = (part: SetPart): Box[] =>
  subtractBoxes(
    [
      [0, 0, 0],
      [part.length, part.width, part.thickness],
    ],
    part.features.flatMap((feature) =>
      ["hole", "mortise", "slot", "edge", "mitre"].includes(feature.kind)
        ? []
        : feature.kind === "shape"
          ? levelsOf(feature)
          : feature.kind === "socket"
            ? [halfWay(part, feature)]
            : [feature.box],
    ),
  );

/** A lipping as a box through the part's thickness. */
export function lippingBox(part: SetPart, { edge, thickness, from, to }: SetLipping): Box {
  const size = edge[0] === "w" ? part.width : part.length;
  const [low, high] = edge[1] === "0" ? [0, thickness] : [size - thickness, size];
  return edge[0] === "w"
    ? [
        [from, low, 0],
        [to, high, part.thickness],
      ]
    : [
        [low, from, 0],
        [high, to, part.thickness],
      ];
}

/** How a part is drawn among others: fixed; loose, where it may lie elsewhere; a neighbour, drawn only for its place. */
export type Look = "fixed" | "loose" | "neighbour";

/** In place of a mark: bought, and drawn where it stands, but no part of the job. */
export const BOUGHT = "";

/** `isWood`: of solid wood; else of a panel. `smooth`: steps as high as this are one slope, made of levels; `stairs`: where they lie; `lippings`: what of it is glued on. */
export type Solid = {
  mark: string;
  boxes: Box[];
  look?: Exclude<Look, "fixed">;
  isWood?: true;
  smooth?: Mm;
  stairs?: Stair[];
  lippings?: Box[];
};

/** In other axes, square to its own. */
export const moveSolid = <T extends Solid>(solid: T, move: (spot: Vec) => Vec): T => ({
  ...solid,
  boxes: solid.boxes.map(([lo, hi]) => boxOf(move(lo), move(hi))),
  ...(solid.lippings === undefined ? {} : { lippings: solid.lippings.map(([lo, hi]) => boxOf(move(lo), move(hi))) }),
  ...(solid.stairs === undefined ? {} : { stairs: solid.stairs.map((stair) => moveStair(stair, move)) }),
});

/** Of a part's shaped edges, in the axes that it is placed in. */
const placedStairs = (part: SetPart, place: Place): Stair[] =>
  part.features
    .filter(({ kind }) => kind === "shape")
    .flatMap((feature) => stairsOf(levelsOf(feature), feature.face === "w0", (spot) => toOuter(place, spot)));

/** The highest step between two levels of a shaped edge. */
function smoothOf(part: SetPart, place: Place): Pick<Solid, "smooth" | "stairs"> {
  const steps = part.features
    .filter(({ kind }) => kind === "shape")
    .flatMap((feature) => {
      const levels = levelsOf(feature);
      return levels
        .slice(1)
        .flatMap(([lo, hi], i) => [Math.abs(lo[0] - levels[i]![0][0]), Math.abs(hi[0] - levels[i]![1][0])]);
    });
  return steps.length === 0 ? {} : { smooth: Math.max(...steps) + SAME_PLANE, stairs: placedStairs(part, place) };
}

function isOfWood(set: DryfitSet, part: SetPart): boolean {
  const { solid, boards } = stockOf(set, part.material);
  return solid || boards !== null;
}

const lippingsOf = (part: SetPart, place: Place): Pick<Solid, "lippings"> =>
  part.lippings.length === 0
    ? {}
    : { lippings: part.lippings.map((lipping) => boxToOuter(place, lippingBox(part, lipping))) };

/** Every part of an assembly, in the assembly's axes; loose shelves as such. */
export const solidsOf = (set: DryfitSet, assembly: SetAssembly): Solid[] =>
  set.parts.flatMap((part) =>
    part.assembly === assembly.name && part.place !== null
      ? [
          {
            mark: part.mark,
            boxes: solidOf(part).map((box) => boxToOuter(part.place as Place, box)),
            ...(part.role === "looseShelf" ? { look: "loose" as const } : {}),
            ...smoothOf(part, part.place),
            ...lippingsOf(part, part.place),
            ...(isOfWood(set, part) ? { isWood: true as const } : {}),
          },
        ]
      : [],
  );

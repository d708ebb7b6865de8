/** A part as a drawing sees it: its blank less its features, as boxes that do not overlap. */
import { AXES, type Box, boxToOuter, type Place, type Vec } from "../../base/geometry.ts";
import type { DryfitSet, SetAssembly, SetPart } from "../../set/schema.ts";

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

/** The part in its own axes; holes are too small to be worth a box, and drawn as circles where they matter. */
export const solidOf = (part: SetPart): Box[] =>
  subtractBoxes(
    [
      [0, 0, 0],
      [part.length, part.width, part.thickness],
    ],
    part.features.filter(({ kind }) => kind !== "hole").map((feature) => feature.box),
  );

/** How a part is drawn among others: fixed; loose, where it may lie elsewhere; a neighbour, drawn only for its place. */
export type Look = "fixed" | "loose" | "neighbour";

export type Solid = { mark: string; boxes: Box[]; look?: Exclude<Look, "fixed"> };

/** Every part of an assembly, in the assembly's axes; loose shelves as such. */
export const solidsOf = (set: DryfitSet, assembly: SetAssembly): Solid[] =>
  set.parts.flatMap((part) =>
    part.assembly === assembly.name && part.place !== null
      ? [
          {
            mark: part.mark,
            boxes: solidOf(part).map((box) => boxToOuter(part.place as Place, box)),
            ...(part.role === "looseShelf" ? { look: "loose" as const } : {}),
          },
        ]
      : [],
  );

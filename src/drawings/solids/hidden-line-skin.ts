/** The skin of a part for a hidden-line drawing: the edges at which its surface turns, and its faces as rectangles. */
import { AXES, type AxisIndex, type Box } from "../../base/geometry.ts";
import type { Edge } from "./edge.ts";
import { planesOf } from "./solid.ts";
import { type Stair, smoothed } from "./stair.ts";

/** A rectangle of surface; `out` is 1 where the wood lies below it on its axis. Its corners share the coordinate of the axis. */
export type Facet = { axis: AxisIndex; out: 1 | -1; corners: Box };

export type Skin = { edges: Edge[]; facets: Facet[] };

type Cells = { planes: readonly (readonly number[])[]; isWood: (cell: readonly number[]) => boolean };

/** Boxes that do not overlap, on the grid of all their faces: two boxes side by side leave no seam. */
function cellsOf(boxes: readonly Box[]): Cells {
  const planes = AXES.map((i) => planesOf(boxes.flatMap((box) => [box[0][i], box[1][i]])));
  const [nx, ny, nz] = planes.map((some) => some.length - 1) as [number, number, number];
  const wood = new Uint8Array(nx * ny * nz);
  const nearest = (some: readonly number[], value: number): number =>
    some.reduce((best, plane, i) => (Math.abs(plane - value) < Math.abs(some[best]! - value) ? i : best), 0);
  for (const box of boxes) {
    const [lo, hi] = [0, 1].map((end) => AXES.map((i) => nearest(planes[i]!, box[end as 0 | 1][i])));
    for (let i = lo![0]!; i < hi![0]!; i++)
      for (let j = lo![1]!; j < hi![1]!; j++) for (let k = lo![2]!; k < hi![2]!; k++) wood[(i * ny + j) * nz + k] = 1;
  }
  return {
    planes,
    isWood: ([i, j, k]) =>
      i! >= 0 && j! >= 0 && k! >= 0 && i! < nx && j! < ny && k! < nz && wood[(i! * ny + j!) * nz + k!] === 1,
  };
}

/** `stairs`: whose steps are drawn as one slope. */
export function skinOf(boxes: readonly Box[], stairs: readonly Stair[] = []): Skin {
  const cells = cellsOf(boxes);
  const edges = AXES.flatMap((axis) => edgesAlong(cells, axis));
  return {
    edges: smoothed(edges, stairs),
    facets: AXES.flatMap((axis) => facetsOn(cells, axis)),
  };
}

const others = (axis: AxisIndex): readonly [AxisIndex, AxisIndex] => [
  ((axis + 1) % 3) as AxisIndex,
  ((axis + 2) % 3) as AxisIndex,
];

function at(axis: AxisIndex, along: number, u: number, v: number): [number, number, number] {
  const made: [number, number, number] = [0, 0, 0];
  const [i, j] = others(axis);
  made[axis] = along;
  made[i] = u;
  made[j] = v;
  return made;
}

/** Grid lines where one or three of the four cells around are wood, or two across from each other; runs of one shape merged. */
function edgesAlong({ planes, isWood }: Cells, axis: AxisIndex): Edge[] {
  const [u, v] = others(axis);
  const run = planes[axis]!;
  const edges: Edge[] = [];
  for (let i = 0; i < planes[u]!.length; i++) {
    for (let j = 0; j < planes[v]!.length; j++) {
      let start = 0;
      let shape = 0; // a bit for each of the four cells
      for (let k = 0; k < run.length; k++) {
        const around =
          Number(isWood(at(axis, k, i - 1, j - 1))) +
          2 * Number(isWood(at(axis, k, i, j - 1))) +
          4 * Number(isWood(at(axis, k, i - 1, j))) +
          8 * Number(isWood(at(axis, k, i, j)));
        if (around === shape) continue;
        if (TURNS.has(shape)) {
          const [here, there] = [planes[u]![i]!, planes[v]![j]!];
          edges.push({
            ends: [at(axis, run[start]!, here, there), at(axis, run[k]!, here, there)],
            outs: outsOf(shape, u, v),
          });
        }
        start = k;
        shape = around;
      }
    }
  }
  return edges;
}

/** One cell, three cells, or two across from each other. */
const TURNS: ReadonlySet<number> = new Set([1, 2, 4, 8, 7, 11, 13, 14, 6, 9]);

function outsOf(shape: number, u: AxisIndex, v: AxisIndex): Edge["outs"] {
  const cell = [1, 2, 4, 8].indexOf(shape);
  if (cell === -1) return null;
  return [
    { axis: u, out: cell % 2 === 0 ? 1 : -1 },
    { axis: v, out: cell < 2 ? 1 : -1 },
  ];
}

/** Faces between wood and air, neighbouring cells joined into rectangles. */
function facetsOn({ planes, isWood }: Cells, axis: AxisIndex): Facet[] {
  const [u, v] = others(axis);
  const [nu, nv] = [planes[u]!.length - 1, planes[v]!.length - 1];
  const facets: Facet[] = [];
  for (let k = 0; k < planes[axis]!.length; k++) {
    for (const out of [1, -1] as const) {
      const isFace = (i: number, j: number): boolean =>
        isWood(at(axis, out === 1 ? k - 1 : k, i, j)) && !isWood(at(axis, out === 1 ? k : k - 1, i, j));
      const done = new Set<number>();
      const isOpen = (i: number, j: number): boolean => !done.has(i * nv + j) && isFace(i, j);
      for (let i = 0; i < nu; i++) {
        for (let j = 0; j < nv; j++) {
          if (!isOpen(i, j)) continue;
          let endV = j + 1;
          while (endV < nv && isOpen(i, endV)) endV++;
          const isRow = (row: number): boolean => {
            for (let n = j; n < endV; n++) if (!isOpen(row, n)) return false;
            return true;
          };
          let endU = i + 1;
          while (endU < nu && isRow(endU)) endU++;
          for (let m = i; m < endU; m++) for (let n = j; n < endV; n++) done.add(m * nv + n);
          const plane = planes[axis]![k]!;
          facets.push({
            axis,
            out,
            corners: [
              at(axis, plane, planes[u]![i]!, planes[v]![j]!),
              at(axis, plane, planes[u]![endU]!, planes[v]![endV]!),
            ],
          });
        }
      }
    }
  }
  return facets;
}

/**
 * Orthographic views of solids made of boxes, hidden lines removed. The picture plane is cut along every projected edge;
 * each cell knows what is nearest in it, and a line is drawn where neighbouring cells differ:
 *
 *     v |  . . . . .
 *       |  . a a b .     a line between a and b, between either and nothing,
 *       |  . a a b .     and inside a where its depth changes
 *       +-------------u
 */
import { axisOf, type Box, intersectBoxes, type SignedAxis, signOf } from "../../base/geometry.ts";
import { BOUGHT, type Look, planesOf, type Solid } from "./solid.ts";

/** u to the right and v up on paper; `away` points from the eye into the picture. */
export type Direction = { u: SignedAxis; v: SignedAxis; away: SignedAxis };

export const FROM_FRONT: Direction = { u: "+x", v: "+z", away: "+y" };
export const FROM_RIGHT: Direction = { u: "+y", v: "+z", away: "-x" };
export const FROM_ABOVE: Direction = { u: "+x", v: "+y", away: "-z" };

export type Spot = readonly [u: number, v: number];
export type Patch = { u0: number; u1: number; v0: number; v1: number };
/** `look`: of the part whose line it is, the nearer of two; `seam`: between a lipping and what it is glued to. */
export type Segment = { a: Spot; b: Spot; cut: boolean; look: Look; seam?: true };

export type View = {
  segments: Segment[];
  /** What of each part is seen (by mark), as rectangles. */
  seen: Map<string, Patch[]>;
  /** What of each part the section plane goes through. */
  cut: Map<string, Patch[]>;
  /** Of these, those that lippings are cut of: the lippings, and what they are glued to. */
  lipped: Map<string, { lippings: Patch[]; core: Patch[] }>;
  /** Marks of the parts that are drawn lightly: loose, or neighbours. */
  light: ReadonlySet<string>;
  /** Marks of the parts of solid wood: they are hatched otherwise than panels. */
  wood: ReadonlySet<string>;
  bounds: Patch;
};

type Flat = Patch & { mark: string; look: Look; near: number; far: number; smooth: number; isLipping: boolean };

const along = (axis: SignedAxis, box: Box): [number, number] => {
  const [a, b] = [signOf(axis) * box[0][axisOf(axis)], signOf(axis) * box[1][axisOf(axis)]];
  return a < b ? [a, b] : [b, a];
};

/** Its boxes, and over them what of each is lipping. */
function piecesOf({ boxes, lippings = [] }: Solid): { box: Box; isLipping: boolean }[] {
  const lipped = boxes.flatMap((box) => lippings.map((lipping) => intersectBoxes(box, lipping)));
  return [
    ...boxes.map((box) => ({ box, isLipping: false })),
    ...lipped.flatMap((box) => (box === null ? [] : [{ box, isLipping: true }])),
  ];
}

function flatten(solids: readonly Solid[], direction: Direction): Flat[] {
  return solids.flatMap(({ mark, look = "fixed" as const, smooth = SAME_DEPTH, ...solid }) =>
    piecesOf({ mark, ...solid }).map(({ box, isLipping }) => {
      const [u0, u1] = along(direction.u, box);
      const [v0, v1] = along(direction.v, box);
      const [near, far] = along(direction.away, box);
      return { mark, look, u0, u1, v0, v1, near, far, smooth, isLipping };
    }),
  );
}

type Cell = (Pick<Flat, "mark" | "look" | "smooth" | "isLipping"> & { depth: number; cut: boolean }) | null;

const SAME_DEPTH = 1e-4;

const isSameSurface = (a: Cell, b: Cell): boolean => isSamePlane(a, b) && a?.isLipping === b?.isLipping;

const isSamePlane = (a: Cell, b: Cell): boolean =>
  a === b ||
  (a !== null && b !== null && a.mark === b.mark && a.cut === b.cut && Math.abs(a.depth - b.depth) < a.smooth);

/** What the eye sees; with `cutAt` (a depth along `away`) only what lies behind that plane, and what the plane goes through. */
export function viewOf(solids: readonly Solid[], direction: Direction, cutAt: number | null = null): View {
  const flats = flatten(solids, direction)
    .filter((flat) => cutAt === null || flat.far > cutAt + SAME_DEPTH)
    .map((flat) => ({
      ...flat,
      cut: cutAt !== null && flat.near < cutAt - SAME_DEPTH,
      near: cutAt === null ? flat.near : Math.max(flat.near, cutAt),
    }));
  const us = planesOf(flats.flatMap((flat) => [flat.u0, flat.u1]));
  const vs = planesOf(flats.flatMap((flat) => [flat.v0, flat.v1]));
  const cells: Cell[][] = us.slice(1).map(() => vs.slice(1).map(() => null));
  for (const flat of flats) {
    const [i0, i1] = [indexOf(us, flat.u0), indexOf(us, flat.u1)];
    const [j0, j1] = [indexOf(vs, flat.v0), indexOf(vs, flat.v1)];
    for (let i = i0; i < i1; i++) {
      const column = cells[i]!;
      for (let j = j0; j < j1; j++) {
        const seen = column[j]!;
        const { mark, look, near, cut, smooth, isLipping } = flat;
        const isOver = isLipping && seen?.mark === mark && near < seen.depth + SAME_DEPTH;
        if (seen === null || isOver || near < seen.depth - SAME_DEPTH)
          column[j] = { mark, look, depth: near, cut, smooth, isLipping };
      }
    }
  }
  return {
    segments: [...edgesAcross(us, vs, cells), ...edgesAlong(us, vs, cells)],
    seen: patchesOf(us, vs, cells, (cell) => !cell.cut && cell.mark !== BOUGHT),
    cut: patchesOf(us, vs, cells, (cell) => cell.cut && cell.mark !== BOUGHT),
    lipped: lippedIn(us, vs, cells),
    wood: new Set(solids.flatMap(({ mark, isWood }) => (isWood ? [mark] : []))),
    light: new Set(solids.flatMap(({ mark, look }) => (look === undefined ? [] : [mark]))),
    bounds: { u0: us[0] ?? 0, u1: us.at(-1) ?? 0, v0: vs[0] ?? 0, v1: vs.at(-1) ?? 0 },
  };
}

/** Which of the ascending planes a coordinate lies on. */
function indexOf(planes: readonly number[], at: number): number {
  let [low, high] = [0, planes.length - 1];
  while (low < high) {
    const middle = (low + high) >> 1;
    if (planes[middle]! < at - SAME_DEPTH) low = middle + 1;
    else high = middle;
  }
  return low;
}

const cellAt = (cells: Cell[][], i: number, j: number): Cell => cells[i]?.[j] ?? null;

type Sort = Pick<Segment, "cut" | "look" | "seam">;

/** Joins neighbouring steps with an edge into runs: `edge(k)` says whether step k has one, and of which sort. */
function runsOf(steps: number, edge: (k: number) => Sort | null): (Sort & { from: number; to: number })[] {
  const runs: (Sort & { from: number; to: number })[] = [];
  for (let k = 0; k < steps; k++) {
    const sort = edge(k);
    if (sort === null) continue;
    const last = runs.at(-1);
    const isLike = last?.cut === sort.cut && last.look === sort.look && last.seam === sort.seam;
    if (last?.to === k && isLike) last.to = k + 1;
    else runs.push({ from: k, to: k + 1, ...sort });
  }
  return runs;
}

/** A line is the nearer part's; of two that lie alike, it is the fixed one's. */
function lookOf(a: Cell, b: Cell): Look {
  if (a === null || b === null) return (a ?? b)!.look;
  if (Math.abs(a.depth - b.depth) < SAME_DEPTH) return a.look === "fixed" ? a.look : b.look;
  return (a.depth < b.depth ? a : b).look;
}

function edgeSort(a: Cell, b: Cell): Sort | null {
  if (isSameSurface(a, b)) return null;
  if (isSamePlane(a, b)) return { cut: false, look: lookOf(a, b), seam: true };
  return { cut: a?.cut === true || b?.cut === true, look: lookOf(a, b) };
}

/** Upright edges: between a cell and its right neighbour. */
const edgesAcross = (us: number[], vs: number[], cells: Cell[][]): Segment[] =>
  us.flatMap((u, i) =>
    runsOf(vs.length - 1, (j) => edgeSort(cellAt(cells, i - 1, j), cellAt(cells, i, j))).map(
      ({ from, to, ...sort }) => ({
        a: [u, vs[from]!] as const,
        b: [u, vs[to]!] as const,
        ...sort,
      }),
    ),
  );

/** Level edges: between a cell and the one above it. */
const edgesAlong = (us: number[], vs: number[], cells: Cell[][]): Segment[] =>
  vs.flatMap((v, j) =>
    runsOf(us.length - 1, (i) => edgeSort(cellAt(cells, i, j - 1), cellAt(cells, i, j))).map(
      ({ from, to, ...sort }) => ({
        a: [us[from]!, v] as const,
        b: [us[to]!, v] as const,
        ...sort,
      }),
    ),
  );

/** Cells of one mark as rectangles: columns of cells, neighbours of equal height joined. */
function patchesOf(
  us: number[],
  vs: number[],
  cells: Cell[][],
  isWanted: (cell: NonNullable<Cell>) => boolean,
): Map<string, Patch[]> {
  const patches = new Map<string, Patch[]>();
  cells.forEach((column, i) => {
    column.forEach((cell, j) => {
      if (cell === null || !isWanted(cell)) return;
      const list = patches.get(cell.mark) ?? [];
      if (list.length === 0) patches.set(cell.mark, list);
      const [u0, u1, v0, v1] = [us[i]!, us[i + 1]!, vs[j]!, vs[j + 1]!];
      const below = list.at(-1);
      if (below !== undefined && below.u0 === u0 && below.v1 === v0) below.v1 = v1;
      else list.push({ u0, u1, v0, v1 });
    });
  });
  for (const [mark, list] of patches) patches.set(mark, joinColumns(list));
  return patches;
}

function lippedIn(us: number[], vs: number[], cells: Cell[][]): View["lipped"] {
  const lippings = patchesOf(us, vs, cells, (cell) => cell.cut && cell.isLipping);
  if (lippings.size === 0) return new Map();
  const core = patchesOf(us, vs, cells, (cell) => cell.cut && !cell.isLipping && lippings.has(cell.mark));
  return new Map([...lippings].map(([mark, some]) => [mark, { lippings: some, core: core.get(mark) ?? [] }]));
}

function joinColumns(patches: Patch[]): Patch[] {
  const joined: Patch[] = [];
  for (const patch of patches) {
    const left = joined.find((p) => p.u1 === patch.u0 && p.v0 === patch.v0 && p.v1 === patch.v1);
    if (left !== undefined) left.u1 = patch.u1;
    else joined.push({ ...patch });
  }
  return joined;
}

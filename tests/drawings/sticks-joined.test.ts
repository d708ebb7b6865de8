/** A stick of 2,400 mm put together from its printed tiles: by their cross marks alone, as scissors and tape do it. */
import { beforeAll, describe, expect, it } from "vitest";
import { makeSet } from "../../src/build.ts";
import { drawSticks } from "../../src/drawings/sticks/sticks.ts";
import { readProjectText } from "../../src/project/read.ts";
import type { DryfitSet, SetStick } from "../../src/set/schema.ts";
import { writePdf } from "../../src/writers/pdf.ts";
import { openPdf } from "../support/pages/pdf.ts";
import { darkness } from "../support/pages/raster.ts";
import { type Pane, rasteriseWindow, runsAlong } from "../support/pages/window.ts";

type Point = { u: number; v: number };
type Opened = Awaited<ReturnType<typeof openPdf>>;
type Tile = SetStick["tiles"][number];

const TALL = `{
  "job": { "number": "J-1", "title": "Tall", "date": "2026-11-20", "revision": "A" },
  "unit": "mm",
  "stock": { "panel": { "name": "18 mm plywood", "nominal": 18, "measured": 17.6, "sheet": { "length": 2440, "width": 1220 } } },
  "cases": [{
    "name": "tall", "width": 500, "height": 2400, "depth": 300, "stock": { "all": "panel" }, "back": { "fit": "none" },
    "bays": { "rows": [{}, {}, {}, {}, {}, {}] }
  }]
}`;

const SCAN = 250; // dots an inch: to find a mark
const FINE = 600; // to measure it
const ARM = 2.5; // of a cross mark, with a ring of 1.3 about its middle
const RING = 1.3;

/** How dark the picture is along a cross mark with its middle here, from 0 to 1. */
function likeness({ raster, dpi }: Pane, x: number, y: number): number {
  const mm = 25.4 / dpi;
  const spots: [number, number][] = [];
  for (let t = -ARM + 0.2; t <= ARM - 0.2; t += 0.2) spots.push([t, 0], [0, t]);
  for (let a = 0; a < 2 * Math.PI; a += 0.2) spots.push([RING * Math.cos(a), RING * Math.sin(a)]);
  const dark = (px: number, py: number): number => {
    const [column, row] = [Math.round(px), Math.round(py)];
    const isIn = column >= 0 && row >= 0 && column < raster.width && row < raster.height;
    return isIn ? darkness(raster, column, row) : 0;
  };
  return spots.reduce((sum, [dx, dy]) => sum + dark(x + dx / mm, y + dy / mm), 0) / spots.length;
}

/** The two cross marks of a join, upper then lower along the page's y: looked for in the picture, then measured finely. */
async function crossesIn(pdf: Opened, tile: Tile, from: number, to: number, half: number): Promise<Point[]> {
  // Tiles of an upright page run down it.
  const window = { x: tile.x - half, y: tile.y + from, width: 2 * half, height: to - from };
  const pane = await rasteriseWindow(pdf, tile.page, SCAN, window);
  const mm = 25.4 / SCAN;
  const found: { x: number; y: number; like: number }[] = [];
  for (let row = 0; row < pane.raster.height; row++) {
    for (let column = 0; column < pane.raster.width; column++) {
      if (darkness(pane.raster, column, row) < 0.3) continue;
      const like = likeness(pane, column, row);
      if (like > 0.45) found.push({ x: pane.x + (column + 0.5) * mm, y: pane.y + (row + 0.5) * mm, like });
    }
  }
  const best = found.sort((a, b) => b.like - a.like);
  const first = best[0]!;
  const second = best.find(({ x, y }) => Math.hypot(x - first.x, y - first.y) > 4)!;
  const fine: Point[] = [];
  for (const { x, y } of [first, second].sort((a, b) => a.x - b.x)) {
    const near = await rasteriseWindow(pdf, tile.page, FINE, { x: x - 3, y: y - 3, width: 6, height: 6 });
    // Its arms, between the ring and their ends.
    const at = (axis: "x" | "y", across: number, about: number): number => {
      const runs = runsAlong(near, axis, across).map((run) => (run.from + run.to) / 2);
      return runs.sort((a, b) => Math.abs(a - about) - Math.abs(b - about))[0]!;
    };
    fine.push({ u: at("y", x + 1.9, y), v: at("x", y + 1.9, x) });
  }
  return fine;
}

/** Turned and moved so that the first two points come on the second two. */
function joining([a, b]: Point[], [c, d]: Point[]): (point: Point) => Point {
  const angle = Math.atan2(d!.u - c!.u, d!.v - c!.v) - Math.atan2(b!.u - a!.u, b!.v - a!.v);
  const [cos, sin] = [Math.cos(angle), Math.sin(angle)];
  const turn = ({ u, v }: Point): Point => ({ v: v * cos - u * sin, u: v * sin + u * cos });
  const [from, to] = [
    turn({ u: (a!.u + b!.u) / 2, v: (a!.v + b!.v) / 2 }),
    { u: (c!.u + d!.u) / 2, v: (c!.v + d!.v) / 2 },
  ];
  return (point) => {
    const turned = turn(point);
    return { u: turned.u - from.u + to.u, v: turned.v - from.v + to.v };
  };
}

describe("tiles of a stick 2,400 mm long", () => {
  const set: DryfitSet = makeSet(readProjectText(TALL, "tall.json").project, { draft: false, olderSet: null });
  const stick = set.sticks.find(({ axis }) => axis === "z")!;
  /** Where the joined stick has its zero end, its seams and its far end. */
  let ends: Point[];

  beforeAll(async () => {
    const bytes = await writePdf({ title: "t", subject: "s", date: set.job.date, pages: drawSticks(set) });
    const pdf = await openPdf(bytes);
    let place = (point: Point): Point => point;
    ends = [];
    let joined: Point[] = []; // the last tile's far marks, where they now lie
    for (const [i, tile] of stick.tiles.entries()) {
      const length = tile.to - tile.from;
      if (i > 0) place = joining(await crossesIn(pdf, tile, 2, 16, 16), joined);
      ends.push(place({ u: tile.y, v: tile.x }), place({ u: tile.y + length, v: tile.x }));
      if (i + 1 < stick.tiles.length) joined = (await crossesIn(pdf, tile, length - 16, length - 2, 16)).map(place);
    }
    await pdf.destroy();
  }, 120_000);

  it("are many, and all of one stick", () => {
    expect(stick.length).toBe(2400);
    expect(stick.tiles.length).toBeGreaterThanOrEqual(9);
  });

  it("make it 2,400 mm long, within 0.3 mm", () => {
    const [zero, far] = [ends[0]!, ends.at(-1)!];
    expect(Math.abs(Math.hypot(far.u - zero.u, far.v - zero.v) - 2400)).toBeLessThan(0.3);
  });

  it("lie straight, within 0.2 mm of the line from end to end", () => {
    const [zero, far] = [ends[0]!, ends.at(-1)!];
    const length = Math.hypot(far.u - zero.u, far.v - zero.v);
    const off = ends.map(
      ({ u, v }) => Math.abs((u - zero.u) * (far.v - zero.v) - (v - zero.v) * (far.u - zero.u)) / length,
    );
    expect(Math.max(...off)).toBeLessThan(0.2);
  });
});

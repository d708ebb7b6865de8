/** sticks.pdf as a printer sees it, measured on its pictures and held against set.json. */

import { beforeAll, describe, expect, it } from "vitest";
import { drawLongSticks } from "../../src/drawings/sticks/long-sticks.ts";
import { drawSticks } from "../../src/drawings/sticks/sticks.ts";
import type { Page } from "../../src/paper/shape.ts";
import { planSticks } from "../../src/plans/sticks/index.ts";
import type { DryfitSet, SetStick } from "../../src/set/schema.ts";
import { stickPage } from "../../src/set/stick-page.ts";
import { writePdf } from "../../src/writers/pdf.ts";
import { exampleSets, setOf, testFile } from "../support/jobs/examples.ts";
import { openPdf, type PdfFile, readPdf } from "../support/pages/pdf.ts";
import { darkness, rasterise } from "../support/pages/raster.ts";
import { overlapping, textBoxes } from "../support/pages/text-boxes.ts";
import { rasteriseWindow, runsAlong } from "../support/pages/window.ts";

type Tile = SetStick["tiles"][number];
type Opened = Awaited<ReturnType<typeof openPdf>>;

const DPI = 600;
const CLOSE = 0.1; // mm: what the paper owes set.json

const pdfOf = (set: DryfitSet, pages: Page[]): Promise<Uint8Array> =>
  writePdf({ title: set.job.title, subject: "sticks", date: set.job.date, pages });

/** Undoes what the printer is going to do: from the file's millimetres to those of the printed page. */
const printed = (set: DryfitSet, axis: "x" | "y", at: number): number => {
  const half = (axis === "x" ? set.paper.sticks.width : set.paper.sticks.height) / 2;
  return half + set.paper.print[axis] * (at - half);
};
const inFile = (set: DryfitSet, axis: "x" | "y", at: number): number => {
  const half = (axis === "x" ? set.paper.sticks.width : set.paper.sticks.height) / 2;
  return half + (at - half) / set.paper.print[axis];
};

/** How far from a strip's middle to look: at it, just above the lane, and close to both long edges. */
const MIDDLE = 0;
const OVER_LANE = -3.2;
const EDGES = [-17.4, 17.4];

/** Middles of the dark lines crossing a tile, as positions on the stick, at each distance from its middle. */
type Crossed = Map<number, number[]>;

async function crossedOn(set: DryfitSet, pdf: Opened, tile: Tile, edges: number[]): Promise<Crossed> {
  const isDown = tile.direction === "down";
  const [along, across] = isDown ? (["y", "x"] as const) : (["x", "y"] as const);
  const start = isDown ? tile.y : tile.x;
  const [from, to] = [start - 1, start + tile.to - tile.from + 1].map((at) => inFile(set, along, at)) as [
    number,
    number,
  ];
  const reach = Math.max(...edges.map(Math.abs)) + 0.6;
  const [low, high] = [-reach, reach].map((aside) => inFile(set, across, (isDown ? tile.x : tile.y) + aside)) as [
    number,
    number,
  ];
  const window = isDown
    ? { x: low, y: from, width: high - low, height: to - from }
    : { x: from, y: low, width: to - from, height: high - low };
  const pane = await rasteriseWindow(pdf, tile.page, DPI, window);
  return new Map(
    [MIDDLE, OVER_LANE, ...edges].map((aside) => {
      // A page with tiles running down it is read turned: the upper long edge is then to the right.
      const line = inFile(set, across, isDown ? tile.x - aside : tile.y + aside);
      const found = runsAlong(pane, along, line)
        .filter((run) => run.to - run.from < 0.6) // a line; solid flags are wider
        .map((run) => tile.from + printed(set, along, (run.from + run.to) / 2) - start);
      return [aside, found];
    }),
  );
}

type Seen = Map<Tile, Crossed>;

async function look(set: DryfitSet, pdf: Opened, edges = EDGES): Promise<Seen> {
  const seen: Seen = new Map();
  for (const tile of set.sticks.flatMap(({ tiles }) => tiles)) seen.set(tile, await crossedOn(set, pdf, tile, edges));
  return seen;
}

const isIn = (tile: Tile, at: number): boolean => at > tile.from - 1e-6 && at < tile.to + 1e-6;
const wallsOf = (stick: SetStick): number[] =>
  stick.marks.flatMap(({ at, width }) => (width === 0 ? [at] : [at, at + width]));

/** Groove walls that no flag covers: a solid flag at the long edge reaches 2.2 mm from its end line. */
const flagless = (stick: SetStick): number[] => {
  const ends = stick.marks.filter(({ kind }) => kind === "end").map(({ at }) => at);
  const walls = stick.marks.filter(({ kind }) => kind === "groove").flatMap(({ at, width }) => [at, at + width]);
  return walls.filter((wall) => ends.every((end) => Math.abs(end - wall) > 2.6));
};

/** Lines that are not where set.json has them, by the picture. */
function misplaced(set: DryfitSet, seen: Seen, aside: number, wanted: (stick: SetStick) => number[]): string[] {
  return set.sticks.flatMap((stick) =>
    stick.tiles.flatMap((tile) => {
      const found = seen.get(tile)!.get(aside)!;
      return wanted(stick)
        .filter((at) => isIn(tile, at))
        .map((wall) => ({ wall, off: Math.min(...found.map((at) => Math.abs(at - wall))) }))
        .filter(({ off }) => off > CLOSE)
        .map(({ wall, off }) => `${stick.name}, S-${tile.page}: ${wall.toFixed(3)} off by ${off.toFixed(3)}`);
    }),
  );
}

/** Lines on a strip's middle that set.json knows nothing of. */
function unknown(set: DryfitSet, seen: Seen, more: (stick: SetStick) => number[] = () => []): string[] {
  return set.sticks.flatMap((stick) => {
    const crosses = stick.marks.filter(({ kind }) => kind === "groove").map(({ at, width }) => at + width / 2);
    return stick.tiles.flatMap((tile) => {
      const known = [...wallsOf(stick), ...more(stick), tile.from, tile.to];
      return seen
        .get(tile)!
        .get(MIDDLE)!
        .filter((at) => at > tile.from - 0.3 && at < tile.to + 0.3) // beyond is the hatching of what is cut off
        .filter((at) => !known.some((one) => Math.abs(one - at) < 0.3))
        .filter((at) => !crosses.some((one) => Math.abs(one - at) < 1.2)) // flat strokes, long where they meet
        .map((at) => `${stick.name}, S-${tile.page}: line at ${at}`);
    });
  });
}

/** Both tiles of every join carry its line at one place of the stick. */
function badJoins(set: DryfitSet, seen: Seen): string[] {
  return set.sticks.flatMap((stick) =>
    stick.tiles.slice(1).flatMap((next, i) => {
      const before = stick.tiles[i]!;
      const join = (before.to + next.from) / 2;
      return [before, next]
        .map((tile) =>
          Math.min(
            ...seen
              .get(tile)!
              .get(OVER_LANE)!
              .map((at) => Math.abs(at - join)),
          ),
        )
        .filter((off) => off > CLOSE)
        .map((off) => `${stick.name}: join at ${join} off by ${off}`);
    }),
  );
}

const BARS = { "100 mm": 100, "4 in": 101.6 };

/** Measures every check bar of the document: found by its label, measured on the picture. */
async function barsOf(set: DryfitSet, pdf: Opened, file: PdfFile): Promise<string[]> {
  const measured: string[] = [];
  for (const [i, page] of file.pages.entries()) {
    for (const label of page.texts) {
      const found = /^(100 mm|4 in), along ([xy])$/.exec(label.text);
      if (found === null) continue;
      const [name, axis] = [found[1] as keyof typeof BARS, found[2] as "x" | "y"];
      const length = BARS[name];
      const angle = (label.turn * Math.PI) / 180;
      const run = { x: Math.cos(angle), y: -Math.sin(angle) };
      const middle = { x: label.x + (run.x * label.width) / 2, y: label.y + (run.y * label.width) / 2 };
      expect(Math.abs(run[axis])).toBeCloseTo(1, 6); // the bar lies the way it says
      // Beside the bar's own line, where only its end lines are.
      const aside = axis === "x" ? middle.y + Math.sign(run.x) * 0.3 : middle.x + Math.sign(run.y) * -0.3;
      const from = middle[axis] - length / 2 / set.paper.print[axis] - 2;
      const span = length / set.paper.print[axis] + 4;
      const window =
        axis === "x"
          ? { x: from, y: aside - 0.2, width: span, height: 0.4 }
          : { x: aside - 0.2, y: from, width: 0.4, height: span };
      const pane = await rasteriseWindow(pdf, i + 1, DPI, window);
      const runs = runsAlong(pane, axis, aside);
      const ends = [runs[0]!, runs.at(-1)!].map((one) => printed(set, axis, (one.from + one.to) / 2));
      const off = Math.abs(ends[1]! - ends[0]! - length);
      measured.push(`${page.label} ${name} ${axis} ${off <= CLOSE ? "true" : `off by ${off}`}`);
    }
  }
  return measured.sort();
}

const barsExpected = (file: PdfFile): string[] =>
  file.pages
    .flatMap(({ label }) =>
      Object.keys(BARS).flatMap((name) => ["x", "y"].map((axis) => `${label} ${name} ${axis} true`)),
    )
    .sort();

/** Ink in the strip of paper that printers leave white. */
async function inkAtEdges(bytes: Uint8Array, count: number): Promise<string[]> {
  const dpi = 100;
  const bad: string[] = [];
  for (let page = 1; page <= count; page++) {
    const raster = await rasterise(bytes, page, dpi);
    const edge = Math.floor((6.35 * dpi) / 25.4);
    for (let row = 0; row < raster.height; row++) {
      const isBorder = row < edge || row >= raster.height - edge;
      for (let column = 0; column < raster.width; column++) {
        if (!isBorder && column === edge) column = raster.width - edge;
        if (darkness(raster, column, row) > 0.02) bad.push(`S-${page}: ${column}, ${row}`);
      }
    }
  }
  return bad.slice(0, 5);
}

/** How far from the middle a hole's line still reaches the long edge, whatever the strip's height. */
const nearEdges = (set: DryfitSet): number[] => [-1, 1].map((side) => side * (stickPage(set.paper).strip / 2 - 1.2));

const HOLE_RING = 1; // mm, from the hole's line to its ring

/** Whether the part has holes in a row along the stick. */
const hasHoles = (set: DryfitSet, mark: string, stick: SetStick): boolean => {
  const on = stick.parts.find((one) => one.mark === mark)!;
  return set.parts
    .find((part) => part.mark === mark)!
    .features.some(({ kind, along }) => kind === "hole" && along === on.datum[0]);
};

/** Lines of holes on a stick. */
const holesOf =
  (set: DryfitSet) =>
  (stick: SetStick): number[] =>
    stick.marks
      .filter(({ kind, parts }) => kind === "line" && parts.some((mark) => hasHoles(set, mark, stick)))
      .map(({ at }) => at);
const ringsOf =
  (set: DryfitSet) =>
  (stick: SetStick): number[] =>
    holesOf(set)(stick).flatMap((at) => [at - HOLE_RING, at + HOLE_RING]);

describe.each(["loose-shelves", "loose-shelves-each-side", "butt-dowels"])("the rows of holes of %s", (name) => {
  const set = setOf(testFile(name));
  let seen: Seen;
  beforeAll(async () => {
    seen = await look(set, await openPdf(await pdfOf(set, drawSticks(set))), nearEdges(set));
  }, 60_000);

  it("are there", () => {
    expect(set.sticks.flatMap(holesOf(set)).length).toBeGreaterThan(2);
  });

  it("are drawn within 0.1 mm, in the middle of the strip with a ring about it, and out to both long edges", () => {
    expect(misplaced(set, seen, MIDDLE, wallsOf)).toEqual([]);
    expect(misplaced(set, seen, MIDDLE, ringsOf(set))).toEqual([]);
    for (const edge of nearEdges(set)) expect(misplaced(set, seen, edge, holesOf(set))).toEqual([]);
  });

  it("are not drawn through the lettering, as a wall is", () => {
    const crossed = set.sticks.flatMap((stick) =>
      stick.tiles.flatMap((tile) =>
        seen
          .get(tile)!
          .get(OVER_LANE)!
          .filter((at) => holesOf(set)(stick).some((hole) => Math.abs(hole - at) < 0.05))
          .map((at) => `${stick.name}, S-${tile.page}: ${at}`),
      ),
    );
    expect(crossed).toEqual([]);
  });

  it("draws nothing else across the middle of a strip", () => {
    expect(unknown(set, seen, ringsOf(set))).toEqual([]);
  });

  it("letters nothing over anything", () => {
    const pages = [...drawSticks(set), ...drawLongSticks(set)];
    expect(pages.flatMap(({ shapes }) => overlapping(textBoxes(shapes)))).toEqual([]);
  });
});

describe.each(exampleSets())("%s", (_, set) => {
  let bytes: Uint8Array;
  let pdf: Opened;
  let file: PdfFile;
  let seen: Seen;
  const pages = drawSticks(set);
  beforeAll(async () => {
    bytes = await pdfOf(set, pages);
    pdf = await openPdf(bytes);
    file = await readPdf(bytes);
    seen = await look(set, pdf);
  }, 60_000);

  it("has pages exactly as large as the paper", () => {
    const { width, height } = set.paper.sticks;
    for (const page of file.pages) {
      expect(page.mediaBox[2]).toBeCloseTo((width * 72) / 25.4, 6);
      expect(page.mediaBox[3]).toBeCloseTo((height * 72) / 25.4, 6);
    }
  });

  it("draws every wall within 0.1 mm, in the middle of the strip and out to both long edges", () => {
    expect(misplaced(set, seen, MIDDLE, wallsOf)).toEqual([]);
    for (const edge of EDGES) expect(misplaced(set, seen, edge, flagless)).toEqual([]);
  });

  it("draws nothing across the middle of a strip that set.json does not know", () => {
    expect(unknown(set, seen, ringsOf(set))).toEqual([]);
  });

  it("draws every join at one place on both of its tiles", () => {
    expect(badJoins(set, seen)).toEqual([]);
  });

  it("has true check bars both ways on every page", async () => {
    expect(await barsOf(set, pdf, file)).toEqual(barsExpected(file));
  }, 60_000);

  it("leaves the edge of the paper white", async () => {
    expect(await inkAtEdges(bytes, pages.length)).toEqual([]);
  }, 60_000);

  it("letters nothing over anything", () => {
    expect([...pages, ...drawLongSticks(set)].flatMap(({ shapes }) => overlapping(textBoxes(shapes)))).toEqual([]);
  });

  it("letters each groove's distance from the own end of every part that takes it, once from either edge", () => {
    // Decimals stand in the text as they are; the fraction of an inch is lettered in pieces, its decimal whole.
    const { unit } = set.job;
    const texts = file.pages.flatMap((page) => page.texts.map(({ text }) => text));
    for (const stick of set.sticks) {
      for (const mark of stick.marks.filter(({ kind }) => kind === "groove")) {
        for (const part of stick.parts.filter(({ mark: name }) => mark.parts.includes(name))) {
          const near = mark.at - part.offset;
          const isWhole = unit === "in" && Math.abs(near / 25.4 - Math.round(near / 25.4)) < 1e-6;
          const figure = unit === "mm" || isWhole ? plain(near, unit) : (near / 25.4).toFixed(3);
          expect(texts.filter((text) => text === figure).length, `${figure} for ${part.mark}`).toBeGreaterThanOrEqual(
            2,
          );
        }
      }
    }
  });
});

const plain = (length: number, unit: "in" | "mm"): string =>
  unit === "in" ? String(Math.round(length / 25.4)) : String(Math.round(length * 20) / 20);

it("undoes a measured printer: printed back by it, every wall and bar is true", async () => {
  const [, example] = exampleSets().find(([name]) => name === "ware-bookcase")!;
  const print = { x: 0.984, y: 1.012 };
  const paper = { ...example.paper, print };
  const set: DryfitSet = { ...example, paper, sticks: planSticks({ ...example, paper }) };
  expect(set.sticks[0]!.print).toEqual({ x: 1 / 0.984, y: 1 / 1.012 });
  const bytes = await pdfOf(set, drawSticks(set));
  const pdf = await openPdf(bytes);
  const file = await readPdf(bytes);
  expect(misplaced(set, await look(set, pdf), MIDDLE, wallsOf)).toEqual([]);
  expect(await barsOf(set, pdf, file)).toEqual(barsExpected(file));
  expect(await inkAtEdges(bytes, file.pages.length)).toEqual([]);
}, 60_000);

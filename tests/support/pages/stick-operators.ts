/** Pages of sticks read from the operators of their PDF and held against set.json, printed by the printer that they are corrected for. */
import { formatLength } from "../../../src/base/length.ts";
import type { DryfitSet, SetStick } from "../../../src/set/schema.ts";
import { stickPage } from "../../../src/set/stick-page.ts";
import type { PdfFile, PdfPage } from "./pdf.ts";

type Axis = "x" | "y";
type Tile = SetStick["tiles"][number];
type Segment = { a: Record<Axis, number>; b: Record<Axis, number>; width: number };

export const CLOSE = 0.1; // mm: what the paper owes set.json
const UNPRINTED = 6.35;

/** From the file's millimetres to those of the printed page. */
const printedAt = (set: DryfitSet, axis: Axis, at: number): number => {
  const half = (axis === "x" ? set.paper.sticks.width : set.paper.sticks.height) / 2;
  return half + set.paper.print[axis] * (at - half);
};

/** Every straight line of the page as it comes out of the printer. */
function segmentsOf(set: DryfitSet, page: PdfPage): Segment[] {
  const printed = ({ x, y }: Record<Axis, number>) => ({ x: printedAt(set, "x", x), y: printedAt(set, "y", y) });
  return page.paths
    .filter(({ paint }) => paint === "stroke")
    .flatMap(({ runs, width }) =>
      runs.flatMap(({ points }) =>
        points.slice(1).map((point, i): Segment => ({ a: printed(points[i]!), b: printed(point), width })),
      ),
    );
}

const axesOf = ({ direction }: Tile): [Axis, Axis] => (direction === "down" ? ["y", "x"] : ["x", "y"]);

/** Where lines square to the stick cross it, `aside` from its middle, as positions on the stick. */
function crossings(segments: Segment[], tile: Tile, aside: number): number[] {
  const [along, across] = axesOf(tile);
  const line = tile[across] + (tile.direction === "down" ? -aside : aside);
  return segments
    .filter(({ a, b }) => Math.abs(a[along] - b[along]) < 1e-3)
    .filter(({ a, b }) => Math.min(a[across], b[across]) < line && Math.max(a[across], b[across]) > line)
    .map(({ a }) => tile.from + a[along] - tile[along]);
}

const OVER_LANE = 3.2; // where joins have their lines

/** What is wrong with the tiles, in words; empty where all is true. */
export function faultsOfTiles(set: DryfitSet, file: PdfFile): string[] {
  const lines = new Map(file.pages.map((page) => [page.label, segmentsOf(set, page)]));
  const isHit = (found: number[], at: number): boolean => found.some((one) => Math.abs(one - at) <= CLOSE);
  return set.sticks.flatMap((stick) =>
    stick.tiles.flatMap((tile, i) => {
      const found = crossings(lines.get(`S-${tile.page}`)!, tile, 0);
      const walls = stick.marks.flatMap(({ at, width }) => (width === 0 ? [at] : [at, at + width]));
      const here = walls.filter((at) => at > tile.from - 1e-6 && at < tile.to + 1e-6);
      const missing = here.filter((at) => !isHit(found, at)).map((at) => `${at} is not drawn`);
      const known = [...walls, tile.from, tile.to];
      const strange = found
        .filter((at) => at > tile.from - CLOSE && at < tile.to + CLOSE && !isHit(known, at))
        .map((at) => `${at} is drawn, and is nothing`);
      const next = stick.tiles[i + 1];
      const join = next === undefined ? null : (tile.to + next.from) / 2;
      const joined = join === null ? [] : [tile, next!];
      const apart = joined
        .filter((one) => !isHit(crossings(lines.get(`S-${one.page}`)!, one, -OVER_LANE), join!))
        .map((one) => `the join at ${join} is not on S-${one.page}`);
      return [...missing, ...strange, ...apart].map((fault) => `${stick.name}, S-${tile.page}: ${fault}`);
    }),
  );
}

/** A text on a strip as it is printed: from where to where it runs along the stick, and where its baseline and its head lie across it. */
type Lettered = { text: string; u0: number; u1: number; v0: number; v1: number };

function letteredOn(set: DryfitSet, page: PdfPage, tile: Tile): Lettered[] {
  const [along, across] = axesOf(tile);
  const half = stickPage(set.paper).strip / 2;
  return page.texts
    .map((text): Lettered => {
      const angle = (text.turn * Math.PI) / 180;
      const run = { x: Math.cos(angle) * text.width, y: -Math.sin(angle) * text.width };
      const head = { x: -Math.sin(angle) * text.size, y: -Math.cos(angle) * text.size };
      const at = (axis: Axis, by: number): number => printedAt(set, axis, text[axis] + by) - tile[axis];
      const [u, v] = [
        [0, run[along], head[along], run[along] + head[along]].map((by) => tile.from + at(along, by)),
        [0, run[across], head[across], run[across] + head[across]].map((by) => at(across, by)),
      ];
      return { text: text.text, u0: Math.min(...u), u1: Math.max(...u), v0: Math.min(...v), v1: Math.max(...v) };
    })
    .filter(({ v0, v1 }) => Math.abs((v0 + v1) / 2) < half);
}

const NEXT = 1.8; // mm between two pieces of one reading, and between its lines

/** What is lettered in one with this, piece by piece: figure, decimal, parts, beside each other or in two lines. */
function readingAround(first: Lettered, all: readonly Lettered[]): Lettered[] {
  const reading = [first];
  for (let i = 0; i < reading.length; i++) {
    const one = reading[i]!;
    for (const other of all) {
      const isNext =
        other.u0 < one.u1 + NEXT && one.u0 < other.u1 + NEXT && other.v0 < one.v1 + NEXT && one.v0 < other.v1 + NEXT;
      if (isNext && !reading.includes(other)) reading.push(other);
    }
  }
  return reading;
}

/** From a wall to the reading that belongs to it, mm: bare, or with the arrowhead that points to the wall between; a fraction's bar reaches beyond its digits. */
const OVERHANG = 0.175;
const OFF_WALL = [0.9, 0.9 + OVERHANG, 3, 3 + OVERHANG];

/** Whole number, numerator and denominator of the length lettered as a stacked fraction; or its digits in one. */
function isLettered(written: string, at: Lettered, all: readonly Lettered[]): boolean {
  const found = /^(?:(\d+) )?(\d+)\/(\d+)$/.exec(written);
  if (found === null) return at.text === written;
  const [, whole, numerator, denominator] = found;
  if (at.text !== (whole ?? numerator)) return false;
  const isNear = (one: Lettered, by: number): boolean =>
    one !== at && one.u0 < at.u1 + by && at.u0 < one.u1 + by && one.v0 < at.v1 + by && at.v0 < one.v1 + by;
  const near = all.filter((one) => isNear(one, 2 * NEXT)); // a numerator of one digit stands in the middle over two
  const tops = whole === undefined ? [at] : near.filter(({ text }) => text === numerator);
  return tops.some((top) =>
    near.some(
      (one) => one !== top && one.text === denominator && Math.abs((one.u0 + one.u1) / 2 - (top.u0 + top.u1) / 2) < 0.5,
    ),
  );
}

/** Figures, decimal or stacked, that do not stand by their wall within 0.1 mm, once from either long edge; a tile that says so has some in the columns alone. */
export function faultsOfFigures(
  set: DryfitSet,
  file: PdfFile,
): { faults: string[]; found: number; fractions: number; inColumns: number } {
  const pages = new Map(file.pages.map((page) => [page.label, page]));
  const faults: string[] = [];
  const counts = { found: 0, fractions: 0, inColumns: 0 };
  // Letters are not stretched by a correction, only made as much smaller as both ways allow: a reading ends the earlier for it.
  const { x, y } = set.paper.print;
  const shrunk = Math.max(x, y) / Math.min(x, y) - 1;
  for (const stick of set.sticks) {
    for (const tile of stick.tiles) {
      const on = letteredOn(set, pages.get(`S-${tile.page}`)!, tile);
      const hasMore = on.some(({ text }) => text === "*" || text.startsWith("more figures"));
      const isWhole = ({ kind, at, width }: SetStick["marks"][number]): boolean =>
        kind === "groove" && at > tile.from && at + width < tile.to;
      for (const mark of stick.marks.filter(isWhole)) {
        const own = stick.parts.filter(({ mark: name }) => mark.parts.includes(name));
        for (const written of new Set(own.map(({ offset }) => formatLength(mark.at - offset, set.job.unit)))) {
          const isBy = (one: Lettered): boolean => {
            const reading = readingAround(one, on);
            const span = Math.max(...reading.map(({ u1 }) => u1)) - Math.min(...reading.map(({ u0 }) => u0));
            const slack = CLOSE + shrunk * span;
            const isOff = (by: number): boolean => OFF_WALL.some((off) => Math.abs(by - off) <= slack);
            return reading.some(({ u0, u1 }) => isOff(u0 - mark.at) || isOff(mark.at - u1));
          };
          const beside = on.filter((one) => isLettered(written, one, on) && isBy(one));
          if (beside.some(({ v0 }) => v0 < 0) && beside.some(({ v1 }) => v1 > 0)) {
            counts.found += 1;
            if (written.includes("/")) counts.fractions += 1;
          } else if (hasMore) counts.inColumns += 1;
          else faults.push(`${stick.name}, S-${tile.page}: ${written} is not by its wall`);
        }
      }
    }
  }
  return { faults, ...counts };
}

const BARS: Record<string, number> = { "100 mm": 100, "4 in": 101.6, "250 mm": 250, "10 in": 254 };

/** Check bars that are not there, or not true. */
export function faultsOfBars(set: DryfitSet, file: PdfFile): string[] {
  return file.pages.flatMap((page) => {
    const segments = segmentsOf(set, page);
    const bars = page.texts.flatMap((label) => {
      const found = /^(100 mm|4 in|250 mm|10 in), along ([xy])$/.exec(label.text);
      if (found === null) return [];
      const [name, along] = [found[1]!, found[2] as Axis];
      const across: Axis = along === "x" ? "y" : "x";
      const angle = (label.turn * Math.PI) / 180;
      const middle = {
        x: printedAt(set, "x", label.x + (Math.cos(angle) * label.width) / 2),
        y: printedAt(set, "y", label.y - (Math.sin(angle) * label.width) / 2),
      };
      // The end lines stand square on the bar, 2 mm to either side of it; the label is lettered on the bar itself.
      const ends = segments
        .filter(({ a, b }) => Math.abs(a[along] - b[along]) < 1e-3)
        .filter(({ a, b }) => Math.abs((a[across] + b[across]) / 2 - middle[across]) < 2)
        .filter(
          ({ a, b }) =>
            Math.abs(Math.abs(a[across] - b[across]) - 4 * set.paper.print[across]) <
            0.1 + 4 * Math.abs(1 - set.paper.print[across]),
        )
        .map(({ a }) => a[along]);
      const isTrue = ends.some((from) =>
        ends.some((to) => Math.abs(to - from - BARS[name]!) < CLOSE && from < middle[along] && to > middle[along]),
      );
      return [{ name: `${name} ${along}`, isTrue }];
    });
    const wanted = ["100 mm x", "100 mm y", "4 in x", "4 in y"].filter(
      (name) => !bars.some((bar) => bar.name === name),
    );
    return [
      ...wanted.map((name) => `${page.label}: no bar ${name}`),
      ...bars.filter(({ isTrue }) => !isTrue).map(({ name }) => `${page.label}: the bar ${name} is not true`),
    ];
  });
}

/** What lies in the strip of paper that printers leave white, in the file and as printed: a correction must not push a mark out, nor must a printer that is better than it was measured. */
export const faultsAtEdges = (set: DryfitSet, file: PdfFile): string[] => inkAtEdges(set.paper.sticks, file);

/** Lines with their width, fills by their corners, texts by their baseline. */
export function inkAtEdges({ width, height }: { width: number; height: number }, file: PdfFile): string[] {
  return file.pages.flatMap((page) => {
    const drawn = page.paths.flatMap(({ runs, width: wide, paint }) =>
      runs.flatMap(({ points }) => points.map(({ x, y }) => ({ x, y, half: paint === "stroke" ? wide / 2 : 0 }))),
    );
    const lettered = page.texts.flatMap((text) => {
      const angle = (text.turn * Math.PI) / 180;
      const end = { x: text.x + Math.cos(angle) * text.width, y: text.y - Math.sin(angle) * text.width };
      return [text, end].map(({ x, y }) => ({ x, y, half: 0 }));
    });
    return [...drawn, ...lettered]
      .filter(({ x, y, half }) => Math.min(x - half, y - half, width - x - half, height - y - half) < UNPRINTED)
      .map(({ x, y }) => `${page.label}: ${x.toFixed(2)}, ${y.toFixed(2)}`);
  });
}

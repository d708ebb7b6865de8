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

/** From a wall to where its figure begins, mm: what the marks and faces of so many parts take beside it. */
const farthest = (parts: number): number => 60 + 9 * parts;

/** Figures in plain digits that do not stand on their strip by their wall, once from either long edge; a tile that says so has some in the columns. */
export function faultsOfFigures(set: DryfitSet, file: PdfFile): { faults: string[]; found: number } {
  const pages = new Map(file.pages.map((page) => [page.label, page]));
  const faults: string[] = [];
  let found = 0;
  for (const stick of set.sticks) {
    for (const tile of stick.tiles) {
      const [along, across] = axesOf(tile);
      const half = stickPage(set.paper).strip / 2;
      const on = pages
        .get(`S-${tile.page}`)!
        .texts.map((text) => ({
          text: text.text,
          u: tile.from + printedAt(set, along, text[along]) - tile[along],
          v: printedAt(set, across, text[across]) - tile[across],
        }))
        .filter(({ v }) => Math.abs(v) < half);
      const hasMore = on.some(({ text }) => text === "*" || text.startsWith("more figures"));
      for (const mark of stick.marks.filter(
        ({ kind, at, width }) => kind === "groove" && at > tile.from && at + width < tile.to,
      )) {
        for (const part of stick.parts.filter(({ mark: name }) => mark.parts.includes(name))) {
          const figure = formatLength(mark.at - part.offset, set.job.unit);
          if (!/^[\d.]+$/.test(figure)) continue;
          const beside = on.filter(
            ({ text, u }) => text === figure && Math.abs(u - mark.at) < farthest(mark.parts.length),
          );
          const isTwice = beside.some(({ v }) => v < 0) && beside.some(({ v }) => v > 0);
          if (isTwice) found += 1;
          else if (!hasMore)
            faults.push(`${stick.name}, S-${tile.page}: ${figure} for ${part.mark} is not by its wall`);
        }
      }
    }
  }
  return { faults, found };
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

/** sticks.pdf: the print check, the sticks tiled at full size, and the columns of figures. */
import { formatLengthWithUnit, isSame, type Mm } from "../../base/length.ts";
import { fill, group, rect, rectSteps, text } from "../../paper/draw.ts";
import type { Page, Rect, Shape } from "../../paper/shape.ts";
import type { DryfitSet, SetStick } from "../../set/schema.ts";
import { CAPTION, FIRST_TILE_PAGE, OVERLAP, stickPage } from "../../set/stick-page.ts";
import { fitText, LEAST_TEXT } from "../draughting/fitting.ts";
import { type FullSizeDraft, fullSizePages } from "../draughting/full-size.ts";
import { drawDovetails } from "./dovetail-template.ts";
import { drawEdgeTemplates } from "./edge-template.ts";
import { drawFrameCorners } from "./frame-corner.ts";
import { drawStickCheck } from "./stick-check.ts";
import { drawDetails } from "./stick-details.ts";
import type { Strip } from "./stick-lettering.ts";
import { drawStrip } from "./stick-strip.ts";
import { drawTape } from "./stick-tape.ts";
import { joinLetters } from "./stick-words.ts";

export const BOOKMARK = "Sticks";

export function drawSticks(set: DryfitSet): Page[] {
  const { short, margin, run, rows } = stickPage(set.paper);
  const top = rows[0]! - CAPTION;
  const space: Rect = {
    x: margin.u,
    y: top,
    width: run.to - margin.u,
    height: short - margin.v - 7 - top,
  };
  const check: FullSizeDraft = {
    key: "stick-check",
    title: "Sticks: print check",
    bookmark: [BOOKMARK, "Print check"],
    shapes: drawStickCheck(set, space),
  };
  const tapes = drawTape(set, space).map(
    (shapes, i): FullSizeDraft => ({
      key: `stick-figures-${i + 1}`,
      title: "Sticks: columns of figures",
      bookmark: [BOOKMARK, "Columns of figures"],
      shapes,
    }),
  );
  const details = drawDetails(set, space).map(
    (shapes, i): FullSizeDraft => ({
      key: `stick-details-${i + 1}`,
      title: "Sticks: joints at full size",
      bookmark: [BOOKMARK, "Joints at full size"],
      shapes,
    }),
  );
  const joins = set.sticks.reduce((sum, { tiles }) => sum + Math.max(0, tiles.length - 1), 0);
  const templates = drawEdgeTemplates(set, joins);
  return fullSizePages(set, [
    check,
    ...tilePages(set),
    ...templates,
    ...drawDovetails(set, joins + joinsAmong(templates)),
    ...drawFrameCorners(set, space),
    ...details,
    ...tapes,
  ]);
}

/** Of drafts under one bookmark each is joined to the next. */
const joinsAmong = (drafts: readonly FullSizeDraft[]): number =>
  drafts.length - new Set(drafts.map(({ bookmark }) => bookmark.at(-1))).size;

/** Where each tile is joined, lettered through the whole document. */
function joinsOf(sticks: SetStick[]): Map<SetStick, Strip["joins"][number][][]> {
  let count = 0;
  return new Map(
    sticks.map((stick) => {
      const joins = stick.tiles.map((): Strip["joins"] => []);
      stick.tiles.slice(1).forEach((tile, i) => {
        const join = { at: tile.from + OVERLAP / 2, letter: joinLetters(count) };
        joins[i]!.push({ ...join, side: "high" });
        joins[i + 1]!.push({ ...join, side: "low" });
        count += 1;
      });
      return [stick, joins];
    }),
  );
}

function tilePages(set: DryfitSet): FullSizeDraft[] {
  const page = stickPage(set.paper);
  const joins = joinsOf(set.sticks);
  const pages: { shapes: Shape[]; names: string[] }[] = [];
  for (const stick of set.sticks) {
    stick.tiles.forEach((tile, i) => {
      const at = tile.page - FIRST_TILE_PAGE;
      const onThis = pages[at] ?? { shapes: [], names: [] };
      pages[at] = onThis;
      const middle = tile.direction === "down" ? page.short - tile.x : tile.y;
      const start = tile.direction === "down" ? tile.y : tile.x;
      const strip: Strip = {
        stick,
        from: tile.from,
        to: tile.to,
        height: page.strip,
        joins: joins.get(stick)![i]!,
        name: [`${stick.name}, ${i + 1} of ${stick.tiles.length}`, `${set.job.number}, revision ${set.job.revision}`],
      };
      const top = middle - page.strip / 2;
      onThis.shapes.push(
        ...drawCaption(set, stick, i, { x: start, y: top - CAPTION, width: page.run.to - start, height: CAPTION }),
        group(drawStrip(set, strip), { move: [start, top] }),
      );
      if (!onThis.names.includes(stick.name)) onThis.names.push(stick.name);
    });
  }
  return pages.map(({ shapes, names }, i) => ({
    key: `stick-page-${i + 1}`,
    title: `Sticks: ${beginningOnce(names)}`,
    bookmark: [BOOKMARK, names.join(", ")],
    shapes,
  }));
}

/** "desk drawer 1 depth; 2 height": what all begin with said once, so that a page's heading has room for them. */
function beginningOnce(names: readonly string[]): string {
  const all = names.map((name) => name.split(" "));
  const shortest = Math.min(...all.map(({ length }) => length));
  let shared = 0;
  while (shared < shortest - 1 && all.every((one) => one[shared] === all[0]![shared])) shared += 1;
  return all.map((one, i) => (i === 0 ? one : one.slice(shared)).join(" ")).join(shared === 0 ? ", " : "; ");
}

const MAP_CELL: Mm = 9;

/** Above the strip, cut away with the waste: which stick, which stretch of it, and a small map with this tile black. */
function drawCaption(set: DryfitSet, stick: SetStick, i: number, box: Rect): Shape[] {
  const { unit } = set.job;
  const tile = stick.tiles[i]!;
  const map = stick.tiles.length * MAP_CELL;
  const stretch = isSame(tile.to - tile.from, stick.length)
    ? `whole, ${formatLengthWithUnit(stick.length, unit)}`
    : `tile ${i + 1} of ${stick.tiles.length}`;
  const parts = stick.parts.map(({ mark }) => mark).join(", ");
  const said = fitText(`${stick.name}: ${stretch}; parts ${parts}`, LEAST_TEXT, "regular", box.width - map - 4);
  const left = box.x + box.width - map;
  const y = box.y + 0.2;
  const height = LEAST_TEXT + 0.8;
  const cells = stick.tiles.map((_, n): Rect => ({ x: left + n * MAP_CELL, y, width: MAP_CELL, height }));
  return [
    text([box.x, box.y + LEAST_TEXT + 0.6], said.text, said.size),
    ...cells.map((cell, n) => (n === i ? fill(0, rectSteps(cell)) : rect("thin", cell))),
    ...cells.flatMap((cell, n) =>
      n === i
        ? []
        : [
            text([cell.x + MAP_CELL / 2, y + height - 0.4], `S-${stick.tiles[n]!.page}`, LEAST_TEXT, {
              anchor: "middle",
            }),
          ],
    ),
  ];
}

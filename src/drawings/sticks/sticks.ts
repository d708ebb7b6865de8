/** sticks.pdf: the print check, the sticks tiled at full size, and the columns of figures; and each stick whole on one long page. */
import { formatLengthWithUnit, isSame, type Mm } from "../../base/length.ts";
import { fill, group, lines, rect, rectSteps, text } from "../../paper/draw.ts";
import { measureText } from "../../paper/lettering.ts";
import type { Page, Rect, Shape } from "../../paper/shape.ts";
import type { DryfitSet, SetStick } from "../../set/schema.ts";
import { CAPTION, FIRST_TILE_PAGE, OVERLAP, stickPage } from "../../set/stick-page.ts";
import { fitText, LEAST_TEXT } from "../draughting/fitting.ts";
import { type FullSizeDraft, fullSizePages } from "../draughting/full-size.ts";
import { drawStickCheck } from "./stick-check.ts";
import type { Strip } from "./stick-lettering.ts";
import { drawStrip } from "./stick-strip.ts";
import { drawTape } from "./stick-tape.ts";
import { joinLetters } from "./stick-words.ts";

const BOOKMARK = "Sticks";

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
  return fullSizePages(set, [check, ...tilePages(set), ...tapes]);
}

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
    title: `Sticks: ${names.join(", ")}`,
    bookmark: [BOOKMARK, names.join(", ")],
    shapes,
  }));
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

const LONG_MARGIN: Mm = 15;
const LONG_HEAD: Mm = 12;
const LONG_STRIP: Mm = 40;

/** Each stick whole, on a page as long as it: for svg/ and for printers that take a roll. */
export function drawLongSticks(set: DryfitSet): Page[] {
  return set.sticks.map((stick, i) => {
    const width = stick.length + 2 * LONG_MARGIN;
    const strip: Strip = { stick, from: 0, to: stick.length, height: LONG_STRIP, joins: [], name: [stick.name] };
    const advice = fitText(
      `${set.job.draft ? "DRAFT, not for cutting \u00B7 " : ""}${set.job.number} \u00B7 ${set.job.title} \u00B7 ${stick.name}, ${formatLengthWithUnit(stick.length, set.job.unit)} \u00B7 revision ${set.job.revision} \u00B7 Full size: print at 100 %`,
      LEAST_TEXT,
      "bold",
      stick.length,
    );
    return {
      key: `stick-${i + 1}-${fileName(stick.name)}`,
      title: `Stick: ${stick.name}`,
      bookmark: [BOOKMARK, stick.name],
      label: stick.name,
      width,
      height: 2 * LONG_HEAD + LONG_STRIP + 8,
      shapes: [
        text([LONG_MARGIN, LONG_HEAD - 4], advice.text, advice.size, { weight: "bold" }),
        group(drawStrip(set, strip), { move: [LONG_MARGIN, LONG_HEAD] }),
        ...drawLongBar(stick.length, LONG_HEAD + LONG_STRIP + 8),
      ],
    };
  });
}

/** The whole hundreds of millimetres that the stick holds: the longer the bar, the surer the check. */
function drawLongBar(length: Mm, y: Mm): Shape[] {
  const bar = Math.max(100, Math.floor(length / 100) * 100);
  if (bar > length) return [];
  const label = `check: ${bar} mm`;
  const room = measureText(label, LEAST_TEXT, "regular") / 2 + 1;
  const [x, middle, end] = [LONG_MARGIN, LONG_MARGIN + bar / 2, LONG_MARGIN + bar];
  return [
    lines("bar", [
      [
        [x, y],
        [middle - room, y],
      ],
      [
        [middle + room, y],
        [end, y],
      ],
      [
        [x, y - 2],
        [x, y + 2],
      ],
      [
        [end, y - 2],
        [end, y + 2],
      ],
    ]),
    text([middle, y + LEAST_TEXT / 2], label, LEAST_TEXT, { anchor: "middle" }),
  ];
}

/** Lower-case letters, digits and hyphens: safe in every file system and in an address. */
const fileName = (name: string): string =>
  name
    .toLowerCase()
    .replace(/[^a-z0-9]+/g, "-")
    .replace(/^-|-$/g, "");

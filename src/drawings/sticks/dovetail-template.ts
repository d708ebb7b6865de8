/**
 * Dovetailed corners at full size, as both parts are seen from the side: tails of the side, and between them the pins on the end of front or back. The
 * side's edge runs along the page from its lower end; what the side loses is crossed. Where one page does not reach, pages are joined as tiles of a stick are.
 *
 *        0  6        38 44       77 83        figures from the side's lower edge
 *        |\/|        |\/|        |\/|   the end of the side, the outer face of the front
 *        |/ \  tail  / \\  tail / \|
 *        ---------------------------    baseline
 *              side
 */

import { formatLengthWithUnit, type Mm } from "../../base/length.ts";
import { listInWords } from "../../base/words.ts";
import { group, lines, text } from "../../paper/draw.ts";
import type { Point, Shape } from "../../paper/shape.ts";
import { type Dovetail, dovetailsOf } from "../../set/dovetail.ts";
import { faceWords } from "../../set/facing.ts";
import type { DryfitSet, SetPart } from "../../set/schema.ts";
import { OVERLAP, type StickPage, stickPage } from "../../set/stick-page.ts";
import { setLines, words } from "../draughting/cell.ts";
import { drawLength } from "../draughting/figure.ts";
import { LEAST_TEXT } from "../draughting/fitting.ts";
import type { FullSizeDraft } from "../draughting/full-size.ts";
import { clippedAlong } from "./clipped.ts";
import { drawJoin, type Joins, type Stretch, stretchesOf } from "./edge-template.ts";
import { joinLetters } from "./stick-words.ts";

const NAME = "Sticks: dovetails at full size";
const HEAD: Mm = 16; // heading of the page
const FOOT: Mm = 14; // check bars along the page
const NOTE: Mm = 3;
const FIGURE: Mm = 2.8;
const FIGURES: Mm = 15; // room over the end for figures that stand upright
const WOOD: Mm = 9; // of the side, below the baseline
const AIR: Mm = 5; // between two corners

/** Ends of sides that are laid out alike, and what meets them. */
type Corner = { side: SetPart; dovetail: Dovetail; sides: string[]; mates: SetPart[] };

function cornersOf({ parts }: DryfitSet): Corner[] {
  const corners: Corner[] = [];
  for (const side of parts) {
    for (const dovetail of dovetailsOf(side)) {
      if (dovetail.has !== "tails") continue;
      const mate = parts.find(({ mark }) => mark === dovetail.holds)!;
      const key = (one: SetPart, { tails, span, baseline, slope, end }: Dovetail): string =>
        JSON.stringify([
          [one.width, baseline, ...span, ...tails.flat()].map((at) => at.toFixed(3)),
          slope,
          faceWords(one, end),
        ]);
      const known = corners.find((one) => key(one.side, one.dovetail) === key(side, dovetail));
      if (known === undefined) corners.push({ side, dovetail, sides: [side.mark], mates: [mate] });
      else {
        known.sides.push(side.mark);
        if (!known.mates.includes(mate)) known.mates.push(mate);
      }
    }
  }
  return corners;
}

type Row = { corner: Corner; stretch: Stretch; joins: Joins; height: Mm };

/** `lettered`: how many joins of the document have a letter already. */
export function drawDovetails(set: DryfitSet, lettered: number): FullSizeDraft[] {
  const page = stickPage(set.paper);
  const room = page.short - 2 * page.margin.v - HEAD - FOOT;
  let joined = lettered;
  const rows = cornersOf(set).flatMap((corner): Row[] => {
    const stretches = stretchesOf(corner.side.width, page.run.to - page.run.from, set.job.unit);
    const first = joined;
    joined += stretches.length - 1;
    return stretches.map((stretch, i) => ({
      corner,
      stretch,
      joins: {
        before: i === 0 ? null : joinLetters(first + i - 1),
        after: i === stretches.length - 1 ? null : joinLetters(first + i),
      },
      height: FIGURES + corner.dovetail.baseline + WOOD + noteOf(set, corner, page).height + AIR,
    }));
  });
  const pages: Row[][] = [];
  for (const row of rows) {
    const last = pages.at(-1);
    const taken = (last ?? []).reduce((sum, { height }) => sum + height, 0);
    if (last !== undefined && taken + row.height <= room) last.push(row);
    else pages.push([row]);
  }
  return pages.map((list, n) => {
    let v = page.margin.v + HEAD;
    return {
      key: `dovetails-${n + 1}`,
      title: pages.length === 1 ? NAME : `${NAME}, ${n + 1} of ${pages.length}`,
      bookmark: ["Sticks", NAME],
      shapes: list.flatMap((row) => {
        const shapes = drawRow(set, page, row, v + FIGURES);
        v += row.height;
        return shapes;
      }),
    };
  });
}

function noteOf(set: DryfitSet, { side, dovetail, sides, mates }: Corner, page: StickPage) {
  const { unit } = set.job;
  const show = (length: Mm): string => formatLengthWithUnit(length, unit);
  const pins = mates[0]!;
  const said = `${faceWords(side, dovetail.end)} of ${side.name.replace(/^(left|right) /, "")} ${listInWords(sides)}, pins of ${listInWords(mates.map(({ mark }) => mark))}. From the ${faceWords(side, "w0")}; tails at the ${faceWords(side, dovetail.end)}; crossed: waste of the side. Baseline ${show(dovetail.baseline)} on the sides, ${show(side.thickness)} on ${pins.name} ${listInWords(mates.map(({ mark }) => mark))}; slope 1 in ${dovetail.slope}.`;
  return setLines(words(said.charAt(0).toUpperCase() + said.slice(1), NOTE), page.run.to - page.run.from);
}

function drawRow(set: DryfitSet, page: StickPage, { corner, stretch, joins }: Row, top: Mm): Shape[] {
  const { side, dovetail } = corner;
  const { baseline, tails, flare } = dovetail;
  const { from, to } = stretch;
  const u = (w: Mm): Mm => page.run.from + w - from;
  const root = top + baseline;
  const bottom = root + WOOD;
  const [low, high] = [u(from) - 1, u(to) + 1];
  const pins = pinsOf(corner);
  const line = (a: Point, b: Point): [Point, Point] => [a, b];
  const flanks = tails.flatMap(([a, b]) => [
    line([u(a), top], [u(a + flare), root]),
    line([u(b), top], [u(b - flare), root]),
  ]);
  const ends = tails.map(([a, b]) => line([u(a), top], [u(b), top]));
  const edges = [
    line([u(0), pins.low > 0 ? top : root], [u(0), bottom]),
    line([u(side.width), pins.high < side.width ? top : root], [u(side.width), bottom]),
    ...(pins.low > 0 ? [line([u(0), top], [u(pins.low), top]), line([u(pins.low), top], [u(pins.low), root])] : []),
    ...(pins.high < side.width
      ? [line([u(pins.high), top], [u(side.width), top]), line([u(pins.high), top], [u(pins.high), root])]
      : []),
  ];
  const base = pins.all.map(({ roots: [a, b] }) => line([u(a), root], [u(b), root]));
  const crossed = pins.all.flatMap(({ tips, roots }) => [
    line([u(tips[0]), top], [u(roots[1]), root]),
    line([u(tips[1]), top], [u(roots[0]), root]),
  ]);
  const places = [...new Set([0, pins.low, ...tails.flat(), pins.high, side.width])];
  const note = noteOf(set, corner, page);
  const shown = (w: Mm): boolean => w >= from - 1e-6 && w <= to + 1e-6;
  return [
    lines("thin", clippedAlong(crossed, [low, high])),
    lines("outline", clippedAlong([...flanks, ...ends, ...edges, ...base], [low, high])),
    lines("hidden", clippedAlong([line([u(pins.low), root], [u(pins.high), root])], [low, high])),
    ...tails
      .filter(([a, b]) => shown((a + b) / 2))
      .map(([a, b]) =>
        text([u((a + b) / 2), root - baseline / 2 + LEAST_TEXT / 2], "tail", LEAST_TEXT, { anchor: "middle" }),
      ),
    ...places.filter(shown).map((w) => drawUpright(set, w, [u(w), top - 1.5])),
    ...[
      ...(joins.before === null ? [] : [{ at: from + OVERLAP / 2, letter: joins.before, isLow: true }]),
      ...(joins.after === null ? [] : [{ at: to - OVERLAP / 2, letter: joins.after, isLow: false }]),
    ].flatMap(({ at, letter, isLow }) => drawJoin(u(at), root, bottom, letter, isLow)),
    group(note.shapes, { move: [page.run.from, bottom + 2] }),
  ];
}

/** A figure along an upright line, read from the right. */
const drawUpright = ({ job }: DryfitSet, length: Mm, [x, y]: Point): Shape =>
  group(drawLength([0, 0], length, job.unit, FIGURE, { least: LEAST_TEXT }).shapes, {
    move: [x + 0.35 * FIGURE, y],
    turn: 90,
  });

/** The side's waste: from the lowest pin of the front or back to its highest, in the plane of the tails' ends and at their roots. */
function pinsOf({ dovetail: { tails, flare, span } }: Corner): {
  low: Mm;
  high: Mm;
  all: { tips: [Mm, Mm]; roots: [Mm, Mm] }[];
} {
  const [low, high] = span;
  const bounds = [low, ...tails.flat(), high];
  const all = Array.from({ length: bounds.length / 2 }, (_, i) => {
    const [a, b] = [bounds[2 * i]!, bounds[2 * i + 1]!];
    return {
      tips: [a, b] as [Mm, Mm],
      roots: [i === 0 ? a : a - flare, 2 * i + 2 === bounds.length ? b : b + flare] as [Mm, Mm],
    };
  });
  return { low, high, all };
}

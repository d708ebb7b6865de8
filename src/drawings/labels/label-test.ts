/** The test page of the labels: every outline with its number, what to do with it, check bars, and which labels are no longer true. */
import { chunks } from "../../base/chunks.ts";
import { type Mm, SAME } from "../../base/length.ts";
import { lines, rect, text } from "../../paper/draw.ts";
import { measureText } from "../../paper/lettering.ts";
import type { Point, Shape } from "../../paper/shape.ts";
import { drawnSize, insetsOf, type LabelFormat } from "../../set/label-page.ts";
import type { DryfitSet } from "../../set/schema.ts";
import { UNPRINTED } from "../../set/stick-page.ts";
import { LEAST_TEXT, wrapText } from "../draughting/fitting.ts";
import { correctionInWords } from "../draughting/print-scale.ts";

const LINE: Mm = LEAST_TEXT * 1.5;
const AIR: Mm = 3;
const FIRST_LINE: Mm = 5.5;
const LONGEST_BAR: Mm = 100;
const TICK: Mm = 2;
const BAR_AIR: Mm = 8; // between a bar's end and the edge of the page
const REACH: Mm = UNPRINTED + 0.2; // of a line, half its width and a little inside what printers leave white

/** One page, or as many as the words need: they are lettered from label to label. */
export function drawLabelTest(set: DryfitSet): Shape[][] {
  const format = set.paper.labels;
  const spots = spotsOf(format);
  const isSingle = spots.length === 1;
  const inset = insetsOf(format);
  const drawn = drawnSize(format);
  const told = wordsOf(set, format).flatMap((one) => wrapText(one, LEAST_TEXT, "regular", drawn.width - 2 * AIR));
  const rows = Math.floor((drawn.height - FIRST_LINE - (isSingle ? 0 : 1.5 * LINE)) / LINE) + 1;
  const free = spots.flatMap((at, i) => (isSingle || !isCrossed(format, at) ? [{ at, n: i + 1 }] : []));
  const cells = isSingle ? chunks(told, Math.max(1, rows)) : goingOn(told, Math.max(1, rows), free);
  return chunks(cells, free.length).map((page, n) => [
    ...drawOutlines(format, spots),
    ...(isSingle ? [] : spots.flatMap((spot, i) => drawNumber(format, spot, i + 1))),
    ...page.flatMap((cell, i) => {
      const [x, y] = free[i]!.at;
      return cell.map((content, row) =>
        text([x + inset.left + AIR, y + inset.top + FIRST_LINE + row * LINE], content, LEAST_TEXT),
      );
    }),
    ...(isSingle && n > 0 ? [] : drawBars(format, !isSingle)),
  ]);
}

/** The lines label by label. One that a bar crosses takes none: the label before tells which takes the next. */
function goingOn(told: readonly string[], rows: number, free: readonly { n: number }[]): string[][] {
  if (rows < 3 || told.length <= rows) return chunks(told, rows);
  const cells = chunks(told, rows - 1);
  return cells.map((cell, i) => {
    const [own, next] = [free[i % free.length]!, free[(i + 1) % free.length]!];
    const isLast = i === cells.length - 1;
    return isLast || next.n === own.n + 1 ? cell : [...cell, `Goes on on label ${next.n}.`];
  });
}

const spotsOf = ({ columns, rows, left, top, pitch }: LabelFormat): Point[] =>
  Array.from(
    { length: columns * rows },
    (_, i): Point => [left + (i % columns) * pitch.x, top + Math.floor(i / columns) * pitch.y],
  );

function wordsOf({ job, reprint }: DryfitSet, format: LabelFormat): string[] {
  const [along, down] = barsOf(format);
  const measure =
    along === down ? `both bars must measure ${along} mm` : `the bars must measure ${along} and ${down} mm`;
  const [more, isSingle] = [correctionInWords(format.print), format.columns * format.rows === 1];
  return [
    ...(job.draft ? ["DRAFT."] : []),
    isSingle
      ? `Print this page first, at 100 %${more}: the outline must lie on the label's edge, and ${measure}.`
      : `Print this page at 100 % on plain paper${more}, and hold it against a page of labels (${format.name}): every outline must lie on a label, and ${measure}.`,
    "If all lie off by the same, enter it as offset x and y; if they creep, measure pitch anew; if a bar is wrong, enter what it measures as scale.",
    ...(isSingle ? [] : ["On a part-used page, enter as start the number of the first label still there."]),
    ...(reprint === null ? [] : reprintWords(reprint)),
  ];
}

/** Which labels are printed anew, and why; which are to be taken off. */
export function reprintWords({ revision, parts, withdrawn }: NonNullable<DryfitSet["reprint"]>): string[] {
  const anew = parts.map(({ mark, why }) => `${mark} (${why.join(", ")})`).join("; ");
  const gone = withdrawn.map(({ mark, name }) => `${mark} (${name})`).join("; ");
  return [
    parts.length === 0
      ? `Nothing on the labels of revision ${revision} has changed.`
      : `Printed anew since revision ${revision}: ${anew}. Take the old labels off.`,
    ...(withdrawn.length === 0 ? [] : [`Withdrawn: ${gone}. These parts are no more.`]),
  ];
}

/** The labels' edges, as far as the printer reaches: a label at the page's own edge is open there. */
function drawOutlines({ page, label, dpi }: LabelFormat, spots: readonly Point[]): Shape[] {
  if (dpi !== null) return spots.map(([x, y]) => rect("thin", { x, y, ...label }));
  const isPrinted = (at: Mm, whole: Mm): boolean => at >= REACH - SAME && at <= whole - REACH + SAME;
  const within = (at: Mm, whole: Mm): Mm => Math.min(Math.max(at, REACH), whole - REACH);
  const edges = spots.flatMap(([x, y]): [Point, Point][] => {
    const [x0, x1] = [x, x + label.width].map((at) => within(at, page.width)) as [Mm, Mm];
    const [y0, y1] = [y, y + label.height].map((at) => within(at, page.height)) as [Mm, Mm];
    const upright = [x, x + label.width].filter((at) => isPrinted(at, page.width));
    const level = [y, y + label.height].filter((at) => isPrinted(at, page.height));
    return [
      ...upright.map((at): [Point, Point] => [
        [at, y0],
        [at, y1],
      ]),
      ...level.map((at): [Point, Point] => [
        [x0, at],
        [x1, at],
      ]),
    ];
  });
  return [lines("thin", edges)];
}

function drawNumber(format: LabelFormat, [x, y]: Point, n: number): Shape[] {
  const { right, bottom } = insetsOf(format);
  const at: Point = [x + format.label.width - right - AIR, y + format.label.height - bottom - 2];
  return [text(at, String(n), LEAST_TEXT, { anchor: "end", weight: "bold" })];
}

/** Whole tens of millimetres that the page holds, across and down. */
const barsOf = ({ page }: LabelFormat): [Mm, Mm] =>
  [page.width, page.height].map((side) => Math.min(LONGEST_BAR, Math.floor((side - 2 * BAR_AIR) / 10) * 10)) as [
    Mm,
    Mm,
  ];

/** Where the bars lie: through the middle labels of the page. */
const barsAt = ({ label, columns, rows, left, top, pitch }: LabelFormat): Point => [
  left + Math.floor(columns / 2) * pitch.x + label.width * 0.85,
  top + Math.floor(rows / 2) * pitch.y + label.height / 2,
];

/** Where the bars begin and end, across and down the page. */
function barEnds(format: LabelFormat): { x: [Mm, Mm]; y: [Mm, Mm] } {
  const { page } = format;
  const [along, down] = barsOf(format);
  return {
    x: [(page.width - along) / 2, (page.width + along) / 2],
    y: [(page.height - down) / 2, (page.height + down) / 2],
  };
}

/** Whether a bar, or what names it, runs through this label: no words there. */
function isCrossed(format: LabelFormat, [x, y]: Point): boolean {
  const { label } = format;
  const [barX, barY] = barsAt(format);
  const ends = barEnds(format);
  const isIn = (at: Mm, from: Mm, size: Mm): boolean => at > from - AIR && at < from + size + AIR;
  const meets = ([a, b]: [Mm, Mm], from: Mm, size: Mm): boolean => b > from - AIR && a < from + size + AIR;
  return (
    (isIn(barY, y, label.height) && meets(ends.x, x, label.width)) ||
    (isIn(barX, x, label.width) && meets(ends.y, y, label.height))
  );
}

/** The bars may cross outlines: nothing has to be read there. */
function drawBars(format: LabelFormat, isNamed: boolean): Shape[] {
  const { label, left, columns, pitch } = format;
  const [along, down] = barsOf(format);
  const [x, y] = barsAt(format);
  const {
    x: [x0, x1],
    y: [y0, y1],
  } = barEnds(format);
  const across = `${along} mm across`;
  const clear = measureText(across, LEAST_TEXT, "regular") / 2 + TICK; // of the tick at a bar's end
  const middle = left + Math.floor(columns / 2) * pitch.x + label.width * 0.4;
  const at = Math.max(x0 + clear, Math.min(middle, x1 - clear));
  const named = isNamed
    ? [
        text([at, y - 1], across, LEAST_TEXT, { anchor: "middle" }),
        text([x - 1, y + label.height * 0.25], `${down} mm down`, LEAST_TEXT, { anchor: "end" }),
      ]
    : [];
  const level: [Point, Point][] = [
    [
      [x0, y],
      [x1, y],
    ],
    ...[x0, x1].map((end): [Point, Point] => [
      [end, y - TICK],
      [end, y + TICK],
    ]),
  ];
  const upright: [Point, Point][] = [
    [
      [x, y0],
      [x, y1],
    ],
    ...[y0, y1].map((end): [Point, Point] => [
      [x - TICK, end],
      [x + TICK, end],
    ]),
  ];
  return [lines("bar", [...level, ...upright]), ...named];
}

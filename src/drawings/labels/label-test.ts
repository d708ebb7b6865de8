/** The test page of the labels: every outline with its number, what to do with it, check bars, and which labels are no longer true. */
import type { Mm } from "../../base/length.ts";
import { lines, rect, text } from "../../paper/draw.ts";
import type { Point, Shape } from "../../paper/shape.ts";
import type { LabelFormat } from "../../set/label-page.ts";
import type { DryfitSet } from "../../set/schema.ts";
import { LEAST_TEXT, wrapText } from "../draughting/fitting.ts";
import { correctionInWords } from "../draughting/print-scale.ts";

const LINE: Mm = LEAST_TEXT * 1.5;
const AIR: Mm = 3;
const FIRST_LINE: Mm = 5.5;
const LONGEST_BAR: Mm = 100;
const TICK: Mm = 2;
const BAR_AIR: Mm = 8; // between a bar's end and the edge of the page

/** One page, or as many as the words need: they are lettered from label to label. */
export function drawLabelTest(set: DryfitSet): Shape[][] {
  const format = set.paper.labels;
  const spots = spotsOf(format);
  const isSingle = spots.length === 1;
  const told = wordsOf(set, format).flatMap((one) =>
    wrapText(one, LEAST_TEXT, "regular", format.label.width - 2 * AIR),
  );
  const rows = Math.floor((format.label.height - FIRST_LINE - (isSingle ? 0 : 1.5 * LINE)) / LINE) + 1;
  const cells = chunks(told, Math.max(1, rows));
  const free = spots.filter((_, i) => isSingle || !isCrossed(format, i));
  return chunks(cells, free.length).map((page, n) => [
    ...spots.map(([x, y]) => rect("thin", { x, y, ...format.label })),
    ...(isSingle ? [] : spots.flatMap((spot, i) => drawNumber(format, spot, i + 1))),
    ...page.flatMap((cell, i) => {
      const [x, y] = free[i]!;
      return cell.map((content, row) => text([x + AIR, y + FIRST_LINE + row * LINE], content, LEAST_TEXT));
    }),
    ...(isSingle && n > 0 ? [] : drawBars(format, !isSingle)),
  ]);
}

function chunks<T>(all: T[], size: number): T[][] {
  return Array.from({ length: Math.ceil(all.length / size) }, (_, i) => all.slice(i * size, (i + 1) * size));
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

function drawNumber({ label }: LabelFormat, [x, y]: Point, n: number): Shape[] {
  return [
    text([x + label.width - AIR, y + label.height - 2], String(n), LEAST_TEXT, { anchor: "end", weight: "bold" }),
  ];
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

/** Whether a bar runs through this label: no words there. */
function isCrossed(format: LabelFormat, i: number): boolean {
  const [column, row] = [i % format.columns, Math.floor(i / format.columns)];
  return row === Math.floor(format.rows / 2) || column === Math.floor(format.columns / 2);
}

/** The bars may cross outlines: nothing has to be read there. */
function drawBars(format: LabelFormat, isNamed: boolean): Shape[] {
  const { page, label, left, columns, pitch } = format;
  const [along, down] = barsOf(format);
  const [x, y] = barsAt(format);
  const [x0, x1] = [(page.width - along) / 2, (page.width + along) / 2];
  const [y0, y1] = [(page.height - down) / 2, (page.height + down) / 2];
  const at = left + Math.floor(columns / 2) * pitch.x + label.width * 0.4;
  const named = isNamed
    ? [
        text([at, y - 1], `${along} mm across`, LEAST_TEXT, { anchor: "middle" }),
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

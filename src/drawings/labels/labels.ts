/** labels.pdf: the labels where the plan put them, and a last page to try on plain paper. */
import { isSame, type Mm } from "../../base/length.ts";
import { group, lines, rect, text } from "../../paper/draw.ts";
import type { Page, Point, Shape } from "../../paper/shape.ts";
import type { DryfitSet, SetLabel } from "../../set/schema.ts";
import { correction } from "../../set/stick-page.ts";
import { partOf } from "../../set/words.ts";
import { LEAST_TEXT, wrapText } from "../draughting/fitting.ts";
import { scalePage } from "../draughting/print-scale.ts";
import { drawLabel } from "./label.ts";

const BOOKMARK = "Labels";

export function drawLabels(set: DryfitSet): Page[] {
  const count = Math.max(0, ...set.labels.map(({ page }) => page));
  const pages = Array.from({ length: count }, (_, i) => i + 1).map((n): Page => {
    const labels = set.labels.filter(({ page }) => page === n);
    const shapes = [...drawCutLines(set), ...labels.flatMap((label) => drawPlaced(set, label))];
    return pageOf(set, `labels-${n}`, `Labels ${labels[0]!.mark} to ${labels.at(-1)!.mark}`, `L-${n}`, shapes);
  });
  return [...pages, pageOf(set, "labels-test", "Labels: test page", "L-test", drawTest(set))];
}

function pageOf(set: DryfitSet, key: string, title: string, label: string, shapes: Shape[]): Page {
  const { width, height } = set.paper.labels.page;
  const centre: Point = [width / 2, height / 2];
  const scaled = scalePage(shapes, centre, correction(set.paper.print));
  return { key, title, bookmark: [BOOKMARK, title], label, width, height, shapes: scaled };
}

function drawPlaced(set: DryfitSet, { mark, text: said, x, y }: SetLabel): Shape[] {
  return [
    ...(set.job.draft ? [drawDraft(set, x, y)] : []),
    group(drawLabel(set, partOf(set, mark), said), { move: [x, y] }),
  ];
}

/** On plain paper: every edge once, right across, so that two dashed lines never lie on each other. */
function drawCutLines({ paper }: DryfitSet): Shape[] {
  const { columns, rows, left, top, pitch, label, cutLines } = paper.labels;
  if (!cutLines) return [];
  const edges = (count: number, from: Mm, step: Mm, size: Mm): Mm[] => {
    const all = Array.from({ length: count }, (_, i) => [from + i * step, from + i * step + size]).flat();
    return all.filter((at, i) => all.findIndex((other) => isSame(other, at)) === i);
  };
  const across = edges(columns, left, pitch.x, label.width);
  const down = edges(rows, top, pitch.y, label.height);
  const [right, bottom] = [across.at(-1)!, down.at(-1)!];
  return [
    lines("cut", [
      ...across.map((x): [Point, Point] => [
        [x, top],
        [x, bottom],
      ]),
      ...down.map((y): [Point, Point] => [
        [left, y],
        [right, y],
      ]),
    ]),
  ];
}

const DRAFT_GREY = 0.86; // read through by eye and code reader alike

/** Under everything else; small enough to leave the code's quiet zone alone. */
function drawDraft(set: DryfitSet, x: number, y: number): Shape {
  const { height } = set.paper.labels.label;
  const size = height * 0.3;
  return text([x + 2, y + height / 2 + size / 2], "DRAFT", size, { weight: "bold", grey: DRAFT_GREY });
}

const BAR = 100;
const TICK = 2;

/** Outlines to hold against a sheet of labels before one is spoiled, and a check bar each way. */
function drawTest(set: DryfitSet): Shape[] {
  const format = set.paper.labels;
  const { label } = format;
  const outlines: Shape[] = [];
  for (let row = 0; row < format.rows; row++) {
    for (let column = 0; column < format.columns; column++) {
      const [x, y] = [format.left + column * format.pitch.x, format.top + row * format.pitch.y];
      outlines.push(rect("thin", { x, y, ...label }));
    }
  }
  const draft = set.job.draft ? "DRAFT. " : "";
  const advice = `${draft}Print this page at 100 % on plain paper and hold it against a page of labels (${format.name}): every outline must lie on a label, and both bars must measure ${BAR} mm.`;
  const width = label.width - 6;
  const told = wrapText(advice, LEAST_TEXT, "regular", width).map((content, i) =>
    text([format.left + 3, format.top + 5.5 + i * LEAST_TEXT * 1.5], content, LEAST_TEXT),
  );
  return [...outlines, ...told, ...drawBars(format)];
}

/** Across the middle labels; the bars may cross outlines, nothing has to be read there. */
function drawBars({ label, columns, rows, left, top, pitch, page }: DryfitSet["paper"]["labels"]): Shape[] {
  const x = left + Math.floor(columns / 2) * pitch.x + label.width * 0.85;
  const y = top + Math.floor(rows / 2) * pitch.y + label.height / 2;
  const [x0, x1] = [(page.width - BAR) / 2, (page.width + BAR) / 2];
  const [y0, y1] = [(page.height - BAR) / 2, (page.height + BAR) / 2];
  const name = `${BAR} mm`;
  const at = left + Math.floor(columns / 2) * pitch.x + label.width * 0.4;
  return [
    lines("bar", [
      [
        [x0, y],
        [x1, y],
      ],
      ...[x0, x1].map((end): [Point, Point] => [
        [end, y - TICK],
        [end, y + TICK],
      ]),
      [
        [x, y0],
        [x, y1],
      ],
      ...[y0, y1].map((end): [Point, Point] => [
        [x - TICK, end],
        [x + TICK, end],
      ]),
    ]),
    text([at, y - 1], `${name} across`, LEAST_TEXT, { anchor: "middle" }),
    text([x - 1, y + label.height * 0.25], `${name} down`, LEAST_TEXT, { anchor: "end" }),
  ];
}

/** labels.pdf: the labels where the plan put them, and last what is to be tried on plain paper. */
import { isSame, type Mm } from "../../base/length.ts";
import { group, lines, text } from "../../paper/draw.ts";
import type { Page, Point, Shape } from "../../paper/shape.ts";
import type { DryfitSet, SetLabel } from "../../set/schema.ts";
import { correction, UNPRINTED } from "../../set/stick-page.ts";
import { partOf } from "../../set/words.ts";
import { fitText, LEAST_TEXT } from "../draughting/fitting.ts";
import { correctionInWords, scalePage } from "../draughting/print-scale.ts";
import { drawLabel } from "./label.ts";
import { drawLabelTest } from "./label-test.ts";
import { drawRackLabel } from "./rack-label.ts";

const BOOKMARK = "Labels";

type Spot = NonNullable<SetLabel["spot"]>;
type RackPiece = DryfitSet["rack"][number];

/** What is printed: of a part, by its mark, or of an offcut for the rack. */
type Placed = { mark: string | null; spot: Spot; shapes: Shape[] };

const placedIn = (set: DryfitSet): Placed[] => [
  ...set.labels.flatMap(({ mark, text: said, spot }): Placed[] =>
    spot === null ? [] : [{ mark, spot, shapes: drawLabel(set, partOf(set, mark), said) }],
  ),
  ...set.rack.flatMap((piece): Placed[] =>
    piece.spot === null || piece.text === null
      ? []
      : [{ mark: null, spot: piece.spot, shapes: drawRackLabel(set, piece as RackPiece & { text: string }) }],
  ),
];

export function drawLabels(set: DryfitSet): Page[] {
  const placed = placedIn(set);
  const count = Math.max(0, ...placed.map(({ spot }) => spot.page));
  const pages = Array.from({ length: count }, (_, i) => i + 1).map((n): Page => {
    const labels = placed.filter(({ spot }) => spot.page === n);
    const title = titleOf(labels);
    const shapes = [
      ...drawCutLines(set),
      ...drawHeading(set, title),
      ...labels.flatMap((label) => drawPlaced(set, label)),
    ];
    return pageOf(set, `labels-${n}`, title, `L-${n}`, shapes);
  });
  const tests = drawLabelTest(set).map((shapes, i) => {
    const [key, label] = i === 0 ? ["labels-test", "L-test"] : [`labels-test-${i + 1}`, `L-test ${i + 1}`];
    return pageOf(set, key, "Labels: test page", label, shapes);
  });
  return [...pages, ...tests];
}

/** "Labels 13 to 18", "Labels 49, offcuts": short enough to leave the heading its room. */
function titleOf(labels: readonly Placed[]): string {
  const marks = labels.flatMap(({ mark }) => mark ?? []);
  const parts = marks.length === 0 ? "" : `Labels ${[...new Set([marks[0]!, marks.at(-1)!])].join(" to ")}`;
  const offcuts = labels.length === marks.length ? "" : "offcuts";
  return [parts, offcuts]
    .filter(Boolean)
    .join(", ")
    .replace(/^offcuts/, "Labels of offcuts");
}

/** Over the first row, where the page leaves room: what a label page says of itself is not on a label. */
function drawHeading({ job, paper }: DryfitSet, title: string): Shape[] {
  const { top, left, page, print } = paper.labels;
  const y = Math.min(top - HEADING_OVER, MOST_HEADING);
  const shrunk = page.height / 2 - (page.height / 2 - (y - LEAST_TEXT)) / print.y; // where a correction moves it to
  if (shrunk < UNPRINTED) return [];
  const draft = job.draft ? "DRAFT, not for cutting \u00B7 " : "";
  const said = `${draft}${job.number}, revision ${job.revision} \u00B7 ${title} \u00B7 print at 100 %${correctionInWords(print)}`;
  const x = Math.max(left, MOST_HEADING);
  const fitted = fitText(said, LEAST_TEXT, "regular", page.width - 2 * x);
  return [text([x, y], fitted.text, fitted.size)];
}

const HEADING_OVER: Mm = 1.4;
const MOST_HEADING: Mm = 10;

function pageOf(set: DryfitSet, key: string, title: string, label: string, shapes: Shape[]): Page {
  const { width, height } = set.paper.labels.page;
  const centre: Point = [width / 2, height / 2];
  const scaled = scalePage(shapes, centre, correction(set.paper.labels.print));
  return { key, title, bookmark: [BOOKMARK, title], label, width, height, shapes: scaled };
}

const drawPlaced = (set: DryfitSet, { spot: { x, y }, shapes }: Placed): Shape[] => [
  ...(set.job.draft ? [drawDraft(set, x, y)] : []),
  group(shapes, { move: [x, y] }),
];

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

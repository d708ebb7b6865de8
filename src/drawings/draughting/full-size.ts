/** A page drawn at full size: heading, check bars in both directions that no page can forget, turned to the paper, corrected for the printer. */
import type { Mm } from "../../base/length.ts";
import { group, lines, text } from "../../paper/draw.ts";
import { measureText } from "../../paper/lettering.ts";
import type { Page, Point, Shape } from "../../paper/shape.ts";
import type { DryfitSet } from "../../set/schema.ts";
import { correction, SIDE_BARS, stickPage } from "../../set/stick-page.ts";
import { fitText, LEAST_TEXT } from "./fitting.ts";
import { scalePage } from "./print-scale.ts";

export const BAR_MM: Mm = 100;
export const BAR_INCH: Mm = 101.6; // 4 in

const BARS = [
  { length: BAR_MM, name: "100 mm" },
  { length: BAR_INCH, name: "4 in" },
];

const TITLE: Mm = 3.5;
const TICK: Mm = 2; // half a bar's end line
const GAP: Mm = 6; // between two bars in a row

/** A page in its reading direction, before it is turned to the paper. */
export type FullSizeDraft = {
  key: string;
  title: string;
  bookmark: string[];
  shapes: Shape[];
};

export function fullSizePages(set: DryfitSet, drafts: FullSizeDraft[]): Page[] {
  const { direction, short } = stickPage(set.paper);
  const { width, height } = set.paper.sticks;
  const centre: Point = [width / 2, height / 2];
  return drafts.map((draft, i) => {
    const read = [...drawHeading(set, draft.title, i + 1, drafts.length), ...drawCheckBars(set), ...draft.shapes];
    const held = direction === "down" ? [group(read, { move: [short, 0], turn: -90 })] : read;
    return {
      key: draft.key,
      title: draft.title,
      bookmark: draft.bookmark,
      label: `S-${i + 1}`,
      width,
      height,
      shapes: scalePage(held, centre, correction(set.paper.print)),
    };
  });
}

function drawHeading(set: DryfitSet, title: string, n: number, count: number): Shape[] {
  const { job, paper } = set;
  const { margin, long } = stickPage(paper);
  const right = long - margin.u;
  const draft = job.draft ? "DRAFT, not for cutting \u00B7 " : "";
  const page = `revision ${job.revision} \u00B7 S-${n} of ${count}`;
  const pageWidth = measureText(page, TITLE, "bold");
  const name = fitText(
    `${draft}${job.number} \u00B7 ${job.title} \u00B7 ${title}`,
    TITLE,
    "bold",
    right - margin.u - pageWidth - GAP,
  );
  const { x, y } = paper.print;
  const corrected = x === 1 && y === 1 ? "" : ` Corrected for a printer that prints x at ${x} and y at ${y}.`;
  const advice = `Full size: print at 100 %, not fitted to the page. Measure the check bars both ways; if one is wrong, cut nothing by this page: see S-1.${corrected}`;
  const told = fitText(advice, LEAST_TEXT, "regular", right - margin.u);
  return [
    text([margin.u, margin.v + TITLE], name.text, name.size, { weight: "bold" }),
    text([right, margin.v + TITLE], page, TITLE, { weight: "bold", anchor: "end" }),
    text([margin.u, margin.v + TITLE + 4.2], told.text, told.size),
  ];
}

/** Which way of the paper a bar lies, as it is held: what is measured there goes under that letter. */
const barName = (name: string, axis: "x" | "y"): string => `${name}, along ${axis}`;

function drawCheckBars(set: DryfitSet): Shape[] {
  const page = stickPage(set.paper);
  const [alongU, alongV] = page.direction === "down" ? (["y", "x"] as const) : (["x", "y"] as const);
  const shapes: Shape[] = [];
  const v = page.short - page.margin.v - TICK;
  let u = page.margin.u;
  for (const { length, name } of BARS) {
    const label = barName(name, alongU);
    const room = measureText(label, LEAST_TEXT, "regular") / 2 + 1;
    const middle = u + length / 2;
    shapes.push(
      lines("bar", [
        [
          [u, v],
          [middle - room, v],
        ],
        [
          [middle + room, v],
          [u + length, v],
        ],
        [
          [u, v - TICK],
          [u, v + TICK],
        ],
        [
          [u + length, v - TICK],
          [u + length, v + TICK],
        ],
      ]),
      text([middle, v + LEAST_TEXT / 2], label, LEAST_TEXT, { anchor: "middle" }),
    );
    u += length + GAP;
  }
  let column = page.long - page.margin.u - TICK;
  const top = page.margin.v + 12;
  for (const { length, name } of BARS) {
    const label = barName(name, alongV);
    const room = measureText(label, LEAST_TEXT, "regular") / 2 + 1;
    const middle = top + length / 2;
    shapes.push(
      lines("bar", [
        [
          [column, top],
          [column, middle - room],
        ],
        [
          [column, middle + room],
          [column, top + length],
        ],
        [
          [column - TICK, top],
          [column + TICK, top],
        ],
        [
          [column - TICK, top + length],
          [column + TICK, top + length],
        ],
      ]),
      text([column + LEAST_TEXT / 2, middle], label, LEAST_TEXT, { anchor: "middle", turn: 90 }),
    );
    column -= SIDE_BARS / 2 - 2;
  }
  return shapes;
}

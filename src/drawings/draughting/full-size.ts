/** A page drawn at full size: heading, check bars in both directions that no page can forget, turned to the paper, corrected for the printer. */
import type { Mm } from "../../base/length.ts";
import { group, lines, text } from "../../paper/draw.ts";
import { measureText } from "../../paper/lettering.ts";
import type { Page, Point, Shape } from "../../paper/shape.ts";
import type { DryfitSet } from "../../set/schema.ts";
import { correction, SIDE_BARS, type StickPage, stickPage } from "../../set/stick-page.ts";
import { fitText, LEAST_TEXT } from "./fitting.ts";
import { correctionInWords, scalePage } from "./print-scale.ts";

const BAR_MM: Mm = 100;
const BAR_INCH: Mm = 101.6; // 4 in

const BARS = [
  { length: BAR_MM, name: "100 mm" },
  { length: BAR_INCH, name: "4 in" },
] as const;

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
  const room = right - margin.u - pageWidth - GAP;
  const whole = `${draft}${job.number} \u00B7 ${job.title} \u00B7 ${title}`;
  // What stands on the page matters more than the job's title, which its number stands for.
  const isRoomy = measureText(whole, LEAST_TEXT, "bold") <= room;
  const name = fitText(isRoomy ? whole : `${draft}${job.number} \u00B7 ${title}`, TITLE, "bold", room);
  const advice = `Full size: print at 100 %, not fitted to the page${correctionInWords(paper.print)}. Measure the check bars both ways; if one is wrong, cut nothing by this page: see S-1.`;
  const told = fitText(advice, LEAST_TEXT, "regular", right - margin.u);
  return [
    text([margin.u, margin.v + TITLE], name.text, name.size, { weight: "bold" }),
    text([right, margin.v + TITLE], page, TITLE, { weight: "bold", anchor: "end" }),
    text([margin.u, margin.v + TITLE + 4.2], told.text, told.size),
  ];
}

/** Which way of the paper a bar lies, as it is held: what is measured there goes under that letter. */
export const barName = (name: string, axis: "x" | "y"): string => `${name}, along ${axis}`;

/** A bar along u from `at`, with its label on its line. */
export function levelBar([u, v]: Point, length: Mm, label: string): Shape[] {
  const room = measureText(label, LEAST_TEXT, "regular") / 2 + 1;
  const middle = u + length / 2;
  const segments: [Point, Point][] = [
    [
      [u, v],
      [middle - room, v],
    ],
    [
      [middle + room, v],
      [u + length, v],
    ],
    ...[u, u + length].map((end): [Point, Point] => [
      [end, v - TICK],
      [end, v + TICK],
    ]),
  ];
  return [lines("bar", segments), text([middle, v + LEAST_TEXT / 2], label, LEAST_TEXT, { anchor: "middle" })];
}

/** A bar across the page, v running down from `at`. */
export function uprightBar([u, v]: Point, length: Mm, label: string): Shape[] {
  const room = measureText(label, LEAST_TEXT, "regular") / 2 + 1;
  const middle = v + length / 2;
  const segments: [Point, Point][] = [
    [
      [u, v],
      [u, middle - room],
    ],
    [
      [u, middle + room],
      [u, v + length],
    ],
    ...[v, v + length].map((end): [Point, Point] => [
      [u - TICK, end],
      [u + TICK, end],
    ]),
  ];
  const named = text([u + LEAST_TEXT / 2, middle], label, LEAST_TEXT, { anchor: "middle", turn: 90 });
  return [lines("bar", segments), named];
}

const axesOf = (page: StickPage): ["x" | "y", "x" | "y"] => (page.direction === "down" ? ["y", "x"] : ["x", "y"]);

const BELOW_HEADING: Mm = 12;

function drawCheckBars(set: DryfitSet): Shape[] {
  const page = stickPage(set.paper);
  const [alongU, alongV] = axesOf(page);
  const [first, second] = BARS;
  const v = page.short - page.margin.v - TICK;
  const u = page.long - page.margin.u - TICK;
  const top = page.margin.v + BELOW_HEADING;
  return [
    ...levelBar([page.margin.u, v], first.length, barName(first.name, alongU)),
    ...levelBar([page.margin.u + first.length + GAP, v], second.length, barName(second.name, alongU)),
    ...uprightBar([u, top], first.length, barName(first.name, alongV)),
    ...uprightBar([u - SIDE_BARS / 2 + 2, top], second.length, barName(second.name, alongV)),
  ];
}

const LONG_BARS = [
  { length: 254, name: "10 in" },
  { length: 250, name: "250 mm" },
] as const;

/** How much of the print check's height the long bars along the page take. */
export const LONG_BARS_HEIGHT: Mm = 14;

/** Longer bars tell a wrong scale more surely: both along the page and one across it, where they fit. `foot`: where the page's own bars begin. */
export function drawLongBars(set: DryfitSet, foot: Mm): Shape[] {
  const page = stickPage(set.paper);
  const [alongU, alongV] = axesOf(page);
  const top = page.margin.v + BELOW_HEADING;
  const level = LONG_BARS.filter(({ length }) => page.margin.u + length <= page.long - page.margin.u);
  const across = LONG_BARS.find(({ length }) => top + length <= page.short - page.margin.v);
  return [
    ...level.flatMap(({ length, name }, i) =>
      levelBar([page.margin.u, foot - TICK - i * (LONG_BARS_HEIGHT / 2)], length, barName(name, alongU)),
    ),
    ...(across === undefined
      ? []
      : uprightBar([page.long - page.margin.u - SIDE_BARS + TICK, top], across.length, barName(across.name, alongV))),
  ];
}

/** S-1: how to print, check, cut and join the sticks, and the map of their pages. */
import { formatLengthWithUnit, MM_PER_INCH, type Mm, type Unit } from "../../base/length.ts";
import { fill, lines, rect, rectSteps, text } from "../../paper/draw.ts";
import { measureText } from "../../paper/lettering.ts";
import type { Rect, Shape } from "../../paper/shape.ts";
import type { DryfitSet, SetStick } from "../../set/schema.ts";
import { fitText, LEAST_TEXT, LINE_SPACING, wrapText } from "../draughting/fitting.ts";
import { drawLongBars, LONG_BARS_HEIGHT } from "../draughting/full-size.ts";

const TEXT: Mm = 2.8;
const HEAD: Mm = 4;
const COLUMN_GAP: Mm = 8;
const MAP_ROW: Mm = 10;
const LEAST_MAP_ROW: Mm = 7.2; // white between a bar and the next stick's name

const ADVICE = [
  "Print sticks.pdf at 100 %, on the paper it was made for. Fitting to the page shrinks it by 4 to 6 %.",
  "Measure the check bars of every page, in both directions, with the rule you will use at the saw.",
  "If a bar is wrong, enter what the bars measure as print, below, under paper in the project, or for every job of the shop in shared/paper.json; build again, and print this page first.",
  "Cut each strip along its long dashed lines. At a join, cut one strip along the dashed end and lay it over the other, letter to the same letter, so that lines and crosses meet. Tape it.",
  "Measure the finished strip over all: the total stands at its far end and below.",
  "Zero goes to the part's own end: a flag shows at each end line into which part it looks, and figures count from that part's own end.",
  "A groove has two lines, with a cross between: the cross is cut away. Two lines with a box between show where the end of a frame's member lies: nothing is cut there. The bold number inside is the part that enters; the figures name the parts that take the groove. A small arrowhead beside a figure points to its line.",
  "A star stands where figures had no room: they are in the columns of figures, on the last pages.",
];

const HOLE_ADVICE =
  "A short line with a ring is the middle of a hole, in those parts alone whose marks stand by the row's first and last hole.";

const CORRECTED =
  "These pages are corrected already. To measure the printer anew take print out, build, and measure the bars of that S-1.";

function adviceFor({ drilling, paper, reprint }: DryfitSet): string[] {
  const gone = reprint?.withdrawnSticks ?? [];
  return [
    ...ADVICE,
    ...(drilling.length > 0 ? [HOLE_ADVICE] : []),
    ...(paper.print.x === 1 && paper.print.y === 1 ? [] : [CORRECTED]),
    ...(gone.length === 0
      ? []
      : [`Throw away of revision ${reprint!.revision}: ${gone.join(", ")}. They are no longer true.`]),
  ];
}

export function drawStickCheck(set: DryfitSet, space: Rect): Shape[] {
  const width = (space.width - COLUMN_GAP) / 2;
  const height = space.height - LONG_BARS_HEIGHT;
  const left: Rect = { ...space, width, height };
  const right: Rect = { ...space, x: space.x + width + COLUMN_GAP, width, height: height - EFFECT_HEIGHT };
  return [
    ...drawAdvice(set, left),
    ...drawMap(set, right),
    ...drawEffect(set, { ...right, y: right.y + right.height, height: EFFECT_HEIGHT }),
    ...drawLongBars(set, space.y + space.height),
  ];
}

function drawAdvice(set: DryfitSet, { x, y, width, height }: Rect): Shape[] {
  const shapes: Shape[] = [text([x, y + HEAD], "Before you cut by these pages", HEAD, { weight: "bold" })];
  let at = y + HEAD + 3;
  adviceFor(set).forEach((advice, i) => {
    wrapText(advice, TEXT, "regular", width - 6).forEach((content, n) => {
      at += TEXT * LINE_SPACING;
      if (n === 0) shapes.push(text([x, at], `${i + 1}`, TEXT, { weight: "bold" }));
      shapes.push(text([x + 6, at], content, TEXT));
    });
    at += 1.6;
  });
  return at + 2 + BOXES_HEIGHT > y + height ? shapes : [...shapes, ...drawBoxes(x, at + 2)];
}

const BARS = ["100 mm", "4 in"] as const;
const BOX: Mm = 20; // to write in
const BOX_ROW: Mm = 9;
const BOXES_HEIGHT: Mm = 2 * BOX_ROW + 6;

/** Boxes for the four readings, set out as they are entered: x across the paper as it is held, y down it. */
function drawBoxes(x: Mm, y: Mm): Shape[] {
  const shapes: Shape[] = [];
  const put = (at: Mm, base: Mm, said: string): Mm => {
    shapes.push(text([at, base], said, TEXT));
    return at + measureText(said, TEXT, "regular") + 1.5;
  };
  put(x, y + TEXT, '"print": {');
  (["x", "y"] as const).forEach((axis, i) => {
    const top = y + 5 + i * BOX_ROW;
    let at = put(x + 4, top + 5, `"${axis}": {`);
    BARS.forEach((bar, n) => {
      at = put(at, top + 5, `"${bar}": "`);
      shapes.push(rect("thin", { x: at, y: top, width: BOX, height: 7 }));
      at = put(at + BOX + 1, top + 5, n === 0 ? `${bar.slice(-2)}",` : `${bar.slice(-2)}" }${i === 0 ? "," : " }"}`);
    });
  });
  return shapes;
}

const WRONG = [0.94, 0.96, 0.984, 0.995, 1.02];
const EFFECT_ROW = TEXT * LINE_SPACING;

/** What a wrong scale does to the longest stick: so many percent mean nothing until they are lengths. */
function drawEffect({ sticks, job: { unit } }: DryfitSet, { x, y, width }: Rect): Shape[] {
  const longest = [...sticks].sort((a, b) => b.length - a.length)[0];
  if (longest === undefined) return [];
  const title = `If printed wrong, ${longest.name}, ${formatLengthWithUnit(longest.length, unit)}, is`;
  const head = fitText(title, TEXT, "bold", width);
  const told = WRONG.map((scale) => {
    const off = nearly(Math.abs(1 - scale) * longest.length, unit);
    return `at ${Number((scale * 100).toFixed(1))} %: ${off} ${scale < 1 ? "short" : "long"}`;
  });
  const column = Math.max(...told.map((one) => measureText(one, TEXT, "regular"))) + 6;
  const columns = Math.max(1, Math.floor(width / column));
  return [
    text([x, y + TEXT], head.text, head.size, { weight: "bold" }),
    ...told.map((one, i) =>
      text([x + (i % columns) * column, y + TEXT + EFFECT_ROW * (1.1 + Math.floor(i / columns))], one, TEXT),
    ),
  ];
}
const EFFECT_HEIGHT = TEXT + 4 * EFFECT_ROW;

/** To the nearest sixteenth or millimetre: how far off, not a length to cut. */
const nearly = (off: Mm, unit: Unit): string => {
  const step = unit === "in" ? MM_PER_INCH / 16 : 1;
  return formatLengthWithUnit(Math.max(1, Math.round(off / step)) * step, unit);
};

const NAME_LINE = LEAST_TEXT + 1.6;

/** Every stick as a bar, cut where its tiles are, with the page of each. */
function drawMap(set: DryfitSet, { x, y, width, height }: Rect): Shape[] {
  const top = y + HEAD + 4;
  const room = height - (top - y);
  const pitch = Math.max(LEAST_MAP_ROW, Math.min(MAP_ROW, room / set.sticks.length));
  const shown = set.sticks.slice(0, Math.floor((room + 1e-6) / pitch));
  const isCut = shown.length < set.sticks.length;
  const mapped = isCut ? shown.slice(0, -1) : shown;
  const longest = Math.max(0, ...set.sticks.map(({ length }) => length));
  const shapes: Shape[] = [text([x, y + HEAD], "The sticks and their pages", HEAD, { weight: "bold" })];
  mapped.forEach((stick, i) => {
    shapes.push(...drawMapRow(set, stick, x, top + i * pitch, width, (width * stick.length) / longest));
  });
  if (isCut) {
    shapes.push(
      text(
        [x, top + mapped.length * pitch + LEAST_TEXT + 1],
        "The other sticks: see the columns of figures",
        LEAST_TEXT,
      ),
    );
  }
  return shapes;
}

function drawMapRow(set: DryfitSet, stick: SetStick, x: Mm, y: Mm, width: Mm, length: Mm): Shape[] {
  const said = `${stick.name}: ${formatLengthWithUnit(stick.length, set.job.unit)}, parts ${stick.parts.map(({ mark }) => mark).join(", ")}`;
  const named = fitText(said, LEAST_TEXT, "regular", width);
  if (stick.tiles.length === 0) {
    const kept = fitText(
      `as it is: still true since revision ${set.reprint?.revision ?? ""}`,
      LEAST_TEXT,
      "regular",
      width,
    );
    return [
      text([x, y + LEAST_TEXT], named.text, named.size),
      text([x + 3, y + 2 * LEAST_TEXT + 1.6], kept.text, kept.size),
    ];
  }
  const bar = { x, y: y + NAME_LINE - 0.6, width: Math.max(length, stick.tiles.length * 9), height: LEAST_TEXT + 0.8 };
  const step = bar.width / stick.tiles.length;
  return [
    text([x, y + LEAST_TEXT], named.text, named.size),
    rect("thin", bar),
    fill(0, rectSteps({ ...bar, width: 0.8 })), // the zero end
    lines(
      "thin",
      stick.tiles.slice(1).map((_, i) => [
        [x + (i + 1) * step, bar.y],
        [x + (i + 1) * step, bar.y + bar.height],
      ]),
    ),
    ...stick.tiles.map((tile, i) =>
      text([x + (i + 0.5) * step, bar.y + bar.height - 0.4], `S-${tile.page}`, LEAST_TEXT, { anchor: "middle" }),
    ),
  ];
}

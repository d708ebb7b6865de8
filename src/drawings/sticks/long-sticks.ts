/** Each stick whole on one long page: as an SVG at its true size, and in sticks-long.pdf for a printer that takes a roll. */
import { formatLengthWithUnit, type Mm } from "../../base/length.ts";
import { group, text } from "../../paper/draw.ts";
import type { Page, Shape } from "../../paper/shape.ts";
import type { DryfitSet, SetStick } from "../../set/schema.ts";
import { correction, LONG_MARGIN, OVERLAP } from "../../set/stick-page.ts";
import { fitText, LEAST_TEXT } from "../draughting/fitting.ts";
import { barName, levelBar, uprightBar } from "../draughting/full-size.ts";
import { correctionInWords, scalePage } from "../draughting/print-scale.ts";
import type { Strip } from "./stick-lettering.ts";
import { drawStrip } from "./stick-strip.ts";
import { joinLetters } from "./stick-words.ts";
import { BOOKMARK } from "./sticks.ts";

const HEAD: Mm = 12;
const STRIP: Mm = 40;
const FOOT: Mm = 8;
const HEIGHT: Mm = 2 * HEAD + STRIP + FOOT;

const isPrinted = ({ tiles }: SetStick): boolean => tiles.length > 0;

/** Uncorrected, each in one piece however long. */
export const drawLongSticks = (set: DryfitSet): Page[] =>
  set.sticks.filter(isPrinted).map((stick) => {
    const strip: Strip = { stick, from: 0, to: stick.length, height: STRIP, joins: [], name: [stick.name] };
    const key = `stick-${set.sticks.indexOf(stick) + 1}-${fileName(stick.name)}`;
    return pageOf(set, strip, key, stick.name, "");
  });

/** Corrected for the roll's printer; in pieces where no page of a PDF is long enough. */
export function drawRollSticks(set: DryfitSet): Page[] {
  let joined = 0;
  return set.sticks.filter(isPrinted).flatMap((stick) => {
    const letters = stick.long.slice(1).map(() => joinLetters(joined++));
    return stick.long.map(({ from, to }, i): Page => {
      const joins: Strip["joins"] = [
        ...(i === 0 ? [] : [{ at: from + OVERLAP / 2, letter: letters[i - 1]!, side: "low" as const }]),
        ...(i === letters.length ? [] : [{ at: to - OVERLAP / 2, letter: letters[i]!, side: "high" as const }]),
      ];
      const isWhole = stick.long.length === 1;
      const name = isWhole ? stick.name : `${stick.name}, ${i + 1} of ${stick.long.length}`;
      const why = isWhole
        ? ""
        : ` \u00B7 in ${stick.long.length} pieces: no page of a PDF is longer than 200 in, 5080 mm`;
      const key = `roll-${set.sticks.indexOf(stick) + 1}-${i + 1}`;
      const strip: Strip = { stick, from, to, height: STRIP, joins, name: [name] };
      const page = pageOf(set, strip, key, name, `${correctionInWords(set.paper.roll)}${why}`);
      return scaled(page, correction(set.paper.roll));
    });
  });
}

function pageOf(set: DryfitSet, strip: Strip, key: string, name: string, more: string): Page {
  const { job } = set;
  const length = strip.to - strip.from;
  const draft = job.draft ? "DRAFT, not for cutting \u00B7 " : "";
  const whole = formatLengthWithUnit(strip.stick.length, job.unit);
  const said = `${draft}${job.number} \u00B7 ${job.title} \u00B7 ${name}, ${whole} \u00B7 revision ${job.revision} \u00B7 Full size: print at 100 %${more}`;
  const advice = fitText(said, LEAST_TEXT, "bold", length);
  return {
    key,
    title: `Stick: ${name}`,
    bookmark: [BOOKMARK, name],
    label: name,
    width: length + 2 * LONG_MARGIN,
    height: HEIGHT,
    shapes: [
      text([LONG_MARGIN, HEAD - 4], advice.text, advice.size, { weight: "bold" }),
      group(drawStrip(set, strip), { move: [LONG_MARGIN, HEAD] }),
      ...drawBars(length),
    ],
  };
}

/** A page whose shapes a correction makes larger grows with them. */
function scaled(page: Page, scale: { x: number; y: number }): Page {
  const [width, height] = [page.width * Math.max(1, scale.x), page.height * Math.max(1, scale.y)];
  const move: [Mm, Mm] = [(width - page.width) / 2, (height - page.height) / 2];
  const shapes = scalePage([group(page.shapes, { move })], [width / 2, height / 2], scale);
  return { ...page, width, height, shapes };
}

const ACROSS: Mm = 50; // what the page holds beside the strip's end, across
const BESIDE: Mm = 6; // from the strip's end, clear of what is cut off there and of the page's edge

/** The whole hundreds of millimetres that the stick holds, tens of a short one: the longer the bar, the surer the check. And one across. */
function drawBars(length: Mm): Shape[] {
  const step = length < 100 ? 10 : 100;
  const bar = Math.floor(length / step) * step;
  const foot = HEAD + STRIP + FOOT;
  return [
    ...(bar < LEAST_BAR ? [] : levelBar([LONG_MARGIN, foot], bar, barName(`${bar} mm`, "x"))),
    ...uprightBar([LONG_MARGIN + length + BESIDE, HEAD - 1], ACROSS, barName(`${ACROSS} mm`, "y")),
  ];
}

/** A shorter one would not hold its name. */
const LEAST_BAR: Mm = 40;

/** Lower-case letters, digits and hyphens: safe in every file system and in an address. */
const fileName = (name: string): string =>
  name
    .toLowerCase()
    .replace(/[^a-z0-9]+/g, "-")
    .replace(/^-|-$/g, "");

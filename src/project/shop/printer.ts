/** What a printer was measured to do, per axis: by name from the shop's list, as scales, or as what its check bars measure. */
import { MM_PER_INCH, type Mm } from "../../base/length.ts";
import { lengthOf } from "../../base/parse-length.ts";
import type { Problem } from "../../base/problem.ts";
import { inputProblem } from "../file/problems.ts";
import type { Source } from "../file/source.ts";
import { quote } from "../file/words.ts";
import type { PaperFile, PrinterEntry } from "../schema/shop.ts";
import { unknownName } from "./paper-size.ts";

export type Printed = { x: number; y: number };

const TRUE: Printed = { x: 1, y: 1 };

const BARS = {
  "100 mm": { length: 100, unit: "mm" },
  "4 in": { length: 4 * MM_PER_INCH, unit: "in" },
  "250 mm": { length: 250, unit: "mm" },
  "10 in": { length: 10 * MM_PER_INCH, unit: "in" },
} as const;
type Bar = keyof typeof BARS;

/** Two bars of one axis that part by more were not both measured well: half a millimetre on the 100 mm bar. */
const PARTED = 0.005;
const FARTHEST = 0.1; // what no printer does

export function printerOf(
  wish: string | PrinterEntry | undefined,
  path: string,
  shop: Pick<PaperFile, "printers">,
  source: Source,
  problems: Problem[],
): Printed {
  if (wish === undefined) return TRUE;
  if (typeof wish !== "string") return printedOf(wish, path, source, problems);
  const entry = Object.hasOwn(shop.printers ?? {}, wish) ? shop.printers?.[wish] : undefined;
  if (entry !== undefined) return printedOf(entry, path, source, problems);
  const known = Object.keys(shop.printers ?? {});
  problems.push(
    known.length === 0 ? noPrinters(wish, path, source) : unknownName("printer", wish, known, path, source),
  );
  return TRUE;
}

const noPrinters = (name: string, path: string, source: Source): Problem =>
  inputProblem(
    source,
    path,
    `there is no printer ${quote(name)}, nor any other`,
    "a printer of shared/paper.json, or what its check bars measure",
    'enter it there under "printers", or give x and y',
  );

export const printedOf = (entry: PrinterEntry, path: string, source: Source, problems: Problem[]): Printed => ({
  x: scaleOf(entry.x, `${path}.x`, source, problems),
  y: scaleOf(entry.y, `${path}.y`, source, problems),
});

/** Of several bars, the scale whose bars lie nearest to those measured: least squares, so that the longer bar says more. */
function scaleOf(entry: PrinterEntry["x"], path: string, source: Source, problems: Problem[]): number {
  if (entry === undefined) return 1;
  if (typeof entry === "number") return entry;
  const readings = (Object.keys(BARS) as Bar[]).flatMap((bar) => {
    const written = entry[bar];
    return written === undefined ? [] : [{ bar, ...BARS[bar], measured: lengthOf(written, BARS[bar].unit) }];
  });
  const scales = readings.map(({ measured, length }) => measured / length);
  const far = readings.find((_, i) => Math.abs(scales[i]! - 1) > FARTHEST);
  if (far !== undefined) {
    problems.push(
      inputProblem(
        source,
        `${path}.${far.bar}`,
        `the ${far.bar} bar measured as ${plain(far.measured, far.unit)}`,
        "what the bar measures, within a tenth of its length",
        "measure again from end line to end line, and check the unit",
      ),
    );
    return 1;
  }
  if (Math.max(...scales) - Math.min(...scales) > PARTED) {
    problems.push(
      inputProblem(
        source,
        path,
        `bars along one axis that disagree: ${readings.map(({ bar, measured, unit }) => `${bar} measured as ${plain(measured, unit)}`).join(", ")}`,
        "bars of one page, each measured from end line to end line",
        "measure both again with one rule, or give the better one alone",
      ),
    );
  }
  const sum = (of: (reading: (typeof readings)[number]) => number): number =>
    readings.reduce((total, one) => total + of(one), 0);
  const squares = sum(({ length }) => length ** 2);
  return squares === 0 ? 1 : sum(({ measured, length }) => measured * length) / squares;
}

const plain = (length: Mm, unit: "in" | "mm"): string =>
  `${Number((unit === "in" ? length / MM_PER_INCH : length).toFixed(3))} ${unit}`;

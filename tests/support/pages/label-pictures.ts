/** Labels of one format as pictures: as printed at 203, 300 and 600 dpi, and spoiled the way a telephone sees them. */
import { MM_PER_INCH, type Mm } from "../../../src/base/length.ts";
import { drawLabels } from "../../../src/drawings/labels/labels.ts";
import { planLabels } from "../../../src/plans/labels.ts";
import { planRack } from "../../../src/plans/sheets/rack.ts";
import { GOOD_MODULE, insetsOf, moduleSize } from "../../../src/set/label-page.ts";
import { qrMatrix } from "../../../src/set/qr.ts";
import type { DryfitSet, SetPart } from "../../../src/set/schema.ts";
import { writePdf } from "../../../src/writers/pdf.ts";
import { EXAMPLES, everyExample, exampleFile, setOf } from "../jobs/examples.ts";
import { IS_WHOLE, SEED } from "../runs.ts";
import { spoiled } from "./codes.ts";
import { FORMAT_NAMES, formatCalled } from "./label-formats.ts";
import { openPdf } from "./pdf.ts";
import type { Raster } from "./raster.ts";
import { rasteriseWindow, type Window } from "./window.ts";

/** Hard to letter and to read: every sort of writing the lettering has, and quotes that a reader could stumble over. */
const NAMES = [
  "shelf",
  `"upper" shelf, O'Brien's \\ 100 % <b>&amp;`,
  "\u00E9tag\u00E8re d\u2019angle, \u0141\u00F3d\u017A, gro\u00DFe T\u00FCr",
  "\u03C1\u03AC\u03C6\u03B9 \u03C0\u03AC\u03BD\u03C9 \u03B1\u03C1\u03B9\u03C3\u03C4\u03B5\u03C1\u03AC",
  "the shelf over the wheel that holds the bats, throwing tools and the wet sponges, up",
];

/** The examples' parts, some with names that are hard; all of them, or one. */
function renamedParts(set: DryfitSet, n: number): SetPart[] {
  const named = set.parts.map((part, i) => (i < NAMES.length ? { ...part, name: NAMES[i]! } : part));
  return IS_WHOLE ? named : [named[n % NAMES.length]!];
}

/** Every example in that format, or one by turns, with hard names; `labels` of a set are those to look at. */
export function labelledSets(name: string): DryfitSet[] {
  const n = FORMAT_NAMES.indexOf(name);
  const examples = IS_WHOLE ? everyExample() : [EXAMPLES[n % EXAMPLES.length]!];
  return examples.map((example) => labelled(setOf(exampleFile(example)), name));
}

function labelled(example: DryfitSet, name: string): DryfitSet {
  const n = FORMAT_NAMES.indexOf(name);
  const renamed = renamedParts(example, n);
  const parts = example.parts.map((part) => renamed.find(({ mark }) => mark === part.mark) ?? part);
  const set = { ...example, parts, paper: { ...example.paper, labels: formatCalled(name) } };
  const labels = planLabels({ ...set, parts: renamed });
  const rack = planRack(set, labels.length, []);
  return { ...set, labels, rack: IS_WHOLE ? rack : rack.slice(0, n % 3 === 0 ? 1 : 0) };
}

export const PLAIN = [203, 300, 600];
const PER_MM = [12, 6]; // of a spoiled picture; the coarse one for modules of 0.5 mm and more
/** Each of them, or one by turns. */
const some = <T>(all: T[], n: number): T[] => (IS_WHOLE ? all : [all[n % all.length]!]);
const GAIN = 0.1; // of a module, over both its edges

/** `of`: the part or the offcut. */
export type LabelPicture = { of: string; text: string; what: string; raster: Raster };

type Label = { of: string; text: string; spot: NonNullable<DryfitSet["labels"][number]["spot"]> };

/** What is printed: every part's label, and those of offcuts for the rack. */
export const printedIn = ({ labels, rack }: Pick<DryfitSet, "labels" | "rack">): Label[] => [
  ...labels.flatMap(({ mark, text, spot }) => (spot === null ? [] : [{ of: `part ${mark}`, text, spot }])),
  ...rack.flatMap(({ label, text, spot }) =>
    text === null || spot === null ? [] : [{ of: `offcut ${label}`, text, spot }],
  ),
];

/** The code stands at the label's right; what is beside it would only be more to blur. `size`: of a module. */
export function codeOf(
  { text, spot }: Label,
  labels: DryfitSet["paper"]["labels"],
): { page: number; size: Mm; window: Window } {
  const { modules } = qrMatrix(text)!;
  const size = moduleSize(labels, modules)!;
  const side = (modules + 8) * size + 2;
  const x = Math.max(0, spot.x + labels.label.width - insetsOf(labels).right - side);
  return { page: spot.page, size, window: { x, y: Math.max(0, spot.y), width: side, height: labels.label.height } };
}

/** Each label of a set as it lies on the pages of `bytes`, at the resolutions. */
async function* printedLabels(
  set: DryfitSet,
  bytes: Uint8Array,
  dpis: readonly number[],
): AsyncGenerator<LabelPicture> {
  const pdf = await openPdf(bytes);
  for (const label of printedIn(set)) {
    const { page, window } = codeOf(label, set.paper.labels);
    for (const dpi of dpis) {
      const { raster } = await rasteriseWindow(pdf, page, dpi, window);
      yield { of: label.of, text: label.text, what: `at ${dpi} dpi`, raster };
    }
  }
  await pdf.destroy();
}

async function* spoiledLabels(set: DryfitSet, bytes: Uint8Array, n: number): AsyncGenerator<LabelPicture> {
  const pdf = await openPdf(bytes);
  for (const [i, label] of printedIn(set).entries()) {
    const { page, size, window } = codeOf(label, set.paper.labels);
    const perMms = PER_MM.filter((one) => one === 12 || size >= GOOD_MODULE);
    for (const perMm of some(perMms, n)) {
      const { raster } = await rasteriseWindow(pdf, page, perMm * MM_PER_INCH, window);
      const seed = SEED + i;
      const spoiling = { gain: (GAIN * size * perMm) / 2, turn: 15, blur: 0.8, noise: 8, seed };
      const what = `spoiled, at ${perMm} px/mm`;
      yield { of: label.of, text: label.text, what, raster: spoiled(raster, spoiling) };
    }
  }
  await pdf.destroy();
}

/** A format's labels as printed, and spoiled. */
export async function* labelPictures(name: string): AsyncGenerator<LabelPicture> {
  const n = FORMAT_NAMES.indexOf(name);
  for (const set of labelledSets(name)) {
    const { dpi } = set.paper.labels;
    const bytes = await writePdf({ title: "t", subject: "s", date: set.job.date, pages: drawLabels(set) });
    yield* printedLabels(set, bytes, some(dpi === null ? PLAIN : [dpi, ...PLAIN], n));
    yield* spoiledLabels(set, bytes, n);
  }
}

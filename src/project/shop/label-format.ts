/** Label formats: by name from the shop's list, or by what differs for the pack in hand. */
import { type Mm, SAME, type Unit } from "../../base/length.ts";
import { lengthOf } from "../../base/parse-length.ts";
import type { Problem } from "../../base/problem.ts";
import { inputProblem } from "../file/problems.ts";
import type { Source } from "../file/source.ts";
import { choice } from "../file/words.ts";
import type { LabelFormat, PaperSize } from "../paper.ts";
import type { PaperFile, PaperOverrides } from "../schema/shop.ts";
import { NO_PAPER, shopSize, unknownName } from "./paper-size.ts";
import { type Printed, printedOf } from "./printer.ts";

type LabelWish = NonNullable<PaperOverrides["labels"]>;
type LabelEntry = PaperFile["labels"][string];

const LEAST_LABEL = { width: 38, height: 21 }; // a mark in large figures beside a code of the smallest modules

function entryInMm(entry: Partial<LabelEntry>, unit: Unit): Partial<Omit<LabelFormat, "name" | "page">> {
  const mm = (value: number | string): Mm => lengthOf(value, unit);
  const { columns, rows, label, left, top, pitch, cutLines, dpi } = entry;
  return {
    ...(columns !== undefined && { columns }),
    ...(rows !== undefined && { rows }),
    ...(label !== undefined && { label: { width: mm(label.width), height: mm(label.height) } }),
    ...(left !== undefined && { left: mm(left) }),
    ...(top !== undefined && { top: mm(top) }),
    ...(pitch !== undefined && { pitch: { x: mm(pitch.x), y: mm(pitch.y) } }),
    ...(cutLines !== undefined && { cutLines }),
    ...(dpi !== undefined && { dpi }),
  };
}

const NO_LABELS: LabelFormat = {
  name: "",
  page: NO_PAPER,
  columns: 0,
  rows: 0,
  label: { width: 0, height: 0 },
  left: 0,
  top: 0,
  pitch: { x: 0, y: 0 },
  cutLines: false,
  start: 1,
  dpi: null,
  print: { x: 1, y: 1 },
};

export function labelsOf(
  wish: LabelWish,
  print: Printed,
  shop: PaperFile,
  source: Source,
  unit: Unit,
  problems: Problem[],
): LabelFormat {
  const path = "paper.labels";
  const name = typeof wish === "string" ? wish : wish.format;
  const own = typeof wish === "string" ? {} : wish;
  const base = name !== undefined && Object.hasOwn(shop.labels, name) ? shop.labels[name] : undefined;
  if (name !== undefined && base === undefined) {
    const at = typeof wish === "string" ? path : `${path}.format`;
    problems.push(unknownName("label format", name, Object.keys(shop.labels), at, source));
    return NO_LABELS;
  }
  const paper = own.paper ?? base?.paper;
  const {
    columns,
    rows,
    label,
    left,
    top,
    pitch,
    cutLines = false,
    dpi = null,
  } = {
    ...(base === undefined ? {} : entryInMm(base, shop.unit)),
    ...entryInMm(own as Partial<LabelEntry>, unit),
  };
  if (
    paper === undefined ||
    columns === undefined ||
    rows === undefined ||
    label === undefined ||
    left === undefined ||
    top === undefined ||
    pitch === undefined
  ) {
    problems.push(
      inputProblem(
        source,
        path,
        "the label format is not complete",
        '"paper", "columns", "rows", "label", "left", "top" and "pitch", or a "format" to start from',
        `add what is missing, or "format": one of ${choice(Object.keys(shop.labels))}`,
      ),
    );
    return NO_LABELS;
  }
  const page = pageOf(paper, own.paper === undefined ? shop.unit : unit, shop);
  if (page === null) {
    problems.push(unknownName("paper size", String(paper), Object.keys(shop.sizes), `${path}.paper`, source));
    return NO_LABELS;
  }
  const scale = own.scale ?? base?.scale;
  const format: LabelFormat = {
    name: name ?? `${page.name} ${columns} x ${rows}`,
    page,
    columns,
    rows,
    label,
    left,
    top,
    pitch,
    cutLines,
    start: own.start ?? 1,
    dpi,
    // A label printer is another printer than that of the sticks.
    print: scale !== undefined ? printedOf(scale, `${path}.scale`, source, problems) : dpi === null ? print : TRUE,
  };
  problems.push(...checkLabels(format, path, source));
  const offset = own.offset ?? {};
  const moved = (at: Mm, job: number | string | undefined, shopOffset: number | string | undefined): Mm =>
    at + (job !== undefined ? lengthOf(job, unit) : shopOffset !== undefined ? lengthOf(shopOffset, shop.unit) : 0);
  return { ...format, left: moved(left, offset.x, base?.offset?.x), top: moved(top, offset.y, base?.offset?.y) };
}

const TRUE: Printed = { x: 1, y: 1 };

/** A single label's own size, or a paper of the shop's list; null where that has no such name. */
function pageOf(paper: LabelEntry["paper"], unit: Unit, shop: PaperFile): PaperSize | null {
  if (typeof paper === "string") return shopSize(paper, shop);
  const [width, height] = [lengthOf(paper.width, unit), lengthOf(paper.height, unit)];
  return { name: `${plain(width)} x ${plain(height)} mm`, width, height };
}

const plain = (length: Mm): number => Number(length.toFixed(1));

/** Labels that run off the page or into each other, or that hold no figure that can be read. */
function checkLabels(format: LabelFormat, path: string, source: Source): Problem[] {
  const { page, columns, rows, label, left, top, pitch } = format;
  const fits = (from: Mm, count: number, step: Mm, size: Mm, whole: Mm): boolean =>
    from >= -SAME && from + (count - 1) * step + size <= whole + SAME && (count === 1 || step >= size - SAME);
  const problem = (found: string, expected: string, remedy: string): Problem =>
    inputProblem(source, path, found, expected, remedy);
  const problems: Problem[] = [];
  if (!fits(left, columns, pitch.x, label.width, page.width)) {
    problems.push(
      problem(
        "the label columns do not fit side by side on the page",
        "left + columns within the page's width, and a pitch no less than a label's width",
        "measure the pack in hand again",
      ),
    );
  }
  if (!fits(top, rows, pitch.y, label.height, page.height)) {
    problems.push(
      problem(
        "the label rows do not fit one below the other on the page",
        "top + rows within the page's height, and a pitch no less than a label's height",
        "measure the pack in hand again",
      ),
    );
  }
  if (format.start > columns * rows) {
    problems.push(
      inputProblem(
        source,
        `${path}.start`,
        `start ${format.start} on a page of ${columns * rows} labels`,
        `a label from 1 to ${columns * rows}`,
        "count the labels row by row: the first is 1",
      ),
    );
  }
  if (label.width < LEAST_LABEL.width || label.height < LEAST_LABEL.height) {
    problems.push(
      problem(
        "the labels are too small",
        `labels of at least ${LEAST_LABEL.width} x ${LEAST_LABEL.height} mm`,
        "choose a larger format",
      ),
    );
  }
  return problems;
}

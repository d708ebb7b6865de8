/** Labels: what each part's QR code says, and where on which page of labels.pdf its label lies. */
import { formatLength, type Mm } from "../base/length.ts";
import { type Problem, ProblemsFound } from "../base/problem.ts";
import { moduleSize } from "../set/label-page.ts";
import { qrMatrix } from "../set/qr.ts";
import type { DryfitSet, SetLabel, SetPart } from "../set/schema.ts";

type LabelSet = Pick<DryfitSet, "parts" | "paper" | "job">;

/** Job, revision, mark and size: a label that cannot say these is no label. */
const LEAST_FIELDS = 4;

export function planLabels(set: LabelSet): SetLabel[] {
  const problems: Problem[] = [];
  const labels = set.parts.flatMap((part, i): SetLabel[] => {
    const text = textOf(set, part);
    if (text === null) problems.push(tooLong(set, part));
    return text === null ? [] : [{ mark: part.mark, text, ...spotOf(set.paper.labels, i) }];
  });
  if (problems.length > 0) throw new ProblemsFound(problems);
  return labels;
}

function spotOf(format: DryfitSet["paper"]["labels"], i: number): Pick<SetLabel, "page" | "x" | "y"> {
  const perPage = format.columns * format.rows;
  const [column, row] = [i % format.columns, Math.floor((i % perPage) / format.columns)];
  return {
    page: Math.floor(i / perPage) + 1,
    x: clean(format.left + column * format.pitch.x),
    y: clean(format.top + row * format.pitch.y),
  };
}

/** Rid of the noise that multiplying leaves. */
const clean = (at: Mm): Mm => Math.round(at * 1e6) / 1e6;

const isFitting = (set: LabelSet, text: string): boolean => {
  const matrix = qrMatrix(text);
  return matrix !== null && moduleSize(set.paper.labels, matrix.modules) !== null;
};

/** The address of the part's page, or the part in words with as many whole fields as fit; null where not even the least does. */
function textOf(set: LabelSet, part: SetPart): string | null {
  if (set.job.address !== null) {
    const address = addressOf(set.job.address, part);
    return isFitting(set, address) ? address : null;
  }
  const fields = fieldsOf(set, part);
  for (let count = fields.length; count >= LEAST_FIELDS; count--) {
    const text = fields.slice(0, count).join(", ");
    if (isFitting(set, text)) return text;
  }
  return null;
}

const addressOf = (base: string, part: SetPart): string =>
  `${base.replace(/\/+$/, "")}/parts/${encodeURIComponent(part.mark)}.html`;

function fieldsOf({ job }: LabelSet, part: SetPart): string[] {
  const size = [part.length, part.width, part.thickness].map((side) => formatLength(side, job.unit)).join(" x ");
  const holds = [
    ...new Set(
      part.features.flatMap(({ kind, holds }) =>
        (kind === "groove" || kind === "rabbet") && holds !== null ? [holds] : [],
      ),
    ),
  ];
  return [
    `job ${job.number}`,
    `revision ${job.revision}`,
    `part ${part.mark}`,
    `${size} ${job.unit}`,
    part.name,
    part.grain === "length" ? "grain lengthwise" : "no grain",
    ...(holds.length === 0 ? [] : [`grooves for ${holds.join(", ")}`]),
  ];
}

function tooLong(set: LabelSet, part: SetPart): Problem {
  const { address } = set.job;
  const text = address === null ? fieldsOf(set, part).slice(0, LEAST_FIELDS).join(", ") : addressOf(address, part);
  const { label, name } = set.paper.labels;
  return {
    level: "error",
    kind: "input",
    where: null,
    found: `part ${part.mark}: the QR code on its label would have to say "${text}"`,
    expected: `a text that fits a code of 0.5 mm modules on a label of ${label.width} x ${label.height} mm (${name})`,
    remedy: address === null ? "a shorter job number, or larger labels" : "a shorter address, or larger labels",
  };
}

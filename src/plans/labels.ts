/** Labels: what each part's QR code says, and where on which page of labels.pdf its label lies. */
import { formatLength, type Mm } from "../base/length.ts";
import { type Problem, ProblemsFound } from "../base/problem.ts";
import { GOOD_MODULE, LEAST_MODULE, moduleSize } from "../set/label-page.ts";
import { qrMatrix } from "../set/qr.ts";
import type { DryfitSet, SetLabel, SetPart, SetReprint } from "../set/schema.ts";

type LabelSet = Pick<DryfitSet, "parts" | "paper" | "job">;

/** Version of what the codes say, as README has it: a program that reads them looks here first. */
export const CONTENT = "dryfit 1";

/** Version, job, revision, mark and size: a label that cannot say these is no label. */
const LEAST_FIELDS = 5;

/** Every part's label; `reprint`: only those of changed parts have a place on paper, the others stay as they are `inShop`. Throws ProblemsFound where a code holds too little. */
export function planLabels(set: LabelSet, reprint: SetReprint | null = null, inShop: SetLabel[] = []): SetLabel[] {
  const problems: Problem[] = [];
  let n = 0;
  const labels = set.parts.flatMap((part): SetLabel[] => {
    const isPrinted = reprint === null || reprint.parts.some(({ mark }) => mark === part.mark);
    const kept = isPrinted ? undefined : inShop.find(({ mark }) => mark === part.mark);
    if (kept !== undefined) return [{ ...kept, spot: null }];
    const text = textOf(set, part);
    if (text === null) {
      problems.push(tooLong(set, part));
      return [];
    }
    return [{ mark: part.mark, text, spot: spotOf(set.paper.labels, n++) }];
  });
  if (problems.length > 0) throw new ProblemsFound(problems);
  return labels;
}

/** The `n`-th label, from 0; on the first page those used before are left out. */
export function spotOf(format: DryfitSet["paper"]["labels"], n: number): NonNullable<SetLabel["spot"]> {
  const perPage = format.columns * format.rows;
  const i = n + format.start - 1;
  const [column, row] = [i % format.columns, Math.floor((i % perPage) / format.columns)];
  return {
    page: Math.floor(i / perPage) + 1,
    x: clean(format.left + column * format.pitch.x),
    y: clean(format.top + row * format.pitch.y),
  };
}

/** Rid of the noise that multiplying leaves. */
const clean = (at: Mm): Mm => Math.round(at * 1e6) / 1e6;

export const isFitting = (set: Pick<LabelSet, "paper">, text: string, least: Mm): boolean => {
  const matrix = qrMatrix(text);
  return matrix !== null && moduleSize(set.paper.labels, matrix.modules, least) !== null;
};

/**
 * The address of the part's page, or the part in words with as many whole fields as fit: at modules read at arm's length, else at the
 * least there are. Null where not even the least fits.
 */
function textOf(set: LabelSet, part: SetPart): string | null {
  const fields = fieldsOf(set, part);
  const counts = Array.from({ length: fields.length - LEAST_FIELDS + 1 }, (_, i) => fields.length - i);
  const texts =
    set.job.address === null
      ? counts.map((count) => fields.slice(0, count).join(", "))
      : [addressOf(set.job.address, part)];
  for (const least of [GOOD_MODULE, LEAST_MODULE]) {
    const text = texts.find((one) => isFitting(set, one, least));
    if (text !== undefined) return text;
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
    CONTENT,
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
    expected: `a text that fits a code of ${LEAST_MODULE} mm modules on a label of ${label.width} x ${label.height} mm (${name})`,
    remedy: address === null ? "a shorter job number, or larger labels" : "a shorter address, or larger labels",
  };
}

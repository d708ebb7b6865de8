/** The rack after the job: offcuts worth keeping, each with a label of its own, and those that were there and are not used. */
import { formatLength, formatLengthWithUnit, type Mm } from "../../base/length.ts";
import { GOOD_MODULE, LEAST_MODULE } from "../../set/label-page.ts";
import { keptSize } from "../../set/offcut.ts";
import type { DryfitSet, SetSheet } from "../../set/schema.ts";
import { CONTENT, isFitting, spotOf } from "../labels.ts";

type RackPiece = DryfitSet["rack"][number];
type Input = Pick<DryfitSet, "job" | "paper" | "stock" | "sheets" | "boards">;

/** What a label of the rack holds in the stock file. */
const LONGEST = 30;

/** `printed`: labels that stand before these. `inShop`: the rack as an older set left it, whose labels are on their pieces. */
export function planRack(input: Input, printed: number, inShop: readonly RackPiece[]): RackPiece[] {
  const { job, stock } = input;
  const laid = [...input.sheets, ...input.boards];
  const used = (id: string): (string | null)[] => laid.filter((one) => one.stock === id).map(({ offcut }) => offcut);
  let n = printed;
  return stock.flatMap(({ id: own, offcuts }): RackPiece[] => [
    ...offcuts
      .filter(({ label }) => !used(own).includes(label))
      .map((offcut) => ({ id: null, stock: own, ...offcut, text: null, spot: null })),
    ...laid
      .filter((one) => one.stock === own)
      .flatMap(({ offcuts: left }: SetSheet) => left)
      .map(({ id, length, width }): RackPiece => {
        const piece = {
          id,
          stock: own,
          label: labelOf(job.number, id),
          ...keptSize({ length, width }, job.unit),
          defects: [],
        };
        const text = textOf(input, piece);
        const isThere = inShop.some(
          (one) => one.text === text && one.length === piece.length && one.width === piece.width,
        );
        return { ...piece, text, spot: isThere ? null : spotOf(input.paper.labels, n++) };
      }),
  ]);
}

/** Names of pieces come again in every job: in the rack the job's number tells them apart. */
const labelOf = (job: string, id: string): string => `${job.slice(0, LONGEST - id.length - 1).trimEnd()} ${id}`;

/** As many whole fields as fit; its name in any case. */
function textOf({ job, paper }: Input, { label, stock, length, width }: Omit<RackPiece, "text" | "spot">): string {
  const size = [length, width].map((side) => formatLength(side, job.unit)).join(" x ");
  const fields = [CONTENT, `offcut ${label}`, `${size} ${job.unit}`, `stock ${stock}`];
  const texts = fields.slice(1).map((_, i) => fields.slice(0, fields.length - i).join(", "));
  for (const least of [GOOD_MODULE, LEAST_MODULE]) {
    const text = texts.find((one) => isFitting({ paper }, one, least));
    if (text !== undefined) return text;
  }
  return texts.at(-1)!;
}

/** What the next job's stock file needs, stock by stock. */
export function rackText({ rack, job }: Pick<DryfitSet, "rack" | "job">): string {
  const said = (at: Mm): string => JSON.stringify(formatLengthWithUnit(at, job.unit));
  const entry = ({ label, length, width, defects }: RackPiece): string => {
    const flaws = defects.map(({ from, to }) => `{ "from": ${said(from)}, "to": ${said(to)} }`);
    const more = flaws.length === 0 ? "" : `, "defects": [${flaws.join(", ")}]`;
    return `{ "label": ${JSON.stringify(label)}, "length": ${said(length)}, "width": ${said(width)}${more} }`;
  };
  const stocks = [...new Set(rack.map(({ stock }) => stock))];
  const lists = stocks.map((stock) => {
    const own = rack.filter((one) => one.stock === stock).map((one) => `      ${entry(one)}`);
    return `    ${JSON.stringify(stock)}: {\n      "offcuts": [\n${own.map((line) => `  ${line}`).join(",\n")}\n      ]\n    }`;
  });
  if (lists.length === 0) return '{\n  "stock": {}\n}\n';
  return `{\n  "stock": {\n${lists.join(",\n")}\n  }\n}\n`;
}

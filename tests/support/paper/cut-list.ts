/** The cut list read back from its pages: stock by stock, row by row, and where it is at odds with itself. */
import { saidBy } from "./figure.ts";
import type { SeenPage } from "./page.ts";
import { type Cell, type Row, tablesWith, textOfCell } from "./table.ts";

type Word = SeenPage["words"][number];

/** A length as it stands in a row: the figure, and the same again as a decimal where it is a fraction. */
type Size = { value: number; again: number | null };
export type Sum = { axis: "l" | "w"; terms: number[]; total: number };

export type ListedPart = {
  marks: string[];
  name: string;
  hand: "left" | "right" | null;
  length: number;
  width: number;
  thickness: number;
  grain: boolean;
  stock: string;
  sums: Sum[];
  /** What the panel is cut to, lippings off. */
  panel: { length: number; width: number } | null;
  lippings: { id: string; length: number; width: number; thickness: number }[];
};
export type ListedStock = { name: string; nominal: number; measured: number; unit: string };
export type CutList = { stocks: ListedStock[]; parts: ListedPart[]; faults: string[] };

const HEADS = [
  "Part",
  "Name",
  "Hand",
  "Make",
  "Length",
  "Width",
  "Thick",
  "Grain",
  "Between + joints = cut size",
  "Look-alikes",
  "Notes",
  "As built",
] as const;

/** Where the paper is narrow, notes stand under their rows. */
const UNDER_ROWS = HEADS.filter((head) => head !== "Notes");

/** Decimals beside fractions have three places; sums close as printed. */
const LAST_DIGIT = 0.00051;

const HEADING = /^(.+), nominal (.+?) (mm|in), measured (.+?) (?:mm|in)(?: \(continued\))?$/;

function sizeIn(cell: Cell, what: string): Size {
  const values = cell.flat().map((word) => readWord(word));
  if (values.length === 0 || values.length > 2 || values.some((one) => one === null))
    throw new Error(`${what} is not read: ${textOfCell(cell)}`);
  return { value: values[0]!, again: values[1] ?? null };
}

const readWord = ({ text }: Word): number | null => saidBy(text);

/** "L 1764.65 + 5.15 + 5.2 = 1775 W 764.7 + 5.15 + 5.15 = 775"; an axis that is not named is the length. */
function sumsIn(cell: Cell): Sum[] {
  const text = textOfCell(cell);
  if (text === "") return [];
  return text.split(/(?=[LW] )/).map((one) => {
    const match = /^(?:([LW]) )?([\d ./+]+) = ([\d ./]+)$/.exec(one.trim());
    if (match === null) throw new Error(`no sum: ${one}`);
    return {
      axis: match[1] === "W" ? "w" : "l",
      terms: match[2]!.split(" + ").map((term) => figure(term)),
      total: figure(match[3]!),
    };
  });
}

function figure(text: string): number {
  const value = saidBy(text.trim());
  if (value === null) throw new Error(`no figure: ${text}`);
  return value;
}

const SIZE = "([\\d ./]+?)";

function lippingsIn(text: string): Pick<ListedPart, "panel" | "lippings"> {
  const panel = new RegExp(`cut the panel ${SIZE} × ${SIZE}(?= \\d+[a-z]|$)`).exec(text);
  const pieces = text.matchAll(new RegExp(`(\\d+[a-z]) [a-z].*? ${SIZE} × ${SIZE} × ${SIZE}(?= \\d+[a-z] |$)`, "g"));
  return {
    panel: panel === null ? null : { length: figure(panel[1]!), width: figure(panel[2]!) },
    lippings: [...pieces].map(([, id, length, width, thickness]) => ({
      id: id!,
      length: figure(length!),
      width: figure(width!),
      thickness: figure(thickness!),
    })),
  };
}

/** Whether the wood is planed for the part: what is sawn from a sheet is as thick as that. */
const isPlaned = (notes: string): boolean => notes.includes("cut rough first");

type ListedRow = Extract<Row, { cells: Cell[] }> & { heads: readonly string[] };

function partOf({ cells, under, heads }: ListedRow, stock: ListedStock, faults: string[]): ListedPart {
  const cell = (head: (typeof HEADS)[number]): Cell => cells[heads.indexOf(head)]!;
  const marks = textOfCell(cell("Part")).match(/\d+/g) ?? [];
  const said = textOfCell(heads.includes("Notes") ? cell("Notes") : under).replaceAll(" · ", " ");
  const sizes = {
    length: sizeIn(cell("Length"), "a length"),
    width: sizeIn(cell("Width"), "a width"),
    thick: sizeIn(cell("Thick"), "a thickness"),
  };
  const fault = (text: string): void => void faults.push(`cut list, ${marks}: ${text}`);
  for (const { value, again } of Object.values(sizes))
    if (again !== null && Math.abs(value - again) > LAST_DIGIT) fault(`${value} is not ${again}`);
  if (figure(textOfCell(cell("Make"))) !== marks.length)
    fault(`make ${textOfCell(cell("Make"))}, ${marks.length} marks`);
  if (!isPlaned(said) && Math.abs(sizes.thick.value - stock.measured) > LAST_DIGIT)
    fault(`${sizes.thick.value} thick, of ${stock.measured}`);
  const sums = sumsIn(cell("Between + joints = cut size"));
  for (const { axis, terms, total } of sums) {
    const added = terms.reduce((all, one) => all + one, 0);
    if (Math.abs(added - total) > LAST_DIGIT) fault(`${terms.join(" + ")} is not ${total}`);
    const own = axis === "l" ? sizes.length.value : sizes.width.value;
    if (total !== own) fault(`the sum ${total} is not ${own}`);
  }
  return {
    marks,
    name: textOfCell(cell("Name")).replace(/ good: .*$/, ""),
    hand: textOfCell(cell("Hand")) === "–" ? null : (textOfCell(cell("Hand")) as "left"),
    length: sizes.length.value,
    width: sizes.width.value,
    thickness: sizes.thick.value,
    grain: textOfCell(cell("Grain")) === "length",
    stock: stock.name,
    sums,
    ...lippingsIn(said),
  };
}

export function readCutList(pages: readonly SeenPage[]): CutList {
  const stocks: ListedStock[] = [];
  const parts: ListedPart[] = [];
  const faults: string[] = [];
  const rows = pages.flatMap((page) =>
    [HEADS, UNDER_ROWS].flatMap((heads) =>
      tablesWith(page, heads).flatMap((table) => table.rows.map((row) => ({ ...row, heads }))),
    ),
  );
  for (const row of rows) {
    if ("heading" in row) {
      const match = HEADING.exec(row.heading);
      if (match === null) throw new Error(`not a stock: ${row.heading}`);
      const [, name, nominal, unit, measured] = match;
      const stock = { name: name!, nominal: figure(nominal!), measured: figure(measured!), unit: unit! };
      const known = stocks.find((one) => one.name === name);
      if (known === undefined) stocks.push(stock);
      else if (JSON.stringify(known) !== JSON.stringify(stock)) faults.push(`${name} is measured twice`);
      stocks.splice(0, stocks.length, ...stocks.filter((one) => one.name !== name), known ?? stock);
      continue;
    }
    if (stocks.length === 0) throw new Error("a row under no stock");
    parts.push(partOf(row, stocks.at(-1)!, faults));
  }
  return { stocks, parts, faults };
}

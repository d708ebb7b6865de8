/** Stock: the shop's list with the job's own over it, in millimetres. */
import type { Mm, Unit } from "../../base/length.ts";
import { formatLengthWithUnit, isSame, SAME } from "../../base/length.ts";
import { lengthOf } from "../../base/parse-length.ts";
import type { Problem } from "../../base/problem.ts";
import { BOARDS, FARTHEST_READING, STOCK } from "../defaults.ts";
import { inputProblem } from "../file/problems.ts";
import type { Source } from "../file/source.ts";
import { quote } from "../file/words.ts";
import type { StockEntry } from "../schema/shop.ts";
import type { Stock } from "../stock.ts";

type Entries = Record<string, StockEntry>;
export type StockList = { unit: Unit; entries: Entries };

type StockParts = Partial<Omit<Stock, "id" | "thickness" | "thickest">>;

/** One entry in millimetres; only what it says. */
function inMm(entry: StockEntry, unit: Unit): StockParts {
  const mm = (value: number | string): Mm => lengthOf(value, unit);
  const parts: StockParts = {};
  if (entry.name !== undefined) parts.name = entry.name;
  if (entry.nominal !== undefined) parts.nominal = mm(entry.nominal);
  if (entry.measured !== undefined) parts.readings = [entry.measured].flat().map(mm);
  if (entry.sheet !== undefined) parts.sheet = { length: mm(entry.sheet.length), width: mm(entry.sheet.width) };
  if (entry.boards !== undefined) {
    const { rough, length, width, spare, dressed } = entry.boards;
    parts.boards = {
      rough: mm(rough),
      length: mm(length),
      width: mm(width),
      spare: spare ?? BOARDS.spare,
      dressed: dressed ?? false,
    };
  }
  if (entry.trim !== undefined) parts.trim = mm(entry.trim);
  if (entry.grain !== undefined) parts.grain = entry.grain;
  if (entry.goodFaces !== undefined) parts.goodFaces = entry.goodFaces;
  if (entry.density !== undefined) parts.density = entry.density;
  if (entry.stiffness !== undefined) parts.stiffness = entry.stiffness;
  if (entry.solid !== undefined) parts.solid = entry.solid;
  if (entry.species !== undefined) parts.species = entry.species;
  if (entry.limits !== undefined) {
    const { least, most, source } = entry.limits;
    parts.limits = { least: mm(least), most: mm(most), source };
  }
  if (entry.price !== undefined) parts.price = entry.price;
  if (entry.count !== undefined) parts.count = entry.count;
  const sized = <T extends { length: number | string; width: number | string }>(
    one: T,
  ): T & { length: Mm; width: Mm } => ({
    ...one,
    length: mm(one.length),
    width: mm(one.width),
  });
  if (entry.sizes !== undefined)
    parts.sizes = entry.sizes.map((one) => ({ ...sized(one), price: one.price ?? null, count: one.count ?? null }));
  if (entry.offcuts !== undefined)
    parts.offcuts = entry.offcuts.map((one) => ({
      ...sized(one),
      defects: (one.defects ?? []).map(({ from, to }) => ({ from: mm(from), to: mm(to) })),
    }));
  return parts;
}

function complete(id: string, parts: StockParts, unit: Unit): Stock | null {
  const { name, nominal, readings = [] } = parts;
  const { sheet = null, boards = null } = parts;
  if (name === undefined || nominal === undefined || (sheet === null) === (boards === null)) return null;
  const measured = readings.length > 0;
  return {
    id,
    name,
    nominal,
    thickness: measured ? readings.reduce((sum, one) => sum + one, 0) / readings.length : nominal,
    thickest: measured ? Math.max(...readings) : nominal,
    readings,
    sheet,
    boards,
    trim: parts.trim ?? (boards === null ? STOCK.trim[unit] : 0),
    grain: parts.grain ?? STOCK.grain,
    goodFaces: parts.goodFaces ?? (boards === null ? STOCK.goodFaces : BOARDS.goodFaces),
    density: parts.density ?? STOCK.density,
    stiffness: parts.stiffness ?? STOCK.stiffness,
    solid: parts.solid ?? (boards !== null || STOCK.solid),
    species: parts.species ?? null,
    limits: parts.limits ?? null,
    price: parts.price ?? null,
    count: parts.count ?? null,
    sizes: parts.sizes ?? [],
    offcuts: parts.offcuts ?? [],
  };
}

/** What the shop knows of a stock, less what holds only for the thickness that the job has changed. */
function ofShop(shop: StockParts, job: StockParts): StockParts {
  if (job.nominal === undefined || shop.nominal === undefined || isSame(job.nominal, shop.nominal)) return shop;
  const { stiffness: _stiffness, limits: _limits, ...rest } = shop;
  return rest;
}

/** Every stock the job could name: the shop's, changed where the job says so, and the job's own. */
export function stockTable(shop: StockList, job: StockList, source: Source, problems: Problem[]): Map<string, Stock> {
  const table = new Map<string, Stock>();
  for (const id of new Set([...Object.keys(shop.entries), ...Object.keys(job.entries)])) {
    const fromShop = Object.hasOwn(shop.entries, id) ? inMm(shop.entries[id]!, shop.unit) : {};
    const fromJob = Object.hasOwn(job.entries, id) ? inMm(job.entries[id]!, job.unit) : {};
    const parts = { ...ofShop(fromShop, fromJob), ...fromJob };
    const stock = complete(id, parts, job.unit);
    const path = `stock.${id}`;
    if (stock === null) {
      const missing = (["name", "nominal"] as const).filter((key) => parts[key] === undefined).map(quote);
      if (parts.sheet === undefined && parts.boards === undefined) missing.push('"sheet" or "boards"');
      if (missing.length === 0) {
        problems.push(
          inputProblem(
            source,
            path,
            `${quote(id)} comes in a "sheet" and in "boards"`,
            "one of the two",
            "take one out, or give the other an id of its own",
          ),
        );
        continue;
      }
      problems.push(
        inputProblem(
          source,
          path,
          `the new stock ${quote(id)} does not say its ${missing.join(", ")}`,
          '"name", "nominal", and "sheet" or "boards", of a stock that shared/stock.json does not hold',
          `add ${missing.join(", ")}, or use an id of shared/stock.json`,
        ),
      );
      continue;
    }
    table.set(id, stock);
    if (Object.hasOwn(job.entries, id)) problems.push(...checkStock(stock, path, job.unit, source));
  }
  return table;
}

function checkStock(stock: Stock, path: string, unit: Unit, source: Source): Problem[] {
  const show = (length: Mm): string => formatLengthWithUnit(length, unit);
  const problems: Problem[] = [];
  stock.readings.forEach((reading, i) => {
    if (Math.abs(reading - stock.nominal) <= FARTHEST_READING) return;
    const list = `${path}.measured[${i}]`;
    problems.push(
      inputProblem(
        source,
        list in source.lines ? list : `${path}.measured`,
        `${quote(stock.id)} is nominally ${show(stock.nominal)} thick, but measured as ${show(reading)}`,
        `a reading within ${show(FARTHEST_READING)} of nominal`,
        "measure again, check the unit, or give the stock its own nominal",
      ),
    );
  });
  if (stock.limits !== null && stock.limits.least > stock.limits.most) {
    problems.push(
      inputProblem(
        source,
        `${path}.limits`,
        `limits from ${show(stock.limits.least)} to ${show(stock.limits.most)}`,
        '"least" no more than "most"',
        "change them over, or look them up again",
      ),
    );
  }
  if (stock.boards !== null && stock.boards.rough < stock.thickness) {
    problems.push(
      inputProblem(
        source,
        `${path}.boards.rough`,
        `boards of ${quote(stock.id)} are ${show(stock.boards.rough)} thick, and parts ${show(stock.thickness)}`,
        "boards at least as thick as what is planed from them",
        "choose thicker boards, or a thinner part",
      ),
    );
  }
  const labels = stock.offcuts.map(({ label }) => label);
  labels.forEach((label, i) => {
    if (labels.indexOf(label) === i) return;
    problems.push(
      inputProblem(
        source,
        `${path}.offcuts[${i}].label`,
        `two offcuts of ${quote(stock.id)} are labelled ${quote(label)}`,
        "a label for each, so that the right one is fetched",
        "give one of them another label, on the piece as well",
      ),
    );
  });
  problems.push(...checkDefects(stock, path, unit, source));
  if (stock.boards !== null && stock.sizes.length > 0) {
    problems.push(
      inputProblem(
        source,
        `${path}.sizes`,
        `sizes of sheets for ${quote(stock.id)}, which comes in boards`,
        '"sizes" of a stock that comes in sheets',
        'give boards that are there already as "offcuts"',
      ),
    );
  }
  if (stock.sheet !== null && Math.min(stock.sheet.length, stock.sheet.width) <= 2 * stock.trim) {
    problems.push(
      inputProblem(
        source,
        `${path}.sheet`,
        `a sheet of ${quote(stock.id)} is all trimmed away`,
        `more than twice the trim of ${show(stock.trim)} in length and width`,
        "give the size of a full sheet, or less trim",
      ),
    );
  }
  return problems;
}

/** Each defect lies on its offcut, and clear of the others. */
const checkDefects = (stock: Stock, path: string, unit: Unit, source: Source): Problem[] =>
  stock.offcuts.flatMap(({ label, length, defects }, i) => {
    const show = (at: Mm): string => formatLengthWithUnit(at, unit);
    return defects.flatMap(({ from, to }, n): Problem[] => {
      const own = `${path}.offcuts[${i}].defects[${n}]`;
      const said = `a defect of offcut ${quote(label)} from ${show(from)} to ${show(to)}`;
      if (from >= to || to > length + SAME)
        return [
          inputProblem(source, own, said, `"from" less than "to", and both on its ${show(length)}`, "measure it again"),
        ];
      const other = defects.slice(0, n).find((one) => from < one.to && one.from < to);
      if (other === undefined) return [];
      return [
        inputProblem(
          source,
          own,
          `${said}, and one from ${show(other.from)} to ${show(other.to)}`,
          "defects that lie clear of each other",
          "make one of the two",
        ),
      ];
    });
  });

/** What every project of a shop draws on: the files in shared/, beside the program. */
import { join } from "node:path";
import { z } from "zod";
import { type Problem, ProblemsFound } from "../../base/problem.ts";
import { checkTooling } from "../checks/tooling.ts";
import { checkShape } from "../file/explain.ts";
import { inFileOrder, readSource, type Source } from "../file/source.ts";
import { type PaperFile, paperFile, stockFile, type ToolingFile, toolingFile } from "../schema/shop.ts";
import type { StockList } from "./stock.ts";
import { toolingOf } from "./tooling.ts";

export type Shop = { stock: StockList; tooling: ToolingFile; paper: PaperFile };

const unitOnly = z.looseObject({ unit: z.enum(["in", "mm"]) });

function readShopFile<S extends z.ZodType>(
  file: string,
  schema: S,
  check: (data: z.infer<S>, source: Source) => Problem[] = () => [],
): z.infer<S> {
  const source = readSource(file);
  const unit = unitOnly.safeParse(source.data).data?.unit ?? null;
  const { data, problems } = checkShape(source, schema, unit);
  if (data === null || problems.length > 0) throw new ProblemsFound(inFileOrder(problems));
  const faults = check(data, source);
  if (faults.length > 0) throw new ProblemsFound(inFileOrder(faults));
  return data;
}

export function readShop(folder: string): Shop {
  const stock = readShopFile(join(folder, "stock.json"), stockFile);
  return {
    stock: { unit: stock.unit, entries: stock.stock },
    tooling: readShopFile(join(folder, "tooling.json"), toolingFile, (data, source) =>
      checkTooling(toolingOf(data, undefined, data.unit), source, "", data.unit),
    ),
    paper: readShopFile(join(folder, "paper.json"), paperFile),
  };
}

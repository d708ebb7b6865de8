/** Stock that the file asks for and nobody has: found even where the rest of the file is at fault. */
import type { Problem } from "../../base/problem.ts";
import { nearest } from "../file/nearest.ts";
import { inputProblem } from "../file/problems.ts";
import type { Source } from "../file/source.ts";
import { eachStockId, valueAt } from "../file/walk.ts";
import { choice, quote } from "../file/words.ts";
import { projectSchema } from "../schema/project.ts";

const keysOf = (value: unknown): string[] => (typeof value === "object" && value !== null ? Object.keys(value) : []);

export function unknownStock(source: Source, shopIds: readonly string[]): Problem[] {
  const known = [...new Set([...shopIds, ...keysOf(valueAt(source.data, ["stock"]))])];
  const problems: Problem[] = [];
  eachStockId(projectSchema, source.data, (path, id) => {
    if (known.includes(id)) return;
    const near = nearest(id, known);
    const remedy = near === null ? 'choose one of these, or add it under "stock"' : `did you mean ${quote(near)}?`;
    problems.push(inputProblem(source, path, `there is no stock ${quote(id)}`, choice(known), remedy));
  });
  return problems;
}

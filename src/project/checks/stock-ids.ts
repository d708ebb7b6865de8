/** Stock that a case asks for and nobody has: found even where the rest of the file is at fault. */
import type { Problem } from "../../base/problem.ts";
import { nearest } from "../file/nearest.ts";
import { inputProblem } from "../file/problems.ts";
import type { Source } from "../file/source.ts";
import { valueAt } from "../file/walk.ts";
import { choice, quote } from "../file/words.ts";

const keysOf = (value: unknown): string[] => (typeof value === "object" && value !== null ? Object.keys(value) : []);

export function unknownStock(source: Source, shopIds: readonly string[]): Problem[] {
  const known = [...new Set([...shopIds, ...keysOf(valueAt(source.data, ["stock"]))])];
  const asked = keysOf(valueAt(source.data, ["cases"])).flatMap((index) => {
    const home = ["cases", Number(index)];
    return [
      [...home, "stock"],
      [...home, "drawers", "stock"],
    ].flatMap((path) => {
      const stock = valueAt(source.data, path);
      if (typeof stock === "string") return [{ path, id: stock }];
      return keysOf(stock).map((role) => ({ path: [...path, role], id: valueAt(stock, [role]) }));
    });
  });
  for (const index of keysOf(valueAt(source.data, ["worktops"]))) {
    const path = ["worktops", Number(index), "stock"];
    asked.push({ path, id: valueAt(source.data, path) });
  }
  return asked.flatMap(({ path, id }) => {
    if (typeof id !== "string" || known.includes(id)) return [];
    const near = nearest(id, known);
    const remedy = near === null ? 'choose one of these, or add it under "stock"' : `did you mean ${quote(near)}?`;
    return [inputProblem(source, path, `there is no stock ${quote(id)}`, choice(known), remedy)];
  });
}

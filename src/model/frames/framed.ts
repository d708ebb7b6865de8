/** Which cases a face frame goes before, as they stand, and which frame stands before a case. */
import { listInWords } from "../../base/words.ts";
import type { AssemblyModel } from "../model.ts";

/** The cases of each frame of the job, from left to right. */
export function framedRows(standing: readonly AssemblyModel[]): AssemblyModel[][] {
  const rows: AssemblyModel[][] = [];
  for (const one of standing) {
    const { frame } = one.design;
    if (one.kind !== "case" || frame === null) continue;
    const row = frame.over === null ? undefined : rows.find(([first]) => first!.design.frame!.path === frame.path);
    if (row === undefined) rows.push([one]);
    else row.push(one);
  }
  return rows.map((row) => row.sort((a, b) => a.at[0] - b.at[0]));
}

/** "bench frame"; before several cases "bench and locker frame". */
export function frameName(row: readonly AssemblyModel[]): string {
  const isOver = row[0]!.design.frame?.over != null;
  const names = row.map(({ name, design }) => (isOver ? design.name : name));
  return `${listInWords([...new Set(names)])} frame`;
}

/** The frame before a case; null where it has none. */
export const frameOn = (one: AssemblyModel, standing: readonly AssemblyModel[]): AssemblyModel | null =>
  standing.find(({ before }) => before.includes(one.name)) ?? null;

/** The instances that the layout method is measured on, as the engine takes them: kerfs folded in, sizes of one kind together. */
import { readFileSync } from "node:fs";
import { join } from "node:path";
import type { LayoutItem } from "../../../src/plans/layout/engine.ts";
import { freshJobs } from "../jobs/fresh-casework.ts";

/** `known`: the fewest sheets known; null where nobody knows. */
export type Instance = { id: string; length: number; width: number; items: LayoutItem[]; known: number | null };

type Raw = Record<string, unknown>;

const read = (folder: string, file: string): Raw[] => {
  const found: unknown = JSON.parse(readFileSync(join(folder, file), "utf8"));
  return Array.isArray(found) ? (found as Raw[]) : (found as { instances: Raw[] }).instances;
};

function figures(folder: string, file: string, column: string): Map<string, number> {
  const [head = "", ...rows] = readFileSync(join(folder, file), "utf8").trim().split(/\r?\n/);
  const columns = head.split(",");
  const [id, at] = [columns.indexOf("id"), columns.indexOf(column)];
  return new Map(rows.map((row) => row.split(",")).map((cells) => [cells[id]!, Number(cells[at])]));
}

type Size = readonly [length: number, width: number, copies: number, turn: boolean];

/** Items of one size are copies of one; where one may turn, the longer side is its length. */
function grouped(sizes: readonly Size[]): LayoutItem[] {
  const groups = new Map<string, LayoutItem>();
  for (const [l, w, copies, turn] of sizes) {
    const [length, width] = turn ? [Math.max(l, w), Math.min(l, w)] : [l, w];
    const key = `${length} ${width} ${turn}`;
    const group = groups.get(key) ?? { length, width, copies: 0, turn };
    group.copies += copies;
    groups.set(key, group);
  }
  return [...groups.values()];
}

const known = (list: Omit<Instance, "known">[], values: Map<string, number>): Instance[] =>
  list.map((one) => ({ ...one, known: values.get(one.id) ?? null }));

/** Classic jobs, one piece of each size. */
export const classic = (folder: string, turn: boolean): Instance[] =>
  known(
    read(folder, "2bp.json").map(({ id, w, h, items }) => ({
      id: String(id),
      length: Number(w),
      width: Number(h),
      items: grouped((items as number[][]).map(([l, b]) => [l!, b!, 1, turn])),
    })),
    figures(folder, "2bp-known.csv", turn ? "ub_guillotine_turn" : "ub_guillotine_fixed"),
  );

export const threeStage = (folder: string): Instance[] =>
  known(
    read(folder, "guillotine-3stage.json").map(({ id, w, h, items }) => ({
      id: String(id),
      length: Number(w),
      width: Number(h),
      items: grouped((items as number[][]).map(([l, b, n]) => [l!, b!, n!, false])),
    })),
    figures(folder, "guillotine-3stage-known.csv", "best_3stage_published"),
  );

export const casework = (folder: string): Instance[] =>
  known(
    read(folder, "casework-sheets.json").map(({ id, sheet, kerf, trim, parts }) => {
      const [length, width] = (sheet as number[]).map((size) => size - 2 * Number(trim) + Number(kerf));
      const folded = (parts as number[][]).map(
        ([l, w, n, grain]) => [l! + Number(kerf), w! + Number(kerf), n!, grain === 0] as const,
      );
      return { id: String(id), length: length!, width: width!, items: grouped(folded) };
    }),
    figures(folder, "casework-known.csv", "ub_guillotine"),
  );

/** Fresh jobs of casework: nobody knows their fewest sheets. */
export const fresh = (): Instance[] =>
  freshJobs().map(({ id, kerf, stock, pieces }) => {
    const room = (size: number): number => 10 * (size - 2 * stock.trim + kerf);
    const folded = pieces.map(
      ({ length, width, turn }) => [10 * (length + kerf), 10 * (width + kerf), 1, turn] as const,
    );
    const whole = folded.map(([l, w, n, turn]) => [Math.round(l), Math.round(w), n, turn] as const);
    const { length, width } = stock.sheet!;
    return { id, length: Math.round(room(length)), width: Math.round(room(width)), items: grouped(whole), known: null };
  });

/** Boards: sheets of width 1. `set`: the beginning of the sets' names. */
export const boards = (folder: string, set: string): Instance[] =>
  known(
    read(folder, "boards-1d.json")
      .filter((one) => String(one.set === "falkenauer" ? String(one.id).slice(0, 4) : one.set).startsWith(set))
      .map(({ id, cap, pieces }) => ({
        id: String(id),
        length: Number(cap),
        width: 1,
        items: grouped((pieces as number[][]).map(([l, n]) => [l!, 1, n!, false])),
      })),
    figures(folder, "boards-known.csv", "ub"),
  );

export const frames = (folder: string): Instance[] =>
  known(
    read(folder, "frame-boards.json").map(({ id, board, kerf, trim, pieces }) => ({
      id: String(id),
      length: Number(board) - 2 * Number(trim) + Number(kerf),
      width: 1,
      items: grouped((pieces as number[][]).map(([l, n]) => [l! + Number(kerf), 1, n!, false])),
    })),
    figures(folder, "boards-known.csv", "ub"),
  );

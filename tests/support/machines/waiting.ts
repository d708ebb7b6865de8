/** What waits for a measurement, followed at the saw: which cuts come before its gate, what piece holds it then, and whether the steps say the same. */
import { expect } from "vitest";
import type { DryfitSet, SetStep } from "../../../src/set/schema.ts";

const HAIR = 1e-6; // mm

type Rect = Record<"x" | "y", [from: number, to: number]>;
type Told = Pick<DryfitSet, "groups" | "sheets" | "sizing" | "parts">;

/** "sheet 1 cut 5" for every cut that a group makes. */
const scheduled = ({ sizing }: Told, isAsked: (group: number) => boolean): string[] =>
  sizing
    .filter(({ group }) => isAsked(group))
    .flatMap(({ cuts }) => cuts.flatMap((one) => one.cuts.map((n) => `sheet ${one.sheet} cut ${n}`)));

/** "1, 3 and 6 to 8" as numbers. */
export const numbersOf = (words: string): number[] =>
  [...words.matchAll(/(\d+)(?: to (\d+))?/g)].flatMap(([, from, to = from]) =>
    Array.from({ length: Number(to) - Number(from) + 1 }, (_, i) => Number(from) + i),
  );

/** "sheets 1 and 3; of sheet 4 cuts 1 to 11" as cuts. */
function cutsIn(words: string, { sheets }: Told): string[] {
  return words.split("; ").flatMap((phrase) => {
    const [, sheet, own] = /^of sheet (\d+) cuts? (.+)$/.exec(phrase) ?? [];
    if (sheet !== undefined) return numbersOf(own!).map((n) => `sheet ${sheet} cut ${n}`);
    return numbersOf(phrase).flatMap((n) =>
      sheets.find((one) => one.n === n)!.cuts.map((cut) => `sheet ${n} cut ${cut.n}`),
    );
  });
}

/** The pieces on the bench once some cuts of a sheet are made, in the order of their numbers. */
function piecesAfter(
  { cuts, length, width, kerf }: DryfitSet["sheets"][number],
  isMade: (n: number) => boolean,
): Map<string, Rect> {
  const bench = new Map<string, Rect>([[cuts[0]!.piece, { x: [0, length], y: [0, width] }]]);
  for (const { piece, makes, across, at } of cuts.filter(({ n }) => isMade(n))) {
    const whole = bench.get(piece)!;
    expect(whole, `${piece} is on the bench`).toBeDefined();
    bench.delete(piece);
    makes.forEach((made, i) => {
      const [from, to] = whole[across];
      if (made !== "waste") bench.set(made, { ...whole, [across]: i === 0 ? [from, at] : [at + kerf, to] });
    });
  }
  return bench;
}

/** No figure of a part that waits is cut before its gate: what holds it is larger than it is, or all that the sheet gives. */
function expectHeldLarger(set: Told): number {
  let waiting = 0;
  const groupOf = (mark: string): number => set.groups.find(({ parts }) => parts.includes(mark))!.n;
  for (const sheet of set.sheets) {
    for (const { id, mark, x, y, turned } of sheet.parts) {
      const before = scheduled(set, (group) => group < groupOf(mark));
      const isMade = (n: number): boolean => before.includes(`sheet ${sheet.n} cut ${n}`);
      if (!sheet.cuts.some(({ n }) => isMade(n))) continue;
      waiting += 1;
      const holding = [...piecesAfter(sheet, isMade).values()].filter(
        (one) => x > one.x[0] - HAIR && x < one.x[1] && y > one.y[0] - HAIR && y < one.y[1],
      );
      expect(holding, `${id} is in one piece`).toHaveLength(1);
      const { cut } = set.parts.find((part) => part.mark === mark)!;
      for (const axis of ["x", "y"] as const) {
        const [from, to] = holding[0]![axis];
        const own = (axis === "x") === turned ? cut.width : cut.length;
        const all = (axis === "x" ? sheet.length : sheet.width) - 2 * sheet.trim;
        const held = Math.min(own + 1, all) - HAIR;
        expect(to - from, `sheet ${sheet.n}, ${id} along ${axis} before its gate`).toBeGreaterThan(held);
      }
    }
  }
  return waiting;
}

/** The numbers of a sheet's cuts follow the gates, and each step names the cuts that the schedule has for it, no more and no fewer. Returns how many parts wait on sheets that are cut before. */
export function expectWaits(set: Told, steps: readonly SetStep[]): number {
  const texts = steps.flatMap(({ text }) => text);
  const [first, ...later] = set.groups.filter(({ n }) => scheduled(set, (group) => group === n).length > 0);
  const told = texts.flatMap((text) => /^Follow the numbered cuts of (.+): skim/.exec(text)?.[1] ?? []);
  expect(told.flatMap((one) => cutsIn(one, set)).sort()).toEqual(scheduled(set, (n) => n === 1).sort());
  expect(told).toHaveLength(first?.n === 1 ? 1 : 0);
  const waited = texts.flatMap((text) => /^Now make the cuts that waited for this: (.+)\.$/.exec(text)?.[1] ?? []);
  const late = (first === undefined || first.n === 1 ? later : [first, ...later]).map(({ n }) => n);
  expect(waited.map((one) => cutsIn(one, set).sort())).toEqual(
    late.map((n) => scheduled(set, (group) => group === n).sort()),
  );
  for (const sheet of set.sheets) {
    const groups = sheet.cuts.map(
      ({ n }) =>
        set.sizing.find(({ cuts }) => cuts.some((one) => one.sheet === sheet.n && one.cuts.includes(n)))!.group,
    );
    expect(groups, `numbers of sheet ${sheet.n}`).toEqual(groups.toSorted((a, b) => a - b));
  }
  const trimmed = texts.flatMap((text) =>
    numbersOf(/^([\d, toand]+) (?:has|have) something over from the sheet: trim/.exec(text)?.[1] ?? ""),
  );
  const rows = set.sizing.filter(({ trim, group }) => trim && group > 1);
  const marks = new Set(rows.flatMap(({ rips, crosscuts }) => [...rips, ...crosscuts]).map(Number));
  const stiles = new Set(set.parts.filter(({ role }) => role === "doorStile").map(({ mark }) => Number(mark)));
  expect(trimmed.toSorted((a, b) => a - b)).toEqual([...marks].filter((n) => !stiles.has(n)).sort((a, b) => a - b));
  return expectHeldLarger(set);
}

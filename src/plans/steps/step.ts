/** What every step is made of, and the words that steps share. */
import type { Unit } from "../../base/length.ts";
import { listInWords } from "../../base/words.ts";
import type { GlueTime } from "../../project/project.ts";
import type { DryfitSet, SetPart, SetStep } from "../../set/schema.ts";

export type StepsInput = Pick<
  DryfitSet,
  | "job"
  | "parts"
  | "joints"
  | "settings"
  | "drilling"
  | "drawers"
  | "hardware"
  | "handWork"
  | "sheets"
  | "assemblies"
  | "openings"
  | "asBuilt"
  | "stock"
  | "orders"
  | "doors"
  | "sliders"
  | "tracks"
  | "finishes"
  | "worktops"
> & {
  unit: Unit;
  glue: GlueTime | null;
};

/** A step before it has its number. `beside`: parts it is done at, which have to be as far as they go. */
export type Draft = Omit<SetStep, "n" | "needs"> & { beside?: string[] };
export type ByMark = ReadonlyMap<string, SetPart>;

export const step = (title: string, text: string[], more: Partial<Draft> = {}): Draft => ({
  title,
  text,
  parts: [],
  settings: [],
  hardware: [],
  clamps: null,
  now: [],
  cautions: [],
  boxes: [],
  moves: [],
  ...more,
});

/** What is fixed on with these assemblies, things of one kind and size together. */
export function hardwareOf(names: readonly string[], { hardware }: Pick<StepsInput, "hardware">): Draft["hardware"] {
  const kinds = new Map<string, Draft["hardware"][number]>();
  for (const { assembly, what, sizes, count, unit } of hardware) {
    if (!names.includes(assembly)) continue;
    const key = JSON.stringify([what, sizes, unit]);
    const before = kinds.get(key)?.count ?? 0;
    kinds.set(key, { what, sizes: [...sizes], count: before + count, unit });
  }
  return [...kinds.values()];
}

export const byMarkIn = (parts: readonly SetPart[]): ByMark => new Map(parts.map((part) => [part.mark, part]));

export const capital = (text: string): string => `${text.charAt(0).toUpperCase()}${text.slice(1)}`;

/** "shelf 5, divider 6 and back 8". */
export const listOf = (marks: readonly string[], byMark: ByMark): string =>
  listInWords(marks.map((mark) => `${byMark.get(mark)!.name} ${mark}`));
